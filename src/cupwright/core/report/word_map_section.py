"""Which words go with which coffees: the map of words alone, by correspondence analysis."""

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.axis_chance import DEALS, affordable, axes_beyond_chance
from cupwright.core.analyse.axis_words import CHANCE, AxisWords
from cupwright.core.analyse.correspondence import Correspondence, correspondence
from cupwright.core.analyse.map_answers import MOST_COFFEES, WORDS, MapAnswers
from cupwright.core.analyse.regions import AXES, Regions, correspondence_regions
from cupwright.core.analyse.resamples import DRAWS
from cupwright.core.report.document import (
    Block,
    Caveat,
    Column,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.map_section import axis_title, point_rows, region_rows, two_axes
from cupwright.core.report.map_sentence import places_sentence
from cupwright.core.report.wording import counted, listed, percent
from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]

HEADING = "Which words go with which coffees?"
_FEWEST = 3
_MOST_WORDS = 14
_NEAR = 3
_FEWEST_DRAWS = 200


def word_map_section(answers: MapAnswers, *, level: float = 0.95) -> tuple[Block, ...]:
    """The map of coffees and words; a sentence instead where there is none, nothing where nobody wrote."""
    if not any(kind.name == WORDS for kind in answers.kinds):
        return ()
    try:
        used, coffees, words = _used(answers)
        found = correspondence(used.sum(axis=0), coffees=coffees, words=words)
    except Refused as refused:
        return (Heading(HEADING), Paragraph(f"There is no map of words. {refused.message}"))
    deals = affordable(DEALS, used.size)
    chance = axes_beyond_chance(_habits_out(used), deals=deals) if len(used) > 1 else np.ones(AXES)
    sure = bool(chance[0] <= CHANCE)
    regions, why_not = _regions(used, coffees, sure, level)
    silences = [f"No regions are drawn. {why_not}"] if why_not else []
    return (
        Heading(HEADING),
        Paragraph(_sentence(found, regions, sure)),
        _figure(found, regions, sure),
        _table(found),
        *(Caveat(one) for one in (*silences, _shown(found, len(used)))),
    )


def _used(answers: MapAnswers) -> tuple[Floats, tuple[str, ...], tuple[str, ...]]:
    """Use of each word, (n_tasters, n_coffees, n_words), of coffees with any word and tasters who wrote."""
    kind = next(one for one in answers.kinds if one.name == WORDS)
    used = np.nan_to_num(kind.values)
    wrote, named = used.any(axis=(1, 2)), used.any(axis=(0, 2))
    used = used[wrote][:, named]
    if named.sum() > MOST_COFFEES:
        raise Refused(
            f"A map of {int(named.sum()):,} coffees is read by nobody; {MOST_COFFEES} are the most."
        )
    said = used.any(axis=(0, 1)) if used.size else np.zeros(len(kind.columns), dtype=bool)
    if named.sum() < _FEWEST or said.sum() < _FEWEST:
        raise TooFewObservations(
            f"It needs {_FEWEST} coffees and {_FEWEST} words that two tasters used; "
            f"here are {int(named.sum())} and {int(said.sum())}."
        )
    coffees = tuple(answers.coffees[one] for one in np.flatnonzero(named))
    words = tuple(kind.columns[one] for one in np.flatnonzero(said))
    return np.asarray(used[:, :, said]), coffees, words


def _habits_out(used: Floats) -> Floats:
    """Each word on the scale of the map, so that a common word does not drown the others."""
    return np.asarray(used / np.sqrt(used.sum(axis=(0, 1)) / used.sum()))


def _regions(used: Floats, coffees: tuple[str, ...], sure: bool, level: float) -> tuple[Regions | None, str]:
    if not sure:
        return None, "The places themselves may be chance."
    try:
        draws = affordable(DRAWS, used.size, least=_FEWEST_DRAWS)
        return correspondence_regions(used, coffees=coffees, level=level, draws=draws), ""
    except Refused as refused:
        return None, refused.message


