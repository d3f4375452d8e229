"""Which words hold: beyond each taster's habits, between coffees, over the panel, and with liking."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.answers import Answers, Scale
from cupwright.core.analyse.kin_counts import kin_counts
from cupwright.core.analyse.liking_words import LikingWord, words_with_liking
from cupwright.core.analyse.split_words import SplitWord, split_words
from cupwright.core.analyse.word_counts import WordUse, word_use
from cupwright.core.analyse.word_differences import WordDifference, word_differences
from cupwright.core.analyse.words_hold import HeldWord, WordsThatHold, words_that_hold
from cupwright.core.report.document import (
    Block,
    Caveat,
    Column,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.wording import capital, chance, counted, level_name, listed, quoted
from cupwright.core.report.words_section import SMALL_TABLE
from cupwright.errors import Refused

_MOST_SAID, _MOST_ROWS = 3, 40
_LIKING_WORDS = "verdict"


def words_hold_section(answers: Answers, *, level: float = 0.95, resamples: int = 2000) -> tuple[Block, ...]:
    """The words of a table, question by question; each is answered in a sentence first."""
    use = _taste_words(answers)
    return (
        Heading("Which words hold?"),
        *_held(answers, use, level, resamples),
        *_differences(answers, use, level),
        *_splits(answers, use, level),
        *_liking(answers, use, level),
    )


def _taste_words(answers: Answers) -> WordUse:
    """Words of taste; those of liking are asked for by a scale."""
    use = word_use(answers)
    kept = [i for i, one in enumerate(use.concepts) if answers.lexicon[one].family != _LIKING_WORDS]
    return WordUse(
        tuple(use.concepts[i] for i in kept), tuple(use.labels[i] for i in kept), use.used[kept], use.wrote
    )


def _held(answers: Answers, use: WordUse, level: float, resamples: int) -> list[Block]:
    try:
        found = words_that_hold(use, level=level, resamples=resamples)
    except Refused as refusal:
        return [Paragraph(f"No word can be weighed. {refusal.message}")]
    names = [coffee.name for coffee in answers.coffees]
    if not found.looks:
        return [Paragraph("No word was used three times, so none can be weighed against chance.")]
    held = [word for row in range(len(names)) for word in found.held(row)]
    blocks: list[Block] = [
        Paragraph(_said_of(found, row, names[row])) for row in range(len(names)) if found.held(row)
    ]
    if not held:
        blocks.append(Paragraph(_none_held(found, use)))
    else:
        blocks.append(_held_figure(held, names))
    return [*blocks, _held_table(found, use, answers), _how(found)]


def _said_of(found: WordsThatHold, row: int, name: str) -> str:
    held = found.held(row)
    allowed = f"after allowing for {counted(found.words, 'word')}"
    first, *others = held[:_MOST_SAID]
    said = f"{quoted(capital(first.label))} holds for {name}: {_how_often(first)}"
    said += f" ({chance(first.adjusted_p)} {allowed})."
    if others:
        more = [f"{quoted(one.label)} ({one.count} of {one.of}; {chance(one.adjusted_p)})" for one in others]
        said += f" So {'does' if len(more) == 1 else 'do'} {listed(more)}."
    left = len(held) - _MOST_SAID
    return f"{said} {capital(counted(left, 'further word'))} in the table." if left > 0 else said


def _how_often(word: HeldWord) -> str:
    who = f"{word.count} of {counted(word.of, 'taster')}"
    if not word.other_cups:
        return f"{who}, against {word.expected:.1f} by luck"
    if not word.other_uses:
        return f"{who}, who use it for none of their {counted(word.other_cups, 'other cup')}"
    if word.other_cups < 2 * word.other_uses:
        return f"{who}, who use it for {word.other_uses} of their {word.other_cups} other cups"
    return f"{who}, who use it for 1 in {word.other_cups / word.other_uses:.0f} cups otherwise"


def _none_held(found: WordsThatHold, use: WordUse) -> str:
    tasters = int(use.wrote.any(axis=0).sum())
    return (
        f"No word holds for a coffee beyond what its tasters use anyway: {counted(found.words, 'word')} were "
        f"looked at, and with {counted(tasters, 'taster')} only a large difference could stand out. That is "
        "no proof that the coffees taste alike."
    )


def _held_figure(held: Sequence[HeldWord], names: Sequence[str]) -> Figure:
    said = "; ".join(f"{names[one.coffee]}, {one.label}: {one.count} of {one.of}" for one in held)
    few = max(one.of for one in held) <= SMALL_TABLE
    return Figure(
        kind=FigureKind.DOTS,
        rows=tuple(
            {"label": f"{one.label}, {names[one.coffee]}", "value": one.count, "of": one.of}
            if few
            else {
                "label": f"{one.label}, {names[one.coffee]}",
                "value": one.count / one.of,
                "low": None,
                "high": None,
            }
            for one in held[:_MOST_ROWS]
        ),
        alt=f"Words that hold, and how many of the tasters who wrote used them. {said}.",
        caption="Words that hold for a coffee beyond its tasters' habits.",
        name="words-hold",
    )


def _held_table(found: WordsThatHold, use: WordUse, answers: Answers) -> TableBlock:
    names, support = [coffee.name for coffee in answers.coffees], kin_counts(use, answers.lexicon)
    at = {concept: i for i, concept in enumerate(use.concepts)}
    looks = sorted(
        (one for words in found.per_coffee for one in words), key=lambda one: (one.adjusted_p, one.p)
    )
    shown = [one for one in looks if one.count > one.expected][:_MOST_ROWS]
    return TableBlock(
        columns=(
            Column("Coffee"),
            Column("Word"),
            Column("Tasters", 0, "right"),
            Column("of", 0, "right"),
            Column("with kin", 1, "right"),
            Column("by habit", 1, "right"),
            Column("p alone", 4, "right"),
            Column("p, all looks", 4, "right"),
        ),
        rows=tuple(
            (
                names[one.coffee],
                one.label,
                one.count,
                one.of,
                float(support[at[one.concept], one.coffee]),
                one.expected,
                one.p,
                one.adjusted_p,
            )
            for one in shown
        ),
        caption=(
            "Words used more than their tasters' habits would have it, the surest first. By habit: the "
            "tasters expected if each used the word as often for every coffee. With kin: who wrote a kindred "
            "word counts in part; this is not tested."
        ),
        name="words-hold",
    )


def _how(found: WordsThatHold) -> Caveat:
    way = (
        "each taster's notes were shuffled over their coffees, whole, and every look counted again"
        if found.method == "shuffled notes"
        else "Holm's bound over all looks"
    )
    return Caveat(
        f"Each taster is compared with themselves over their own coffees. {counted(found.looks, 'pair')} of "
        f"word and coffee were looked at; the last column allows for that: {way}. Who did not write a word "
        "may have met it all the same, and tasters who talk repeat each other."
    )


def _differences(answers: Answers, use: WordUse, level: float) -> list[Block]:
    heading = Heading("Which words tell the coffees apart?", 2)
    try:
        found = word_differences(use)
    except Refused as refusal:
        return [heading, Paragraph(f"Nothing can be said. {refusal.message}")]
    if not found:
        return [heading, Paragraph("No word was used for some coffees only by three tasters or more.")]
    clear = [word for word in found if word.adjusted_p <= 1 - level]
    names = [coffee.name for coffee in answers.coffees]
    looked = counted(len(found), "word")
    said = (
        f"{listed([_told_by(word, names, level) for word in clear[:_MOST_SAID]])}, among {looked}."
        if clear
        else f"None, once all {looked} are allowed for."
    )
    return [heading, Paragraph(capital(said)), _q_table(found), *_pair_table(clear, names)]


def _told_by(word: WordDifference, names: Sequence[str], level: float) -> str:
    apart = [
        f"{names[a]} above {names[b]}"
        for pair in word.pairs
        if pair.adjusted_p <= 1 - level
        for a, b in [(pair.a, pair.b) if pair.only_a > pair.only_b else (pair.b, pair.a)]
    ]
    if not apart:
        return f"{quoted(word.label)} does, though no single pair is clear ({chance(word.adjusted_p)})"
    return f"{quoted(word.label)} puts {listed(apart[:_MOST_SAID])} ({chance(word.adjusted_p)})"


def _q_table(found: Sequence[WordDifference]) -> TableBlock:
    return TableBlock(
        columns=(
            Column("Word"),
            Column("Q", 2, "right"),
            Column("df", 0, "right"),
            Column("p", 4, "right"),
            Column("p, all words", 4, "right"),
        ),
        rows=tuple((one.label, one.q.q, one.q.df, one.q.p, one.adjusted_p) for one in found[:_MOST_ROWS]),
        caption=(
            f"Cochran's Q over the {counted(found[0].q.tasters, 'taster')} who wrote about every coffee; the "
            "last column by Holm over all words."
        ),
        name="words-apart",
    )


def _pair_table(clear: Sequence[WordDifference], names: Sequence[str]) -> list[Block]:
    if not clear:
        return []
    rows = tuple(
        (word.label, names[pair.a], names[pair.b], pair.only_a, pair.only_b, pair.p, pair.adjusted_p)
        for word in clear
        for pair in word.pairs
    )
    return [
        TableBlock(
            columns=(
                Column("Word"),
                Column("Coffee"),
                Column("and coffee"),
                Column("only the first", 0, "right"),
                Column("only the second", 0, "right"),
                Column("p", 4, "right"),
                Column("p, all pairs", 4, "right"),
            ),
            rows=rows[:_MOST_ROWS],
            caption="McNemar's exact test of every two coffees; the last column by Holm over a word's pairs.",
            name="words-apart-pairs",
        )
    ]


def _splits(answers: Answers, use: WordUse, level: float) -> list[Block]:
    found = split_words(use, level=level)
    heading = Heading("Which words split the panel?", 2)
    if not found:
        return [heading, Paragraph("None that could be told from chance.")]
    said = "; ".join(_split_said(answers, one) for one in found[:_MOST_SAID])
    why = "That may be a difference of palates, or of what the word means to each."
    table = TableBlock(
        columns=(
            Column("Word"),
            Column("Users", 0, "right"),
            Column("of", 0, "right"),
            Column("Likeness within tasters", 2, "right"),
            Column("p, all words", 4, "right"),
        ),
        rows=tuple((one.label, len(one.users), one.tasters, one.alike, one.adjusted_p) for one in found),
        caption="Words that about half of the tasters use for half of their coffees or more; p by Holm.",
        name="words-split",
    )
    return [heading, Paragraph(f"{said}. {why}"), table]


def _split_said(answers: Answers, word: SplitWord) -> str:
    seats = answers.seats
    who = (
        listed([seats[column].name for column in word.users])
        if len(seats) <= SMALL_TABLE
        else f"{len(word.users)} of {word.tasters} tasters"
    )
    uses = "uses" if len(word.users) == 1 else "use"
    return f"{quoted(capital(word.label))}: {who} {uses} it whatever the coffee, the others hardly ever"


def _liking(answers: Answers, use: WordUse, level: float) -> list[Block]:
    scale = _liking_scale(answers)
    if scale is None:
        return []
    heading = Heading("Which words go with liking?", 2)
    values: NDArray[np.float64] = scale.values
    found = words_with_liking(use, values, level=level, step=scale.field.step)
    if not found:
        return [
            heading,
            Paragraph("Too few tasters used a word for some of their coffees and not for others."),
        ]
    clear = [word for word in found if word.adjusted_p <= 1 - level]
    looked = counted(len(found), "word")
    said = (
        f"{listed([_lift_said(word) for word in clear[:_MOST_SAID]])}, with {looked} allowed for."
        if clear
        else f"None, once all {looked} are allowed for."
    )
    return [heading, Paragraph(capital(said)), _lift_figure(found), _lift_table(found, level), _no_cause()]


def _liking_scale(answers: Answers) -> Scale | None:
    wanted = answers.sheet.liking
    return next((one for one in answers.scales if (one.part.id, one.field.id) == wanted), None)


def _lift_said(word: LikingWord) -> str:
    within = word.lift.within
    if within is None:
        return quoted(word.label)
    side = "more" if within.estimate > 0 else "less"
    return (
        f"cups called {quoted(word.label)} are liked {abs(within.estimate):.1f} {side} by the same taster "
        f"({chance(word.adjusted_p)})"
    )


def _lift_figure(found: Sequence[LikingWord]) -> Figure:
    shown = [(one.label, one.lift.within) for one in found[:_MOST_ROWS] if one.lift.within]
    said = "; ".join(f"{label} {one.estimate:+.1f}" for label, one in shown)
    return Figure(
        kind=FigureKind.INTERVALS,
        rows=tuple(
            {"label": label, "estimate": one.estimate, "low": one.low, "high": one.high}
            for label, one in shown
        ),
        alt=f"Liking with a word less liking without it, within tasters. {said}.",
        caption="Right of 0: liked more where the word was used. Each interval on its own.",
        x_title="liking with the word less liking without",
        name="words-liking",
    )


def _lift_table(found: Sequence[LikingWord], level: float) -> TableBlock:
    return TableBlock(
        columns=(
            Column("Word"),
            Column("Tasters", 0, "right"),
            Column("Within tasters", 2, "right"),
            Column(f"{level_name(level)} from", 2, "right"),
            Column("to", 2, "right"),
            Column("All cups", 2, "right"),
            Column("p, all words", 4, "right"),
        ),
        rows=tuple(
            (
                one.label,
                one.lift.tasters_with_both,
                *((w.estimate, w.low, w.high) if (w := one.lift.within) else (None, None, None)),
                one.lift.lift.estimate,
                one.adjusted_p,
            )
            for one in found[:_MOST_ROWS]
        ),
        caption="Penalty-lift: mean liking with the word less mean liking without it.",
        name="words-liking",
    )


def _no_cause() -> Caveat:
    return Caveat(
        "A word that goes with liking need not be its reason: it may stand for the coffee that was liked, or "
        "for another word beside it."
    )
