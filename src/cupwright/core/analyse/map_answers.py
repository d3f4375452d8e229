"""Map answers: what a map is made of, kind by kind: points, words, colours, of each taster and coffee."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.scores import Scores

Floats = NDArray[np.float64]

POINTS, WORDS, COLOURS = "points", "words", "colours"
# A map of more points is read by nobody.
MOST_COFFEES = 60


@dataclass(frozen=True, slots=True)
class AnswerKind:
    """One kind of answer.

    `values` has shape (n_tasters, n_coffees, n_columns), NaN where there is no answer. `columns` names what
    is more where a number is higher, `opposites` what is more where it is lower ("" where nothing is).
    `scaled`: the columns have units of their own, and each is given the same spread.
    """

    name: str
    columns: tuple[str, ...]
    opposites: tuple[str, ...]
    values: Floats
    scaled: bool


@dataclass(frozen=True, slots=True)
class MapAnswers:
    """All kinds of answers about the same coffees by the same tasters."""

    coffees: tuple[str, ...]
    tasters: tuple[str, ...]
    kinds: tuple[AnswerKind, ...]


def scores_map(attributes: Mapping[str, Scores]) -> MapAnswers:
    """Scores of several attributes as one kind of answer; coffees and tasters are joined by their names.

    Of more coffees than a map takes only the names: their table might not fit into memory.
    """
    coffees = tuple(dict.fromkeys(name for scores in attributes.values() for name in scores.coffees))
    tasters = tuple(dict.fromkeys(name for scores in attributes.values() for name in scores.tasters))
    if len(coffees) > MOST_COFFEES:
        return MapAnswers(coffees, tasters, ())
    values = np.full((len(tasters), len(coffees), len(attributes)), np.nan)
    for column, scores in enumerate(attributes.values()):
        rows = [coffees.index(name) for name in scores.coffees]
        places = [tasters.index(name) for name in scores.tasters]
        values[np.ix_(places, rows, [column])] = scores.means.T[:, :, None]
    names = tuple(attributes)
    kinds = (AnswerKind(POINTS, names, ("",) * len(names), values, scaled=True),) if names else ()
    return MapAnswers(coffees, tasters, kinds)
