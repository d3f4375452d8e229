"""Components: refusals, boundaries, optional terms, invariances."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.analyse.cell_sums import cell_sums
from cupwright.core.analyse.components import _uneven, crossed_components
from cupwright.core.analyse.fixed_terms import term_columns
from cupwright.core.analyse.scores import scores_of
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

RNG = np.random.default_rng(8)
FULL = 80 + RNG.normal(size=(5, 1, 1)) + RNG.normal(size=(1, 4, 1)) + RNG.normal(size=(5, 4, 2))
HOLED = np.where(np.random.default_rng(9).random(FULL.shape) < 0.2, np.nan, FULL)


def parts(found):
    return [found.coffee, found.taster, found.coffee_taster or 0.0, found.residual]


@pytest.mark.parametrize("shape", [(1, 5), (5, 1), (1, 1)])
def test_one_coffee_or_one_taster_is_refused(shape):
    with pytest.raises(TooFewObservations, match=f"here are {shape[0]} and {shape[1]}"):
        crossed_components(np.arange(shape[0] * shape[1], dtype=float).reshape(shape))


def test_a_coffee_without_a_score_does_not_count():
    table = FULL.copy()
    table[1:] = np.nan

    with pytest.raises(TooFewObservations, match="here are 1 and 4"):
        crossed_components(table)


@pytest.mark.parametrize("holes", [False, True])
def test_scores_that_are_all_the_same_are_refused(holes):
    table = np.full((4, 3), 7.1)
    table[0, 0] = np.nan if holes else 7.1

    with pytest.raises(NoSpread, match="Every score is the same"):
        crossed_components(table)


def test_not_a_single_score_is_refused():
    with pytest.raises(TooFewObservations, match="not a single score"):
        crossed_components(np.full((3, 3), np.nan))


def test_coffees_that_no_taster_links_are_refused_by_name():
    table = np.full((4, 4), np.nan)
    table[:2, :2], table[2:, 2:] = [[1, 2], [2, 4]], [[3, 1], [5, 4]]

    with pytest.raises(Refused, match="No taster links coffee 3 to coffee 1"):
        crossed_components(table)


def test_too_few_cells_to_leave_a_rest_are_refused():
    with pytest.raises(TooFewObservations, match="leave no rest"):
        crossed_components(np.array([[1.0, 2], [3, np.nan], [5, np.nan]]))


def test_coffees_and_tasters_that_explain_everything_leave_no_residual():
    found = crossed_components(np.add.outer([1.0, 2, 4], [0.0, 3, 5]))

    assert found.residual == 0
    assert found.log_likelihood is None
    assert found.coffee == pytest.approx(7 / 3)


def test_the_same_with_a_hole_is_refused():
    table = np.add.outer([1.0, 2, 4, 3], [0.0, 3, 5, 1])
    table[0, 0] = np.nan

    with pytest.raises(NoSpread, match="without rest"):
        crossed_components(table)


def test_without_repeats_tastes_and_rest_are_one():
    found = crossed_components(FULL[:, :, 0])

    assert found.coffee_taster is None
    assert [row["variance"] for row in found.rows()][2] is None


@pytest.mark.parametrize("holes", [False, True])
def test_repeats_that_all_agree_leave_the_spread_to_tastes(holes):
    table = np.repeat(FULL[:, :, :1], 2, axis=2)
    table[0, 0] = np.nan if holes else table[0, 0]

    found = crossed_components(table)

    assert found.residual == 0
    assert found.coffee_taster == pytest.approx(crossed_components(table[:, :, 0]).residual)


def test_variances_that_would_be_negative_are_named_and_zero():
    contradicting = np.array([[1.0, 3], [2, 2], [3, 1]])

    found = crossed_components(contradicting)

    assert found.coffee == found.taster == 0
    assert found.truncated == ("coffee", "taster")
    assert found.residual == pytest.approx(contradicting.var(ddof=1))


@pytest.mark.parametrize("seed", range(12))
def test_closed_form_and_reml_give_the_same_numbers_at_the_boundary_too(seed):
    rng = np.random.default_rng(seed)
    shape = (4, 5, 2) if seed % 2 else (5, 3, 1)
    table = 0.3 * rng.normal(size=(shape[0], 1, 1)) + rng.normal(size=shape)
    plain, again = crossed_components(table), _by_reml(scores_of(table))

    assert parts(again) == pytest.approx(parts(plain), rel=1e-6, abs=1e-7)
    assert again.truncated == plain.truncated
    assert again.log_likelihood == pytest.approx(plain.log_likelihood, abs=1e-9)
    assert again.mean.freedom == pytest.approx(plain.mean.freedom, rel=1e-4)


def test_a_slope_that_was_put_in_comes_out():
    scores = _served(scores_of(FULL), slope=3.0)

    (slope,) = crossed_components(scores, position=True).terms

    assert slope.low < 3 < slope.high
    assert slope.name == "position"


def test_carry_over_effects_add_up_to_nothing_and_find_the_coffee_that_spoils_the_next():
    scores = _served(scores_of(FULL))
    before = np.zeros(len(scores), dtype=bool)
    for taster in range(4):
        own = np.flatnonzero(scores.taster == taster)
        own = own[np.argsort(scores.position[own])]
        before[own[1:]] = scores.coffee[own[:-1]] == 2
    spoilt = replace(scores, value=scores.value - 10.0 * before)

    terms = crossed_components(spoilt, carry_over=True).terms

    assert len(terms) == 5
    assert sum(term.estimate for term in terms) == pytest.approx(0, abs=1e-9)
    assert min(terms, key=lambda term: term.estimate).name == "carry_over 3"


def test_unknown_positions_are_refused_and_not_guessed():
    with pytest.raises(IncompleteTable, match="position of some scores is unknown"):
        crossed_components(scores_of(FULL), position=True)


def test_two_terms_that_say_the_same_are_refused():
    scores = _served(scores_of(FULL))

    with pytest.raises(NoSpread, match="temperature cannot be told from"):
        crossed_components(replace(scores, temperature=90 - scores.position), position=True, temperature=True)


def test_tables_are_compared_with_their_mean():
    table = np.arange(40) % 2
    scores = replace(scores_of(FULL), table=table, tables=("may", "june"))
    moved = replace(scores, value=scores.value + 4.0 * table)

    may, june = crossed_components(moved, table=True).terms

    assert (may.name, june.name) == ("table may", "table june")
    assert may.estimate == pytest.approx(-june.estimate)
    assert june.low < 2 < june.high


def test_a_single_table_is_no_term():
    scores = replace(scores_of(FULL), table=np.zeros(40, dtype=int), tables=("may",))

    with pytest.raises(TooFewObservations, match="needs two to compare; here are 1"):
        crossed_components(scores, table=True)


@settings(max_examples=25, deadline=None)
@given(
    st.permutations(range(5)),
    st.permutations(range(4)),
    st.floats(-1e6, 1e6),
    st.floats(0.01, 100),
    st.booleans(),
)
def test_names_order_level_and_unit_do_not_matter(coffees, tasters, shift, scale, holes):
    table = HOLED if holes else FULL
    plain = crossed_components(table)

    moved = crossed_components(scale * table[coffees][:, tasters] + shift)

    # A level of 1e6 costs digits of the scores themselves.
    assert parts(moved) == pytest.approx([scale**2 * part for part in parts(plain)], rel=1e-4, abs=1e-5)


def test_the_order_of_rows_does_not_matter():
    scores = scores_of(HOLED)
    order = np.random.default_rng(1).permutation(len(scores))
    shuffled = replace(
        scores,
        coffee=scores.coffee[order],
        taster=scores.taster[order],
        value=scores.value[order],
        repeat=scores.repeat[order],
    )

    assert parts(crossed_components(shuffled)) == pytest.approx(parts(crossed_components(scores)), rel=1e-6)


def _served(scores, slope=0.0):
    rng = np.random.default_rng(4)
    position = np.zeros(len(scores))
    for taster in range(len(scores.tasters)):
        own = scores.taster == taster
        position[own] = rng.permutation(own.sum()) + 1
    return replace(scores, position=position, value=scores.value + slope * position)


def _by_reml(scores):
    terms = term_columns(scores, ())
    return _uneven(cell_sums(scores, terms.columns), terms, 0.95)
