"""Kinship: how near two concepts are, from 0 (nothing in common) to 1 (the same)."""

from math import sqrt

from cupwright.core.words.lexicon import Lexicon

# Two different words on one scale (light body, thin body) stay below "the same", whatever their places.
_NEVER_QUITE_THE_SAME = 0.9


def kinship(a: str, b: str, lexicon: Lexicon) -> float:
    """How near two concepts are.

    Two words on one scale are near as their places are near; all others by the share of what stands above
    them that they have in common: |A and B| / sqrt(|A| |B|) over each concept with all its ancestors.

    Returns
    -------
    float
        In [0, 1]; 1 only for the same concept; symmetric. With families of three levels: parent and child
        0.82, children of one parent 0.67, same family otherwise 0.33 to 0.58, different families 0.

    Raises
    ------
    KeyError
        If a concept is not in the lexicon.

    Notes
    -----
    Error: an ordering by judgement, not a measured quantity; see docs/methods/kinship.md.
    Source: the coefficient is [Ochiai1957]'s, a cosine between sets.
    """
    first, second = lexicon[a], lexicon[b]
    if a == b:
        return 1.0
    if first.scale and first.scale == second.scale:
        return _NEVER_QUITE_THE_SAME * (1 - abs(first.place - second.place) / 2)
    above_a, above_b = lexicon.ancestors(a), lexicon.ancestors(b)
    return len(above_a & above_b) / sqrt(len(above_a) * len(above_b))
