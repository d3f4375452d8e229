"""A table's scales as scores: each place by itself, with its turn and how warm the cup was."""

from collections import Counter
from collections.abc import Iterable, Sequence

import numpy as np

from cupwright.core.analyse.answers import SCALES, Answers
from cupwright.core.analyse.scores import Floats, Scores, counted_repeats
from cupwright.core.analyse.totals import Total
from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Seat

TOTAL = "Total"
Scored = tuple[str, str, str, float, int | None]  # seat, coffee, place, value, moment of tasting


def table_scores(answers: Answers, totals: Sequence[Total] = ()) -> dict[str, Scores]:
    """Attribute -> its scores, for every scale that somebody answered: liking first, then as the sheet goes.

    Parameters
    ----------
    answers : Answers
    totals : sequence of Total
        What the sheets add up to; those that are settled come before everything as the attribute "Total".

    Returns
    -------
    dict
        A coffee that stood at several places has a repeat for each, in the order in which the taster met
        them. `position` counts the places in the order of the taster's seat; `temperature` is that of the
        cup, where it is known. Coffees and tasters without an answer on a scale are left out of its scores.
    """
    found: dict[str, list[Scored]] = {}
    settled = [
        (one.seat, one.coffee, one.place, float(one.points.total), None)
        for one in totals
        if one.points.total is not None
    ]
    if settled:
        found[TOTAL] = list(settled)
    labels = _labels(answers)
    asked: dict[str, list[Scored]] = {label: [] for label in labels.values()}
    for one in answers.given:
        if one.kind in SCALES:
            value = (one.seat, one.coffee, one.place, _number(one.value), one.tasted_at)
            asked[labels[one.part, one.field]].append(value)
    found |= {label: scored for label, scored in asked.items() if scored}
    return {label: _scores(answers, scored) for label, scored in found.items()}


def taster_names(answers: Answers) -> dict[str, str]:
    """Seat -> what its taster is called among the scores of the table."""
    return _told_apart(answers.seats)


def liking_label(answers: Answers) -> str | None:
    """What overall liking is called among the attributes; None where the sheet does not ask for it."""
    return _labels(answers).get(answers.sheet.liking) if answers.sheet.liking else None


def scale_ends(answers: Answers) -> dict[str, tuple[float, float]]:
    """Attribute -> lowest and highest point of its scale; those of which nobody knows are not there."""
    labels = _labels(answers)
    return {labels[one.part.id, one.field.id]: one.ends for one in answers.scales if one.ends is not None}


def scale_steps(answers: Answers) -> dict[str, float]:
    """Attribute -> the step of its scale."""
    labels = _labels(answers)
    return {labels[one.part.id, one.field.id]: one.field.step for one in answers.scales}


def _labels(answers: Answers) -> dict[tuple[str, str], str]:
    """What each scale is called, with its pass where two have one name; liking first."""
    scales = [(scale.part, scale.field) for scale in answers.scales]
    scales.sort(key=lambda one: (one[0].id, one[1].id) != answers.sheet.liking)
    often = Counter(field.label for _, field in scales)
    return {
        (part.id, field.id): field.label
        if often[field.label] == 1 and field.label != TOTAL
        else f"{field.label} ({part.title})"
        for part, field in scales
    }


def _scores(answers: Answers, scored: Sequence[Scored]) -> Scores:
    sat, served = {one[0] for one in scored}, {one[1] for one in scored}
    tasters = [seat for seat in answers.seats if seat.id in sat]
    coffees = [coffee for coffee in answers.coffees if coffee.id in served]
    columns = {seat.id: column for column, seat in enumerate(tasters)}
    rows = {coffee.id: row for row, coffee in enumerate(coffees)}
    names, coffee_names = taster_names(answers), _told_apart(answers.coffees)
    turns = {(seat.id, place): turn for seat in tasters for turn, place in enumerate(seat.order, start=1)}
    position = np.array([float(turns.get((seat, place), np.nan)) for seat, _, place, _, _ in scored])
    coffee = np.array([rows[one[1]] for one in scored])
    taster = np.array([columns[one[0]] for one in scored])
    return Scores(
        coffees=tuple(coffee_names[one.id] for one in coffees),
        tasters=tuple(names[one.id] for one in tasters),
        coffee=coffee,
        taster=taster,
        value=np.array([one[3] for one in scored]),
        repeat=counted_repeats(coffee, taster, position),
        position=None if np.isnan(position).all() else position,
        temperature=_temperature(answers, scored),
    )


def _told_apart(named: Iterable[Seat | Coffee]) -> dict[str, str]:
    """Id -> name; names that occur twice with a number behind them."""
    called = [(one.id, one.name) for one in named]
    often, seen = Counter(name for _, name in called), Counter[str]()
    told: dict[str, str] = {}
    for one, name in called:
        seen[name] += 1
        told[one] = name if often[name] == 1 else f"{name} ({seen[name]})"
    return told


def _temperature(answers: Answers, scored: Sequence[Scored]) -> Floats | None:
    warmth = answers.cups.at([(place, moment) for _, _, place, _, moment in scored])
    celsius = np.array([np.nan if cup is None else cup.celsius for cup in warmth])
    return None if np.isnan(celsius).all() else celsius


def _number(value: object) -> float:
    # `gather` refused whatever is no number.
    return float(value)  # type: ignore[arg-type]
