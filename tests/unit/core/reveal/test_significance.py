"""Matches held against shuffles of the coffees."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.reveal.match import match
from cupwright.core.reveal.significance import Chance, sentence, shuffled, table_fit
from cupwright.core.words.lexicon import load_lexicon
from cupwright.errors import Refused, TooFewObservations

LEXICON = load_lexicon()
PUBLISHED = {
    "one": {"lemon", "jasmine"},
    "two": {"dark_chocolate", "hazelnut"},
    "three": {"blueberry", "wine"},
    "four": {"smoke", "cedar"},
}
NOTES = {
    "one": {"lime", "flower"},
    "two": {"chocolate", "nuts"},
    "three": {"blackberry", "fermented"},
    "four": {"ash", "wood"},
}


def test_notes_that_fit_each_coffee_best_beat_every_shuffle():
    fit = table_fit(NOTES, PUBLISHED, LEXICON)

    assert (fit.chance.ways, fit.chance.worse, fit.chance.exact) == (24, 23, True)
    assert fit.chance.p_value == pytest.approx(1 / 24)
    assert all(one.worse_elsewhere == one.others == 3 for one in fit.coffees)
    assert all(one.score > one.elsewhere for one in fit.coffees)


def test_each_score_is_the_match_with_that_coffee():
    fit = table_fit(NOTES, PUBLISHED, LEXICON)

    assert fit.coffees[0].score == match(NOTES["one"], PUBLISHED["one"], LEXICON).score
    assert fit.chance.total == pytest.approx(sum(one.score for one in fit.coffees))


def test_the_same_words_for_every_coffee_show_nothing():
    same = {coffee: {"chocolate", "fruit", "sweet"} for coffee in NOTES}

    fit = table_fit(same, PUBLISHED, LEXICON)

    assert fit.chance.worse == 0
    assert fit.chance.p_value == 1


def test_a_coffee_without_words_on_either_side_is_left_out_and_named():
    fit = table_fit(NOTES | {"two": set()}, {**PUBLISHED, "five": {"honey"}}, LEXICON)

    assert [one.coffee for one in fit.coffees] == ["one", "three", "four"]
    assert fit.left_out == ("two", "five")
    assert fit.chance.ways == 6


def test_one_coffee_alone_is_refused():
    with pytest.raises(TooFewObservations):
        table_fit({"one": {"lemon"}}, PUBLISHED, LEXICON)


def test_above_eight_coffees_orders_are_drawn_and_the_true_one_counts_among_them():
    scores = np.eye(9)

    chance = shuffled(scores, draws=999)

    assert (chance.ways, chance.exact) == (1000, False)
    assert chance.p_value == pytest.approx(1 / 1000)
    assert shuffled(scores, draws=999, seed=5) == shuffled(scores, draws=999, seed=5)


def test_draws_come_close_to_the_exact_answer():
    scores = np.random.default_rng(4).random((6, 6)) + 0.2 * np.eye(6)
    exact = shuffled(scores)

    drawn = shuffled(scores, exact_up_to=2, draws=20_000)

    assert (exact.exact, drawn.exact) == (True, False)
    assert drawn.p_value == pytest.approx(exact.p_value, abs=0.012)


@pytest.mark.parametrize("scores", [np.ones((2, 3)), np.ones((1, 1)), np.array([[1, np.nan], [0, 1]])])
def test_what_is_no_table_of_scores_is_refused(scores):
    with pytest.raises(Refused, match="square table"):
        shuffled(scores)


@given(st.integers(2, 5), st.integers(0, 10_000))
@settings(max_examples=40, deadline=None)
def test_the_p_value_is_never_less_than_the_least_and_never_above_one(size, seed):
    chance = shuffled(np.random.default_rng(seed).integers(0, 3, (size, size)).astype(float))

    assert chance.least <= chance.p_value <= 1


def test_the_sentence_says_how_many_shuffles_were_beaten():
    assert sentence(Chance(4, 2.0, 1.0, 24, 23, True)) == (
        "Your notes pick out the four coffees on the table better than 23 of 24 ways of shuffling them."
    )


def test_three_coffees_can_never_say_less_than_one_in_six_and_the_sentence_says_so():
    chance = shuffled(np.eye(3))

    assert chance.p_value == chance.least == pytest.approx(1 / 6)
    assert sentence(chance).endswith(
        "With three coffees even the best possible fit comes about by luck once in 6."
    )


def test_the_sentence_says_when_not_every_shuffle_was_tried():
    assert sentence(shuffled(np.eye(20), draws=999)) == (
        "Your notes pick out the 20 coffees on the table better than 999 of 1,000 ways of shuffling them "
        "that were tried."
    )
