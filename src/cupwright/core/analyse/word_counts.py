"""Word counts: how many tasters used a word for a coffee, and which words set a coffee apart."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.exact_test import exact_p_value
from cupwright.core.analyse.holm import holm
from cupwright.core.analyse.proportions import share_difference, wilson
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.reading import Reading

Bools = NDArray[np.bool_]
Ints = NDArray[np.int64]

# A word that two tasters used cannot set a coffee apart at any usual level; looking at it would only
# make the others harder to see. The rule reads the total use alone, so it does not favour any coffee.
LEAST_USES = 3


@dataclass(frozen=True, slots=True)
class WordUse:
    """Who used which word for which coffee.

    `used` has shape (n_words, n_coffees, n_tasters); `wrote`, shape (n_coffees, n_tasters), is true where a
    taster wrote anything that is read at all.
    """

    concepts: tuple[str, ...]
    labels: tuple[str, ...]
    used: Bools
    wrote: Bools


@dataclass(frozen=True, slots=True)
class WordCount:
    """`count` of the `of` tasters who wrote on a coffee used a word; `share` is count/of."""

    concept: str
    label: str
    count: int
    of: int
    share: Estimate


@dataclass(frozen=True, slots=True)
class WordContrast:
    """A word's share for one coffee less its share for all others, and its p value over all looks."""

    concept: str
    label: str
    count: int
    of: int
    other_count: int
    other_of: int
    difference: Estimate
    adjusted_p: float


@dataclass(frozen=True, slots=True)
class Contrasts:
    """What sets each coffee apart, and among how many pairs of word and coffee it was looked for."""

    looks: int
    level: float
    per_coffee: tuple[tuple[WordContrast, ...], ...]


def word_use(answers: Answers, *, families: bool = False) -> WordUse:
    """Who used which word for which coffee, over all passes and places; or which family of words."""
    lexicon, rows, columns = answers.lexicon, answers.rows, answers.columns
    read = [(w, _counted(w.reading, lexicon, families)) for w in answers.written if w.reading is not None]
    concepts = tuple(sorted({concept for _, words in read for concept in words}))
    depth = {concept: index for index, concept in enumerate(concepts)}
    wrote = np.zeros((len(rows), len(columns)), dtype=bool)
    used = np.zeros((len(concepts), *wrote.shape), dtype=bool)
    for w, words in read:
        cell = (rows[w.coffee], columns[w.seat])
        wrote[cell] = True
        for concept in words:
            used[(depth[concept], *cell)] = True
    return WordUse(concepts, tuple(lexicon[concept].label for concept in concepts), used, wrote)


def _counted(reading: Reading, lexicon: Lexicon, families: bool) -> frozenset[str]:
    if families:
        return frozenset(lexicon[concept].family for concept in reading.concepts)
    return reading.concepts


def word_counts(use: WordUse, *, level: float = 0.95) -> tuple[tuple[WordCount, ...], ...]:
    """How many tasters used each word for each coffee?

    Parameters
    ----------
    use : WordUse
    level : float in (0, 1)
        Coverage of each interval on its own.

    Returns
    -------
    tuple, one entry per coffee, of tuples of WordCount
        Every word used at least once, the most used first. Empty where nobody wrote.

    Notes
    -----
    Error: as `wilson`. A taster who wrote something else may have met the taste all the same: free words
    undercount.
    Source: [Wilson1927].
    """
    totals, counts = use.wrote.sum(axis=1), use.used.sum(axis=2)
    return tuple(
        tuple(
            WordCount(use.concepts[i], use.labels[i], int(n), int(of), wilson(int(n), int(of), level=level))
            for i, n in sorted(enumerate(counts[:, row]), key=lambda pair: (-pair[1], use.labels[pair[0]]))
            if n > 0
        )
        for row, of in enumerate(totals)
    )


def word_contrasts(use: WordUse, *, level: float = 0.95) -> Contrasts:
    """Which words were used for one coffee more, or less, than for the others together?

    Parameters
    ----------
    use : WordUse
    level : float in (0, 1)
        Of each interval on its own, and of the whole list: with chance `level` at least, no listed word is
        there by luck alone.

    Returns
    -------
    Contrasts
        Per coffee the words whose interval leaves out 0 and whose p value, adjusted for all looks, is at
        most 1 - level; the largest difference first.

    Notes
    -----
    Error: whether a word is listed rests on each taster compared with themselves and keeps its promise at
    any size. The interval beside it takes the two groups as separate people: too wide where tasters repeat
    a word from coffee to coffee, too narrow, by sqrt(k/(k - 1)) at most for k coffees, where each gives it
    to one coffee only.
    Source: [Birch1964]; [Holm1979]; the interval [Newcombe1998b], method 10.
    """
    words, coffees, tables = _looks(use)
    if not len(words):
        return Contrasts(0, level, tuple(() for _ in use.wrote))
    looks = zip(words.tolist(), coffees.tolist(), strict=True)
    adjusted = holm([exact_p_value(use.used[word], use.wrote, coffee) for word, coffee in looks])
    found: list[list[WordContrast]] = [[] for _ in use.wrote]
    for look in np.flatnonzero(adjusted <= 1 - level):
        contrast = _contrast(use, int(words[look]), tables[look], float(adjusted[look]), level)
        if contrast.difference.differs_from_zero:
            found[coffees[look]].append(contrast)
    ranked = tuple(tuple(sorted(c, key=lambda word: -word.difference.estimate)) for c in found)
    return Contrasts(len(words), level, ranked)


def _contrast(use: WordUse, word: int, table: Ints, adjusted_p: float, level: float) -> WordContrast:
    count, of, other_count, other_of = (int(n) for n in table)
    return WordContrast(
        concept=use.concepts[word],
        label=use.labels[word],
        count=count,
        of=of,
        other_count=other_count,
        other_of=other_of,
        difference=share_difference(count, of, other_count, other_of, level=level),
        adjusted_p=adjusted_p,
    )


def _looks(use: WordUse) -> tuple[Ints, Ints, Ints]:
    """The pairs of word and coffee to look at, and for each (count, of, other count, other of)."""
    counts, totals = use.used.sum(axis=2), use.wrote.sum(axis=1)
    others, other_totals = counts.sum(axis=1, keepdims=True) - counts, totals.sum() - totals
    compared = (totals > 0) & (other_totals > 0)
    words, coffees = np.nonzero((counts.sum(axis=1) >= LEAST_USES)[:, None] & compared[None, :])
    cells = (counts[words, coffees], totals[coffees], others[words, coffees], other_totals[coffees])
    return words, coffees, np.stack(cells, axis=1).reshape(-1, 4)
