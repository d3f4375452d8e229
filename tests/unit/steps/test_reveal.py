"""Reveal: the key is checked, the table closed, and everybody's words laid side by side."""

import pytest
from tests.fakes.tools import bench
from tests.unit.steps.laying import drafted, sealed, shuffled, tasting, written

from cupwright.core.flow import Step
from cupwright.core.reveal.seal import Key
from cupwright.errors import NotFound, Refused, SealBroken, WrongStep
from cupwright.steps.diary import diary
from cupwright.steps.plan import get_table
from cupwright.steps.ports import Tools
from cupwright.steps.reveal import comparison, open_key, opened
from cupwright.steps.taste import write_notes


def key_of(tools: Tools, table_id: str) -> Key:
    with tools.store.reading() as work:
        return work.keys.get(table_id)


def test_the_key_opens_once_and_closes_the_table() -> None:
    on = bench()
    table = tasting(on.tools)

    after = open_key(on.tools, table.id)

    assert after.step is Step.REVEAL
    assert get_table(on.tools, table.id) == after
    assert opened(on.tools, table.id).key == key_of(on.tools, table.id)
    assert on.news[-1] == (table.id, "reveal")
    assert diary(on.tools, table.id)[-1].kind == "key opened"
    with pytest.raises(WrongStep):
        open_key(on.tools, table.id)


def test_the_key_can_be_opened_without_a_clock_but_not_of_a_draft() -> None:
    tools = bench().tools
    with pytest.raises(WrongStep):
        open_key(tools, drafted(tools).id)

    other = bench().tools
    assert open_key(other, sealed(other).id).step is Step.REVEAL


def test_nothing_is_shown_before_the_reveal() -> None:
    tools = bench().tools
    table = tasting(tools)

    for act in (comparison, opened):
        with pytest.raises(WrongStep):
            act(tools, table.id)


def test_a_key_that_was_changed_is_found_out_and_the_table_stays_as_it_was() -> None:
    on = bench()
    table = tasting(on.tools)
    key = key_of(on.tools, table.id)
    (first, a), (second, b), *rest = key.pairs
    on.tools.store.kept.keys[table.id] = Key(((first, b), (second, a), *rest), key.nonce)

    with pytest.raises(SealBroken):
        open_key(on.tools, table.id)

    assert get_table(on.tools, table.id).step is Step.TASTE


def test_after_a_shuffle_the_codes_found_under_the_bowls_say_what_stood_where() -> None:
    tools = bench().tools
    table = shuffled(tools)
    placings = dict(zip(table.places, reversed(table.codes), strict=True))
    seat = table.seats[0]
    write_notes(tools, table.id, seat.id, [written(table, seat, value="cherry, tobacco")])

    for wrong in (None, {}, {**placings, "1": placings["2"]}, {**placings, "1": "000"}, {"9": "1"}):
        with pytest.raises(Refused):
            open_key(tools, table.id, wrong)
    after = open_key(tools, table.id, placings)

    assert dict(after.placings) == placings
    coffee_of = key_of(tools, table.id).coffee_of()
    (compared,) = [c for c in comparison(tools, table.id).coffees if "1" in c.places]
    assert compared.coffee.id == coffee_of[placings["1"]]
    assert len(compared.places) == 2
    assert compared.tasters[0].written[0].text == "cherry, tobacco"


def test_words_stand_beside_the_published_ones_and_those_of_others() -> None:
    tools = bench().tools
    table = tasting(tools)
    ada, ben = table.seats
    place = table.places[0]
    write_notes(tools, table.id, ada.id, [written(table, ada, value="cherry, leather")])
    write_notes(tools, table.id, ben.id, [written(table, ben, value="cherry and tobacco")])
    open_key(tools, table.id)

    (compared,) = [c for c in comparison(tools, table.id).coffees if place in c.places]
    of_ada, of_ben = compared.tasters

    assert compared.coffee.id == key_of(tools, table.id).coffee_of()[place]
    assert compared.published.concepts == {"cherry", "cocoa"}
    assert (of_ada.name, of_ben.name) == ("Ada", "Ben")
    assert of_ada.published is not None
    assert of_ada.published.shared == ("cherry",)
    assert of_ada.published.missed == ("cocoa",)
    assert of_ada.others is not None
    assert of_ada.others.shared == ("cherry",)
    assert of_ada.others.missed == ("tobacco",)
    assert of_ada.others.own == ("leather",)


def test_a_tasters_own_words_come_first_in_that_tasters_view() -> None:
    tools = bench().tools
    table = tasting(tools)
    for seat in table.seats:
        write_notes(tools, table.id, seat.id, [written(table, seat)])
    open_key(tools, table.id)

    mine = comparison(tools, table.id, table.seats[1].id)

    (wrote,) = [coffee for coffee in mine.coffees if coffee.tasters]
    assert [taster.name for taster in wrote.tasters] == ["Ben", "Ada"]


def test_every_coffee_is_compared_even_if_nobody_wrote_of_it() -> None:
    tools = bench().tools
    table = tasting(tools)
    open_key(tools, table.id)

    assert len(comparison(tools, table.id).coffees) == 3
    with pytest.raises(NotFound):
        comparison(tools, "none")
