"""Maps: named points in two dimensions, equally long units on both axes, regions as light rings.

The role of a point is its shape: a coffee is a full round, a word a small hollow square, a taster a triangle.
A row may hold `text_x` and `text_y`, the centre of its name; without them it stands right of its point.
"""

from collections.abc import Iterable, Sequence
from typing import Any

import altair as alt

from cupwright.core.report.document import Cell, Figure
from cupwright.render.palette import ACCENT, FACE, HAIRLINE, INK, PAPER, QUIET

Row = dict[str, Cell]

_WIDTH, _HIGHEST, _LETTER, _LINE = 460, 520, 6.4, 14
_DASHES = ([1, 0], [6, 3], [2, 2], [9, 3, 2, 3])
_MARKS: dict[str, dict[str, Any]] = {
    "coffee": {"shape": "circle", "size": 95, "fill": ACCENT, "stroke": PAPER, "strokeWidth": 1.25},
    "word": {"shape": "square", "size": 26, "fill": PAPER, "stroke": QUIET, "strokeWidth": 1.25},
    "taster": {"shape": "triangle-up", "size": 60, "fill": PAPER, "stroke": INK, "strokeWidth": 1.5},
}
_WRITTEN: dict[str, dict[str, Any]] = {
    "coffee": {"fontSize": 14, "fontWeight": "bold", "color": INK},
    "word": {"fontSize": 12, "fontStyle": "italic", "color": QUIET},
    "taster": {"fontSize": 12, "color": INK},
}


def maps(figure: Figure) -> Any:
    """Regions under points under names."""
    points = [row for row in figure.rows if row.get("role") != "region"]
    rings = [row for row in figure.rows if row.get("role") == "region"]
    across, up, size = _frame(figure.rows)
    x = alt.X("x:Q", scale=_scale(across), axis=_axis(figure.x_title))
    y = alt.Y("y:Q", scale=_scale(up), axis=_axis(figure.y_title))
    layers = [
        _chart([{"x": 0}]).mark_rule(color=HAIRLINE, strokeDash=[2, 3]).encode(x),
        _chart([{"y": 0}]).mark_rule(color=HAIRLINE, strokeDash=[2, 3]).encode(y),
        *_regions(rings, x, y),
        _leaders(points, x, y),
    ]
    for role, mark in _MARKS.items():
        own = [row for row in points if row.get("role") == role]
        if own:
            layers.append(_chart(own).mark_point(opacity=1, **mark).encode(x, y))
    return alt.layer(*layers, *_names(points, across, up)).properties(width=size[0], height=size[1])


def _regions(rings: Sequence[Row], x: Any, y: Any) -> list[Any]:
    """Each region a light area with an edge, its dashes its own."""
    layers = []
    for place, label in enumerate(dict.fromkeys(row["label"] for row in rings)):
        edge = sorted((row for row in rings if row["label"] == label), key=lambda row: _number(row["ring"]))
        closed = [*edge, {**edge[0], "ring": len(edge) + 1}]
        mark: dict[str, Any] = {"stroke": ACCENT, "strokeWidth": 1.1, "fill": ACCENT, "fillOpacity": 0.07}
        drawn = _chart(closed).mark_line(strokeDash=_DASHES[place % len(_DASHES)], **mark)
        layers.append(drawn.encode(x, y, alt.Order("ring:Q")))
    return layers


def _leaders(points: Sequence[Row], x: Any, y: Any) -> Any:
    """A thin line from a point to a name that had to move away."""
    moved = [row for row in points if row.get("text_x") is not None]
    rule = _chart(moved).mark_rule(color=QUIET, strokeWidth=0.6, opacity=0.6)
    return rule.encode(x, y, alt.X2("text_x:Q"), alt.Y2("text_y:Q"))


def _names(points: Sequence[Row], across: tuple[float, float], up: tuple[float, float]) -> list[Any]:
    """The names, words first so that coffees lie on top; each on a halo of the page, so that lines pass."""
    layers = []
    for role in ("word", "taster", "coffee"):
        own = [row for row in points if row.get("role") == role]
        for placed in (True, False):
            rows = [row for row in own if (row.get("text_x") is not None) is placed]
            if not rows:
                continue
            at = ("text_x:Q", "text_y:Q") if placed else ("x:Q", "y:Q")
            where: dict[str, Any] = {"align": "center"} if placed else {"align": "left", "dx": 9}
            x, y = alt.X(at[0], scale=_scale(across)), alt.Y(at[1], scale=_scale(up))
            halo = _chart(rows).mark_text(
                font=FACE,
                baseline="middle",
                **where,
                **{**_WRITTEN[role], "color": PAPER},
                stroke=PAPER,
                strokeWidth=3,
            )
            text = _chart(rows).mark_text(font=FACE, baseline="middle", **where, **_WRITTEN[role])
            layers += [halo.encode(x, y, alt.Text("label:N")), text.encode(x, y, alt.Text("label:N"))]
    return layers


def _frame(rows: Sequence[Row]) -> tuple[tuple[float, float], tuple[float, float], tuple[int, int]]:
    """The ends of both axes and the size of the picture, one unit as long across as up."""
    across, up = _ends(row["x"] for row in rows), _ends(row["y"] for row in rows)
    unit = max((across[1] - across[0]) / _WIDTH, (up[1] - up[0]) / _HIGHEST)
    beside = [(row, _written_at(row, unit)) for row in rows if row.get("role") != "region"]
    across = _ends((*across, *(end for _, box in beside for end in box[:2])))
    up = _ends((*up, *(end for _, box in beside for end in box[2:])))
    air = 0.04 * max(across[1] - across[0], up[1] - up[0])
    across, up = (across[0] - air, across[1] + air), (up[0] - air, up[1] + air)
    unit = max((across[1] - across[0]) / _WIDTH, (up[1] - up[0]) / _HIGHEST)
    return across, up, (round((across[1] - across[0]) / unit), round((up[1] - up[0]) / unit))


def _written_at(row: Row, unit: float) -> tuple[float, float, float, float]:
    """The box that a row's name fills: left, right, lower, upper."""
    half = _LETTER * len(str(row["label"])) / 2 * unit
    x = _number(row["text_x"]) if row.get("text_x") is not None else _number(row["x"]) + half + 9 * unit
    y = _number(row["text_y"]) if row.get("text_y") is not None else _number(row["y"])
    return x - half, x + half, y - _LINE / 2 * unit, y + _LINE / 2 * unit


def _ends(cells: Iterable[Cell]) -> tuple[float, float]:
    """From the least to the greatest; never no width at all."""
    numbers = [_number(cell) for cell in cells]
    low, high = min(numbers, default=0.0), max(numbers, default=0.0)
    return (low, high) if high > low else (low - 0.5, high + 0.5)


def _scale(ends: tuple[float, float]) -> alt.Scale:
    return alt.Scale(domain=list(ends), nice=False, zero=False)


def _axis(title: str) -> alt.Axis:
    return alt.Axis(title=title or None, tickCount=4, grid=False, labels=False, ticks=False)


def _chart(rows: Sequence[Any]) -> Any:
    return alt.Chart({"values": list(rows)})


def _number(cell: Cell) -> float:
    return float(cell) if isinstance(cell, int | float) else 0.0
