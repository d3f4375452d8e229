"""Figures: each picture defined once, drawn as SVG for screen and paper.

Position and shape carry what is shown, colour only repeats it, so that a grey print says the same. The few
colours are written as exact values, which lets the page restyle them in the dark (templates/report.html).
"""

from collections.abc import Callable, Sequence
from html import escape
from itertools import groupby
from typing import Any

import altair as alt
import vl_convert

from cupwright.core.report.document import Cell, Figure, FigureKind
from cupwright.render.line_figure import lines
from cupwright.render.map_figure import maps
from cupwright.render.palette import ACCENT, FACE, HAIRLINE, INK, PAPER, QUIET
from cupwright.render.printable import printable_figure

Row = dict[str, Cell]

_WIDTH, _LABELS, _ROW = 420, 170, 23
_ROUND, _WIDEST_STEP = 26, 34


def figure_svg(figure: Figure) -> str:
    """The picture as one SVG element that carries its text equivalent."""
    svg = str(vl_convert.vegalite_to_svg(figure_spec(figure)))
    return svg.replace("<svg ", f'<svg role="img" aria-label="{escape(printable_figure(figure).alt)}" ', 1)


def figure_spec(figure: Figure) -> dict[str, Any]:
    """The Vega-Lite definition of the picture. Users' text is data or a title, never an expression."""
    chart = _DRAWN[figure.kind](printable_figure(figure)).properties(background="transparent", padding=4)
    spec: dict[str, Any] = chart.configure(**_CONFIG).to_dict()
    return spec


def _intervals(figure: Figure) -> Any:
    """A dot on a line for each label; one panel a group, all on one axis."""
    domain = figure.domain or _reach(figure.rows)
    groups = [(name, list(rows)) for name, rows in groupby(figure.rows, lambda row: row.get("group"))]
    last = len(groups) - 1
    panels = [
        _titled(_panel(rows, "estimate", domain, figure.x_title if index == last else ""), name)
        for index, (name, rows) in enumerate(groups)
    ]
    return alt.vconcat(*panels, spacing=10)


def _titled(panel: Any, name: Cell) -> Any:
    if not name:
        return panel
    return panel.properties(title=alt.Title(str(name), anchor="start", frame="bounds", offset=4))


def _dots(figure: Figure) -> Any:
    """Rounds for few tasters, a dot with its interval for many."""
    if any("of" in row for row in figure.rows):
        return _rounds(figure.rows)
    return _panel(figure.rows, "value", figure.domain or _reach(figure.rows), figure.x_title)


def _panel(rows: Sequence[Row], value: str, domain: tuple[float, float], x_title: str) -> Any:
    axis = alt.Axis(title=x_title or None, labels=bool(x_title), ticks=bool(x_title), tickCount=6)
    x: dict[str, Any] = {"scale": alt.Scale(domain=list(domain), nice=False), "axis": axis}
    drawn = _chart(rows)
    sure = _chart([row for row in rows if row.get("low") is not None])
    layers = [
        sure.mark_rule(color=INK, strokeWidth=1.75).encode(_labels(), alt.X("low:Q", **x), alt.X2("high:Q")),
        drawn.mark_circle(color=ACCENT, size=95, opacity=1, stroke=PAPER, strokeWidth=1.25).encode(
            _labels(), alt.X(f"{value}:Q", **x)
        ),
    ]
    if domain[0] < 0 < domain[1]:
        layers.insert(
            0, _chart([{"zero": 0}]).mark_rule(color=QUIET, strokeDash=[2, 3]).encode(alt.X("zero:Q", **x))
        )
    return alt.layer(*layers).properties(width=_WIDTH, height=_ROW * len(rows))


