"""Word differences, split words, words with liking: who counts, and what is left out."""

import numpy as np
import pytest

from cupwright.core.analyse.liking_words import words_with_liking
from cupwright.core.analyse.split_words import split_words
from cupwright.core.analyse.word_differences import word_differences
from cupwright.core.analyse.words_hold import use_of
from cupwright.errors import TooFewObservations


def test_the_word_that_tells_coffees_apart_comes_first_with_its_pair():
    used = np.random.default_rng(1).uniform(size=(10, 3, 3)) < 0.4
    used[:, :, 1] = [True, False, False]

    first = word_differences(used)[0]

    assert (first.concept, first.q.counts) == ("2", (10, 0, 0))
    assert first.adjusted_p < 0.001
    assert [(pair.a, pair.b) for pair in first.pairs if pair.adjusted_p < 0.05] == [(0, 1), (0, 2)]


def test_only_tasters_of_all_coffees_count():
    used = np.zeros((8, 3, 1))
    used[:, 0, 0] = 1
    used[6:, 2] = np.nan

    (word,) = word_differences(used)

    assert word.q.tasters == 6


def test_words_used_for_all_coffees_alike_are_left_out():
    assert word_differences(np.ones((5, 3, 1))) == ()


def test_with_one_taster_of_all_coffees_nothing_is_said():
    used = np.ones((3, 2, 1))
    used[1:, 1] = np.nan

    with pytest.raises(TooFewObservations):
        word_differences(used)


def test_a_word_that_half_of_the_tasters_use_for_everything_splits_the_panel():
    used = np.zeros((8, 4, 2))
    used[:4, :, 0] = 1
    used[:, 1, 1] = 1

    (word,) = split_words(used)

    assert (word.concept, word.users, word.alike) == ("1", (0, 1, 2, 3), pytest.approx(1.0))
    assert word.adjusted_p < 0.05


def test_a_word_that_one_taster_uses_for_everything_is_a_habit_and_no_split():
    used = np.zeros((8, 6, 1))
    used[0] = 1

    assert split_words(used) == ()


def test_two_tasters_are_no_panel_to_split():
    used = np.zeros((2, 4, 1))
    used[0] = 1

    assert split_words(used) == ()


def test_words_that_go_with_liking_come_first_and_rare_ones_not_at_all():
    rng = np.random.default_rng(2)
    used = rng.uniform(size=(9, 4, 3)) < 0.5
    used[:, :, 2] = False
    liking = rng.normal(size=(4, 9)) + 5 * used[:, :, 1].T

    found = words_with_liking(use_of(used), liking)

    assert [word.concept for word in found] == ["2", "1"]
    assert found[0].adjusted_p < 0.01
    assert found[0].lift.within.estimate == pytest.approx(5, abs=1.5)


def test_where_nobody_said_how_much_they_liked_it_no_word_goes_with_it():
    used = np.random.default_rng(3).uniform(size=(5, 3, 2)) < 0.5

    assert words_with_liking(use_of(used), np.full((3, 5), np.nan)) == ()
