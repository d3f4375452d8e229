"""The record: the opened key, and what of the table's diary lets a reader see that nothing was changed."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding, Table
from cupwright.core.report.document import Block, Column, Heading, Paragraph, TableBlock
from cupwright.core.report.wording import counted
from cupwright.core.reveal.seal import Key


@dataclass(frozen=True, slots=True)
class Record:
    """What is kept of a sitting beside its notes.

    `day` is when it was tasted (or its file imported), where the table stood. `looks` counts how often the
    pour list was seen or printed before the key was opened. `diary_digest` is that of the last of
    `diary_lines` lines (core/reveal/diary.py).
    """

    day: date
    key: Key
    looks: int
    diary_lines: int
    diary_digest: str


def record_section(table: Table, record: Record, coffees: Mapping[str, Coffee]) -> tuple[Block, ...]:
    """The key (of a blind table), who looked, and the diary's last digest."""
    blind = table.plan.blinding is not Blinding.OPEN
    return (Heading("The record"), *(_key(record, coffees) if blind else ()), Paragraph(_diary(record)))


def _key(record: Record, coffees: Mapping[str, Coffee]) -> tuple[Block, ...]:
    proof = (
        "From the codes and ids below and this nonce anybody can compute the seal again and compare it with "
        f"the one noted before tasting: {record.key.nonce}."
    )
    rows = tuple((code, coffees[coffee_id].name, coffee_id) for code, coffee_id in record.key.pairs)
    table = TableBlock(
        columns=(Column("Code"), Column("Coffee"), Column("Id")),
        rows=rows,
        caption="The opened key, as it was sealed.",
        name="key",
    )
    seen = f"The pour list was looked at {counted(record.looks, 'time')} before the key was opened."
    return (Paragraph(proof), table, Paragraph(seen))


def _diary(record: Record) -> str:
    return (
        f"The table's diary has {counted(record.diary_lines, 'line')}; the digest of the last one is "
        f"{record.diary_digest}. Whoever noted it can tell whether lines were changed or taken away since."
    )
