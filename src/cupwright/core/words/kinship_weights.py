"""The fitted part of kinship: three weights, and which families of words keep like company in notes.

The data are in kinship_weights.toml, written by bench/fit_kinship.py.
"""

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from cupwright.core.words.lexicon import Lexicon

# Likeness under this is what families of words have in common by chance or by being about coffee at all.
LEAST_LIKENESS = 0.5


@dataclass(frozen=True, slots=True)
class KinshipWeights:
    """How far each of graph, facets and co-use can make two words kin by itself: each in [0, 1].

    `families` are concepts that stand for all under them; `likeness` holds, for two different families in
    alphabetical order, the cosine of the company they keep, where it is at least LEAST_LIKENESS.
    """

    graph: float
    facets: float
    co_use: float
    families: frozenset[str]
    likeness: dict[tuple[str, str], float]

    def alike(self, first: str, second: str) -> float:
        """Likeness of two families over and above the least, in [0, 1].

        A family is at least as like itself as it is like any other.
        """
        if first == second:
            return max((self._over(pair) for pair in self.likeness if first in pair), default=0.0)
        return self._over((min(first, second), max(first, second)))

    def _over(self, pair: tuple[str, str]) -> float:
        return max(0.0, self.likeness.get(pair, 0.0) - LEAST_LIKENESS) / (1 - LEAST_LIKENESS)


@cache
def builtin_kinship_weights() -> KinshipWeights:
    """The weights beside this file."""
    text = files("cupwright.core.words").joinpath("kinship_weights.toml").read_text("utf-8")
    data = tomllib.loads(text)
    likeness = {
        (min(family, other), max(family, other)): percent / 100
        for family, others in data["likeness"].items()
        for other, percent in others.items()
    }
    weights = data["kinship"]
    families = frozenset(weights["families"].split())
    return KinshipWeights(weights["graph"], weights["facets"], weights["co_use"], families, likeness)


def family_of(concept: str, lexicon: Lexicon, families: frozenset[str]) -> str:
    """The nearest of some families above a concept, by first parents; "" if there is none."""
    while concept not in families:
        parents = lexicon[concept].parents
        if not parents:
            return ""
        concept = parents[0]
    return concept
