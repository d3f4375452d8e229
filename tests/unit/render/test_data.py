"""The document as data: full numbers, plain JSON, nothing lost."""

import json
from dataclasses import fields

from tests.unit.core.analyse.tables import TWO_CODES, small_table_answers
from tests.unit.render.documents import HOSTILE, everything

from cupwright.core.report.document import Block, Column, Document, TableBlock
from cupwright.render.data import document_data


def test_the_data_is_strict_json_and_comes_back_unchanged():
    data = document_data(everything(HOSTILE))

    assert json.loads(json.dumps(data, allow_nan=False)) == data


def test_numbers_are_kept_in_full():
    document = Document("t", blocks=(TableBlock((Column("a"), Column("b", 0)), (("x", 2 / 3),)),))

    (block,) = document_data(document)["blocks"]

    assert block["rows"] == [["x", 2 / 3]]
    assert block["columns"][1] == {"title": "b", "digits": 0, "align": "left"}


def test_a_number_that_does_not_exist_is_null():
    table = TableBlock((Column("a"), Column("b")), ((float("nan"), float("inf")),))

    assert document_data(Document("t", blocks=(table,)))["blocks"][0]["rows"] == [[None, None]]


def test_every_part_of_every_block_is_there():
    document = everything()

    for block, data in zip(document.blocks, document_data(document)["blocks"], strict=True):
        assert set(data) == {"block", *(part.name for part in fields(block))}
    assert {data["block"] for data in document_data(document)["blocks"]} == {
        "heading",
        "paragraph",
        "caveat",
        "table",
        "figure",
    }
    assert len(Block.__args__) == 5


def test_a_whole_report_becomes_data():
    from cupwright.core.report.table_report import table_report

    table, answers = small_table_answers()

    data = document_data(table_report(table, answers.coffees, TWO_CODES, answers))

    assert data["format"] == "cupwright report"
    assert data["version"] == 1
    assert json.dumps(data, allow_nan=False)
