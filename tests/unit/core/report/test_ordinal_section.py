"""Coffees by the order of answers: a sentence first, set beside the answer by points."""

import time

import numpy as np

from cupwright.core.analyse.score_analysis import analyse_scores
from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.core.report.document import Caveat, Figure, Heading, Paragraph, TableBlock
from cupwright.core.report.ordinal_section import ordinal_section
from cupwright.core.report.score_questions import ordinal_question

APART = np.array([[5, 5, 4, 5, 4], [2, 3, 2, 3, 1], [3, 2, 3, 3, 4], [1, 2, 1, 2, 1]], float)
ALIKE = np.array([[3, 2, 4, 3], [2, 3, 3, 3], [3, 3, 2, 4]], float)


def named(table: np.ndarray) -> Scores:
    return scores_of(table, coffees=["421", "708", "356", "914"][: len(table)])


def said(table: np.ndarray) -> str:
    return next(block.text for block in ordinal_section(named(table)) if isinstance(block, Paragraph))


def test_the_coffee_with_the_highest_answers_is_named_with_what_is_told_apart():
    text = said(APART)

    assert text.startswith("Whatever the steps are worth, coffee 421 probably has the highest answers (")
    assert "421 above 914" in text


def test_where_nothing_stands_out_it_says_so():
    assert "no two can be told apart for sure" in said(ALIKE)


def test_the_answer_by_points_stands_beside_it():
    found = analyse_scores("Body", named(APART), draws=200)

    (answer,) = [block for block in ordinal_question([found])[:2] if isinstance(block, Paragraph)]
    assert answer.text.endswith("By points it is the same coffee.")


def test_another_coffee_by_points_is_named():
    # By order the first wins with every taster; two leaps of the others outweigh that by points.
    table = np.array([[3, 3, 3, 3, 3, 3], [2, 2, 2, 2, 9, 9], [1, 1, 2, 1, 2, 1]], float)
    found = analyse_scores("Body", named(table), draws=500)
    assert found.comparison is not None

    blocks = ordinal_section(named(table), found=found.ordinal, by_points=found.comparison)

    (answer,) = [block for block in blocks[:2] if isinstance(block, Paragraph)]
    assert "By points it is 708 (" in answer.text
    assert "hangs on what the steps are worth" in answer.text


def test_every_coffee_stands_in_picture_and_table_the_highest_first():
    blocks = ordinal_section(named(APART))

    (figure,) = [block for block in blocks if isinstance(block, Figure)]
    levels, pairs = (block for block in blocks if isinstance(block, TableBlock))
    assert [row["label"] for row in figure.rows] == [row[0] for row in levels.rows]
    assert figure.rows[0]["label"] == "421"
    assert "421" in figure.alt
    assert len(pairs.rows) == 6


def test_a_coffee_that_was_always_on_top_is_said_to_be_held_back():
    table = np.array([[9, 9, 9], [1, 1, 2], [3, 2, 3]], float)

    (_, caveat) = [block for block in ordinal_section(named(table)) if isinstance(block, Caveat)]

    assert "trust the direction, not the size" in caveat.text


def test_too_little_is_a_sentence():
    heading, silence = ordinal_section(named(np.full((2, 3), 4.0)))

    assert isinstance(heading, Heading)
    assert silence == Paragraph("Too little to go by the order of answers alone. All answers are the same.")


def test_a_long_scale_is_not_asked():
    found = analyse_scores("Total", named(APART * 4.25), draws=200)

    assert found.ordinal is None
    assert "ordinal" not in found.silent
    assert ordinal_question([found]) == ()


def test_a_short_scale_stands_in_the_data():
    data = analyse_scores("Body", named(APART), draws=200).as_data()

    assert [one["coffee"] for one in data["ordinal"]["coffees"]] == ["421", "708", "356", "914"]
    assert data["ordinal"]["taster_sd_interval"] is None


def test_ten_attributes_take_half_a_second():
    tables = [np.clip(np.round(APART + shift), 1, 9) for shift in np.linspace(0, 3, 10)]
    ordinal_section(named(APART))

    began = time.process_time()
    for table in tables:
        ordinal_section(named(table))

    assert time.process_time() - began < 0.5
