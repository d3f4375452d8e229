"""Words that hold: a word that tasters used for a coffee beyond what each of them uses anyway."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.analyse.exact_test import count_chances
from cupwright.core.analyse.holm import holm
from cupwright.core.analyse.level import checked_level
from cupwright.core.analyse.rank_null import SEED, shuffles
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.core.analyse.word_counts import LEAST_USES, WordUse
from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Ints = NDArray[np.int64]

# So many numbers are moved about in about a second; beyond, Holm's bound is used instead.
MOST_MOVED = 200_000_000


@dataclass(frozen=True, slots=True)
class HeldWord(Tabular):
    """A word and a coffee: used by `count` of the `of` tasters who wrote about it.

    `expected` is the count if each of them used the word as often as they do, for any coffee alike. The same
    tasters used it for `other_uses` of their `other_cups` of the other coffees. `p` is the chance of so many
    or more for this look alone, `adjusted_p` over all looks.
    """

    coffee: int
    concept: str
    label: str
    count: int
    of: int
    expected: float
    other_uses: int
    other_cups: int
    p: float
    adjusted_p: float


@dataclass(frozen=True, slots=True)
class WordsThatHold(Tabular):
    """Every look at a word and a coffee, per coffee, the surest first.

    `looks` at `words` words were allowed for by `method`: "shuffled notes" or "Holm".
    """

    words: int
    looks: int
    level: float
    method: str
    per_coffee: tuple[tuple[HeldWord, ...], ...]

    def held(self, coffee: int) -> tuple[HeldWord, ...]:
        """The words of a coffee that hold at `level`."""
        return tuple(word for word in self.per_coffee[coffee] if word.adjusted_p <= 1 - self.level)

    def rows(self) -> list[Record]:
        """One row a look."""
        return [row for words in self.per_coffee for word in words for row in word.rows()]


def use_of(used: ArrayLike, *, concepts: Sequence[str] = ()) -> WordUse:
    """Ticks as an array, as the words of a table.

    Parameters
    ----------
    used : bool or 0/1 array, shape (n_tasters, n_coffees, n_concepts)
        NaN in all concepts where a taster said nothing of a coffee.
    concepts : sequence of str
        Names; counted from 1 if left out.

    Raises
    ------
    Refused
        If the array has another number of dimensions, or names do not fit.
    """
    ticks = np.asarray(used, dtype=float)
    if ticks.ndim != 3 or (concepts and len(concepts) != ticks.shape[2]):
        raise Refused(
            "Words used have three dimensions (tasters, coffees, concepts).", todo="Mend the array."
        )
    names = tuple(concepts) or tuple(str(number) for number in range(1, ticks.shape[2] + 1))
    wrote = ~np.isnan(ticks).all(axis=2)
    return WordUse(names, names, (np.nan_to_num(ticks) > 0).transpose(2, 1, 0), wrote.T)


def words_that_hold(
    use: WordUse | ArrayLike,
    *,
    level: float = 0.95,
    resamples: int = 2000,
    rng: np.random.Generator | None = None,
) -> WordsThatHold:
    """Which words belong to which coffee, beyond each taster's own habits?

    Parameters
    ----------
    use : WordUse, or 0/1 array as in `use_of`
    level : float in (0, 1)
        If no coffee differs, any word is said to hold with chance 1 - level at most.
    resamples : int
        Shuffles of the notes, to allow for many looks.
    rng : numpy Generator
        None: a fixed seed.

    Raises
    ------
    TooFewObservations
        If fewer than two coffees were written about.
    Refused
        If the level is not between 0 and 1.

    Notes
    -----
    Who used a word for m of the k coffees they wrote on used it for this one with chance m/k, if the coffees
    do not differ; the chance of a count comes from the sum of these (`exact_test`). Words with fewer than
    three uses are left out. For all looks together the whole notes of each taster are shuffled over their
    coffees, so words that go together stay together; a look's adjusted p is how often the surest of all looks
    is as sure by luck.
    Error: the single p is exact and cautious; the adjusted one is exact up to its shuffles, of which it is
    sqrt(p (1 - p) / resamples) off in one case of three. Takes tasters as independent: who talk, repeat.
    Source: [Birch1964]; all looks together [WestfallYoung1993], single step.
    """
    use, level = use if isinstance(use, WordUse) else use_of(use), checked_level(level)
    if (use.wrote.any(axis=1)).sum() < 2:
        raise TooFewObservations("Notes on one coffee alone cannot be compared.", todo="Compare two coffees.")
    words = np.flatnonzero(use.used.sum(axis=(1, 2)) >= LEAST_USES)
    coffees = np.flatnonzero([_comparable(use.wrote, row) for row in range(len(use.wrote))])
    tails, expected = _tails(use, words, coffees)
    counts = use.used[np.ix_(words, coffees)].sum(axis=2)
    single = np.take_along_axis(tails, counts[:, :, None], axis=2)[:, :, 0]
    size = resamples * len(words) * len(coffees) * use.wrote.shape[1]
    shuffled = len(words) > 0 and 0 < size <= MOST_MOVED
    if shuffled:
        moved = _shuffled_counts(use, words, resamples, rng or np.random.default_rng(SEED))
        adjusted = _over_all_looks(tails, single, moved[:, :, coffees])
    else:
        adjusted = holm(single.ravel()).reshape(single.shape)
    per_coffee: list[tuple[HeldWord, ...]] = [() for _ in use.wrote]
    for at, coffee in enumerate(coffees.tolist()):
        found = [
            _word(use, int(word), coffee, (expected[i, at], single[i, at], adjusted[i, at]))
            for i, word in enumerate(words)
            if counts[i, at]
        ]
        per_coffee[coffee] = tuple(sorted(found, key=lambda word: (word.adjusted_p, word.p, word.label)))
    return WordsThatHold(
        len(words), single.size, level, "shuffled notes" if shuffled else "Holm", tuple(per_coffee)
    )


def _comparable(wrote: Bools, coffee: int) -> bool:
    return bool(wrote[coffee].any() and np.delete(wrote, coffee, axis=0).any())


def _tails(use: WordUse, words: Ints, coffees: Ints) -> tuple[Floats, Floats]:
    """Chance of a count or more, shape (n_words, n_coffees, n_tasters + 1); and the counts expected."""
    tails = np.zeros((len(words), len(coffees), use.wrote.shape[1] + 1))
    expected = np.zeros(tails.shape[:2])
    for i, word in enumerate(words):
        for j, coffee in enumerate(coffees.tolist()):
            chances = count_chances(use.used[word], use.wrote, coffee)
            tails[i, j, : len(chances)] = np.minimum(np.cumsum(chances[::-1])[::-1], 1.0)
            expected[i, j] = chances @ np.arange(len(chances))
    return tails, expected


def _over_all_looks(tails: Floats, single: Floats, counts: Ints) -> Floats:
    """How often the surest look of shuffled notes is as sure as each look, from their counts."""
    by_word, by_coffee = np.arange(tails.shape[0])[None, :, None], np.arange(tails.shape[1])[None, None, :]
    surest = np.sort(tails[by_word, by_coffee, counts].min(axis=(1, 2)))
    # Equal chances may differ by rounding.
    as_sure = np.searchsorted(surest, single * (1 + 1e-9), side="right")
    return np.asarray((as_sure + 1) / (len(counts) + 1))


def _shuffled_counts(use: WordUse, words: Ints, resamples: int, rng: np.random.Generator) -> Ints:
    """Uses of each word for each coffee when notes are shuffled, shape (resamples, n_words, n_coffees).

    A taster's notes move over the coffees that they wrote on; the notes of tasters who wrote on one coffee
    only move among those tasters.
    """
    counts = np.zeros((resamples, len(words), len(use.wrote)), dtype=np.int64)
    written = use.wrote.sum(axis=0)
    for taster in np.flatnonzero(written > 1):
        there = np.flatnonzero(use.wrote[:, taster])
        notes = use.used[words][:, there, taster]
        counts[:, :, there] += notes[:, shuffles(len(there), resamples, rng)].transpose(1, 0, 2)
    alone = np.flatnonzero(written == 1)
    if len(alone):
        where = use.wrote[:, alone].argmax(axis=0)
        notes = use.used[words][:, where, alone]
        orders = shuffles(len(alone), resamples, rng)
        for coffee in np.unique(where):
            counts[:, :, coffee] += notes[:, orders[:, where == coffee]].sum(axis=2).T
    return counts


def _word(use: WordUse, word: int, coffee: int, figures: tuple[float, float, float]) -> HeldWord:
    expected, p, adjusted_p = map(float, figures)
    tasters = use.wrote[coffee]
    others = np.delete(np.arange(len(use.wrote)), coffee)
    return HeldWord(
        coffee=coffee,
        concept=use.concepts[word],
        label=use.labels[word],
        count=int(use.used[word, coffee].sum()),
        of=int(tasters.sum()),
        expected=expected,
        other_uses=int(use.used[word][np.ix_(others, tasters)].sum()),
        other_cups=int(use.wrote[np.ix_(others, tasters)].sum()),
        p=p,
        adjusted_p=adjusted_p,
    )
