"""What several tasters' colours for one coffee have in common."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from cupwright.core.words.colour import OKLab
from cupwright.core.words.colour_difference import colour_difference
from cupwright.errors import TooFewObservations


@dataclass(frozen=True, slots=True)
class Consensus:
    """The mean of `count` colours and their spread: root mean square difference from it, in CIEDE2000."""

    colour: OKLab
    spread: float
    count: int


def consensus(colours: Sequence[OKLab]) -> Consensus:
    """The colour that several tasters chose between them, and how far apart they were.

    Raises
    ------
    TooFewObservations
        If there is no colour.

    Notes
    -----
    The mean is taken in OKLab, where equal distances look about equal; how far colours look from it is
    CIEDE2000 [Sharma2005].
    Error: the mean of opposite hues is grey, which nobody chose; the spread is large then and must be shown.
    """
    if not colours:
        raise TooFewObservations("No colour was chosen.", todo="Leave the colour out.")
    mean = mean_colour(colours)
    apart = [colour_difference(mean, colour) for colour in colours]
    return Consensus(mean, sqrt(sum(one**2 for one in apart) / len(apart)), len(colours))


def mean_colour(colours: Sequence[OKLab]) -> OKLab:
    """The mean in OKLab of at least one colour."""
    count = len(colours)
    return OKLab(
        sum(c.l for c in colours) / count,
        sum(c.a for c in colours) / count,
        sum(c.b for c in colours) / count,
    )
