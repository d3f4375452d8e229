"""The page on sheets says what the program does: its worked sheet is read, and adds up as it is told."""

import re
from decimal import Decimal
from pathlib import Path

from cupwright.core.taste.points import points
from cupwright.core.taste.sheet import Kind
from cupwright.core.taste.sheet_file import builtin_names, parse_sheet

PAGE = (Path(__file__).parents[4] / "docs" / "methods" / "sheets.md").read_text(encoding="utf-8")


def _worked():
    found = re.search(r"```toml\n(.*?)```", PAGE, re.DOTALL)
    assert found is not None
    return parse_sheet(found[1], file="sheets.md")


def test_the_worked_sheet_of_the_page_is_read_and_its_list_comes_after_free_words():
    sheet = _worked()

    assert [one.id for one in sheet.passes] == ["first", "list", "end", "order"]
    assert sheet.passes[0].fields[0].kind is Kind.WORDS


def test_the_worked_sheet_adds_up_as_the_page_says():
    made = points(_worked(), {("first", "flavour"): "8", ("end", "again"): 70.0, ("end", "off"): [2]}, cups=3)

    assert made.total == Decimal("58.00")
    assert "58.0" in PAGE


def test_the_page_names_every_sheet_of_the_program_and_every_kind_of_field():
    for name in builtin_names():
        assert f"`{name}`" in PAGE
    for kind in Kind:
        assert re.search(rf"^\|[^|]*\b{kind}\b", PAGE, re.MULTILINE)
