"""What a map is made of: answers by kind (points, words, colours), for each taster a table of coffees."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.coloured_cups import picked_colour
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.word_counts import word_use
from cupwright.core.taste.sheet import Kind

Floats = NDArray[np.float64]

POINTS, WORDS, COLOURS = "points", "words", "colours"
# A word of one taster alone says where that taster was, not where the coffee is.
FEWEST_USERS = 2
# Of a crowd's words the most used ones; the rarer would only scatter.
MOST_WORDS = 80
# A map of more points is read by nobody.
MOST_COFFEES = 60
_LIKING_WORDS = "verdict"


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
