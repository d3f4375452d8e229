"""Choices and ticks: answers that are picked or marked rather than written or scored."""

from collections import Counter

from cupwright.core.analyse.answers import Answers, Given
from cupwright.core.report.document import Block, Cell, Column, Heading, Paragraph, TableBlock
from cupwright.core.report.wording import counted
from cupwright.core.taste.sheet import Field, Kind, Over, Pass

_COLUMNS = (
    Column("Question"),
    Column("Coffee"),
    Column("Answer"),
    Column("Tasters", 0, "right"),
    Column("of", 0, "right"),
)


def choices_section(answers: Answers) -> tuple[Block, ...]:
    """How many tasters picked each choice or ticked each bowl; nothing if the sheet asks for neither."""
    asked = [
        (part, field)
        for part in answers.sheet.passes
        for field in part.fields
        if field.kind in (Kind.CHOICE, Kind.TICKS, Kind.TAGS) and part.over is Over.PLACES
    ]
    if not asked:
        return ()
    rows = [row for part, field in asked for row in _rows(answers, part, field)]
    heading = Heading("Choices and ticks")
    if not rows:
        return (heading, Paragraph("Nobody picked or ticked anything."))
    sentence = f"{counted(len(asked), 'question')} asked for a choice or a tick."
    caption = "How many of the tasters who answered gave an answer at any place of the coffee."
    return (heading, Paragraph(sentence), TableBlock(_COLUMNS, tuple(rows), caption, "choices"))


def _rows(answers: Answers, part: Pass, field: Field) -> list[tuple[Cell, ...]]:
    rows: list[tuple[Cell, ...]] = []
    for coffee in answers.coffees:
        given = [
            one
            for one in answers.given
            if (one.part, one.field, one.coffee) == (part.id, field.id, coffee.id)
        ]
        seats = {one.seat for one in given}
        picked = Counter(
            answer for _, answer in {(one.seat, answer) for one in given for answer in _said(one)}
        )
        rows += [
            (f"{part.title}: {field.label}", coffee.name, answer, count, len(seats))
            for answer, count in sorted(picked.items(), key=lambda item: (-item[1], item[0]))
        ]
    return rows


def _said(answer: Given) -> list[str]:
    """The choice, or each tick; a list without any tick is an answer too."""
    if answer.kind is Kind.TAGS and isinstance(answer.value, list):
        return [str(one) for one in answer.value] or ["none of the list"]
    if isinstance(answer.value, dict):
        return [f"bowl {cup}" for cup, found in sorted(answer.value.items()) if found] or ["no bowl"]
    if isinstance(answer.value, list):
        return [f"bowl {int(number)}" for number in answer.value] or ["no bowl"]
    return [str(answer.value)]