def _rounds(rows: Sequence[Row]) -> Any:
    """As many rounds as tasters who wrote; the full ones used the word."""
    rounds = [
        {
            "label": row["label"],
            "place": place,
            "fill": "full" if place <= int(row["value"] or 0) else "empty",
        }
        for row in rows
        for place in range(1, int(row["of"] or 0) + 1)
    ]
    said = [
        {"label": row["label"], "place": int(row["of"] or 0) + 1, "said": f"{row['value']} of {row['of']}"}
        for row in rows
    ]
    x: dict[str, Any] = {
        "scale": alt.Scale(domain=[0.5, _WIDTH / _ROUND + 0.5], nice=False, zero=False),
        "axis": None,
    }
    fill = alt.Fill(
        "fill:N", scale=alt.Scale(domain=["full", "empty"], range=[ACCENT, "transparent"]), legend=None
    )
    return alt.layer(
        _chart(rounds)
        .mark_circle(size=150, opacity=1, stroke=ACCENT, strokeWidth=1.5)
        .encode(_labels(domain=False), alt.X("place:Q", **x), fill),
        _chart(said)
        .mark_text(align="left", dx=-4, color=QUIET, fontSize=12, font=FACE)
        .encode(_labels(domain=False), alt.X("place:Q", **x), alt.Text("said:N")),
    ).properties(width=_WIDTH, height=_ROW * len(rows))


def _swatches(figure: Figure) -> Any:
    """Every colour a round, in the row of its coffee."""
    placed = [
        {"label": name, "place": place, "colour": row["colour"]}
        for name, rows in groupby(figure.rows, lambda row: row["group"])
        for place, row in enumerate(rows, 1)
    ]
    most = max(row["place"] for row in placed)
    step = min(_WIDEST_STEP, _WIDTH / most)
    x = alt.X(
        "place:Q", scale=alt.Scale(domain=[0.5, _WIDTH / step + 0.5], nice=False, zero=False), axis=None
    )
    return (
        _chart(placed)
        .mark_circle(size=(0.82 * step) ** 2, opacity=1, stroke=QUIET, strokeWidth=0.75)
        .encode(_labels(domain=False), x, alt.Fill("colour:N", scale=None, legend=None))
        .properties(width=_WIDTH, height=(_WIDEST_STEP + 4) * len({row["label"] for row in placed}))
    )


def _chart(rows: Sequence[Any]) -> alt.Chart:
    return alt.Chart({"values": list(rows)})


def _labels(*, domain: bool = True) -> alt.Y:
    """Names in the order given, in a column of one width, so that pictures under each other line up."""
    width: dict[str, Any] = {"minExtent": _LABELS, "maxExtent": _LABELS, "labelLimit": _LABELS - 12}
    axis = alt.Axis(title=None, ticks=False, grid=domain, domain=False, labelPadding=10, **width)
    return alt.Y("label:N", sort=None, axis=axis)


def _reach(rows: Sequence[Row]) -> tuple[float, float]:
    """From the lowest end to the highest, with 0 in view: shares and differences are read against it."""
    ends = [row.get(key) for row in rows for key in ("low", "estimate", "value", "high")]
    numbers = [float(end) for end in ends if isinstance(end, int | float)]
    return min(0.0, *numbers), max(0.0, *numbers) * 1.02


_TEXT: dict[str, Any] = {"labelFont": FACE, "titleFont": FACE, "labelColor": INK, "titleColor": QUIET}
_CONFIG: dict[str, Any] = {
    "font": FACE,
    "aria": False,
    "view": alt.ViewConfig(stroke=None),
    "title": alt.TitleConfig(font=FACE, fontSize=13, fontWeight="bold", color=INK),
    "axis": alt.AxisConfig(
        **_TEXT,
        labelFontSize=13,
        titleFontSize=12,
        titleFontWeight="normal",
        titlePadding=6,
        gridColor=HAIRLINE,
        domainColor=HAIRLINE,
        tickColor=HAIRLINE,
    ),
    "axisX": alt.AxisConfig(grid=False, labelFontSize=12, labelColor=QUIET),
}
_DRAWN: dict[FigureKind, Callable[[Figure], Any]] = {
    FigureKind.INTERVALS: _intervals,
    FigureKind.DOTS: _dots,
    FigureKind.SWATCHES: _swatches,
    FigureKind.LINES: lines,
    FigureKind.MAP: maps,
}
