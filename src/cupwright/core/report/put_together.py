"""Pictures and tables of several attributes put together: one panel an attribute, one column for its name."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from cupwright.core.report.document import (
    Block,
    Cell,
    Column,
    Figure,
    FigureKind,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.wording import listed

Blocks = Sequence[Block]
Parts = Sequence[tuple[str, Blocks]]
Drawn = TypeVar("Drawn", Figure, TableBlock)

ATTRIBUTE = "Attribute"
# Of several attributes, more lines than this are looked up in the data, not read.
MOST_ROWS = 40
_PANELS = (FigureKind.INTERVALS, FigureKind.LINES)
# Panels share one axis: a scale of 100 would press one of 10 flat.
_MOST_APART = 4.0


def put_together(parts: Parts) -> tuple[tuple[Block, ...], list[tuple[str, Blocks]]]:
    """(what goes together, what is left of each attribute), both in the order in which it came.

    Pictures of one name become one with a panel for each attribute, if they can share their axis; tables of
    one name and the same columns become one. A table that would be too long is left out, and it is said.
    """
    names = dict.fromkeys(
        block.name for _, blocks in parts for block in blocks if isinstance(block, Figure | TableBlock)
    )
    together: list[Block] = []
    taken: set[int] = set()
    for name in filter(None, names):
        figures, tables = _called(parts, name, Figure), _called(parts, name, TableBlock)
        if len(figures) > 1 and _share_an_axis([figure for _, figure in figures]):
            together.append(_one_figure(figures))
            taken |= {id(figure) for _, figure in figures}
        if len(tables) > 1 and len({table.columns for _, table in tables}) == 1:
            together.append(_one_table(tables))
            taken |= {id(table) for _, table in tables}
    left: list[tuple[str, Blocks]] = [
        (name, tuple(one for one in blocks if id(one) not in taken)) for name, blocks in parts
    ]
    return tuple(together), left


def _called(parts: Parts, name: str, kind: type[Drawn]) -> list[tuple[str, Drawn]]:
    return [
        (attribute, block)
        for attribute, blocks in parts
        for block in blocks
        if isinstance(block, kind) and block.name == name
    ]


def _share_an_axis(figures: Sequence[Figure]) -> bool:
    first = figures[0]
    if any(
        (one.kind, one.domain, one.x_title, one.y_title)
        != (first.kind, first.domain, first.x_title, first.y_title)
        or one.kind not in _PANELS
        or any(row.get("group") for row in one.rows)
        for one in figures
    ):
        return False
    reaches = [reach for one in figures if (reach := _reach(one)) > 0]
    return first.domain is not None or not reaches or max(reaches) <= _MOST_APART * min(reaches)


def _reach(figure: Figure) -> float:
    """How far its numbers are apart."""
    ends = [row.get(key) for row in figure.rows for key in ("low", "estimate", "high")]
    numbers = [float(end) for end in ends if isinstance(end, int | float)]
    return max(numbers) - min(numbers) if numbers else 0.0


def _one_figure(figures: Sequence[tuple[str, Figure]]) -> Figure:
    rows = tuple({**row, "group": name} for name, figure in figures for row in figure.rows)
    alt = " ".join(f"{name}: {figure.alt}" for name, figure in figures)
    return replace(figures[0][1], rows=rows, alt=alt, caption=_captions(figures))


def _one_table(tables: Sequence[tuple[str, TableBlock]]) -> Block:
    rows: list[tuple[Cell, ...]] = [(name, *row) for name, table in tables for row in table.rows]
    first = tables[0][1]
    if len(rows) > MOST_ROWS:
        about = first.caption.partition(".")[0]
        return Paragraph(f"Left out here, in full in the data: {len(rows):,} lines ({about}).")
    columns = (Column(ATTRIBUTE), *first.columns)
    return TableBlock(columns, tuple(rows), _captions(tables), first.name)


def _captions(drawn: Sequence[tuple[str, Drawn]]) -> str:
    """The one caption, or each once, led by the attributes that share it."""
    whose: dict[str, list[str]] = {}
    for name, block in drawn:
        whose.setdefault(block.caption, []).append(name)
    if len(whose) == 1:
        return drawn[0][1].caption
    return " ".join(f"{listed(names)}: {caption}" for caption, names in whose.items() if caption)
