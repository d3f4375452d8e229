"""An opened table's answers as what a map is made of: its scales, words and colours."""

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.coloured_cups import picked_colour
from cupwright.core.analyse.map_answers import COLOURS, POINTS, WORDS, AnswerKind, MapAnswers
from cupwright.core.analyse.word_counts import word_use
from cupwright.core.taste.sheet import Kind

Floats = NDArray[np.float64]

# A word of one taster alone says where that taster was, not where the coffee is.
FEWEST_USERS = 2
# Of a crowd's words the most used ones; the rarer would only scatter.
MOST_WORDS = 80
_LIKING_WORDS = "verdict"


def answers_map(answers: Answers) -> MapAnswers:
    """The scales, words and colours of an opened table; what nobody answered is no kind."""
    kinds = [_scales(answers), _words(answers), _colours(answers)]
    return MapAnswers(
        coffees=tuple(coffee.name for coffee in answers.coffees),
        tasters=tuple(seat.name for seat in answers.seats),
        kinds=tuple(kind for kind in kinds if kind is not None),
    )


def _scales(answers: Answers) -> AnswerKind | None:
    """Every answered scale but liking: who likes a coffee is not what it is like."""
    scales = [
        scale
        for scale in answers.scales
        if np.isfinite(scale.values).any() and (scale.part.id, scale.field.id) != answers.sheet.liking
    ]
    if not scales:
        return None
    return AnswerKind(
        name=POINTS,
        columns=tuple(scale.field.high_label or scale.field.label for scale in scales),
        opposites=tuple(scale.field.low_label or "" for scale in scales),
        values=np.stack([scale.values.T for scale in scales], axis=2),
        scaled=True,
    )


def _words(answers: Answers) -> AnswerKind | None:
    """1 where a taster used a word for a coffee, 0 where they wrote without it; no words of liking."""
    use = word_use(answers)
    kept = [
        index
        for index, concept in enumerate(use.concepts)
        if answers.lexicon[concept].family != _LIKING_WORDS
        and use.used[index].any(axis=0).sum() >= FEWEST_USERS
    ]
    if not kept:
        return None
    often = sorted(kept, key=lambda index: (-use.used[index].sum(), use.labels[index]))[:MOST_WORDS]
    kept = sorted(often)
    used = np.where(use.wrote, use.used[kept].astype(float), np.nan)
    labels = tuple(use.labels[index] for index in kept)
    return AnswerKind(WORDS, labels, ("",) * len(labels), used.transpose(2, 1, 0), scaled=False)


def _colours(answers: Answers) -> AnswerKind | None:
    """The mean colour that a taster gave a coffee, in OKLab: equal distances look about equal."""
    given = answers.of_kind(Kind.COLOUR)
    if not given:
        return None
    shape = (len(answers.seats), len(answers.coffees))
    sums, counts = np.zeros((*shape, 3)), np.zeros(shape)
    for one in given:
        cell, colour = (answers.columns[one.seat], answers.rows[one.coffee]), picked_colour(one)
        sums[cell] += (colour.l, colour.a, colour.b)
        counts[cell] += 1
    values = np.where(counts[:, :, None] > 0, sums / np.maximum(counts, 1)[:, :, None], np.nan)
    names = ("light colours", "red colours", "yellow colours")
    return AnswerKind(COLOURS, names, ("dark colours", "green colours", "blue colours"), values, scaled=False)
