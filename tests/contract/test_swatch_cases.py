"""The field of colours: the same on the server and on the phone (client/src/words/swatches.test.ts)."""

import json
from pathlib import Path

import pytest

from cupwright.core.words.colour import OKLab, hex_of, swatches

CASES = json.loads((Path(__file__).parent / "swatch_cases.json").read_text(encoding="utf-8"))


def test_the_field_of_the_server_is_the_field_of_the_cases():
    field = swatches()

    assert len(field) == len(CASES["field"])
    for colour, case in zip(field, CASES["field"], strict=True):
        expected = case["colour"]
        assert (colour.l, colour.a, colour.b) == pytest.approx(
            (expected["l"], expected["a"], expected["b"]), abs=1e-9
        )
        assert hex_of(colour) == case["hex"]


@pytest.mark.parametrize("case", CASES["hex"], ids=lambda case: case["hex"])
def test_colours_no_screen_can_show_become_the_same_shown_colour(case):
    assert hex_of(OKLab(**case["colour"])) == case["hex"]
