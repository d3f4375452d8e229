"""The parts of kinship, tables over all concepts of a lexicon in its order: graph, facets, co-use, scales.

Every function returns a symmetric float array of shape (n_concepts, n_concepts) with values in [0, 1].
"""

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from cupwright.core.words.facets import Facets, facets_of
from cupwright.core.words.kinship_weights import KinshipWeights, family_of
from cupwright.core.words.lexicon import Lexicon

Floats = NDArray[np.float64]
# What was done to a thing changes it less than what it is: grapes and raisins.
STATE_COUNTS = 0.5
# Two different words on one scale (light body, thin body) stay below "the same", whatever their places.
NEVER_QUITE_THE_SAME = 0.9


def graph_part(lexicon: Lexicon) -> Floats:
    """What stands above both, relative to what stands above each: a weighted cosine of sets of ancestors.

    An ancestor counts by how much it tells, ln((n + 1) / how many concepts it stands above): citrus more than
    fruit. Source: the cosine is [Ochiai1957]'s, the weight [Resnik1995]'s, counted over the lexicon.
    """
    above = _membership(lexicon.ancestors(concept) for concept in lexicon.concepts)
    return _cosine(_shared(above))


def facets_part(lexicon: Lexicon) -> Floats:
    """Cosine of facets, each word of them weighted by how rare it is in the lexicon [SparckJones1972].

    Only the kinds that both have are compared: sourness has no source, so sour and lemon are compared by
    sensations alone.
    """
    facets = list(facets_of(lexicon).values())
    size = len(facets)
    shared, first, second = (np.zeros((size, size)) for _ in range(3))
    for words, counts in _kinds(facets):
        common = counts * _shared(_membership(words))
        own = np.diag(common)
        both = np.outer(own > 0, own > 0)
        shared += common * both
        first += own[:, None] * both
        second += own[None, :] * both
    norms = np.sqrt(first * second)
    return np.divide(shared, norms, out=np.zeros_like(shared), where=norms > 0)


def _kinds(facets: Sequence[Facets]) -> tuple[tuple[list[frozenset[str]], float], ...]:
    """Each kind of facet that makes kin, and how much it counts. Company does not: bread and malt keep it."""
    return (
        ([one.made_of for one in facets], 1.0),
        ([frozenset([one.state]) if one.state else frozenset[str]() for one in facets], STATE_COUNTS),
        ([one.feels for one in facets], 1.0),
    )


def co_use_part(lexicon: Lexicon, weights: KinshipWeights) -> Floats:
    """Whether the families of two concepts keep like company in notes (kinship_weights.py)."""
    families = [family_of(concept, lexicon, weights.families) for concept in lexicon.concepts]
    names = sorted(set(families))
    alike = np.array([[weights.alike(a, b) if a and b else 0.0 for b in names] for a in names])
    column = np.array([names.index(family) for family in families])
    spread: Floats = alike[np.ix_(column, column)]
    return spread


def scales_part(lexicon: Lexicon) -> Floats:
    """Nearness of places for two words on one scale; NaN for all other pairs."""
    scales = np.array([concept.scale for concept in lexicon])
    places = np.array([concept.place for concept in lexicon])
    near = NEVER_QUITE_THE_SAME * (1 - np.abs(places[:, None] - places[None, :]) / 2)
    on_one = (scales[:, None] == scales[None, :]) & (scales[:, None] != "")
    return np.where(on_one, near, np.nan)


def _membership(sets: Iterable[frozenset[str]]) -> Floats:
    """0/1 table of shape (n_sets, n_words)."""
    rows = list(sets)
    columns = {word: at for at, word in enumerate(sorted(frozenset[str]().union(*rows)))}
    table = np.zeros((len(rows), len(columns)))
    for row, words in enumerate(rows):
        table[row, [columns[word] for word in words]] = 1.0
    return table


def _shared(table: Floats) -> Floats:
    """For each pair of rows the weights of the columns that both have, added up."""
    telling: Floats = np.log((len(table) + 1) / table.sum(axis=0))
    shared: Floats = (table * telling) @ table.T
    return shared


def _cosine(shared: Floats) -> Floats:
    norm = np.sqrt(np.diag(shared))
    cosine: Floats = shared / np.outer(norm, norm)
    return cosine
