"""Warm answers: words and colours of a table with the temperature of the cup each was given at."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.coloured_cups import picked_colour
from cupwright.core.analyse.scores import Scores, counted_repeats
from cupwright.core.taste.sheet import Kind

COMPONENTS = ("lightness", "green to red", "blue to yellow")


@dataclass(frozen=True, slots=True)
class WarmWords:
    """Answers in words: `used` concept -> bool array (n_answers,), `block` one taster's to one question."""

    used: dict[str, NDArray[np.bool_]]
    block: NDArray[np.int64]
    celsius: NDArray[np.float64]


def warm_words(answers: Answers) -> WarmWords:
    """Every answer in words that was read, with how warm the cup was (NaN where nobody knows)."""
    read = [(one, one.reading.concepts) for one in answers.written if one.reading is not None]
    warmth = answers.cups.at([(one.place, one.tasted_at) for one, _ in read])
    blocks = {(one.seat, one.part, one.field): 0 for one, _ in read}
    numbers = {key: number for number, key in enumerate(blocks)}
    concepts = sorted({concept for _, said in read for concept in said})
    return WarmWords(
        {concept: np.array([concept in said for _, said in read]) for concept in concepts},
        np.array([numbers[one.seat, one.part, one.field] for one, _ in read], dtype=np.int64),
        np.array([np.nan if cup is None else cup.celsius for cup in warmth]),
    )


def warm_colours(answers: Answers) -> dict[str, Scores]:
    """The three components of the colours picked, each as scores with temperatures; empty without colours."""
    given = answers.of_kind(Kind.COLOUR)
    if not given:
        return {}
    colours = [picked_colour(one) for one in given]
    warmth = answers.cups.at([(one.place, one.tasted_at) for one in given])
    celsius = np.array([np.nan if cup is None else cup.celsius for cup in warmth])
    coffee = np.array([answers.rows[one.coffee] for one in given])
    taster = np.array([answers.columns[one.seat] for one in given])
    repeat = counted_repeats(coffee, taster, -np.nan_to_num(celsius))
    names = tuple(one.name for one in answers.coffees), tuple(one.name for one in answers.seats)
    values = zip(*((one.l, one.a, one.b) for one in colours), strict=True)
    return {
        component: Scores(*names, coffee, taster, np.array(value), repeat, temperature=celsius)
        for component, value in zip(COMPONENTS, values, strict=True)
    }
