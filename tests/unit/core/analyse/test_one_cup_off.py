"""One cup off: what is found, what is too little to be found, and what it does not depend on."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.analyse.one_cup_off import cups_off, one_cup_off
from cupwright.errors import NoSpread, TooFewObservations


def marks(*bowls, of=5):
    table = np.zeros((len(bowls), of))
    for taster, bowl in enumerate(bowls):
        table[taster, bowl - 1] = 1
    return table


def test_three_tasters_who_mark_the_same_bowl_have_found_something():
    found = one_cup_off(marks(3, 3, 3), sample="421")

    assert found.farthest.number == 3
    assert found.p == pytest.approx(1 / 25)
    assert found.farthest.apart == pytest.approx(1.0)
    assert found.exact


def test_two_tasters_cannot_show_it_however_well_they_agree():
    found = one_cup_off(marks(2, 2))

    assert found.p == found.least_p == pytest.approx(1 / 5)


def test_tasters_who_each_mark_another_bowl_show_nothing():
    assert one_cup_off(marks(1, 2, 3, 4)).p == 1.0


def test_a_low_bowl_is_found_by_scores_and_told_in_points():
    rng = np.random.default_rng(4)
    table = 82 + np.array([[0.0], [1.0], [-1.0], [0.5]]) + rng.normal(0, 0.2, (4, 5))
    table[:, 1] -= 3

    found = one_cup_off(table)

    assert not found.marks
    assert found.farthest.number == 2
    assert found.farthest.apart == pytest.approx(-3, abs=0.4)
    assert found.p < 0.05


def test_many_tasters_are_drawn_and_the_same_data_give_the_same_numbers():
    table = np.random.default_rng(5).normal(80, 1, (7, 5))

    found = one_cup_off(table)

    assert not found.exact
    assert found == one_cup_off(table)
    assert found.p >= 1 / 10_000


def test_orders_that_are_drawn_give_nearly_what_counting_gives():
    """Three tasters' scores are counted; a fourth who hardly tells the bowls apart has them drawn."""
    table = np.random.default_rng(8).normal(80, 1, (3, 5))
    fourth = np.vstack([table, 80 + np.arange(5) * 1e-7])

    counted, drawn = one_cup_off(table), one_cup_off(fourth)

    assert counted.exact
    assert not drawn.exact
    assert drawn.p == pytest.approx(counted.p, abs=0.02)


def test_one_taster_two_bowls_and_bowls_all_alike_are_refused_with_what_to_do():
    with pytest.raises(TooFewObservations, match="Only one taster"):
        one_cup_off(marks(2))
    with pytest.raises(TooFewObservations, match="2 bowls"):
        one_cup_off(marks(1, 1, of=2))
    with pytest.raises(NoSpread):
        one_cup_off(np.zeros((4, 5)))
    with pytest.raises(TooFewObservations):
        one_cup_off(np.full((2, 5), np.nan))


def test_a_taster_who_missed_a_bowl_is_left_out():
    table = np.vstack([marks(3, 3, 3), [[np.nan, 1, 0, 0, 0]]])

    assert one_cup_off(table).tasters == 3


def test_several_samples_are_held_to_more():
    found = cups_off({"421": marks(3, 3, 3), "708": marks(1, 2, 3), "55": np.zeros((3, 5))})

    assert [one.sample for one in found] == ["421", "708"]
    assert found[0].p_adjusted == pytest.approx(2 * found[0].p)
    assert cups_off({"55": np.zeros((3, 5))}) == ()


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10_000), st.floats(-20, 20), st.floats(0.1, 9))
def test_order_of_bowls_and_tasters_shift_and_scale_leave_p_as_it_is(seed, shift, scale):
    rng = np.random.default_rng(seed)
    table = rng.integers(70, 90, (3, 4)).astype(float)
    bowls, tasters = rng.permutation(4), rng.permutation(3)

    plain = one_cup_off(table)
    moved = one_cup_off(scale * table[tasters][:, bowls] + shift)

    for place, bowl in enumerate(bowls):
        assert moved.bowls[place].p == pytest.approx(plain.bowls[bowl].p, abs=1e-9)
        assert moved.bowls[place].apart == pytest.approx(scale * plain.bowls[bowl].apart, abs=1e-6)


def test_marks_by_answers_go_bowl_by_bowl():
    """Both shapes of answer, from a table with a question for cups."""
    from tests.unit.core.analyse.tables import NORTH, TWO_CODES, answers_of, note, table_of

    from cupwright.core.analyse.marked_bowls import marked_bowls
    from cupwright.core.taste.sheet import Field, Kind, Moment, Pass, Sheet

    fields = (Field("off", Kind.TICKS, "Off"), Field("fault", Kind.FAULTS, "Fault"))
    sheet = Sheet("cups", 1, "Cups", (Pass("cups", "Cups", "?", Moment.WARM, fields),))
    table = table_of(2, tuple(TWO_CODES), sheet=sheet)
    notes = [note(1, "241", "cups/off", [2, 5]), note(2, "241", "cups/fault", {"3": 4.0, "1": 0.0})]

    found = marked_bowls(answers_of(table, notes, TWO_CODES), 5)

    assert list(found) == [NORTH.name]
    assert found[NORTH.name].tolist() == [[0, 1, 0, 0, 1], [0, 0, 1, 0, 0]]
