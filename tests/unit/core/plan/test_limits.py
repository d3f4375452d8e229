"""Limits: cautions with a size and a sentence, proportional to what is taken."""

from dataclasses import replace
from math import exp

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.plan.limits import REFERENCE_ALLERGENS, Caution, limits, sips, tasting_rounds
from cupwright.core.plan.protocol_file import builtin_protocol
from cupwright.core.plan.table import Plan
from cupwright.core.taste.sheet import Moment, Pass, Sheet
from cupwright.core.words.lexicon_checks import ALLERGENS
from cupwright.core.words.lexicon_file import builtin_lexicon

CUPPING, BREW = builtin_protocol("cupping"), builtin_protocol("brew")
MOMENTS = (Moment.DRY, Moment.HOT, Moment.WARM, Moment.COOL)
SHEET = Sheet("s", 1, "S", tuple(Pass(moment, moment, "?", moment, ()) for moment in MOMENTS))
SIX = Plan(name="t", coffees=tuple("abcdef"), bowls_per_sample=5)


def told(plan: Plan, about: str) -> list[Caution]:
    return [one for one in limits(plan, SHEET, CUPPING) if one.about == about]


def test_every_caution_has_a_size_within_its_ends_a_sentence_and_a_source() -> None:
    for one in limits(SIX, SHEET, CUPPING):
        assert one.low <= one.size <= one.high
        assert one.sentence.endswith(".")
        assert one.source
        assert one.unit


def test_a_taster_takes_a_spoon_from_every_bowl_in_every_round() -> None:
    taken = sips(SIX, SHEET, CUPPING)

    # by hand: 6 samples * 5 bowls * 3 rounds (the dry one is only smelled), 4 to 5 mL a spoon
    assert (taken.samples, taken.bowls, taken.rounds, taken.spoons, taken.spoon_ml) == (6, 30, 3, 90, 4.5)


def test_a_taster_who_gets_some_of_the_samples_takes_less() -> None:
    assert sips(replace(SIX, samples_each=4), SHEET, CUPPING).spoons == 60


def test_a_hidden_duplicate_is_tasted_too() -> None:
    assert sips(replace(SIX, duplicates=("a",)), SHEET, CUPPING).samples == 7


def test_a_sheet_that_is_only_smelled_still_counts_one_round() -> None:
    assert tasting_rounds(Sheet("s", 1, "S", SHEET.passes[:1])) == 1


def test_a_protocol_without_a_spoon_takes_the_usual_one() -> None:
    assert sips(SIX, SHEET, replace(CUPPING, spoon=None)).spoon_ml == 4.5


def test_caffeine_is_told_spat_and_swallowed() -> None:
    spat, swallowed = told(SIX, "caffeine")

    # by hand: 405 mL * 0.52 g/L * 55 / 60 = 193 mg; 0.46 makes 170.8, 1.2 % of 55 g/L makes 267.3
    assert swallowed.size == pytest.approx(193.05)
    assert (swallowed.low, swallowed.high) == (pytest.approx(170.775), pytest.approx(267.3))
    assert spat.size == pytest.approx(193.05 * 0.15)
    assert "swallows 15 % of 90 spoons of 4.5 mL" in spat.sentence
    assert "about 193 mg of caffeine (171 to 267, more with robusta)" in swallowed.sentence


def test_more_than_a_limit_may_be_is_said_so() -> None:
    spat, swallowed = told(SIX, "caffeine")

    assert not spat.exceeded
    assert "less than the 200 mg at once" in spat.sentence
    assert swallowed.exceeded
    assert (
        "perhaps more than the 200 mg at once that raise no concern for adults, whose day is 400 mg: spit"
        in (swallowed.sentence)
    )


def test_more_than_a_day_allows_is_said_so() -> None:
    _, swallowed = told(replace(SIX, coffees=tuple("abcdefghijklmno"), bowls_per_sample=4), "caffeine")

    # by hand: 60 bowls * 3 * 4.5 mL = 810 mL: 341 to 535 mg, so perhaps
    assert "perhaps more than the 400 mg a day (and 200 mg at once)" in swallowed.sentence


def test_who_swallows_all_is_told_once() -> None:
    assert len(told(replace(SIX, swallowed=1.0), "caffeine")) == 1


def test_pregnancy_has_its_own_limit_and_no_diagnosis() -> None:
    (found,) = told(SIX, "caffeine in pregnancy")

    # by hand: at most 267.3 * 0.15 = 40.1 mg, 20 % of 200
    assert found.limit == 200
    assert "up to 20 % of it" in found.sentence
    assert "your own doctor or midwife" in found.sentence


