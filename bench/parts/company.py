"""Which families of words keep like company in notes: counted for bench/fit_kinship.py and telling_apart.py.

Which coffee a note is about is not used.
"""

from collections.abc import Iterable
from itertools import product

import numpy as np

from cupwright.core.words.kinship_weights import LEAST_LIKENESS, KinshipWeights, family_of
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.reading import Reading
from cupwright.core.words.telling import Company, company_of

LEAST_USES = 100  # words of a family must occur in that many notes for it to stand by itself
PRIOR_PAIRS = 5.0  # pairs of words taken as seen, and as expected, before anything was counted


def counted_company(readings: Iterable[Reading], lexicon: Lexicon) -> Company:
    """The company of each concept, as counted in these notes."""
    used = used_in(readings, lexicon)
    families = families_in(used, lexicon)
    alike = likeness(used, members(families, lexicon))
    return company_of(lexicon, weights_of((0.0, 0.0, 0.0), sorted(families), alike))


def used_in(readings: Iterable[Reading], lexicon: Lexicon) -> np.ndarray:
    """Which concepts each note says are there: 0 or 1, shape (n_notes, n_concepts)."""
    column = {concept: at for at, concept in enumerate(lexicon.concepts)}
    read = list(readings)
    used = np.zeros((len(read), len(column)))
    for at, reading in enumerate(read):
        used[at, [column[concept] for concept in reading.concepts]] = 1.0
    return used


def families_in(used: np.ndarray, lexicon: Lexicon) -> frozenset[str]:
    """The heads, and every concept with two under it whose words occur often enough."""
    children = [parent for concept in lexicon for parent in concept.parents]
    chosen = set(lexicon.families)
    for concept in lexicon.concepts:
        under = [at for at, other in enumerate(lexicon.concepts) if concept in lexicon.ancestors(other)]
        if children.count(concept) >= 2 and used[:, under].any(axis=1).sum() >= LEAST_USES:
            chosen.add(concept)
    return frozenset(chosen)


def members(families: frozenset[str], lexicon: Lexicon) -> np.ndarray:
    """Which concept belongs to which family, by name: 0 or 1, shape (n_concepts, n_families)."""
    names = sorted(families)
    return np.array(
        [[family_of(concept, lexicon, families) == name for name in names] for concept in lexicon.concepts],
        dtype=float,
    )


def likeness(used: np.ndarray, member: np.ndarray) -> np.ndarray:
    """Cosine of the company that families keep, shape (n_families, n_families).

    Company of two families: ln of how often words of both stand in one note, over how often they would if
    words fell into notes by chance. A word does not keep itself company.
    """
    several = used[used.sum(axis=1) >= 2]
    together, by_chance = several.T @ several, _by_chance(several)
    np.fill_diagonal(together, 0.0)
    np.fill_diagonal(by_chance, 0.0)
    company = np.log(
        (member.T @ together @ member + PRIOR_PAIRS) / (member.T @ by_chance @ member + PRIOR_PAIRS)
    )
    unit = company / np.maximum(np.linalg.norm(company, axis=1, keepdims=True), 1e-12)
    return np.clip(unit @ unit.T, 0.0, 1.0)


def weights_of(triple: tuple[float, float, float], names: list[str], alike: np.ndarray) -> KinshipWeights:
    """Weights of graph, facets and co-use with the families that are alike enough."""
    pairs = {
        (min(a, b), max(a, b)): float(alike[i, j])
        for (i, a), (j, b) in product(enumerate(names), repeat=2)
        if i < j and alike[i, j] >= LEAST_LIKENESS
    }
    return KinshipWeights(*triple, frozenset(names), pairs)


def _by_chance(several: np.ndarray) -> np.ndarray:
    """How often two words would meet if each note drew its words by their overall frequency."""
    sizes, often = several.sum(axis=1), several.sum(axis=0)
    return np.outer(often, often) / often.sum() * ((sizes * (sizes - 1)).sum() / sizes.sum())
