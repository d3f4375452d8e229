"""Words that hold: habits count for nothing, whole notes are shuffled, few looks are sure."""

import numpy as np
import pytest

from cupwright.core.analyse.words_hold import MOST_MOVED, use_of, words_that_hold
from cupwright.errors import Refused, TooFewObservations


def table(tasters=6, coffees=4, words=3):
    """Nothing written but by habit: tasters 1 to 3 use the last word of every coffee."""
    used = np.zeros((tasters, coffees, words))
    used[:3, :, -1] = 1
    return used


def test_a_word_that_all_give_to_one_coffee_holds_for_it_and_a_habit_does_not():
    used = table()
    used[:, 1, 0] = 1

    found = words_that_hold(used)

    assert [word.concept for word in found.held(1)] == ["1"]
    assert not any(found.held(coffee) for coffee in (0, 2, 3))
    word = found.held(1)[0]
    assert (word.count, word.of, word.other_uses, word.other_cups) == (6, 6, 0, 18)
    assert (word.expected, word.p) == (pytest.approx(1.5), pytest.approx(4.0**-6))


def test_a_habit_is_expected_in_full():
    used = table()

    looks = [word for words in words_that_hold(used).per_coffee for word in words]

    assert {(word.count, word.expected, word.p) for word in looks} == {(3, 3.0, 1.0)}


def test_allowing_for_all_looks_never_makes_one_surer():
    used = np.random.default_rng(1).uniform(size=(6, 4, 12)) < 0.4

    looks = [word for words in words_that_hold(used).per_coffee for word in words]

    assert all(word.adjusted_p >= word.p - 0.02 for word in looks)
    ranked = sorted(looks, key=lambda word: word.p)
    assert [word.adjusted_p for word in ranked] == sorted(word.adjusted_p for word in ranked)


def test_words_that_always_go_together_count_as_one_look():
    used = np.zeros((5, 4, 1))
    used[:, 0, 0] = 1
    used[0, 0], used[0, 1] = 0, 1

    once, often = words_that_hold(used), words_that_hold(np.repeat(used, 20, axis=2))

    assert often.per_coffee[0][0].adjusted_p == once.per_coffee[0][0].adjusted_p


def test_words_used_twice_are_not_looked_at():
    used = np.zeros((4, 3, 2))
    used[:2, 0, 0] = 1

    found = words_that_hold(used)

    assert (found.words, found.looks, found.per_coffee) == (0, 0, ((), (), ()))


def test_who_said_nothing_of_a_coffee_is_not_counted_for_it():
    used = table()
    used[:, 1, 0] = 1
    used[5, 2] = np.nan

    found = words_that_hold(used)

    assert found.held(1)[0].other_cups == 17
    assert found.per_coffee[2][0].of == 5


def test_people_who_met_one_coffee_each_are_separate_groups():
    used = np.full((16, 2, 1), np.nan)
    used[:8, 0, 0], used[8:, 1, 0] = 1, 0

    found = words_that_hold(used)

    assert found.per_coffee[0][0].p == pytest.approx(1 / 12870)
    assert found.held(0)


def test_a_very_large_table_falls_back_on_the_bound():
    used = np.random.default_rng(2).uniform(size=(40, 4, 10)) < 0.3

    found = words_that_hold(used, resamples=MOST_MOVED)

    assert found.method == "Holm"
    assert all(word.adjusted_p >= word.p for words in found.per_coffee for word in words)


def test_renamed_tasters_change_no_single_chance():
    used = np.random.default_rng(3).uniform(size=(7, 3, 5)) < 0.4

    found, renamed = words_that_hold(used), words_that_hold(used[::-1])

    for here, there in zip(found.per_coffee, renamed.per_coffee, strict=True):
        assert {word.label: word.p for word in here} == pytest.approx({word.label: word.p for word in there})


def test_one_coffee_and_arrays_of_another_shape_are_refused():
    with pytest.raises(TooFewObservations):
        words_that_hold(np.ones((3, 1, 2)))
    with pytest.raises(Refused, match="three dimensions"):
        use_of(np.ones((3, 2)))
    with pytest.raises(Refused):
        use_of(np.ones((3, 2, 2)), concepts=["lemon"])
    with pytest.raises(Refused, match="not between 0 and 1"):
        words_that_hold(table(), level=95)


def test_rows_show_every_look_with_its_coffee():
    used = table()
    used[:, 1, 0] = 1

    rows = words_that_hold(used).rows()

    assert {"coffee", "concept", "count", "of", "expected", "p", "adjusted_p"} <= rows[0].keys()
    assert len(rows) == 5


def test_the_surest_word_is_never_sure_beyond_its_shuffles():
    used = np.zeros((8, 5, 1))
    used[:, 2, 0] = 1

    assert words_that_hold(used, resamples=9).per_coffee[2][0].adjusted_p == pytest.approx(0.1)


def test_looks_as_sure_as_every_shuffle_have_chance_one():
    assert {
        word.adjusted_p for words in words_that_hold(table(), resamples=9).per_coffee for word in words
    } == {1.0}
