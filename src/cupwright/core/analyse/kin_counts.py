"""Kin counts: how many tasters support a word, those who used a kindred word in part."""

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.word_counts import WordUse
from cupwright.core.reveal.match import NEAR
from cupwright.core.words.kinship import kin_of
from cupwright.core.words.lexicon import Lexicon

Floats = NDArray[np.float64]


def kin_counts(use: WordUse, lexicon: Lexicon) -> Floats:
    """How far do a coffee's tasters support each word, by it or by its kin?

    Parameters
    ----------
    use : WordUse
        Of concepts that are in the lexicon.
    lexicon : Lexicon

    Returns
    -------
    float array, shape (n_words, n_coffees)
        Each taster adds 1 for the word itself, else the kinship of the nearest word that they used, if it is
        at least 0.5; never less than the plain count, never more than the tasters who wrote.

    Raises
    ------
    KeyError
        If a concept is not in the lexicon.

    Notes
    -----
    Error: kinship is an ordering rather than a measure, so half a taster is a manner of speaking; nothing is
    tested with these counts.
    Source: kinship as in docs/methods/kinship.md; our own sum.
    """
    kin = kin_of(lexicon)
    at = [kin.row[concept] for concept in use.concepts]
    near = kin.kinship[np.ix_(at, at)].copy()
    near[near < NEAR] = 0.0
    support = np.zeros(use.used.shape[:2])
    for coffee, taster in np.argwhere(use.used.any(axis=0)).tolist():
        support[:, coffee] += near[:, use.used[:, coffee, taster]].max(axis=1)
    return support
