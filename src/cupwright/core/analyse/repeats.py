"""Repeats: how far one taster's answers on one coffee lie apart, where it stood at several places."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from cupwright.core.analyse.answers import SCALES, Answers, Given
from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.repeat_spread import FEWEST, repeat_spread
from cupwright.core.analyse.totals import Total
from cupwright.core.reveal.match import match

_TOTAL = ("", "total")


@dataclass(frozen=True, slots=True)
class Repeat:
    """One taster's numbers for one coffee, as `places` lie; `apart` is the largest less the smallest."""

    seat: str
    name: str
    coffee: str
    places: tuple[str, ...]
    values: tuple[float, ...]
    apart: float


@dataclass(frozen=True, slots=True)
class ScaleRepeats:
    """All repeats on one scale, or of the totals (part "" and field "total").

    `spread` is the standard deviation of a repeat in the unit of the scale, None where it cannot be had;
    `why_not` then says why. `freedom` is its degrees of freedom: the number of pairs, where all are pairs.
    """

    part: str
    field: str
    label: str
    repeats: tuple[Repeat, ...]
    freedom: int
    spread: Estimate | None
    why_not: str


@dataclass(frozen=True, slots=True)
class WordRepeat:
    """One taster's words for one coffee at two places.

    `share` in [0, 1] is the score of `match`: words in both, kin in part, over all words. `shared` and `near`
    count the words and the pairs of kin.
    """

    seat: str
    name: str
    coffee: str
    places: tuple[str, str]
    shared: int
    near: int
    share: float


@dataclass(frozen=True, slots=True)
class Repeats:
    """What was answered more than once; both empty where no coffee stood at several places."""

    scales: tuple[ScaleRepeats, ...]
    words: tuple[WordRepeat, ...]


def repeats(answers: Answers, totals: Sequence[Total] = (), *, level: float = 0.95) -> Repeats:
    """How far do each taster's answers on one coffee lie apart?

    Parameters
    ----------
    answers : Answers
    totals : sequence of Total
        Of the same table; those with something open are left out.
    level : float in (0, 1)
        Coverage of each interval.
    """
    numbers = [
        (_TOTAL, one.seat, one.coffee, one.place, float(one.points.total))
        for one in totals
        if one.points.total is not None
    ]
    numbers += [
        ((one.part, one.field), one.seat, one.coffee, one.place, _number(one))
        for one in answers.given
        if one.kind in SCALES
    ]
    found: dict[tuple[str, str], dict[tuple[str, str], dict[str, float]]] = defaultdict(dict)
    for question, seat, coffee, place, value in numbers:
        found[question].setdefault((coffee, seat), {})[place] = value
    asked = [(_TOTAL, "Total"), *(((s.part.id, s.field.id), s.field.label) for s in answers.scales)]
    scales = (_scale(answers, question, label, found[question], level) for question, label in asked)
    return Repeats(tuple(scale for scale in scales if scale.repeats), _words(answers))


def _scale(
    answers: Answers,
    question: tuple[str, str],
    label: str,
    cells: dict[tuple[str, str], dict[str, float]],
    level: float,
) -> ScaleRepeats:
    names = {seat.id: seat.name for seat in answers.seats}
    made: list[Repeat] = []
    for coffee, seat in _cells(answers):
        values = cells.get((coffee, seat), {})
        if len(values) > 1:
            apart = max(values.values()) - min(values.values())
            made.append(Repeat(seat, names[seat], coffee, tuple(values), tuple(values.values()), apart))
    spread, freedom = repeat_spread([one.values for one in made], level=level)
    return ScaleRepeats(*question, label, tuple(made), freedom, spread, "" if spread else _why_not(freedom))


def _why_not(freedom: int) -> str:
    if freedom < FEWEST:
        return "One pair is too little to say how far repeats scatter."
    return "All repeats are equal: how far they scatter cannot be told, which is not to say that they do not."


def _cells(answers: Answers) -> list[tuple[str, str]]:
    """(coffee, seat) of everything that could be answered more than once."""
    several = [c.id for c, places in zip(answers.coffees, answers.places, strict=True) if len(places) > 1]
    return [(coffee, seat.id) for coffee in several for seat in answers.seats]


def _words(answers: Answers) -> tuple[WordRepeat, ...]:
    names = {seat.id: seat.name for seat in answers.seats}
    said: dict[tuple[str, str], dict[str, frozenset[str]]] = defaultdict(dict)
    for one in answers.written:
        if one.reading is not None and one.reading.concepts:
            at = said[one.coffee, one.seat]
            at[one.place] = at.get(one.place, frozenset()) | one.reading.concepts
    made: list[WordRepeat] = []
    for coffee, seat in _cells(answers):
        for first, second in combinations(sorted(said.get((coffee, seat), {})), 2):
            matched = match(said[coffee, seat][first], said[coffee, seat][second], answers.lexicon)
            counts = (len(matched.shared), len(matched.near), matched.score)
            made.append(WordRepeat(seat, names[seat], coffee, (first, second), *counts))
    return tuple(made)


def _number(one: Given) -> float:
    # `gather` refused whatever is no number.
    return float(one.value)  # type: ignore[arg-type]
