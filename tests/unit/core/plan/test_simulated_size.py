"""Power by drawing tables."""

import math
from dataclasses import replace

import numpy as np
import pytest

from cupwright.core.plan.panel_size import Spread, difference_power
from cupwright.core.plan.simulated_size import (
    MOST_SCORES_AT_ONCE,
    Design,
    p_values,
    served,
    simulated_power,
)
from cupwright.errors import Refused

TABLE = Design(points=1.5, tasters=10, coffees=6, samples_each=4, step=0.25, lost=0.1)


def test_the_same_seed_draws_the_same_and_another_another():
    once, again, other = (simulated_power(TABLE, draws=500, seed=seed) for seed in (7, 7, 8))

    assert once == again
    assert once.found != other.found


def test_holes_cost_power():
    full, part, holed = (
        simulated_power(design, draws=1500).found.estimate
        for design in (
            replace(TABLE, samples_each=0, lost=0.0),
            replace(TABLE, lost=0.0),
            replace(TABLE, lost=0.4),
        )
    )

    assert full > part > holed


def test_a_step_wider_than_the_difference_costs_power():
    fine, coarse = (
        simulated_power(replace(TABLE, points=1, tasters=20, step=step, lost=0), draws=1500).found.estimate
        for step in (0.25, 5.0)
    )

    assert fine > coarse + 0.1


def test_the_error_is_kept_with_holes_and_steps():
    simulated = simulated_power(TABLE, draws=4000, alpha=0.1)

    assert simulated.false_alarms.estimate == pytest.approx(0.1, abs=4 * math.sqrt(0.09 / 4000))


def test_the_interval_of_the_drawing_is_about_two_errors_wide_on_either_side():
    simulated = simulated_power(TABLE, draws=2000)

    assert simulated.found.high - simulated.found.low == pytest.approx(2 * 1.96 * simulated.error, rel=0.02)


@pytest.mark.parametrize(("tasters", "coffees", "each"), [(13, 13, 4), (10, 6, 4), (7, 7, 3), (20, 9, 8)])
def test_every_taster_gets_so_many_and_every_coffee_is_served_about_as_often(tasters, coffees, each):
    design = Design(1.0, tasters, coffees=coffees, samples_each=each)

    given_to = served(design, 30, np.random.default_rng(1))

    assert given_to.shape == (30, tasters, coffees)
    assert (given_to.sum(axis=2) == each).all()
    assert (np.ptp(given_to.sum(axis=1), axis=1) <= 1).all()
    assert len({table.tobytes() for table in given_to}) > 20


def test_a_full_table_serves_everything():
    assert served(Design(1.0, 3, coffees=4), 5, np.random.default_rng(1)).all()


def test_so_few_tasters_that_coffees_cannot_be_linked_are_refused():
    with pytest.raises(Refused, match="cannot link all samples"):
        simulated_power(Design(1.0, 3, coffees=40, samples_each=2))


def test_coffees_that_no_taster_joins_cannot_be_told_apart():
    scores = np.random.default_rng(1).normal(size=(3, 4, 4)) + np.array([50, 0, 0, 0])
    apart = np.array([[1, 0, 1, 0], [1, 0, 1, 0], [0, 1, 0, 1], [0, 1, 0, 1]], dtype=bool)

    assert p_values(scores, np.broadcast_to(apart, scores.shape)).tolist() == [1, 1, 1]


def test_scores_without_any_spread_are_as_sure_as_can_be():
    same, differ = np.full((1, 5, 2), 80.0), np.tile([81.0, 80.0], (1, 5, 1))
    there = np.ones((1, 5, 2), dtype=bool)

    assert p_values(same, there).tolist() == [1]
    assert p_values(differ, there).tolist() == [0]


def test_a_large_drawing_done_in_parts_agrees_with_the_formula():
    design, draws = Design(0.4, 200, coffees=8), 2000
    assert draws * 200 * 8 > MOST_SCORES_AT_ONCE

    simulated = simulated_power(design, draws=draws)

    exact = difference_power(0.4, 200, design.spread, coffees=8)
    assert simulated.draws == draws
    assert simulated.found.estimate == pytest.approx(exact, abs=4 * simulated.error)


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"tasters": 1}, "1 is not a number of tasters"),
        ({"coffees": 1, "samples_each": 0}, "1 is not a number of coffees"),
        ({"samples_each": 7}, "7 is not a number of samples for each taster"),
        ({"samples_each": 1}, "1 is not a number of samples for each taster"),
        ({"repeats": 2.5}, "2.5 is not a number of bowls"),
        ({"points": math.nan}, "A difference of nan points"),
        ({"spread": Spread(-1, 1)}, "A spread, taster by coffee, of -1 points"),
        ({"step": -0.25}, "A step of -0.25 points"),
        ({"lost": 1}, "A share of 1 of lost scores"),
        ({"lost": math.nan}, "A share of nan of lost scores"),
    ],
)
def test_a_table_that_cannot_be_drawn_is_refused(change, sentence):
    with pytest.raises(Refused, match=sentence):
        simulated_power(replace(TABLE, **change))


@pytest.mark.parametrize(("draws", "seed"), [(99, 1), (20_001, 1), (math.nan, 1), (500, -1)])
def test_draws_and_seeds_have_their_range(draws, seed):
    with pytest.raises(Refused, match="is not a number of"):
        simulated_power(TABLE, draws=draws, seed=seed)


def test_a_drawing_beyond_patience_is_refused():
    with pytest.raises(Refused, match="more than 20,000,000 scores"):
        simulated_power(Design(1.0, 200, coffees=40), draws=20_000)
