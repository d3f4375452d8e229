"""Kinship: how near two concepts are, from 0 (nothing in common) to 1 (the same)."""

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from cupwright.core.words.kinship_weights import KinshipWeights, builtin_kinship_weights
from cupwright.core.words.lexicon import Lexicon

if TYPE_CHECKING:
    from cupwright.core.words.kinship_parts import Floats


@dataclass(frozen=True, slots=True, eq=False)
class Kin:
    """Kinship of all pairs, and the parts it is made of; arrays of shape (n_concepts, n_concepts).

    `row` finds a concept. `scales` is NaN for two words that are not on one scale. Arrays are read-only.
    """

    row: dict[str, int]
    kinship: "Floats"
    graph: "Floats"
    facets: "Floats"
    co_use: "Floats"
    scales: "Floats"


def kinship(a: str, b: str, lexicon: Lexicon) -> float:
    """How near two concepts are.

    Two words on one scale are near as their places are near. All others are kin in any of three ways, joined
    as independent chances are: 1 - (1 - w G)(1 - v F)(1 - u C). G says what of the graph they have in common,
    F what of their facets, C whether words of their families keep like company in notes.

    Returns
    -------
    float
        In [0, 1]; 1 only for the same concept; symmetric.

    Raises
    ------
    KeyError
        If a concept is not in the lexicon.

    Notes
    -----
    Error: an ordering. The three weights were fitted to notes of home tasters on four coffees; see
    docs/methods/kinship.md for how well it follows judgement.
    Source: joining as in [Pearl1988] (noisy or); the parts name their own.
    """
    kin = kin_of(lexicon)
    return float(kin.kinship[kin.row[a], kin.row[b]])


def kinship_matrix(lexicon: Lexicon) -> "Floats":
    """Kinship of all pairs, rows and columns in the order of the lexicon; read-only.

    Returns
    -------
    float array, shape (n_concepts, n_concepts)
        Symmetric, in [0, 1], 1 on the diagonal only.
    """
    return kin_of(lexicon).kinship


def nearest_kin(concept: str, lexicon: Lexicon, *, count: int = 10) -> tuple[tuple[str, float], ...]:
    """The concepts nearest to one, with their kinship, nearest first; never itself, none with kinship 0.

    Raises
    ------
    KeyError
        If the concept is not in the lexicon.
    """
    kin = kin_of(lexicon)
    row = kin.kinship[kin.row[concept]]
    others = sorted(
        ((float(row[at]), other) for other, at in kin.row.items() if other != concept and row[at] > 0),
        key=lambda pair: (-pair[0], pair[1]),
    )
    return tuple((other, near) for near, other in others[:count])


# Own words make new lexicons; the tables of an old one are of no more use.
@lru_cache(maxsize=4)
def kin_of(lexicon: Lexicon) -> Kin:
    """Kinship of all pairs of a lexicon and its parts, computed once."""
    return joined(lexicon, builtin_kinship_weights())


def joined(lexicon: Lexicon, weights: KinshipWeights) -> Kin:
    """The same with weights of one's own."""
    # numpy is loaded only when kinship is asked for: `cupwright --help` does without.
    import numpy as np

    from cupwright.core.words.kinship_parts import co_use_part, facets_part, graph_part, scales_part

    graph, facets, scales = graph_part(lexicon), facets_part(lexicon), scales_part(lexicon)
    co_use = co_use_part(lexicon, weights)
    near = 1 - (1 - weights.graph * graph) * (1 - weights.facets * facets) * (1 - weights.co_use * co_use)
    near = np.where(np.isnan(scales), near, scales)
    np.fill_diagonal(near, 1.0)
    row = {concept: at for at, concept in enumerate(lexicon.concepts)}
    for array in (near, graph, facets, co_use, scales):
        array.setflags(write=False)
    return Kin(row, near, graph, facets, co_use, scales)
