"""Word counts: tasters are counted, not mentions; contrasts allow for many looks."""

import numpy as np
import pytest
from tests.unit.core.analyse.tables import NORTH, SOUTH, TWO_CODES, answers_of, note, table_of

from cupwright.core.analyse.proportions import share_difference, wilson
from cupwright.core.analyse.word_counts import WordUse, word_contrasts, word_counts, word_use


def counts_of(notes, place_coffee=TWO_CODES, *, tasters=3, families=False):
    answers = answers_of(table_of(tasters, tuple(place_coffee)), notes, place_coffee)
    return [
        {word.label: (word.count, word.of) for word in words}
        for words in word_counts(word_use(answers, families=families))
    ]


def test_a_taster_counts_once_however_often_a_word_is_repeated():
    north, south = counts_of(
        [
            note(1, "241", "aroma/words", "lemon, lemon"),
            note(1, "241", "flavour/words", "lemon"),
            note(2, "241", "flavour/words", "orange"),
        ]
    )

    assert north == {"lemon": (1, 2), "orange": (1, 2)}
    assert south == {}


def test_who_wrote_only_unknown_words_still_counts_among_those_who_wrote():
    north, _ = counts_of([note(1, "241", "aroma/words", "lemon"), note(2, "241", "aroma/words", "gribble")])

    assert north == {"lemon": (1, 2)}


def test_a_denied_word_is_not_counted():
    north, _ = counts_of([note(1, "241", "aroma/words", "not smoky, chocolate")])

    assert north == {"cocoa": (1, 1)}


def test_kept_only_text_is_not_counted():
    north, _ = counts_of([note(1, "241", "verdict/line", "lemon")])

    assert north == {}


def test_a_family_counts_a_taster_once_for_all_its_words():
    north, _ = counts_of(
        [note(1, "241", "aroma/words", "lemon orange"), note(2, "241", "aroma/words", "cocoa")], families=True
    )

    assert north == {"fruit": (1, 2), "roast": (1, 2)}


def test_words_at_several_places_of_one_coffee_are_united():
    place_coffee = {"234": NORTH.id, "345": NORTH.id, "456": SOUTH.id}

    north, _ = counts_of(
        [note(1, "234", "aroma/words", "lemon"), note(1, "345", "aroma/words", "lemon orange")], place_coffee
    )

    assert north == {"lemon": (1, 1), "orange": (1, 1)}


def test_words_come_most_used_first_with_their_intervals():
    answers = answers_of(
        table_of(3, tuple(TWO_CODES)),
        [
            note(1, "241", "aroma/words", "lemon, cocoa"),
            note(2, "241", "aroma/words", "lemon"),
            note(3, "241", "aroma/words", "fruit"),
        ],
        TWO_CODES,
    )

    words = word_counts(word_use(answers), level=0.9)[0]

    assert [word.label for word in words] == ["lemon", "cocoa", "fruit"]
    assert words[0].share == wilson(2, 3, level=0.9)


def use_of(counts, tasters):
    """A WordUse in which the first `counts[word][coffee]` tasters used a word; all wrote about everything."""
    used = np.zeros((len(counts), len(counts[0]), tasters), dtype=bool)
    for (word, coffee), count in np.ndenumerate(np.array(counts)):
        used[word, coffee, :count] = True
    names = tuple(f"w{n}" for n in range(len(counts)))
    return WordUse(names, names, used, np.ones(used.shape[1:], dtype=bool))


def test_a_large_difference_sets_both_coffees_apart_in_opposite_directions():
    contrasts = word_contrasts(use_of([[40, 5], [20, 21]], 50))

    (more,), (less,) = contrasts.per_coffee
    assert contrasts.looks == 4
    assert (more.label, more.count, more.of, more.other_count, more.other_of) == ("w0", 40, 50, 5, 50)
    assert more.difference == share_difference(40, 50, 5, 50)
    assert less.difference.estimate == pytest.approx(-0.7)


def test_a_difference_that_one_look_would_show_is_not_listed_after_many():
    alone = [[12, 3]]
    among_many = alone + [[10, 10]] * 60

    assert word_contrasts(use_of(alone, 30)).per_coffee[0]
    assert not any(word_contrasts(use_of(among_many, 30)).per_coffee)


def test_rare_words_are_no_looks():
    assert word_contrasts(use_of([[2, 0], [0, 1]], 30)).looks == 0


def test_a_coffee_nobody_wrote_about_is_not_compared():
    use = use_of([[20, 0, 10]], 30)
    use.wrote[1] = False

    contrasts = word_contrasts(use)

    assert contrasts.looks == 2
    assert contrasts.per_coffee[1] == ()


def test_one_coffee_alone_is_compared_with_nothing():
    assert word_contrasts(use_of([[20]], 30)).looks == 0


@pytest.mark.parametrize(("tasters", "habit"), [(3, 0.0), (8, 0.0), (60, 0.0), (60, 0.6)])
def test_luck_alone_lists_a_word_in_at_most_one_table_in_twenty(tasters, habit):
    """300 tables in which no coffee differs; with a habit, a taster repeats a word from coffee to coffee."""
    rng = np.random.default_rng(1979)
    shares = rng.uniform(0.02, 0.5, size=(30, 1, 1))

    listed = 0
    for _ in range(300):
        repeats = rng.uniform(size=(30, 1, tasters)) < habit
        alike, apart = rng.uniform(size=(30, 1, tasters)), rng.uniform(size=(30, 4, tasters))
        used = np.where(repeats, alike, apart) < shares
        names = tuple(str(n) for n in range(30))
        use = WordUse(names, names, used, np.ones((4, tasters), dtype=bool))
        listed += any(word_contrasts(use).per_coffee)

    four_standard_errors = 4 * np.sqrt(0.05 * 0.95 / 300)
    assert listed / 300 < 0.05 + four_standard_errors


@pytest.mark.parametrize(("tasters", "coffees"), [(5, 3), (6, 2), (10, 3), (12, 4)])
def test_words_that_each_taster_gives_to_one_coffee_only_are_listed_by_luck_no_more_often(tasters, coffees):
    """As people write when they look for what is different: 20 words, each on one coffee at random."""
    rng = np.random.default_rng(1964)

    listed = 0
    for _ in range(300):
        chosen = rng.integers(coffees, size=(20, 1, tasters))
        used = chosen == np.arange(coffees)[None, :, None]
        names = tuple(str(n) for n in range(20))
        use = WordUse(names, names, used, np.ones((coffees, tasters), dtype=bool))
        listed += any(word_contrasts(use).per_coffee)

    four_standard_errors = 4 * np.sqrt(0.05 * 0.95 / 300)
    assert listed / 300 < 0.05 + four_standard_errors
