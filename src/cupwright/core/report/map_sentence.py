"""The sentence before a map: which coffees lie together, which apart, and toward what."""

from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.axis_words import CHANCE, AxisWords
from cupwright.core.analyse.regions import AXES, Regions
from cupwright.core.analyse.table_map import TableMap
from cupwright.core.report.wording import capital, counted, listed

Floats = NDArray[np.float64]

# More names than this in a sentence are read by nobody; the table has them.
_MOST_NAMED = 6
_FEW_PAIRS = 3


def map_sentence(found: TableMap) -> str:
    """The answer: with regions what is sure, without them what is near and what is far."""
    if not found.beyond_chance:
        return (
            "Nothing shows that the coffees lie farther apart than chance alone would put them: "
            "the map may be a picture of chance."
        )
    if found.regions is None:
        return _as_it_lies(found)
    return places_sentence(found.regions, found.words)


def places_sentence(regions: Regions, words: tuple[AxisWords, ...]) -> str:
    """Who lies apart from all others, toward what; and who cannot be told apart."""
    alike = regions.apart > CHANCE
    np.fill_diagonal(alike, True)
    parts: list[str] = []
    alone = [row for row in range(len(alike)) if alike[row].sum() == 1]
    parts += [_apart(regions, row, words) for row in alone[:_MOST_NAMED]]
    if len(alone) > _MOST_NAMED:
        parts = [f"{counted(len(alone), 'coffee')} lie apart from all others"]
    for group in _groups(alike):
        names = [regions.coffees[row] for row in group]
        said = listed(names) if len(names) <= _MOST_NAMED else counted(len(names), "coffee")
        if alike[np.ix_(group, group)].all():
            parts.append(f"{said} lie together: they cannot be told apart here")
        else:
            parts.append(f"{said} run into each other: {_told_apart(regions, group, alike)}")
    return capital("; ".join(parts)) + "."


def _apart(regions: Regions, row: int, words: tuple[AxisWords, ...]) -> str:
    toward = _toward(regions.centres[row], words)
    return f"{regions.coffees[row]} lies apart{f', toward {toward}' if toward else ''}"


def _told_apart(regions: Regions, group: list[int], alike: NDArray[np.bool_]) -> str:
    """Which two of a group can be told apart, where these are few."""
    pairs = [(first, second) for first, second in combinations(group, 2) if not alike[first, second]]
    if len(pairs) > _FEW_PAIRS:
        return "not every two of them can be told apart"
    said = [f"{regions.coffees[first]} from {regions.coffees[second]}" for first, second in pairs]
    return f"of them only {listed(said)} can be told apart"


def _groups(alike: NDArray[np.bool_]) -> list[list[int]]:
    """Coffees joined by pairs that cannot be told apart, two or more each."""
    left, groups = set(range(len(alike))), []
    while left:
        reached, edge = set(), {min(left)}
        while edge:
            reached |= edge
            edge = {int(one) for row in edge for one in np.flatnonzero(alike[row])} - reached
        left -= reached
        groups.append(sorted(reached))
    return [group for group in groups if len(group) > 1]


def _as_it_lies(found: TableMap) -> str:
    """Without regions: the nearest two and the farthest one, as this table has them."""
    points = np.asarray(found.factor.points[:, :AXES])
    gaps = np.linalg.norm(points[:, None] - points[None], axis=2)
    np.fill_diagonal(gaps, np.inf)
    first, second = sorted(np.unravel_index(int(np.argmin(gaps)), gaps.shape))
    far = int(np.argmax(np.linalg.norm(points, axis=1)))
    names = found.factor.coffees
    toward = _toward(points[far], found.words)
    return (
        f"{names[first]} and {names[second]} lie nearest to each other; {names[far]} lies farthest out"
        f"{f', toward {toward}' if toward else ''}. "
        f"{capital(counted(len(found.tasters), 'taster'))} cannot say how sure these places are."
    )


def _toward(place: Floats, words: tuple[AxisWords, ...]) -> str:
    """The words at the end to which a place lies, on the axis along which it lies farther out."""
    axes = sorted(range(min(len(words), len(place))), key=lambda axis: -abs(place[axis]))
    if not axes:
        return ""
    axis = axes[0]
    return listed(words[axis].high if place[axis] > 0 else words[axis].low)
