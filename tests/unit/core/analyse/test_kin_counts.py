"""Kin counts: a kindred word supports in part."""

import numpy as np
import pytest

from cupwright.core.analyse.kin_counts import kin_counts
from cupwright.core.analyse.word_counts import WordUse
from cupwright.core.words.kinship import kinship, nearest_kin
from cupwright.core.words.lexicon import load_lexicon

LEXICON = load_lexicon()
KIN = next(
    (concept, near)
    for concept in LEXICON.concepts
    if (near := nearest_kin(concept, LEXICON, count=1))[0][1] >= 0.5
)


def use(*said):
    """One coffee; what each taster used, as sets of concepts."""
    concepts = tuple(sorted(set().union(*said)))
    used = np.array([[[concept in words for words in said]] for concept in concepts])
    return WordUse(concepts, concepts, used, np.ones((1, len(said)), dtype=bool))


def test_a_kindred_word_counts_by_its_kinship():
    concept, ((near, _),) = KIN
    found = use({concept}, {near})

    support = kin_counts(found, LEXICON)

    assert support[found.concepts.index(concept), 0] == pytest.approx(1 + kinship(concept, near, LEXICON))


def test_who_used_the_word_itself_counts_once_whatever_else_they_used():
    concept, ((near, _),) = KIN

    support = kin_counts(use({concept, near}), LEXICON)

    assert support[:, 0].tolist() == [1.0, 1.0]


def test_words_with_little_in_common_do_not_support_each_other():
    concept = KIN[0]
    stranger = min(LEXICON.concepts, key=lambda other: kinship(concept, other, LEXICON))

    support = kin_counts(use({concept}, {stranger}), LEXICON)

    assert support[:, 0].tolist() == [1.0, 1.0]
