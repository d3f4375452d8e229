"""What tasters wrote of each coffee: counted, beside the published words, and at a small table in full."""

from collections.abc import Sequence
from math import ceil

from cupwright.core.analyse.answers import Answers, Written
from cupwright.core.analyse.summary import Analysis
from cupwright.core.analyse.word_counts import WordCount
from cupwright.core.plan.coffee import Coffee
from cupwright.core.report.document import (
    Block,
    Caveat,
    Cell,
    Column,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.wording import capital, counted, level_name, listed, percent, quoted
from cupwright.core.reveal.match import Matched, match
from cupwright.core.words.lexicon import Concept
from cupwright.core.words.reading import read_note

# Up to so many tasters everybody's words are printed and a count says more than a percentage.
SMALL_TABLE = 12
# As many coffees as a table takes. Files of notes may hold more; a picture for each would take minutes.
MOST_PICTURED = 40
_SHOWN = 12
_FEWEST_FAMILIES = 3
_LIKING_WORDS = "verdict"


def words_section(analysis: Analysis) -> tuple[Block, ...]:
    """One part per coffee, in the order of the table."""
    blocks: list[Block] = [Heading("What tasters wrote")]
    for row, coffee in enumerate(analysis.answers.coffees):
        blocks += [Heading(coffee.name, 2), Paragraph(commonest(analysis, row))]
        if taste_words(analysis, row):
            blocks += _counts(analysis, row)
        blocks += _published(analysis, row)
        blocks += _faults(analysis, row)
        if len(analysis.answers.seats) <= SMALL_TABLE:
            blocks += _verbatim(analysis.answers, row)
    return tuple(blocks)


def commonest(analysis: Analysis, row: int, *, shown: int = 5) -> str:
    """The sentence that says what most tasters wrote of a coffee, or that no word was so common."""
    words, wrote = taste_words(analysis, row), analysis.wrote[row]
    if not wrote:
        return "Nobody wrote anything about this coffee."
    if not words:
        return f"{capital(counted(wrote, 'taster'))} wrote, but no known word for a taste was found."
    most = [word for word in words if word.count * 2 > word.of]
    few = ", ".join(f"{quoted(word.label)} ({_how_many(word)})" for word in (most or words)[:shown])
    if wrote == 1:
        return f"One taster wrote: {', '.join(quoted(word.label) for word in words[: 2 * shown])}."
    if words[0].count == 1:
        return f"No word was used by more than one of the {counted(wrote, 'taster')} who wrote about it."
    who = f"the {counted(wrote, 'taster')} who wrote about it"
    if most:
        return f"Most of {who} used {few}."
    return f"No word was used by most of {who}; the commonest were {few}."


def commonest_in_short(analysis: Analysis, row: int) -> str:
    """The same in fewer words, where several coffees stand under each other."""
    words, wrote = taste_words(analysis, row), analysis.wrote[row]
    if wrote <= SMALL_TABLE or not words or words[0].count * 2 > words[0].of:
        return commonest(analysis, row, shown=3)
    few = ", ".join(f"{quoted(word.label)} ({percent(word.share.estimate)})" for word in words[:3])
    return f"Commonest words of the {counted(wrote, 'taster')} who wrote: {few}; none was used by most."


def taste_words(analysis: Analysis, row: int) -> tuple[WordCount, ...]:
    """What a coffee was said to be like; words of liking are set aside, since the scales ask for that."""
    lexicon = analysis.answers.lexicon
    return tuple(word for word in analysis.words[row] if lexicon[word.concept].family != _LIKING_WORDS)


def _how_many(word: WordCount) -> str:
    if word.of <= SMALL_TABLE:
        return f"{word.count} of {word.of}"
    return f"{word.count:,}, {percent(word.share.estimate)}"


def _counts(analysis: Analysis, row: int) -> list[Block]:
    words = taste_words(analysis, row)
    few = _few if analysis.wrote[row] <= SMALL_TABLE else _many
    return [*few(analysis, row, words), *_verdicts(analysis, row)]


def _few(analysis: Analysis, row: int, words: Sequence[WordCount]) -> list[Block]:
    """Rounds for words that tasters share, a sentence for the others; percentages would say too much."""
    coffee, shared = analysis.answers.coffees[row], [word for word in words if word.count > 1]
    alone = [word.label for word in words if word.count == 1]
    if analysis.wrote[row] == 1:
        return []
    blocks: list[Block] = []
    if shared and not _is_pictured(analysis):
        blocks.append(Paragraph(f"Used by several: {_said_with_counts(shared)}."))
    elif shared:
        figure = Figure(
            kind=FigureKind.DOTS,
            rows=tuple({"label": w.label, "value": w.count, "of": w.of} for w in shared[:_SHOWN]),
            alt=_alt(coffee, shared[:_SHOWN]),
            caption="One round for each taster who wrote about it; a full round used the word.",
            name=f"words-{row + 1}",
        )
        blocks.append(figure)
    if alone:
        blocks.append(Paragraph(f"Used by one taster each: {listed(alone)}."))
    return blocks


def _is_pictured(analysis: Analysis) -> bool:
    return len(analysis.answers.coffees) <= MOST_PICTURED


def _said_with_counts(words: Sequence[WordCount]) -> str:
    return listed([f"{word.label} ({_how_many(word)})" for word in words[:_SHOWN]])


def _many(analysis: Analysis, row: int, words: Sequence[WordCount]) -> list[Block]:
    coffee, shown = analysis.answers.coffees[row], words[:_SHOWN]
    caption = (
        f"Words for {coffee.name}: how many of the {counted(words[0].of, 'taster')} who wrote used them."
    )
    if len(words) > _SHOWN:
        caption += f" {capital(counted(len(words) - _SHOWN, 'rarer word'))} left out."
    return [
        *([_large_figure(coffee, shown, row)] if _is_pictured(analysis) else []),
        _count_table(shown, caption, row, analysis.level),
        *_families(analysis, row),
    ]


def _large_figure(coffee: Coffee, words: Sequence[WordCount], row: int) -> Figure:
    return Figure(
        kind=FigureKind.DOTS,
        rows=tuple({"label": w.label, **_percentages(w)} for w in words),
        alt=_alt(coffee, words),
        caption="Share of the tasters who wrote about it; the line is the interval.",
        x_title="% of the tasters who wrote",
        name=f"words-{row + 1}",
    )


def _percentages(word: WordCount) -> dict[str, Cell]:
    share = word.share
    return {"value": 100 * share.estimate, "low": 100 * share.low, "high": 100 * share.high}


def _alt(coffee: Coffee, words: Sequence[WordCount]) -> str:
    said = "; ".join(f"{word.label}: {_how_many(word)}" for word in words)
    return f"Words used for {coffee.name}: {said}."


def _count_table(words: Sequence[WordCount], caption: str, row: int, level: float) -> TableBlock:
    return TableBlock(
        columns=(
            Column("Word"),
            Column("Tasters", 0, "right"),
            Column("of", 0, "right"),
            Column("%", 0, "right"),
            Column(f"{level_name(level)} from", 0, "right"),
            Column("to", 0, "right"),
        ),
        rows=tuple((w.label, w.count, w.of, *_percentages(w).values()) for w in words),
        caption=caption,
        name=f"words-{row + 1}",
    )


def _families(analysis: Analysis, row: int) -> list[Block]:
    families = [family for family in analysis.families[row] if family.concept != _LIKING_WORDS]
    if len(families) < _FEWEST_FAMILIES:
        return []
    said = [f"{family.label} {percent(family.share.estimate)}" for family in families[:6]]
    return [Paragraph(f"By family of words, each taster counted once a family: {listed(said)}.")]


def _verdicts(analysis: Analysis, row: int) -> list[Block]:
    lexicon = analysis.answers.lexicon
    words = [word for word in analysis.words[row] if lexicon[word.concept].family == _LIKING_WORDS]
    said = [f"{quoted(word.label)} ({_how_many(word)})" for word in words[:4]]
    return [Paragraph(f"Words of liking: {listed(said)}.")] if said else []


def common_words(words: Sequence[WordCount]) -> frozenset[str]:
    """The concepts that stand for a table's opinion: used by one taster in twenty, one taster at least."""
    return frozenset(word.concept for word in words if word.count >= max(1, ceil(word.of / 20)))


def _published(analysis: Analysis, row: int) -> list[Block]:
    coffee, lexicon, words = analysis.answers.coffees[row], analysis.answers.lexicon, analysis.words[row]
    printed = coffee.published_notes.strip()
    if not printed:
        return []
    said = Paragraph(f"The roaster's published words: {quoted(printed)}.")
    published = read_note(printed, lexicon)
    if not published.concepts:
        return [said, Paragraph("None of them could be read into known words, so they are not compared.")]
    if not words:
        return [said]
    matched = match(common_words(words), published.concepts, lexicon)
    rule = "" if words[0].of <= 20 else " A word counts here if at least 1 in 20 of those who wrote used it."
    return [
        said,
        Paragraph(_comparison(matched, len(published.concepts)) + rule),
        _published_table(analysis, row, matched),
    ]


def _comparison(matched: Matched, printed: int) -> str:
    found, near = len(matched.shared), len(matched.near)
    nearly = f", {near} more nearly" if near and found else f", but {near} nearly" if near else ""
    printed_words = counted(printed, "published word")
    return f"Of {printed_words} that can be read, the tasters wrote {found or 'none'}{nearly}."


def _published_table(analysis: Analysis, row: int, matched: Matched) -> TableBlock:
    lexicon, coffee = analysis.answers.lexicon, analysis.answers.coffees[row]
    counts = {word.concept: word.count for word in analysis.words[row]}
    rows: list[tuple[Cell, ...]] = [
        (lexicon[c].label, "shared", "", counts.get(c, 0)) for c in matched.shared
    ]
    rows += [
        (lexicon[theirs].label, "near", lexicon[mine].label, counts.get(mine, 0))
        for mine, theirs, _ in matched.near
    ]
    rows += [(lexicon[c].label, "missed", "", counts.get(c, 0)) for c in matched.missed]
    return TableBlock(
        columns=(
            Column("Published word"),
            Column("Here"),
            Column("Tasters' nearest word"),
            Column("Tasters", 0, "right"),
        ),
        rows=tuple(rows),
        caption=f"Published words of {coffee.name} beside the tasters' own.",
        name=f"published-{row + 1}",
    )


def _faults(analysis: Analysis, row: int) -> list[Block]:
    lexicon, words = analysis.answers.lexicon, analysis.words[row]
    common = common_words(words)
    return [
        Caveat(_fault(word, lexicon[word.concept]))
        for word in words
        if word.concept in common and lexicon[word.concept].defect
    ]


def _fault(word: WordCount, concept: Concept) -> str:
    named = f"{quoted(word.label)} ({_how_many(word)}) can name a fault of the coffee."
    return f"{named} {concept.defect} {concept.todo}".strip()


def _verbatim(answers: Answers, row: int) -> list[Block]:
    coffee = answers.coffees[row]
    order = {(part.id, field.id): (part, field) for part in answers.sheet.passes for field in part.fields}
    ranks = {question: rank for rank, question in enumerate(order)}
    columns = answers.columns

    def rank(one: Written) -> tuple[int, int, str]:
        return (columns[one.seat], ranks[one.part, one.field], one.place)

    written = sorted((w for w in answers.written if w.coffee == coffee.id), key=rank)
    if not written:
        return []
    names = {seat.id: seat.name for seat in answers.seats}
    several = len(answers.places[row]) > 1

    def at(one: Written) -> str:
        title = order[one.part, one.field][0].title
        return f"{title}, {one.place}" if several else title

    rows = tuple((names[w.seat], at(w), w.text) for w in written)
    return [
        TableBlock(
            columns=(Column("Taster"), Column("At"), Column("Own words")),
            rows=rows,
            caption=f"{coffee.name} in the tasters' own words.",
            name=f"notes-{row + 1}",
        )
    ]
