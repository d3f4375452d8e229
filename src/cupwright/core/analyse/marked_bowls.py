"""Marked bowls: what tasters said of the single bowls of each sample."""

from collections import defaultdict

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.answers import Answers
from cupwright.core.taste.note import Value
from cupwright.core.taste.sheet import CUP_KINDS

Floats = NDArray[np.float64]


def marked_bowls(answers: Answers, bowls: int) -> dict[str, Floats]:
    """Sample -> 1 where a taster marked a bowl in any question, shape (n_tasters, n_bowls).

    `bowls` is how many bowls a sample has. Only tasters who answered such a question of the sample are rows;
    a sample is called by its coffee, and by its place too where a coffee stood at several.
    """
    marks: dict[str, dict[str, Floats]] = defaultdict(dict)
    names = _names(answers)
    for one in answers.given:
        if one.kind in CUP_KINDS:
            row = marks[one.place].setdefault(one.seat, np.zeros(bowls))
            for bowl in _marked(one.value):
                if 1 <= bowl <= bowls:
                    row[bowl - 1] = 1.0
    return {names[place]: np.array(list(rows.values())) for place, rows in marks.items()}


def _marked(value: Value) -> list[int]:
    """Numbers of the bowls that are off, from either shape of answer."""
    if isinstance(value, dict):
        return [int(bowl) for bowl, weight in value.items() if weight > 0]
    return [int(bowl) for bowl in value] if isinstance(value, list) else []


def _names(answers: Answers) -> dict[str, str]:
    return {
        place: coffee.name if len(places) == 1 else f"{coffee.name} at {place}"
        for coffee, places in zip(answers.coffees, answers.places, strict=True)
        for place in places
    }
