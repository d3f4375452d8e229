"""What sizes and results read like."""

import pytest

from cupwright.core.plan.discrimination import Method
from cupwright.core.plan.discrimination_size import effect_of, needed_tasters, trial
from cupwright.core.plan.observed_count import observed_count
from cupwright.core.plan.panel_size import ASSUMED_SPREAD, Spread, needed_panels, panel_reach
from cupwright.core.plan.simulated_size import Design, simulated_power
from cupwright.core.plan.size_in_words import (
    ONE_ANSWER,
    needed_in_words,
    observed_in_words,
    panels_in_words,
    simulated_in_words,
    times,
    trial_in_words,
)


def plainly(sentences: tuple[str, ...]) -> str:
    return " ".join(sentences).replace("\N{NO-BREAK SPACE}", " ")


def test_both_numbers_are_said_with_their_counts_and_why_they_differ():
    effect = effect_of(Method.TRIANGLE, discriminators=0.3)

    told = plainly(needed_in_words(needed_tasters(Method.TRIANGLE, effect, power=0.95)))

    assert told.startswith(
        "66 tasters are the fewest with whom a triangle test finds the difference at least 95 times in 100; "
        "from 73 tasters on every number does."
    )
    assert (
        "Of 66, 29 right answers or more show a difference; guessing alone gives that 4.7 times in 100."
        in told
    )
    assert "Of 66, 28 or fewer say that the difference is smaller than the one named." in told
    assert "Of 73, 32 right answers or more" in told
    assert "The two numbers differ because" in told
    assert told.endswith(ONE_ANSWER)


def test_one_number_is_said_once():
    effect = effect_of(Method.TRIANGLE, dprime=2)

    told = plainly(needed_in_words(needed_tasters(Method.TRIANGLE, effect, power=0.8)))

    assert "; so does every larger number." in told
    assert "The two numbers differ" not in told
    assert told.count("right answers or more show") == 1


def test_a_distance_without_end_is_not_said():
    effect = effect_of(Method.TRIANGLE, discriminators=1)

    assert "d' is" not in plainly(needed_in_words(needed_tasters(Method.TRIANGLE, effect)))


def test_a_test_too_small_says_that_nothing_would_show():
    told = plainly(trial_in_words(Method.DUO_TRIO, trial(Method.DUO_TRIO, 3), None))

    assert told.startswith("Of 3, not even 3 right answers would show a difference at this error.")


def test_a_test_with_a_named_difference_says_how_often_it_finds_it():
    effect = effect_of(Method.TWO_AFC, dprime=1)

    told = plainly(trial_in_words(Method.TWO_AFC, trial(Method.TWO_AFC, 20, effect), effect))

    assert "The difference that was named is found 66 times in 100: 52 % of tasters can tell" in told


@pytest.mark.parametrize(
    ("right", "verdict"),
    [(15, "Luck is a poor explanation"), (14, "Luck explains it well enough. That is no proof that")],
)
def test_a_result_is_called_luck_or_not(right, verdict):
    told = plainly(observed_in_words(observed_count(Method.TRIANGLE, right, 30)))

    assert told.startswith(f"{right} of 30 right; guessing alone gives so many or more ")
    assert verdict in told


def test_all_right_are_a_distance_without_end():
    told = plainly(observed_in_words(observed_count(Method.TRIANGLE, 5, 5)))

    assert "Distance d': without end (1.35 upwards)." in told


def test_a_leaning_away_from_a_cup_carries_a_true_minus():
    told = plainly(observed_in_words(observed_count(Method.PAIRED, 15, 60)))

    assert "15 of 60 chose this cup; guessing alone gives a majority as large, either way, less than" in told
    assert "Lean towards this cup: −50 % (−71 % to −24 %). Distance d': −0.95 (−1.48 to −0.44)." in told


def test_a_panel_is_told_what_bowls_can_and_cannot_do():
    needed, reach = needed_panels(1, ASSUMED_SPREAD), panel_reach(1, 8, ASSUMED_SPREAD)

    told = plainly(panels_in_words(needed, reach, assumed=True))

    assert "takes 41 tasters with 1 bowl of each, 32 with 2, 29 with 3, 28 with 4 or 27 with 5." in told
    assert "More bowls shrink only what differs from bowl to bowl (0.9 points)." in told
    assert "even endless bowls take 24 tasters" in told
    assert "8 tasters with 1 bowl of each find it 25 times in 100; with endless bowls 41 times in 100" in told
    assert "bowls cannot make up for missing tasters" in told
    assert "The spreads are assumptions" in told


def test_a_panel_that_is_enough_is_told_so_and_one_that_bowls_help_how_many():
    spread = Spread(0.5, 1.2)
    needed = needed_panels(2, spread)

    assert "that is enough" in plainly(panels_in_words(needed, panel_reach(2, 30, spread), assumed=False))
    told = plainly(panels_in_words(needed, panel_reach(2, 6, spread, repeats=2), assumed=False))
    assert "4 bowls of each would do" in told
    assert "assumptions" not in told


def test_where_tasters_agree_only_bowls_are_spoken_of():
    told = plainly(panels_in_words(needed_panels(1, Spread(0, 1)), None, assumed=False))

    assert "endless" not in told


def test_a_number_beyond_counting_is_said_as_such():
    told = plainly(panels_in_words(needed_panels(0.01, ASSUMED_SPREAD), None, assumed=False))

    assert "To find 0.01 points between two coffees 90 times in 100 takes more than 10,000 tasters" in told


def test_a_simulation_says_what_was_drawn_and_how_far_luck_reaches():
    design = Design(1.5, 12, coffees=10, samples_each=6, step=0.25, lost=0.1)

    told = plainly(simulated_in_words(simulated_power(design, draws=500), 0.77))

    assert told.startswith("Of 500 drawn tables ")
    assert (
        "Each table: 12 tasters, 6 of 10 coffees each, 1 bowl of each, points in steps of 0.25, "
        "10 % of scores lost."
    ) in told
    assert "finds it 77 times in 100." in told
    assert "Each table: 5 tasters, all 2 coffees each, 1 bowl of each." in plainly(
        simulated_in_words(simulated_power(Design(1, 5), draws=100), 0.2)
    )


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.0, "never"),
        (1e-7, "less than once in 2,000 times"),
        (0.0043, "0.4 times in 100"),
        (0.04, "4 times in 100"),
        (0.0435, "4.3 times in 100"),
        (0.9, "90 times in 100"),
        (0.995, "99.5 times in 100"),
        (0.9999, "all but once in 2,000 times, or oftener"),
        (1.0, "100 times in 100"),
    ],
)
def test_a_chance_is_so_many_times_in_a_hundred(chance, words):
    assert times(chance) == words
