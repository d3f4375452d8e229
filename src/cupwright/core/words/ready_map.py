"""The map of all words, kept ready: map_of_words.toml has where each concept of the builtin lexicon lies.

Laying out the whole lexicon takes seconds, and the picture should open at once. The file is written by
docs/methods/lay_map.py; words that it lacks, the users' own, are placed among the others by their kinship.
"""

import hashlib
import json
import tomllib
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from functools import cache
from importlib.resources import files

import numpy as np

from cupwright.core.words.facets import facets_of
from cupwright.core.words.kinship import kin_of
from cupwright.core.words.kinship_weights import KinshipWeights, builtin_kinship_weights
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.map_of_words import Floats, WordMap, place_among, stress_of, word_map

FILE = "map_of_words.toml"
_DECIMALS = 4
# As careful as it gets, since nobody waits for it.
_TOLERANCE = 1e-8
_MOST_STEPS = 5000


@dataclass(frozen=True, slots=True)
class KeptMap:
    """Points by concept, in no unit; how far they are from the wanted distances; what they were laid by."""

    points: Mapping[str, tuple[float, float]]
    stress: float
    fingerprint: str


@cache
def builtin_map() -> KeptMap:
    """The file beside this one."""
    data = tomllib.loads(files("cupwright.core.words").joinpath(FILE).read_text("utf-8"))
    points = {concept: (float(x), float(y)) for concept, (x, y) in data["points"].items()}
    return KeptMap(points, data["stress"], data["fingerprint"])


def kept_map_text(lexicon: Lexicon) -> str:
    """The text of the file for a lexicon; takes seconds."""
    laid = word_map(lexicon, tolerance=_TOLERANCE, most_steps=_MOST_STEPS)
    points = [
        f"{concept} = [{x:.{_DECIMALS}f}, {y:.{_DECIMALS}f}]"
        for concept, (x, y) in zip(laid.concepts, laid.points.tolist(), strict=True)
    ]
    head = [
        "# Where the words lie on their map. Written by docs/methods/lay_map.py: do not edit.",
        f'fingerprint = "{fingerprint(lexicon)}"',
        f"stress = {laid.stress:.{_DECIMALS}f}",
        "",
        "[points]",
    ]
    return "\n".join([*head, *points]) + "\n"


def fingerprint(lexicon: Lexicon) -> str:
    """SHA-256 of all that kinship is made of: a map laid by something else is out of date."""
    facets = facets_of(lexicon)
    concepts = [
        [one.id, one.parents, one.scale, one.place, asdict(facets[one.id])]
        for one in lexicon.concepts.values()
    ]
    told = [concepts, _weights(builtin_kinship_weights())]
    return hashlib.sha256(json.dumps(told, default=sorted, sort_keys=True).encode()).hexdigest()


def ready_map(lexicon: Lexicon, kept: KeptMap | None = None) -> WordMap:
    """The map of a lexicon without laying it out anew.

    Parameters
    ----------
    kept : KeptMap, optional
        The builtin one if left out. Its concepts stay where they are; at least three must be in the lexicon.

    Returns
    -------
    WordMap
        Points of shape (n_concepts, 2) in the order of the lexicon.

    Notes
    -----
    Error: a new word is placed as well as it can be while all others stay; were all laid out anew, those
    beside it would make room.
    """
    kept = kept or builtin_map()
    concepts = tuple(lexicon.concepts)
    new = [at for at, concept in enumerate(concepts) if concept not in kept.points]
    points = np.array([kept.points.get(concept, (np.nan, np.nan)) for concept in concepts])
    if not new:
        return WordMap(concepts, points, kept.stress)
    apart = 1.0 - kin_of(lexicon).kinship
    for at in new:
        _place(at, points, apart)
    return WordMap(concepts, points, stress_of(points, apart))


def _place(at: int, points: Floats, apart: Floats) -> None:
    placed = ~np.isnan(points[:, 0])
    points[at] = place_among(points[placed], apart[at, placed])


def _weights(weights: KinshipWeights) -> list[object]:
    likeness = sorted([*pair, alike] for pair, alike in weights.likeness.items())
    return [weights.graph, weights.facets, weights.co_use, sorted(weights.families), likeness]
