"""Which families of words go with which colours, over all tables, and how sure that is.

For tasters only after they have answered: it would put colours into their heads.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cupwright.core.words.colour import OKLab
from cupwright.core.words.colour_consensus import mean_colour
from cupwright.core.words.colour_difference import colour_difference
from cupwright.core.words.lexicon import Lexicon
from cupwright.errors import TooFewObservations

Floats = NDArray[np.float64]
# Fewer tasters than that cannot stand for others.
LEAST_TASTERS = 5
DRAWS = 2_000


@dataclass(frozen=True, slots=True)
class ColouredCup:
    """One taster's colour for one cup, and the concepts that taster wrote of the same cup."""

    taster: str
    colour: OKLab
    concepts: frozenset[str]


@dataclass(frozen=True, slots=True)
class Shift:
    """A difference between two mean colours along one side of OKLab, with its interval."""

    estimate: float
    low: float
    high: float

    @property
    def sure(self) -> bool:
        """Whether the interval leaves out 0."""
        return self.low > 0 or self.high < 0


@dataclass(frozen=True, slots=True)
class FamilyColour:
    """Cups with a word of one family against all other cups.

    `colour` and `elsewhere` are the two mean colours, `difference` is CIEDE2000 between them. The shifts go
    from elsewhere to here: lighter, redder (less green) and yellower (less blue) are positive.
    """

    family: str
    label: str
    cups: int
    tasters: int
    colour: OKLab
    elsewhere: OKLab
    difference: float
    lighter: Shift
    redder: Shift
    yellower: Shift


def colours_of_families(
    cups: Iterable[ColouredCup], lexicon: Lexicon, *, level: float = 0.95, seed: int = 0
) -> tuple[FamilyColour, ...]:
    """How the colours of cups with a word of a family differ from those of all other cups.

    Parameters
    ----------
    cups : iterable of ColouredCup
        Over any number of tables. Cups of which nothing was read count as cups without the family.
    level : float in (0, 1)
        Coverage of each interval.
    seed : int
        Of the draws; the same seed gives the same answer.

    Returns
    -------
    tuple of FamilyColour
        Largest difference first. Families that fewer than five tasters used, or all cups hold, are left out.

    Raises
    ------
    TooFewObservations
        If fewer than five tasters picked a colour.

    Notes
    -----
    Error: percentile intervals from 2,000 draws of whole tasters, so that many cups of one taster do not
    count as many tasters; with few tasters they are somewhat too narrow. Each interval stands for itself: of
    twenty families without any link about one shows one by luck at 0.95. It does not say whether word or
    colour came first, nor whether both came from the coffee.
    Source: [EfronTibshirani1993], chapter 13, whole clusters drawn.
    """
    kept = list(cups)
    tasters = sorted({cup.taster for cup in kept})
    if len(tasters) < LEAST_TASTERS:
        raise TooFewObservations(
            f"{len(tasters)} tasters picked a colour; what goes together needs {LEAST_TASTERS}.",
            todo="Wait for more tables.",
        )
    rng = np.random.default_rng(seed)
    weights = rng.multinomial(len(tasters), np.full(len(tasters), 1 / len(tasters)), size=DRAWS).astype(float)
    row = {taster: at for at, taster in enumerate(tasters)}
    found = []
    for family in lexicon.families:
        having = np.array([_has(family, cup, lexicon) for cup in kept])
        if _enough(kept, having):
            shifts = _shifts(_sums(kept, row, having), _sums(kept, row, ~having), weights, level)
            found.append(_family_colour(family, kept, having, shifts, lexicon))
    return tuple(sorted(found, key=lambda one: (-one.difference, one.family)))


def _has(family: str, cup: ColouredCup, lexicon: Lexicon) -> bool:
    return any(lexicon[concept].family == family for concept in cup.concepts)


def _enough(cups: Sequence[ColouredCup], having: NDArray[np.bool_]) -> bool:
    users = {cup.taster for cup, has in zip(cups, having, strict=True) if has}
    return len(users) >= LEAST_TASTERS and not having.all()


def _shifts(here: Floats, there: Floats, weights: Floats, level: float) -> list[Shift]:
    """Lightness, red and yellow: here less there, with intervals from weighted tasters."""
    ones = np.ones((1, len(here)))
    seen = (_means(ones, here) - _means(ones, there))[0]
    drawn = _means(weights, here) - _means(weights, there)
    low, high = np.nanquantile(drawn, [(1 - level) / 2, (1 + level) / 2], axis=0)
    return [Shift(*map(float, side)) for side in zip(seen, low, high, strict=True)]


def _family_colour(
    family: str,
    cups: Sequence[ColouredCup],
    having: NDArray[np.bool_],
    shifts: Sequence[Shift],
    lexicon: Lexicon,
) -> FamilyColour:
    here = [cup for cup, has in zip(cups, having, strict=True) if has]
    colour = mean_colour([cup.colour for cup in here])
    elsewhere = mean_colour([cup.colour for cup, has in zip(cups, having, strict=True) if not has])
    return FamilyColour(
        family,
        lexicon[family].label,
        len(here),
        len({cup.taster for cup in here}),
        colour,
        elsewhere,
        colour_difference(colour, elsewhere),
        *shifts,
    )


def _sums(cups: Sequence[ColouredCup], row: Mapping[str, int], which: NDArray[np.bool_]) -> Floats:
    """Per taster: sums of l, a and b and the number of cups, shape (n_tasters, 4)."""
    sums = np.zeros((len(row), 4))
    for cup, wanted in zip(cups, which, strict=True):
        if wanted:
            sums[row[cup.taster]] += (cup.colour.l, cup.colour.a, cup.colour.b, 1.0)
    return sums


def _means(weights: Floats, sums: Floats) -> Floats:
    """Mean colours, shape (n_draws, 3); NaN for a draw without such a cup."""
    totals = weights @ sums
    count = totals[:, 3:]
    means: Floats = np.divide(totals[:, :3], count, out=np.full((len(totals), 3), np.nan), where=count > 0)
    return means