def _sentence(found: Correspondence, regions: Regions | None, sure: bool) -> str:
    if not sure:
        return (
            "Nothing shows that tasters used other words for one coffee than for another: "
            "the map may be a picture of chance."
        )
    near = "; ".join(f"{name}: {listed(words)}" for name, words in _nearest(found) if words)
    told = f"{places_sentence(regions, ())} " if regions is not None else ""
    return f"{told}Words that each coffee has more than its share of: {near}."


def _nearest(found: Correspondence) -> list[tuple[str, list[str]]]:
    """For each coffee the words that pull it most out of the middle, on the two axes."""
    rows, columns = two_axes(found.row_points), two_axes(found.column_points)
    roots = np.sqrt(np.maximum(found.inertias[:AXES], 1e-300))
    pull = (rows[:, : len(roots)] / roots) @ columns[:, : len(roots)].T * found.column_masses
    order = np.argsort(-pull, axis=1, kind="stable")[:, :_NEAR]
    return [
        (name, [found.columns_named[one] for one in best if pull[row, one] > 0])
        for row, (name, best) in enumerate(zip(found.rows_named, order, strict=True))
    ]


def _figure(found: Correspondence, regions: Regions | None, sure: bool) -> Figure:
    weight = found.column_contributions[:, :AXES] @ found.inertias[:AXES]
    shown = sorted(range(len(weight)), key=lambda one: (-weight[one], found.columns_named[one]))[:_MOST_WORDS]
    rows, words = two_axes(found.row_points), two_axes(found.column_points)[shown]
    named = [(name, "coffee") for name in found.rows_named]
    named += [(found.columns_named[one], "word") for one in shown]
    edges = region_rows(regions)
    said = "; ".join(f"{name}: {listed(words)}" for name, words in _nearest(found) if words)
    left = len(weight) - len(shown)
    return Figure(
        kind=FigureKind.MAP,
        rows=(*point_rows(named, np.vstack([rows, words]), edges), *edges),
        alt=f"Map of coffees and their words. Nearest words: {said}.",
        caption="A word lies in the direction of the coffees for which it was used more than elsewhere."
        + (f" {counted(left, 'word')} that shape the map least left out." if left else ""),
        x_title=_title(found, 0, sure),
        y_title=_title(found, 1, sure),
        name="word-map",
    )


def _title(found: Correspondence, axis: int, sure: bool) -> str:
    """The words that make most of an axis, at either end; none where it may be chance."""
    if axis >= len(found.shares):
        return ""
    places, parts = found.column_points[:, axis], found.column_contributions[:, axis]
    order = np.argsort(-parts, kind="stable")
    strong = [one for one in order if sure and parts[one] > 1 / len(parts)]
    low = tuple(found.columns_named[one] for one in strong if places[one] < 0)[:2]
    high = tuple(found.columns_named[one] for one in strong if places[one] > 0)[:2]
    return axis_title(AxisWords(low, high, None), axis + 1, float(found.shares[axis]))


def _table(found: Correspondence) -> TableBlock:
    axes = range(min(AXES, len(found.inertias)))
    parts = (
        ("coffee", found.rows_named, found.row_points, found.row_masses, found.row_contributions),
        ("word", found.columns_named, found.column_points, found.column_masses, found.column_contributions),
    )
    return TableBlock(
        columns=(
            Column("Name"),
            Column("What"),
            Column("Share of all uses, %", 1, "right"),
            *(Column(f"Axis {axis + 1}", 2, "right") for axis in axes),
            *(Column(f"Part of axis {axis + 1}, %", 0, "right") for axis in axes),
        ),
        rows=tuple(
            (
                name,
                role,
                100 * float(masses[row]),
                *(float(points[row, axis]) for axis in axes),
                *(100 * float(contributions[row, axis]) for axis in axes),
            )
            for role, names, points, masses, contributions in parts
            for row, name in enumerate(names)
        ),
        caption="Places of coffees and words (principal coordinates); how much of each axis each makes.",
        name="word-map-places",
    )


def _shown(found: Correspondence, tasters: int) -> str:
    return (
        f"The map shows {percent(float(found.shares[:AXES].sum()))} of what the words of "
        f"{counted(tasters, 'taster')} differ in. A rare word lies far out and weighs little: read its part "
        "of the axis."
    )
