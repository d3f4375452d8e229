"""Lines: names at their ends, dashes of their own, bands with edges, one pair of axes."""

import xml.etree.ElementTree as ET

from cupwright.core.report.document import Figure, FigureKind
from cupwright.render.figures import figure_spec, figure_svg

SVG = "{http://www.w3.org/2000/svg}"


def row(group, label, x, estimate, half=0.5):
    low, high = (None, None) if half is None else (estimate - half, estimate + half)
    return {"group": group, "label": label, "x": x, "estimate": estimate, "low": low, "high": high}


def two_panels():
    return Figure(
        FigureKind.LINES,
        (
            row("Acidity", "421", 65.0, 6.0),
            row("Acidity", "421", 40.0, 7.0),
            row("Acidity", "708", 65.0, 6.1),
            row("Acidity", "708", 40.0, 7.01),
            row("Sweetness", "421", 65.0, 5.0, None),
            row("Sweetness", "421", 40.0, 5.5, None),
        ),
        "alt",
        x_title="°C",
        domain=(70.0, 35.0),
    )


def marks(spec, kind):
    return [layer for layer in spec["layer"] if layer["mark"]["type"] == kind]


def values(spec, layer):
    return spec["datasets"][layer["data"]["name"]]


def test_every_line_is_named_at_its_end_and_no_two_names_lie_on_each_other():
    root = ET.fromstring(figure_svg(two_panels()))
    spec = figure_spec(two_panels())
    first = spec["concat"][0]

    names = values(spec, marks(first, "text")[0])

    assert [e.text for e in root.iter(f"{SVG}text")].count("421") == 2
    assert [name["x"] for name in names] == [40.0, 40.0]
    low, high = marks(first, "text")[0]["encoding"]["y"]["scale"]["domain"]
    assert abs(names[0]["estimate"] - names[1]["estimate"]) >= 0.0999 * (high - low)


def test_lines_of_one_panel_differ_in_their_dashes():
    drawn = [
        layer
        for layer in marks(figure_spec(two_panels())["concat"][0], "line")
        if "strokeDash" in layer["mark"]
    ]

    assert len({tuple(layer["mark"]["strokeDash"]) for layer in drawn}) == 2


def test_a_band_has_two_edges_and_a_line_without_interval_has_none():
    spec = figure_spec(two_panels())
    first, second = spec["concat"]

    edges = [layer for layer in marks(first, "line") if "strokeDash" not in layer["mark"]]

    assert [layer["encoding"]["y"]["field"] for layer in edges] == ["low", "high", "low", "high"]
    assert all(values(spec, layer) == [] for layer in marks(second, "area"))


def test_all_panels_share_both_axes_and_the_axis_may_run_downwards():
    panels = figure_spec(two_panels())["concat"]

    assert all(
        layer["encoding"]["x"]["scale"]["domain"] == [70.0, 35.0] for p in panels for layer in p["layer"]
    )
    assert (
        len({tuple(layer["encoding"]["y"]["scale"]["domain"]) for p in panels for layer in p["layer"]}) == 1
    )


def test_rows_may_come_in_any_order():
    figure = two_panels()
    turned = Figure(
        figure.kind, figure.rows[1::-1] + figure.rows[2:], "alt", x_title="°C", domain=(70.0, 35.0)
    )

    assert figure_svg(turned) == figure_svg(figure)
