"""The report of a file of scores: facts, questions over all attributes, how the file was read."""

import numpy as np

from cupwright.core.analyse.score_analysis import analyse_file
from cupwright.core.analyse.score_file import ScoreFile
from cupwright.core.analyse.scores import scores_of
from cupwright.core.report.document import Figure, Heading, Paragraph, TableBlock
from cupwright.core.report.score_report import score_report


def panel(seed: int):
    chance = np.random.default_rng(seed)
    return scores_of(chance.normal(6, 1, (5, 1, 1)) + chance.normal(0, 0.4, (5, 4, 2)))


def report(*attributes: str, remarks: tuple[str, ...] = (), empty: tuple[str, ...] = ()):
    scores = {name: panel(seed) for seed, name in enumerate(attributes)}
    missing = dict.fromkeys((*attributes, *empty), 0)
    return score_report(analyse_file(ScoreFile("panel.csv", scores, empty, missing, remarks), draws=200))


def test_the_facts_count_what_the_file_holds():
    assert dict(report("body", "acidity").facts) == {
        "Scores": "80",
        "Coffees": "5",
        "Tasters": "4",
        "Attributes": "2",
    }


def test_every_attribute_is_answered_under_each_question_and_pictures_are_shared():
    blocks = report("body", "acidity").blocks

    assert [block.lead for block in blocks[1:3]] == ["body", "acidity"]
    coffees = [block for block in blocks if isinstance(block, Figure) and block.name == "coffees"]
    assert [sorted({row["group"] for row in figure.rows}) for figure in coffees] == [["acidity", "body"]]
    names = [block.name for block in blocks if isinstance(block, Figure)]
    assert len(names) == len(set(names))
    assert all(len(row) == len(b.columns) for b in blocks if isinstance(b, TableBlock) for row in b.rows)


def test_an_attribute_without_a_score_says_so_beside_the_others():
    blocks = report("body", empty=("acidity",)).blocks

    assert Paragraph("There is not a single score.", "acidity") in blocks


def test_how_the_file_was_read_stands_at_the_end():
    blocks = report("body", remarks=("3 blank scores are left out (body 3).",)).blocks

    assert blocks[-2:] == (
        Heading("How the file was read"),
        Paragraph("3 blank scores are left out (body 3)."),
    )