@given(swallowed=st.floats(0.01, 0.5), times=st.integers(2, 4), bowls=st.integers(1, 3))
def test_caffeine_scales_with_bowls_ratio_and_what_is_swallowed(
    swallowed: float, times: int, bowls: int
) -> None:
    base = replace(SIX, bowls_per_sample=bowls, swallowed=swallowed / times, grams_per_litre=30.0)
    size = told(base, "caffeine")[0].size

    assert told(replace(base, swallowed=swallowed), "caffeine")[0].size == pytest.approx(size * times)
    assert told(replace(base, bowls_per_sample=bowls * times), "caffeine")[0].size == pytest.approx(
        size * times
    )
    assert told(replace(base, grams_per_litre=30.0 * times), "caffeine")[0].size == pytest.approx(
        size * times
    )


@pytest.mark.parametrize(
    ("coffees", "flight", "largest", "tires"),
    [(6, 8, 6, False), (8, 8, 8, False), (9, 8, 5, False), (12, 12, 12, True)],
)
def test_the_largest_flight_is_held_against_what_a_palate_takes(
    coffees: int, flight: int, largest: int, tires: bool
) -> None:
    plan = replace(SIX, coffees=tuple(map(str, range(coffees))), flight=flight, bowls_per_sample=1)

    found = told(plan, "palate")[0]

    assert (found.size, found.exceeded) == (largest, tires)
    assert ("shorten the flight" in found.sentence) is tires


def test_many_samples_are_told_with_their_breaks() -> None:
    plan = replace(SIX, coffees=tuple(map(str, range(20))), bowls_per_sample=1)

    assert "20 samples for each taster, with 2 breaks" in told(plan, "palate")[1].sentence
    assert len(told(SIX, "palate")) == 1


def test_the_time_counts_flights_and_breaks() -> None:
    plan = replace(SIX, coffees=tuple(map(str, range(20))), bowls_per_sample=1)

    (found,) = told(plan, "time")

    # by hand: 3 flights of 45 min, 2 breaks of 10
    assert found.size == 155
    assert found.exceeded
    assert "3 flights of 45 min and 2 breaks of 10. That is long" in found.sentence


def _minutes_to(wish_c: float) -> float:
    """The usual bowl by hand: the balance of docs/methods/cooling.md in steps of a second.

    192.4 g of water at 93 °C, 11 g of grounds and 130 g of porcelain warmed through start at 83.0 °C with
    935.5 J/K; 0.2 W/K go through walls and surface, 0.4125 W/kPa with the vapour, under the crust a fifth.
    """

    def vapour(t: float) -> float:
        return 0.61121 * exp((18.678 - t / 234.5) * t / (257.14 + t))

    celsius, seconds = (192.4 * 4.18 * 93 + (11 * 1.9 + 130 * 0.85) * 22) / 935.5, 0
    while celsius > wish_c:
        wet = 0.4125 * (0.2 if seconds < 240 else 1.0)
        celsius -= (0.2 * (celsius - 22) + wet * (vapour(celsius) - 0.5 * vapour(22))) / 935.5
        seconds += 1
    return seconds / 60


def test_the_time_holds_the_wait_for_a_cooler_first_taste_in_every_flight() -> None:
    plan = replace(SIX, coffees=tuple(map(str, range(12))), bowls_per_sample=1, taste_from_c=57.8)

    (found,) = told(plan, "time")

    # by hand: 57.8 °C after 20.4 min, 12.4 after the protocol's 8, called on the half minute
    assert _minutes_to(57.8) == pytest.approx(20.4, abs=0.05)
    assert found.size == 2 * (45 + 12.5) + 10
    assert found.exceeded
    assert "2 flights of 45 min (and 12.5 min of waiting for 57.8 °C) and 1 break of 10" in found.sentence


def test_a_table_as_hot_as_its_protocol_waits_for_nothing() -> None:
    assert told(SIX, "time")[0].size == 45
    assert "waiting" not in told(SIX, "time")[0].sentence


@pytest.mark.parametrize(("celsius", "exceeded"), [(71.0, True), (65.0, False), (60.0, False)])
def test_a_hot_first_taste_is_cautioned(celsius: float, exceeded: bool) -> None:
    (found,) = told(replace(SIX, taste_from_c=celsius), "hot coffee")

    assert (found.size, found.exceeded) == (celsius, exceeded)


def test_a_first_taste_that_is_no_danger_needs_no_caution() -> None:
    assert told(replace(SIX, taste_from_c=57.0), "hot coffee") == []


def test_a_brew_is_sipped_from_the_cup() -> None:
    found = next(one for one in limits(SIX, SHEET, BREW) if one.about == "hot coffee")

    assert "Take little from the cup" in found.sentence


def test_the_allergens_named_are_those_of_the_lexicons_references() -> None:
    held = {allergen for concept in builtin_lexicon() for allergen in concept.allergens}

    assert held == set(REFERENCE_ALLERGENS) <= ALLERGENS
    assert f"hold {len(held)} of the 14 groups" in told(SIX, "allergens")[0].sentence


def test_no_caution_diagnoses_anybody() -> None:
    text = " ".join(one.sentence.casefold() for one in limits(SIX, SHEET, CUPPING))

    for word in ("you have", "you suffer", "disease", "symptom", "overdose"):
        assert word not in text
