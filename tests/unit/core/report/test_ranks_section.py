"""Ranks: a sentence first, silence where nothing could stand out."""

import numpy as np
import pytest

from cupwright.core.analyse.scores import scores_of
from cupwright.core.report.document import Caveat, Figure, Heading, Paragraph, TableBlock
from cupwright.core.report.ranks_section import ranks_section

COFFEES = ("421", "708", "355")


def section(values, **options):
    return ranks_section(scores_of(np.asarray(values, dtype=float), coffees=COFFEES), **options)


def sentence(blocks):
    assert isinstance(blocks[0], Heading)
    assert isinstance(blocks[1], Paragraph)
    return blocks[1].text


AGREED = np.tile([[3.0], [1], [2]], 6)


def test_a_clear_order_is_told_with_its_pairs():
    said = sentence(section(AGREED))

    assert said.startswith("The coffees differ in rank (p < 0.001): 421 stands highest.")
    assert "421 than 708" in said


def test_coffees_that_nobody_tells_apart_are_not_called_alike():
    said = sentence(section([[1, 2, 3, 1], [2, 3, 1, 3], [3, 1, 2, 2]]))

    assert "cannot be told apart" in said
    assert "no proof" in said


def test_two_tasters_of_three_coffees_are_told_that_nothing_could_stand_out():
    blocks = section([[1, 1], [2, 2], [3, 3]])

    assert "no order could stand out" in sentence(blocks)
    assert len(blocks) == 2


def test_many_coffees_are_told_without_their_pairs():
    scores = np.random.default_rng(1).normal(size=(250, 6)) + 0.05 * np.arange(250)[:, None]

    blocks = ranks_section(scores_of(scores))

    assert sentence(blocks).endswith("highest.")
    assert [type(block) for block in blocks] == [Heading, Paragraph, TableBlock, Caveat]


def test_one_taster_gets_a_sentence_and_no_number():
    blocks = section([[1], [2], [3]])

    assert len(blocks) == 2
    assert "Nothing can be said from ranks." in sentence(blocks)


def test_the_picture_has_its_text_and_the_table_its_numbers():
    blocks = section(AGREED, label="Body", name="body")
    figure = next(block for block in blocks if isinstance(block, Figure))
    table = next(block for block in blocks if isinstance(block, TableBlock))

    assert blocks[0].text == "Ranks: Body"
    assert "421 1.00; 708 3.00; 355 2.00" in figure.alt
    assert [row["estimate"] for row in figure.rows] == [1.0, 3.0, 2.0]
    assert table.rows[0] == ("421", 18.0, 1.0)
    assert table.name == "body"
    assert isinstance(blocks[-1], Caveat)


def test_a_table_with_a_hole_is_ranked_all_the_same():
    values = AGREED.copy()
    values[1, 0] = np.nan

    blocks = section(values)

    assert "421 stood highest in the flights it was in" in sentence(blocks)
    table = next(block for block in blocks if isinstance(block, TableBlock))
    assert "Skillings and Mack" in table.caption
    assert [row[0] for row in table.rows] == ["421", "355", "708"]


def test_a_balanced_plan_of_small_flights_is_named():
    hole = np.nan

    blocks = section([[1, 1, hole], [2, hole, 1], [hole, 2, 2]])

    assert "Durbin" in next(block for block in blocks if isinstance(block, TableBlock)).caption


@pytest.mark.parametrize("values", [AGREED, [[1, 1], [2, np.nan], [np.nan, 3]]])
def test_the_same_scores_give_the_same_section(values):
    assert section(values) == section(values)
