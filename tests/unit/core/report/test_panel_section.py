"""The panel's section: sentence first, silence, and text for every picture."""

import numpy as np

from cupwright.core.analyse.scores import scores_of
from cupwright.core.report.document import Caveat, Figure, FigureKind, Heading, Paragraph, TableBlock
from cupwright.core.report.panel_section import panel_section

CLEAR = np.array([[9.0, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]])


def said(values: np.ndarray) -> str:
    blocks = panel_section(scores_of(values))
    assert isinstance(blocks[0], Heading)
    assert isinstance(blocks[1], Paragraph)
    return blocks[1].text.replace("\N{NO-BREAK SPACE}", " ")


def test_a_panel_that_agrees_is_told_by_how_much_and_what_two_more_would_bring():
    sentence = said(CLEAR)

    assert "these 4 tasters, 91 % can be put down to the coffees (68 % to 99 %)" in sentence
    assert "With two more tasters like them it would be 94 %" in sentence
    assert "The points themselves are less sure (62 %)" in sentence


def test_a_small_table_is_not_told_more_than_it_knows():
    assert said(CLEAR[:3, [0, 2, 3]]).startswith("Whether to rely on this panel cannot be told")


def test_where_these_tasters_cannot_be_judged_no_more_of_them_are_drawn():
    blocks = panel_section(scores_of(CLEAR[:3, [0, 2, 3]]))

    assert [block.name for block in blocks if isinstance(block, Figure)] == ["panel"]
    assert any("what more tasters would bring" in b.text for b in blocks if isinstance(b, Paragraph))


def test_alpha_is_recommended_only_where_a_score_is_missing():
    holed = CLEAR.copy()
    holed[0, 1] = np.nan

    def quoted(values: np.ndarray) -> str:
        paragraphs = [b for b in panel_section(scores_of(values)) if isinstance(b, Paragraph)]
        return next(b.text for b in paragraphs if b.lead == "Which to quote")

    assert "alpha" not in quoted(CLEAR)
    assert "alpha" in quoted(holed)


def test_tasters_who_contradict_each_other_are_told_so():
    assert said(np.array([[1.0, 3], [2, 2], [3, 1.5]])).startswith("Nothing of the differences")


def test_one_taster_is_too_little():
    blocks = panel_section(scores_of(CLEAR[:, :1]))

    assert len(blocks) == 2
    assert blocks[1].text.startswith("Too little to say whether this panel can be relied on.")


def test_pictures_and_tables_tell_the_same_numbers():
    blocks = panel_section(scores_of(CLEAR), "Sweetness")
    pictures = [block for block in blocks if isinstance(block, Figure)]
    tables = [block for block in blocks if isinstance(block, TableBlock)]

    assert [picture.kind for picture in pictures] == [FigureKind.INTERVALS, FigureKind.LINES]
    assert [picture.name for picture in pictures] == ["panel-sweetness", "panel-more-sweetness"]
    assert len(tables[0].rows) == 8
    for row in tables[0].rows:
        assert f"{row[2]:.2f}" in pictures[0].alt
    assert all(len(row) == len(table.columns) for table in tables for row in table.rows)
    assert {row["x"] for row in pictures[1].rows} == set(range(1, 13))


def test_whoever_was_left_out_and_averaged_cells_are_said():
    values = np.stack([CLEAR, CLEAR + 1], axis=2)
    values[0, 1] = np.nan

    caveats = " ".join(b.text for b in panel_section(scores_of(values)) if isinstance(b, Caveat))

    assert "Left out of all but alpha, for a score is missing: coffee 1" in caveats
    assert "averaged first" in caveats
