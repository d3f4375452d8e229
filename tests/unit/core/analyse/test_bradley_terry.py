"""Paired choices: what is said, what is refused, and what does not change it."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from cupwright.core.analyse.bradley_terry import bradley_terry
from cupwright.errors import NoSpread, NotFound, Refused, TooFewObservations

WINS = np.array([[0, 5, 6], [3, 0, 2], [2, 4, 0]], dtype=float)
TIES = np.array([[0, 2, 1], [2, 0, 3], [1, 3, 0]], dtype=float)


def estimates(wins: np.ndarray, **more: object) -> np.ndarray:
    return np.array([one.estimate for one in bradley_terry(wins, **more).coffees])


def test_two_coffees_have_the_log_odds_of_their_counts():
    found = bradley_terry(np.array([[0, 12], [4, 0]]), coffees=("North", "South"))

    value, error = found.against("South")["North"]
    assert value == pytest.approx(np.log(3))
    assert error == pytest.approx(np.sqrt(1 / 12 + 1 / 4), rel=1e-5)
    assert [one.estimate for one in found.picked_first] == pytest.approx((0.75, 0.25))
    assert found.picked_first[0].low == pytest.approx(1 / (1 + np.exp(-value + 2.131450 * error)), abs=1e-5)


def test_log_worths_add_up_to_nothing_and_shares_to_one():
    found = bradley_terry(WINS, ties=TIES)

    assert sum(one.estimate for one in found.coffees) == pytest.approx(0, abs=1e-9)
    assert sum(one.estimate for one in found.picked_first) == pytest.approx(1)
    assert sum(one.p_best for one in found.coffees) == pytest.approx(1)
    assert all(one.low < one.estimate < one.high for one in found.coffees)


def test_the_same_data_give_the_same_numbers():
    assert bradley_terry(WINS).pairs == bradley_terry(WINS).pairs


@pytest.mark.parametrize("model", ["davidson", "rao_kupper"])
def test_a_coffee_that_never_lost_has_a_finite_worth_and_it_is_said(model):
    wins, ties = np.array([[0, 9, 9], [0, 0, 4], [0, 5, 0]]), np.zeros((3, 3))
    ties[1, 2] = ties[2, 1] = 1

    found = bradley_terry(wins, ties=ties, tie_model=model)

    assert found.penalised
    assert 1 < found.coffees[0].estimate < 8
    assert np.isfinite([one.high for one in found.coffees]).all()


def test_whoever_met_nobody_else_is_refused_in_a_sentence():
    apart = np.zeros((4, 4))
    apart[0, 1] = apart[1, 0] = apart[2, 3] = apart[3, 2] = 3

    with pytest.raises(Refused, match="never compared with each other: a, b; c, d"):
        bradley_terry(apart, coffees=("a", "b", "c", "d"))


def test_ties_alone_are_refused():
    with pytest.raises(NoSpread, match="Every comparison is a tie"):
        bradley_terry(np.zeros((3, 3)), ties=TIES)


@pytest.mark.parametrize(
    ("wins", "ties", "said"),
    [
        (np.zeros((3, 2)), None, "square"),
        (np.array([[0, -1], [2, 0]]), None, "negative"),
        (np.array([[0, np.nan], [2, 0]]), None, "no number"),
        (WINS, np.triu(TIES), "not symmetric"),
    ],
)
def test_counts_that_are_none_are_refused(wins, ties, said):
    with pytest.raises(Refused, match=said):
        bradley_terry(wins, ties=ties)


def test_one_coffee_or_no_comparison_is_too_little():
    for wins in (np.zeros((1, 1)), np.zeros((3, 3))):
        with pytest.raises(TooFewObservations):
            bradley_terry(wins)


def test_unknown_names_are_refused():
    with pytest.raises(Refused, match="3 coffees have 2 names"):
        bradley_terry(WINS, coffees=("a", "b"))
    with pytest.raises(Refused, match="no model"):
        bradley_terry(WINS, ties=TIES, tie_model="other")
    with pytest.raises(NotFound):
        bradley_terry(WINS).against("other")
    with pytest.raises(Refused, match="level"):
        bradley_terry(WINS, level=95)


@settings(max_examples=25, deadline=None)
@given(
    counts=some.lists(some.integers(0, 6), min_size=16, max_size=16), order=some.permutations([0, 1, 2, 3])
)
def test_names_carry_nothing(counts, order):
    wins = np.array(counts, dtype=float).reshape(4, 4)
    np.fill_diagonal(wins, 0)
    try:
        plain = estimates(wins)
    except Refused:
        with pytest.raises(Refused):
            bradley_terry(wins[np.ix_(order, order)])
        return

    assert estimates(wins[np.ix_(order, order)]) == pytest.approx(plain[list(order)], abs=2e-5)
    assert np.abs(plain).max() < 20


def test_all_counts_twice_leave_the_worths_and_narrow_the_intervals():
    once, twice = bradley_terry(WINS, ties=TIES), bradley_terry(2 * WINS, ties=2 * TIES)

    for one, two in zip(once.coffees, twice.coffees, strict=True):
        assert two.estimate == pytest.approx(one.estimate, abs=1e-7)
        assert (one.high - one.low) / (two.high - two.low) == pytest.approx(np.sqrt(2), rel=0.03)


def test_a_result_is_a_table_of_its_coffees():
    rows = bradley_terry(WINS, coffees=("a", "b", "c")).rows()

    assert [row["coffee"] for row in rows] == ["a", "b", "c"]
    assert set(rows[0]) == {"coffee", "log_worth", "low", "high", "p_best"} | {
        "picked_first",
        "first_low",
        "first_high",
    }
