"""Lines: how something moves with a number; small multiples, every line named at its end.

Dashes tell lines apart as well as their names do, and every band has edges, so that a grey print says it too.
The x axis runs as `figure.domain` says, from the hot end to the cool one for instance.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

import altair as alt

from cupwright.core.report.document import Cell, Figure
from cupwright.render.palette import ACCENT, FACE, HAIRLINE, INK, PAPER, QUIET

Row = dict[str, Cell]

_WHOLE, _HALF, _HEIGHT, _NAME, _LINE = 440, 205, 150, 96, 15
_DASHES = ([1, 0], [7, 3], [2, 2], [9, 3, 2, 3], [4, 4], [1, 3])
_COLOURS = (ACCENT, INK, QUIET)


@dataclass(frozen=True, slots=True)
class _Axes:
    """What all panels share: the ends of both axes and their titles."""

    across: tuple[float, float]
    up: tuple[float, float]
    titles: tuple[str, str]

    def encoded(self, field: str) -> tuple[Any, Any]:
        """The channels x and y, y holding `field`."""
        x = alt.Axis(title=self.titles[0] or None, tickCount=5)
        y = alt.Axis(title=self.titles[1] or None, tickCount=5, gridColor=HAIRLINE, domain=False)
        return (
            alt.X("x:Q", scale=_scale(self.across), axis=x),
            alt.Y(f"{field}:Q", scale=_scale(self.up), axis=y),
        )


def lines(figure: Figure) -> Any:
    """One panel a group, all on the same axes, two beside each other where there are several."""
    groups = [(name, list(rows)) for name, rows in groupby(figure.rows, key=lambda row: row.get("group"))]
    across = figure.domain or _ends(figure.rows, ("x",))
    up = _ends(figure.rows, ("low", "estimate", "high"))
    axes = _Axes(across, up, (figure.x_title, figure.y_title))
    order = list(dict.fromkeys(str(row["label"]) for row in figure.rows))
    width = _WHOLE if len(groups) == 1 else _HALF
    panels = [_panel(rows, axes, order).properties(width=width, height=_HEIGHT) for _, rows in groups]
    titled = [_titled(panel, name) for panel, (name, _) in zip(panels, groups, strict=True)]
    return alt.concat(*titled, columns=2, spacing={"row": 14, "column": 12})


def _titled(panel: Any, name: Cell) -> Any:
    if not name:
        return panel
    return panel.properties(title=alt.Title(str(name), anchor="start", frame="bounds", offset=4))


def _panel(rows: Sequence[Row], axes: _Axes, order: list[str]) -> Any:
    layers: list[Any] = []
    ends: list[Row] = []
    for label in dict.fromkeys(str(row["label"]) for row in rows):
        own = [row for row in rows if row["label"] == label]
        own.sort(key=lambda row: _number(row["x"]), reverse=axes.across[1] < axes.across[0])
        layers += _line(own, axes, order.index(label))
        ends.append(own[-1])
    return alt.layer(*layers, _names(ends, axes))


def _line(rows: Sequence[Row], axes: _Axes, place: int) -> list[Any]:
    """The line over its band, which is light and has edges."""
    colour, dash = _COLOURS[place % len(_COLOURS)], _DASHES[place % len(_DASHES)]
    sure = _chart([row for row in rows if row.get("low") is not None])
    band = sure.mark_area(color=colour, opacity=0.1)
    edge = sure.mark_line(color=colour, strokeWidth=0.6, opacity=0.75)
    line = _chart(rows).mark_line(color=colour, strokeWidth=2, strokeDash=dash)
    end = _chart(rows[-1:]).mark_circle(color=colour, size=40, opacity=1, stroke=PAPER, strokeWidth=1)
    return [
        band.encode(*axes.encoded("low"), alt.Y2("high:Q")),
        edge.encode(*axes.encoded("low")),
        edge.encode(*axes.encoded("high")),
        line.encode(*axes.encoded("estimate")),
        end.encode(*axes.encoded("estimate")),
    ]


def _names(ends: Sequence[Row], axes: _Axes) -> Any:
    """The name of each line beside its end, pushed apart so that none is written over another."""
    low, high = axes.up
    step = (high - low) * _LINE / _HEIGHT
    places: list[float] = []
    ordered = sorted(ends, key=lambda row: _number(row["estimate"]))
    for row in ordered:
        places.append(max(_number(row["estimate"]), places[-1] + step if places else low))
    over = max(0.0, places[-1] - high)
    named = [
        {"x": row["x"], "estimate": place - over, "label": row["label"]}
        for row, place in zip(ordered, places, strict=True)
    ]
    text = _chart(named).mark_text(align="left", dx=8, color=INK, font=FACE, fontSize=12, limit=_NAME)
    return text.encode(*axes.encoded("estimate"), alt.Text("label:N"))


def _chart(rows: Sequence[Any]) -> Any:
    return alt.Chart({"values": list(rows)})


def _scale(ends: tuple[float, float]) -> alt.Scale:
    return alt.Scale(domain=list(ends), nice=False, zero=False)


def _ends(rows: Sequence[Row], keys: tuple[str, ...]) -> tuple[float, float]:
    """From the least to the greatest, with a little air; never no width at all."""
    numbers = [_number(row[key]) for row in rows for key in keys if row.get(key) is not None]
    low, high = min(numbers), max(numbers)
    air = 0.04 * (high - low) if high > low else 0.5
    return low - air, high + air


def _number(cell: Cell) -> float:
    return float(cell) if isinstance(cell, int | float) else 0.0
