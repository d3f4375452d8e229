"""Demo: the invented scenario loads whole, the same from the same seed, and shows every step of the flow."""

import pytest
from tests.fakes.tools import bench

from cupwright.core.analyse.summary import analyse
from cupwright.core.flow import Step
from cupwright.core.plan.table import Blinding
from cupwright.errors import Clash
from cupwright.steps.analyse import analysis
from cupwright.steps.coffees import list_coffees
from cupwright.steps.demo import load_demo
from cupwright.steps.diary import diary
from cupwright.steps.plan import brief, list_tables
from cupwright.steps.reveal import comparison
from cupwright.steps.taste import progress_of


def test_there_is_a_finished_table_one_to_taste_and_a_draft() -> None:
    tools = bench().tools

    finished, ready, draft = load_demo(tools)

    assert (finished.step, ready.step, draft.step) == (Step.REVEAL, Step.POUR, Step.PLAN)
    assert (ready.plan.blinding, draft.plan.blinding) == (Blinding.CODES, Blinding.SHUFFLE)
    assert len(list_coffees(tools)) == 8
    assert list_tables(tools)[-1] == finished
    assert brief(tools, draft.id).warnings == ()


def test_every_taster_of_the_finished_table_answered_every_pass_for_every_cup() -> None:
    tools = bench().tools
    finished, _, _ = load_demo(tools)

    assert all(one.done == one.all for seat in progress_of(tools, finished.id) for one in seat.passes)


def test_the_words_of_the_demo_are_read_and_some_meet_the_published_ones() -> None:
    tools = bench().tools
    finished, _, _ = load_demo(tools)

    compared = comparison(tools, finished.id)

    assert len(compared.coffees) == 4
    for coffee in compared.coffees:
        assert len(coffee.published.concepts) >= 3
        assert len(coffee.tasters) == 3
        assert any(taster.published and taster.published.shared for taster in coffee.tasters)
        assert any(taster.others and taster.others.near for taster in coffee.tasters)
    assert analyse(analysis(tools, finished.id)).wrote == (3, 3, 3, 3)


def test_the_finished_table_was_tasted_before_the_others_were_planned() -> None:
    on = bench()
    finished, ready, _ = load_demo(on.tools)

    assert max(event.at for event in diary(on.tools, finished.id)) < ready.created == on.clock()


def test_the_same_seed_lays_the_same_demo() -> None:
    one, same, other = (load_demo(bench(seed=seed).tools) for seed in (1, 1, 2))

    assert one == same
    assert one[0].codes != other[0].codes


def test_it_is_not_loaded_twice() -> None:
    tools = bench().tools
    load_demo(tools)

    with pytest.raises(Clash):
        load_demo(tools)

    assert len(list_coffees(tools)) == 8
