"""The parts of kinship, against the cosine of a general library."""

from itertools import combinations
from math import log

import numpy as np
import pytest
from scipy.spatial.distance import cosine

from cupwright.core.words.facets import facets_of
from cupwright.core.words.kinship import kin_of
from cupwright.core.words.lexicon import load_lexicon

LEXICON = load_lexicon()
SOME = list(LEXICON.concepts)[::9]


def weighted_columns(sets):
    """Word -> ln((n + 1) / number of sets that hold it)."""
    words = sorted(frozenset().union(*sets))
    return {word: log((len(sets) + 1) / sum(word in one for one in sets)) for word in words}


def test_graph_is_a_weighted_cosine_between_sets_of_ancestors():
    """Ochiai (1957): the coefficient is the cosine of two 0/1 vectors; oracle: scipy.spatial.distance."""
    kin = kin_of(LEXICON)
    weight = weighted_columns([LEXICON.ancestors(concept) for concept in LEXICON.concepts])
    vectors = {
        concept: np.array([word in LEXICON.ancestors(concept) for word in weight], dtype=float)
        for concept in SOME
    }

    for a, b in combinations(SOME, 2):
        expected = 1 - cosine(vectors[a], vectors[b], w=list(weight.values()))
        assert kin.graph[kin.row[a], kin.row[b]] == pytest.approx(expected, abs=1e-12)


def test_facets_of_two_things_with_source_state_and_sensations_are_a_weighted_cosine():
    """The same oracle; a state counts half."""
    kin, facets = kin_of(LEXICON), facets_of(LEXICON)
    whole = [c for c in SOME if facets[c].made_of and facets[c].state and facets[c].feels]
    kinds = [
        ({c: f.made_of for c, f in facets.items()}, 1.0),
        ({c: frozenset([f.state]) if f.state else frozenset() for c, f in facets.items()}, 0.5),
        ({c: f.feels for c, f in facets.items()}, 1.0),
    ]
    weights, vectors = [], {concept: [] for concept in whole}
    for sets, counts in kinds:
        weight = weighted_columns(list(sets.values()))
        weights += [counts * value for value in weight.values()]
        for concept in whole:
            vectors[concept] += [float(word in sets[concept]) for word in weight]

    assert len(whole) > 20
    for a, b in combinations(whole, 2):
        expected = 1 - cosine(vectors[a], vectors[b], w=weights)
        assert kin.facets[kin.row[a], kin.row[b]] == pytest.approx(expected, abs=1e-12)
