"""Two lists of words side by side."""

from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.reveal.match import NEAR, match
from cupwright.core.words.kinship import kinship
from cupwright.core.words.lexicon import load_lexicon

LEXICON = load_lexicon()
IDS = st.sets(st.sampled_from(sorted(LEXICON.concepts)), max_size=5)


def test_words_in_both_are_shared_kin_are_near_and_the_rest_is_own_or_missed():
    result = match({"lemon", "dark_chocolate", "thin"}, {"lemon", "cocoa", "jasmine"}, LEXICON)

    assert result.shared == ("lemon",)
    assert [(mine, theirs) for mine, theirs, _ in result.near] == [("dark_chocolate", "cocoa")]
    assert result.missed == ("jasmine",)
    assert result.own == ("thin",)


def test_the_score_counts_shared_words_in_full_and_near_ones_in_part():
    near = kinship("dark_chocolate", "cocoa", LEXICON)

    result = match(["lemon", "dark_chocolate", "thin"], ["lemon", "cocoa", "jasmine"], LEXICON)

    assert result.score == pytest.approx(2 * (1 + near) / 6)


def test_a_word_is_shared_even_if_two_near_pairs_would_add_up_to_more():
    result = match({"lemon", "citrus"}, {"lemon", "lime"}, LEXICON)

    assert result.shared == ("lemon",)
    assert [(mine, theirs) for mine, theirs, _ in result.near] == [("citrus", "lime")]


def test_opposites_on_a_scale_are_not_near():
    result = match({"thin"}, {"full_body"}, LEXICON)

    assert (result.near, result.own, result.missed, result.score) == ((), ("thin",), ("full_body",), 0)


@pytest.mark.parametrize(("mine", "theirs"), [([], ["lemon"]), (["lemon"], []), ([], [])])
def test_an_empty_list_matches_nothing(mine, theirs):
    result = match(mine, theirs, LEXICON)

    assert result.score == 0
    assert result.missed == tuple(theirs)
    assert result.own == tuple(mine)


def test_order_and_repetition_do_not_matter():
    assert match(["lemon", "rose", "lemon"], ["jasmine"], LEXICON) == match(
        ["rose", "lemon"], ["jasmine"], LEXICON
    )


def test_an_unknown_concept_is_a_key_error():
    with pytest.raises(KeyError):
        match({"nonesuch"}, {"lemon"}, LEXICON)


@given(IDS, IDS)
@settings(max_examples=150, deadline=None)
def test_every_word_is_in_exactly_one_place_and_the_score_in_range(mine, theirs):
    result = match(mine, theirs, LEXICON)

    assert sorted([*result.shared, *result.own, *(pair[0] for pair in result.near)]) == sorted(mine)
    assert sorted([*result.shared, *result.missed, *(pair[1] for pair in result.near)]) == sorted(theirs)
    assert all(NEAR <= kin < 1 for _, _, kin in result.near)
    assert 0 <= result.score <= 1 + 1e-12
    assert (result.score == pytest.approx(1)) == (mine == theirs and bool(mine))


@given(IDS, IDS)
@settings(max_examples=150, deadline=None)
def test_the_pairing_is_as_good_as_the_best_of_all_pairings(mine, theirs):
    result = match(mine, theirs, LEXICON)

    assert sum(kin for *_, kin in result.near) == pytest.approx(
        best_by_trying_all(mine - theirs, theirs - mine)
    )


def best_by_trying_all(mine, theirs):
    """The greatest total of kinship, by trying every pairing."""
    fewer, more = sorted([sorted(mine), sorted(theirs)], key=len)
    kin = {(a, b): kinship(a, b, LEXICON) for a in fewer for b in more}
    return max(
        sum(kin[a, b] for a, b in zip(fewer, chosen, strict=True) if kin[a, b] >= NEAR)
        for chosen in permutations(more, len(fewer))
    )
