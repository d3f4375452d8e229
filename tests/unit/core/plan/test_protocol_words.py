"""A protocol in words, and what a plan takes over from it."""

from dataclasses import fields, replace

import pytest

from cupwright.core.plan.deviations import deviations
from cupwright.core.plan.protocol import Stage, in_words
from cupwright.core.plan.protocol_file import builtin_names, builtin_protocol
from cupwright.core.plan.protocol_words import asks, suggested
from cupwright.core.plan.table import Plan

CUPPING, HOME, BREW = (builtin_protocol(name) for name in ("cupping", "home", "brew"))


def test_all_it_asks_is_told_in_the_order_of_the_work() -> None:
    told = {ask.what: ask.asks for ask in asks(CUPPING)}

    assert told["Ratio"] == "8.25 g for 150 mL, give or take 0.25 g: 55 g/L, 3 %"
    assert told["Water"] == "92.2 to 94.4 °C at the grounds"
    assert told["Break"] == "4:00 after the bowl's own pour, 3:00 to 5:00"
    assert told["First taste"] == "8:00 to 10:00 after the bowl's own pour, near 71 °C"
    assert told["Acidity, body, balance"] == "from 71 down to 60 °C"
    assert next(iter(told)) == "Ratio"


def test_what_is_left_open_is_not_told() -> None:
    told = {ask.what for ask in asks(BREW)}

    assert told.isdisjoint({"Ratio", "Bowls", "Size of the bowl", "Water", "Rest", "Break", "Skim"})


@pytest.mark.parametrize("name", builtin_names())
def test_every_ask_has_its_source(name: str) -> None:
    assert all(ask.source and ask.asks for ask in asks(builtin_protocol(name)))


@pytest.mark.parametrize("name", builtin_names())
def test_a_plan_that_takes_over_what_is_suggested_keeps_to_the_protocol(name: str) -> None:
    protocol = builtin_protocol(name)
    values = suggested(protocol)

    plan = replace(Plan(name="t", coffees=("a",)), **values)

    assert [one.sentence for one in deviations(plan, protocol) if one.known] == []
    assert values.keys() <= {field.name for field in fields(Plan)}


def test_a_suggested_kettle_is_one_that_can_be_set() -> None:
    assert suggested(CUPPING)["kettle_c"] == 95  # 92.2 to 94.4 at the grounds, and 2 K for the way
    assert suggested(BREW) == {}


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [(1, 2.5, "1 to 2.5 mL"), (None, 15, "at most 15 mL"), (4, None, "at least 4 mL"), (None, None, "")],
)
def test_a_band_is_told_with_what_it_has(low: float | None, high: float | None, words: str) -> None:
    assert in_words(low, high, "mL") == words


@pytest.mark.parametrize(
    ("start", "end", "words"),
    [(60, None, "below 60 °C"), (None, 21, "down to 21 °C"), (None, None, "at any temperature")],
)
def test_a_stage_with_an_open_end_is_told(start: float | None, end: float | None, words: str) -> None:
    told = asks(replace(HOME, stages=(Stage("Late", start, end, "ours"),)))

    assert [ask.asks for ask in told if ask.what == "Late"] == [words]
