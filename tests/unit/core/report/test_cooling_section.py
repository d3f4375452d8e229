"""As it cools, in words, lines and numbers."""

import numpy as np
from tests.unit.core.analyse.test_as_it_cools import cooling
from tests.unit.core.analyse.test_words_as_they_cool import BLOCK, CELSIUS

from cupwright.core.analyse.as_it_cools import cooling_trend
from cupwright.core.analyse.words_as_they_cool import words_as_they_cool
from cupwright.core.report.cooling_section import cooling_section, words_cooling_section
from cupwright.core.report.document import Caveat, Figure, FigureKind, Paragraph, TableBlock
from cupwright.render.figures import figure_svg


def answer(blocks):
    return next(block.text for block in blocks if isinstance(block, Paragraph))


def test_gains_losses_and_what_cannot_be_told_are_said_first():
    blocks = cooling_section(cooling_trend(cooling([0.8, -0.5, 0.0])), label="Acidity")

    said = answer(blocks)
    assert "a gains 0." in said
    assert "b loses 0." in said
    assert "Whether c moves cannot be told." in said
    assert "The coffees differ in that (p < 0.001)." in said


def test_each_coffee_has_a_panel_from_hot_to_cool():
    (figure,) = (
        block for block in cooling_section(cooling_trend(cooling([0.8, -0.5]))) if isinstance(block, Figure)
    )

    assert figure.kind is FigureKind.LINES
    assert figure.domain[0] > figure.domain[1]
    assert list(dict.fromkeys(row["group"] for row in figure.rows)) == ["a", "b"]
    assert figure_svg(figure).startswith("<svg")


def test_a_thermometers_error_is_said():
    blocks = cooling_section(cooling_trend(cooling([0.8, -0.5]), temperature_error=2.0))

    assert "draws every slope towards 0" in next(b.text for b in blocks if isinstance(b, Caveat))


def test_words_are_said_with_their_names_and_silence_is_a_sentence():
    used = np.tile([0, 0, 1, 0, 1, 1], 4).astype(bool)

    blocks = words_cooling_section(
        words_as_they_cool({"c-lemon": used}, BLOCK, CELSIUS), {"c-lemon": "lemon"}
    )

    assert answer(blocks).startswith("“lemon” goes with cooler cups")
    assert next(block for block in blocks if isinstance(block, TableBlock)).rows[0][0] == "lemon"
    assert "Too few words" in answer(words_cooling_section((), {}))
