"""Maps: a shape for each role, regions with edges of their own, one unit equally long on both axes."""

import math
import xml.etree.ElementTree as ET

import pytest

from cupwright.core.report.document import Figure, FigureKind
from cupwright.render.figures import figure_spec, figure_svg

SVG = "{http://www.w3.org/2000/svg}"


def ring(label, x, y, half):
    turns = [2 * math.pi * step / 12 for step in range(12)]
    return tuple(
        {
            "label": label,
            "ring": step,
            "x": x + half * math.cos(turn),
            "y": y + half * math.sin(turn),
            "role": "region",
        }
        for step, turn in enumerate(turns, 1)
    )


def small_map():
    return Figure(
        FigureKind.MAP,
        (
            {"label": "421", "x": 1.0, "y": 0.5, "role": "coffee", "text_x": 1.2, "text_y": 0.6},
            {"label": "533", "x": -1.0, "y": 0.0, "role": "coffee"},
            {"label": "floral", "x": -2.0, "y": 0.2, "role": "word"},
            {"label": "Ana", "x": 0.5, "y": -1.0, "role": "taster"},
            *ring("421", 1.0, 0.5, 0.7),
            *ring("533", -1.0, 0.0, 0.7),
        ),
        "421 right, 533 left.",
        x_title="from floral to cocoa (60 %)",
        y_title="dimension 2 (20 %)",
    )


def layers(kind):
    return [layer for layer in figure_spec(small_map())["layer"] if layer["mark"]["type"] == kind]


def test_every_name_is_written_and_the_text_equivalent_is_carried():
    root = ET.fromstring(figure_svg(small_map()))

    written = {element.text for element in root.iter(f"{SVG}text")}

    assert {"421", "533", "floral", "Ana", "from floral to cocoa (60 %)"} <= written
    assert root.get("aria-label") == "421 right, 533 left."


def test_a_role_is_told_by_its_shape():
    assert [layer["mark"]["shape"] for layer in layers("point")] == ["circle", "square", "triangle-up"]


def test_regions_differ_in_their_dashes_and_are_closed():
    spec = figure_spec(small_map())
    rings = [layer for layer in spec["layer"] if layer["mark"]["type"] == "line"]
    first = spec["datasets"][rings[0]["data"]["name"]]

    assert len({tuple(layer["mark"]["strokeDash"]) for layer in rings}) == 2
    assert (first[0]["x"], first[0]["y"]) == (first[-1]["x"], first[-1]["y"])


def test_one_unit_is_as_long_across_as_up():
    spec = figure_spec(small_map())
    encoding = layers("point")[0]["encoding"]
    across, up = encoding["x"]["scale"]["domain"], encoding["y"]["scale"]["domain"]

    unit_across = spec["width"] / (across[1] - across[0])
    unit_up = spec["height"] / (up[1] - up[0])

    assert unit_across == pytest.approx(unit_up, rel=0.01)


def test_a_map_of_a_single_point_is_drawn():
    alone = Figure(FigureKind.MAP, ({"label": "421", "x": 0.0, "y": 0.0, "role": "coffee"},), "alt")

    assert "421" in figure_svg(alone)
