"""Kinship, against the cosine of a general library."""

from itertools import combinations

import numpy as np
import pytest
from scipy.spatial.distance import cosine

from cupwright.core.words.kinship import kinship
from cupwright.core.words.lexicon import load_lexicon


def test_kinship_is_the_cosine_between_sets_of_ancestors():
    """Ochiai (1957): the coefficient is the cosine of two 0/1 vectors; oracle: scipy.spatial.distance."""
    lexicon = load_lexicon()
    columns = {concept: column for column, concept in enumerate(lexicon.concepts)}
    rows = {}
    for concept in list(lexicon.concepts)[::9]:
        rows[concept] = np.zeros(len(columns))
        rows[concept][[columns[above] for above in lexicon.ancestors(concept)]] = 1

    for a, b in combinations(rows, 2):
        if not lexicon[a].scale or lexicon[a].scale != lexicon[b].scale:
            assert kinship(a, b, lexicon) == pytest.approx(1 - cosine(rows[a], rows[b]), abs=1e-12)
