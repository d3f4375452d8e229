"""What sets each coffee apart from the others on the table."""

from cupwright.core.analyse.summary import Analysis
from cupwright.core.analyse.word_counts import WordContrast
from cupwright.core.report.document import (
    Block,
    Cell,
    Column,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.wording import capital, counted, level_name, listed, percent, quoted

_MORE, _LESS = 5, 3


def contrasts_section(analysis: Analysis) -> tuple[Block, ...]:
    """Words whose share differs between a coffee and the rest, as a sentence, a picture and a table."""
    blocks: list[Block] = [Heading("What sets each coffee apart"), Paragraph(_why_few(analysis))]
    coffees = analysis.answers.coffees
    chosen = [
        (coffee.name, word)
        for coffee, words in zip(coffees, analysis.contrasts.per_coffee, strict=True)
        for word in _strongest(words)
    ]
    if not chosen:
        return tuple(blocks)
    return (*blocks, _figure(chosen), _table(chosen, analysis.contrasts.level))


def apart(analysis: Analysis, row: int, *, shown: int = 4) -> str:
    """One sentence: the words used more, and less, for a coffee than for the others; empty without any."""
    words = analysis.contrasts.per_coffee[row]
    more = [_versus(word) for word in words if word.difference.estimate > 0][:shown]
    less = [_versus(word) for word in reversed(words) if word.difference.estimate < 0][:shown]
    if not words:
        return ""
    parts = [f"more often than for the others {listed(more)}"] if more else []
    parts += [f"less often {listed(less)}"] if less else []
    return f"{capital('; '.join(parts))}."


def _versus(word: WordContrast) -> str:
    here, there = percent(word.count / word.of), percent(word.other_count / word.other_of)
    return f"{quoted(word.label)} ({here} against {there})"


def none_apart(analysis: Analysis) -> str:
    """One sentence for a table with no word listed: nothing found is not the same as nothing looked at."""
    if not analysis.contrasts.looks:
        return _why_few(analysis)
    return "No word sets one coffee apart from the others beyond what chance could do."


def _why_few(analysis: Analysis) -> str:
    contrasts = analysis.contrasts
    if len(analysis.answers.coffees) < 2:
        return "With one coffee on the table there is nothing to compare it with."
    if not contrasts.looks:
        return "Too few tasters used the same words to look for what sets a coffee apart."
    looks = counted(contrasts.looks, "pair")
    if not any(contrasts.per_coffee):
        return (
            f"No word sets a coffee apart beyond what chance could do: {looks} of word and coffee were "
            f"looked at, and with {counted(len(analysis.answers.seats), 'taster')} only a very large "
            "difference could stand out. That is no proof that the coffees are alike."
        )
    return (
        "Listed are words that tasters used clearly more, or less, for one coffee than for the others "
        f"together. {looks} of word and coffee were looked at, and the list allows for that: if the coffees "
        f"did not differ, {level_name(contrasts.level)} of such lists would be empty."
    )


def _strongest(words: tuple[WordContrast, ...]) -> list[WordContrast]:
    more = [word for word in words if word.difference.estimate > 0]
    less = [word for word in words if word.difference.estimate < 0]
    return more[:_MORE] + less[-_LESS:]


def _points(word: WordContrast) -> dict[str, Cell]:
    change = word.difference
    return {"estimate": 100 * change.estimate, "low": 100 * change.low, "high": 100 * change.high}


def _figure(chosen: list[tuple[str, WordContrast]]) -> Figure:
    said = "; ".join(f"{name}, {word.label}: {100 * word.difference.estimate:+.0f}" for name, word in chosen)
    return Figure(
        kind=FigureKind.INTERVALS,
        rows=tuple({"group": name, "label": word.label, **_points(word)} for name, word in chosen),
        alt=f"Difference in percentage points between a coffee and the others. {said}.",
        caption="Share for this coffee less share for the others; right of the line: used more here.",
        x_title="difference in percentage points",
        name="apart",
    )


def _table(chosen: list[tuple[str, WordContrast]], level: float) -> TableBlock:
    return TableBlock(
        columns=(
            Column("Coffee"),
            Column("Word"),
            Column("Here %", 0, "right"),
            Column("Others %", 0, "right"),
            Column("Difference", 0, "right"),
            Column(f"{level_name(level)} from", 0, "right"),
            Column("to", 0, "right"),
        ),
        rows=tuple(
            (
                name,
                word.label,
                100 * word.count / word.of,
                100 * word.other_count / word.other_of,
                *_points(word).values(),
            )
            for name, word in chosen
        ),
        caption="Shares of the tasters who wrote, and their difference in percentage points.",
        name="apart",
    )
