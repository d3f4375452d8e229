"""Comparing two lists of words: what both hold, what is near, what one of them missed."""

from collections.abc import Collection
from dataclasses import dataclass

import numpy as np

from cupwright.core.words.kinship import kin_of
from cupwright.core.words.lexicon import Lexicon

# Below this two words are not called near; a child and its parent, or two children of one parent, lie above.
NEAR = 0.5


@dataclass(frozen=True, slots=True)
class Matched:
    """Two lists laid side by side; all lists sorted, `near` by falling kinship.

    `score` is in [0, 1]: 1 if the lists are the same, 0 if they have nothing in common or one is empty.
    """

    shared: tuple[str, ...]
    near: tuple[tuple[str, str, float], ...]
    missed: tuple[str, ...]
    own: tuple[str, ...]
    score: float


def match(mine: Collection[str], theirs: Collection[str], lexicon: Lexicon) -> Matched:
    """Lay two lists of concepts side by side.

    Words in both are shared; the rest is paired, each word at most once, so that kinship adds up to the most
    possible; pairs under 0.5 do not count.

    Parameters
    ----------
    mine, theirs : collections of concept ids
        Order and repetition do not matter.

    Returns
    -------
    Matched
        `near` holds (mine, theirs, kinship); `missed` is only in theirs, `own` only in mine.

    Raises
    ------
    KeyError
        If a concept is not in the lexicon.

    Notes
    -----
    The score is 2 S / (|mine| + |theirs|), S the number shared plus the kinship of the near pairs: the
    coefficient of [Dice1945], with near words counted in part. Error: it says nothing about chance; two long
    lists of usual words score well for any coffee.
    Source: the pairing is the assignment problem [Kuhn1955], solved by scipy.optimize.linear_sum_assignment.
    """
    a, b = set(mine), set(theirs)
    shared = a & b
    near = _paired(sorted(a - b), sorted(b - a), lexicon)
    total = len(shared) + sum(pair[2] for pair in near)
    return Matched(
        tuple(sorted(shared)),
        near,
        tuple(sorted(b - shared - {pair[1] for pair in near})),
        tuple(sorted(a - shared - {pair[0] for pair in near})),
        2 * total / (len(a) + len(b)) if a and b else 0.0,
    )


def _paired(mine: list[str], theirs: list[str], lexicon: Lexicon) -> tuple[tuple[str, str, float], ...]:
    if not mine or not theirs:
        return ()
    all_kin = kin_of(lexicon)
    rows, columns = [all_kin.row[word] for word in mine], [all_kin.row[word] for word in theirs]
    kin = all_kin.kinship[np.ix_(rows, columns)].copy()
    kin[kin < NEAR] = 0.0
    pairs = [(mine[a], theirs[b], float(kin[a, b])) for a, b in best_pairing(kin) if kin[a, b] > 0]
    return tuple(sorted(pairs, key=lambda pair: (-pair[2], pair[0], pair[1])))


def best_pairing(worth: np.ndarray) -> list[tuple[int, int]]:
    """Pairs of (row, column), each used at most once, whose worths add up to the most possible.

    Parameters
    ----------
    worth : float array, shape (n_rows, n_columns)
        Every cell finite.
    """
    # scipy takes a second to load, and most of the program never pairs anything.
    from scipy.optimize import linear_sum_assignment

    rows, columns = linear_sum_assignment(worth, maximize=True)
    return [(int(row), int(column)) for row, column in zip(rows, columns, strict=True)]
