"""Figures: what is drawn, in SVG and in the definition, and that no text can break out of it."""

import xml.etree.ElementTree as ET

import pytest
from tests.unit.render.documents import HOSTILE, figures

from cupwright.core.report.document import Figure, FigureKind
from cupwright.render.figures import figure_spec, figure_svg
from cupwright.render.palette import ACCENT

SVG = "{http://www.w3.org/2000/svg}"


def circles(svg: str) -> list[ET.Element]:
    """The filled marks: paths of circles."""
    return [e for e in ET.fromstring(svg).iter(f"{SVG}path") if "A" in (e.get("d") or "")]


@pytest.mark.parametrize("figure", figures(), ids=lambda figure: figure.name)
def test_every_figure_is_an_image_with_its_text_equivalent(figure):
    root = ET.fromstring(figure_svg(figure))

    assert root.tag == f"{SVG}svg"
    assert root.get("role") == "img"
    assert root.get("aria-label") == figure.alt


@pytest.mark.parametrize("figure", figures(HOSTILE), ids=lambda figure: figure.name)
def test_hostile_text_stays_text(figure):
    root = ET.fromstring(figure_svg(figure))

    assert not [
        e for e in root.iter() if e.tag.removeprefix(SVG) in ("script", "foreignObject", "image", "a")
    ]
    assert not [name for e in root.iter() for name in e.attrib if name.startswith("on")]
    assert "<script>alert(1)</script>" in str(root.get("aria-label"))


def test_as_many_rounds_as_tasters_and_as_many_full_as_used_the_word():
    rows = ({"label": "lemon", "value": 2, "of": 5}, {"label": "tea", "value": 1, "of": 5})

    drawn = circles(figure_svg(Figure(FigureKind.DOTS, rows, "alt")))

    assert len(drawn) == 10
    assert sum(mark.get("fill") == ACCENT for mark in drawn) == 3


def test_swatches_keep_their_colours_and_their_order():
    rows = tuple({"group": "North", "label": "x", "colour": colour} for colour in ("#102030", "#fedcba"))

    drawn = circles(figure_svg(Figure(FigureKind.SWATCHES, rows, "alt")))

    assert [mark.get("fill") for mark in drawn] == ["#102030", "#fedcba"]


def test_rows_keep_the_order_of_the_document():
    rows = tuple(
        {"label": label, "estimate": 1.0, "low": 0.0, "high": 2.0} for label in ("zebra", "apple", "mango")
    )

    texts = [
        e.text
        for e in ET.fromstring(figure_svg(Figure(FigureKind.INTERVALS, rows, "alt"))).iter(f"{SVG}text")
    ]

    assert [text for text in texts if text in ("zebra", "apple", "mango")] == ["zebra", "apple", "mango"]


def test_an_estimate_without_an_interval_has_a_dot_and_no_line():
    rows = ({"label": "a", "estimate": 1.0, "low": None, "high": None},)

    spec = figure_spec(Figure(FigureKind.INTERVALS, rows, "alt", domain=(0.0, 5.0)))

    lines, dots = spec["vconcat"][0]["layer"]
    assert lines["mark"]["type"] == "rule"
    assert spec["datasets"][lines["data"]["name"]] == []
    assert [row["label"] for row in spec["datasets"][dots["data"]["name"]]] == ["a"]


def test_groups_share_one_axis_and_only_the_last_shows_it():
    rows = tuple(
        {"group": group, "label": "word", "estimate": change, "low": change - 1, "high": change + 1}
        for group, change in (("North", 20.0), ("South", -30.0))
    )

    spec = figure_spec(Figure(FigureKind.INTERVALS, rows, "alt", x_title="points"))

    axes = [panel["layer"][-1]["encoding"]["x"] for panel in spec["vconcat"]]
    assert axes[0]["scale"]["domain"] == axes[1]["scale"]["domain"]
    assert axes[0]["scale"]["domain"][0] == -31.0
    assert [axis["axis"]["labels"] for axis in axes] == [False, True]


def test_a_picture_is_the_same_byte_for_byte():
    figure = figures()[0]

    assert figure_svg(figure) == figure_svg(figure)
