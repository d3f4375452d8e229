"""One cup off, in words: which bowl, how sure, and what to do."""

import numpy as np
from tests.unit.core.analyse.test_one_cup_off import marks

from cupwright.core.analyse.one_cup_off import cups_off
from cupwright.core.report.cups_section import cups_section
from cupwright.core.report.document import Figure, Paragraph, TableBlock
from cupwright.render.figures import figure_svg


def answer(blocks):
    return next(block.text for block in blocks if isinstance(block, Paragraph))


def advice(blocks):
    return [block.text for block in blocks if isinstance(block, Paragraph) and block.lead == "What to do"]


def test_a_bowl_that_is_off_is_named_with_its_chance_and_what_to_do():
    blocks = cups_section(cups_off({"421": marks(3, 3, 3, 3), "708": marks(1, 2, 3)}))

    assert answer(blocks).startswith("Bowl 3 of 421 is unlike its sisters (p = 0.016). Taste it again")
    assert "No bowl stands out beyond luck in 708." in answer(blocks)
    assert "set it aside" in advice(blocks)[0]


def test_two_tasters_who_agree_are_told_what_they_cannot_show():
    blocks = cups_section(cups_off({"421": marks(3, 3)}))

    assert "could not show it even in full agreement (p = 0.20 at best)" in answer(blocks)
    assert advice(blocks)


def test_a_low_bowl_is_told_in_points():
    table = 82 + np.random.default_rng(1).normal(0, 0.3, (4, 5))
    table[:, 1] -= 2

    blocks = cups_section(cups_off({"9": table}))

    assert "points lower" in answer(blocks)


def test_bowls_all_alike_need_nothing():
    blocks = cups_section(cups_off({"421": np.zeros((3, 5))}))

    assert "nothing is to be set aside" in answer(blocks)
    assert not advice(blocks)


def test_rounds_show_who_marked_and_the_table_has_every_bowl():
    blocks = cups_section(cups_off({"421": marks(3, 3, 3, 1)}))
    (figure,) = (block for block in blocks if isinstance(block, Figure))
    (table,) = (block for block in blocks if isinstance(block, TableBlock))

    assert [row["value"] for row in figure.rows] == [1, 0, 3, 0, 0]
    assert "421, bowl 3 3 of 4" in figure.alt
    assert figure_svg(figure).startswith("<svg")
    assert len(table.rows) == 5
