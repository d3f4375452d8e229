"""What does the table look like in two dimensions? A sentence, the map, its places, and how much it shows."""

from collections.abc import Sequence
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.axis_words import AxisWords
from cupwright.core.analyse.map_answers import MapAnswers
from cupwright.core.analyse.map_labels import label_places
from cupwright.core.analyse.regions import AXES, Regions
from cupwright.core.analyse.rv import rv_coefficient
from cupwright.core.analyse.table_map import TableMap, table_map
from cupwright.core.report.document import (
    Block,
    Caveat,
    Cell,
    Column,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.map_sentence import map_sentence
from cupwright.core.report.wording import counted, level_name, listed, percent
from cupwright.errors import Refused

Floats = NDArray[np.float64]
Row = dict[str, Cell]

HEADING = "What does the table look like in two dimensions?"
_MOST_COLUMNS, _LEAST_SHOWN = 12, 0.5
_DEALS = 499
_MOST_TASTERS = 60


def map_section(answers: MapAnswers, *, level: float = 0.95) -> tuple[Block, ...]:
    """The map of all kinds of answers together; a sentence instead where there is none to draw."""
    try:
        found = table_map(answers, level=level)
    except Refused as refused:
        return (Heading(HEADING), Paragraph(f"There is no map. {refused.message}"))
    return (
        Heading(HEADING),
        Paragraph(map_sentence(found)),
        _figure(found),
        _places(found),
        _columns(found),
        *_kinds(found),
        *_tasters(found),
        *_caveats(found),
    )


def axis_title(words: AxisWords | None, axis: int, share: float) -> str:
    """What stands along an axis: its words, or its number where it is silent, and how much it shows."""
    text = words.text if words is not None else ""
    return f"{text or f'axis {axis}'} ({percent(share)})"


def region_rows(regions: Regions | None) -> tuple[Row, ...]:
    """The rows of a figure that draw the regions."""
    if regions is None:
        return ()
    return tuple(
        {"label": name, "ring": step, "x": float(x), "y": float(y), "role": "region"}
        for coffee, name in enumerate(regions.coffees)
        for step, (x, y) in enumerate(regions.ring(coffee), 1)
    )


def point_rows(named: Sequence[tuple[str, str]], places: Floats, edges: Sequence[Row]) -> tuple[Row, ...]:
    """The rows of named points, (name, role) each, with a place for every name."""
    ends = [float(row["x"] or 0.0) for row in edges] + [float(x) for x in places[:, 0]]
    span = 1.25 * (max(ends) - min(ends)) or 1.0
    texts = label_places(places, [name for name, _ in named], span=span)
    return tuple(
        {
            "label": name,
            "x": float(x),
            "y": float(y),
            "role": role,
            "text_x": float(right),
            "text_y": float(up),
        }
        for (name, role), (x, y), (right, up) in zip(named, places, texts, strict=True)
    )


def two_axes(points: Floats) -> Floats:
    """The first two axes; zeros for the second where there is none."""
    return np.pad(points[:, :AXES], ((0, 0), (0, max(0, AXES - points.shape[1]))))


def _figure(found: TableMap) -> Figure:
    places = two_axes(found.factor.points)
    shown = _shown_columns(found)
    reach = float(np.abs(places).max())
    words = two_axes(found.factor.correlations)[shown] * reach
    named = [(name, "coffee") for name in found.factor.coffees]
    named += [(found.columns[one], "word") for one in shown]
    edges = region_rows(found.regions)
    titles = [
        axis_title(_at(found.words, axis), axis + 1, float(found.factor.shares[axis]))
        if axis < len(found.factor.shares)
        else ""
        for axis in range(AXES)
    ]
    return Figure(
        kind=FigureKind.MAP,
        rows=(*point_rows(named, np.vstack([places, words]), edges), *edges),
        alt=_alt(found, places),
        caption=_caption(found, bool(shown)),
        x_title=titles[0],
        y_title=titles[1],
        name="map",
    )


def _at(words: Sequence[AxisWords], axis: int) -> AxisWords | None:
    return words[axis] if axis < len(words) else None


def _shown_columns(found: TableMap) -> list[int]:
    """The columns that the two axes show well, the best first; none where the map may be chance."""
    if not found.beyond_chance:
        return []
    shown = np.sum(found.factor.correlations[:, :AXES] ** 2, axis=1)
    order = sorted(range(len(shown)), key=lambda one: (-shown[one], found.columns[one]))
    return [one for one in order if shown[one] >= _LEAST_SHOWN][:_MOST_COLUMNS]


def _alt(found: TableMap, places: Floats) -> str:
    said = "; ".join(
        f"{name} at {x:.1f}, {y:.1f}" for name, (x, y) in zip(found.factor.coffees, places, strict=True)
    )
    return f"{map_sentence(found)} Places (right, up): {said}."


def _caption(found: TableMap, words: bool) -> str:
    text = "Coffees that lie close got much the same answers. One unit is equally long across and up."
    if words:
        text += " A word stands where coffees have more of it, far out if the map shows it well."
    if found.regions is not None:
        text += (
            f" Each ring holds the coffee's place with {level_name(found.regions.level)} confidence, "
            "for tasters like these."
        )
    return text


def _places(found: TableMap) -> TableBlock:
    axes = range(min(AXES, found.factor.points.shape[1]))
    return TableBlock(
        columns=(
            Column("Coffee"),
            *(Column(f"Axis {axis + 1}", 2, "right") for axis in axes),
            Column("Shown here, %", 0, "right"),
            *(Column(f"Part of axis {axis + 1}, %", 0, "right") for axis in axes),
        ),
        rows=tuple(
            (
                name,
                *(float(found.factor.points[row, axis]) for axis in axes),
                100 * float(found.factor.quality[row, list(axes)].sum()),
                *(100 * float(found.factor.contributions[row, axis]) for axis in axes),
            )
            for row, name in enumerate(found.factor.coffees)
        ),
        caption="Places on the map; how much of a coffee's distance from the middle the two axes show; and "
        "how much of each axis it makes.",
        name="map-places",
    )


def _columns(found: TableMap) -> TableBlock:
    axes = range(min(AXES, found.factor.points.shape[1]))
    order = np.argsort(-np.sum(found.factor.correlations[:, list(axes)] ** 2, axis=1), kind="stable")
    return TableBlock(
        columns=(
            Column("Answer"),
            Column("Kind"),
            *(Column(f"With axis {axis + 1}", 2, "right") for axis in axes),
        ),
        rows=tuple(
            (
                found.columns[one],
                found.factor.group_of[one],
                *(float(found.factor.correlations[one, axis]) for axis in axes),
            )
            for one in order
        ),
        caption="Correlation of each answer with the axes, those that the map shows best first.",
        name="map-answers",
    )


def _kinds(found: TableMap) -> tuple[Block, ...]:
    """Whether points, words and colours say the same of the coffees."""
    if len(found.kinds) < 2:
        return ()
    rows = tuple(
        (f"{first} and {second}", *_alike(_of_kind(found, first), _of_kind(found, second)))
        for first, second in combinations(found.kinds, 2)
    )
    return (
        _alike_table(rows, "Kinds of answers", "Do the kinds of answers put the coffees alike?", "map-kinds"),
    )


def _of_kind(found: TableMap, kind: str) -> Floats:
    chosen = [index for index, name in enumerate(found.factor.group_of) if name == kind]
    return np.asarray(found.own.mean(axis=0)[:, chosen])


def _tasters(found: TableMap) -> tuple[Block, ...]:
    """Each taster's own arrangement beside that of the others."""
    count = len(found.own)
    if not 3 <= count <= _MOST_TASTERS or not found.complete:
        return ()
    total = found.own.sum(axis=0)
    rows = tuple(
        (name, *_alike(own, (total - own) / (count - 1)))
        for name, own in zip(found.tasters, found.own, strict=True)
    )
    caption = "Does a taster put the coffees as the others together do?"
    return (_alike_table(rows, "Taster", caption, "map-tasters"),)


def _alike(first: Floats, second: Floats) -> tuple[Cell, Cell, Cell]:
    """RV, what chance gives taken off, and its p value; nothing where it cannot be had."""
    try:
        found = rv_coefficient(first, second, draws=_DEALS)
    except Refused:
        return None, None, None
    return found.estimate, found.adjusted, found.p_value


def _alike_table(rows: tuple[tuple[Cell, ...], ...], head: str, caption: str, name: str) -> TableBlock:
    return TableBlock(
        columns=(
            Column(head),
            Column("RV", 2, "right"),
            Column("less chance", 2, "right"),
            Column("p", 3, "right"),
        ),
        rows=rows,
        caption=f"{caption} RV: 1 for the same arrangement. Less chance: 0 for coffees in random order.",
        name=name,
    )


def _caveats(found: TableMap) -> tuple[Block, ...]:
    shown = float(found.factor.shares[:AXES].sum())
    said = [
        f"The map shows {percent(shown)} of what the coffees differ in; two that lie close on it may differ "
        "in the rest.",
        f"It is made from the {listed(found.kinds)} of {counted(len(found.tasters), 'taster')}, each "
        f"taster's own level set aside.",
    ]
    if len(found.kinds) > 1:
        said.append("Each kind of answer weighs the same.")
    if found.why_no_regions:
        said.append(found.why_no_regions)
    if found.left_out:
        said.append(
            f"Left out, because a coffee has no such answer or all have the same: {listed(found.left_out)}."
        )
    return tuple(Caveat(one) for one in said)
