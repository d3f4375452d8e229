"""Coloured cups: cups that a taster both coloured and wrote about, for what goes together over tables."""

from collections.abc import Mapping

from cupwright.core.analyse.answers import Answers, Given
from cupwright.core.plan.names import folded
from cupwright.core.taste.sheet import Kind
from cupwright.core.words.colour import OKLab
from cupwright.core.words.colour_words import ColouredCup


def coloured_cups(answers: Answers) -> tuple[ColouredCup, ...]:
    """One for each colour given to a cup of which the same taster wrote something in words.

    A taster is known by the folded name, so that one who sat at several tables counts as one.
    """
    names = {seat.id: folded(seat.name) for seat in answers.seats}
    wrote = _wrote(answers)
    return tuple(
        ColouredCup(names[given.seat], picked_colour(given), wrote[given.seat, given.place])
        for given in answers.of_kind(Kind.COLOUR)
        if (given.seat, given.place) in wrote
    )


def picked_colour(given: Given) -> OKLab:
    """The colour of an answer to a field for colour."""
    value: Mapping[str, float] = given.value if isinstance(given.value, dict) else {}
    return OKLab(value.get("l", 0.0), value.get("a", 0.0), value.get("b", 0.0))


def _wrote(answers: Answers) -> dict[tuple[str, str], frozenset[str]]:
    """(seat, place) -> concepts, wherever anything was written in words."""
    wrote: dict[tuple[str, str], frozenset[str]] = {}
    for one in answers.written:
        if one.reading is not None:
            before = wrote.get((one.seat, one.place), frozenset())
            wrote[one.seat, one.place] = before | one.reading.concepts
    return wrote
