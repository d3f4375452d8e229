"""Answers as rows: one line a standing answer, for whoever counts further elsewhere."""

from dataclasses import dataclass

from cupwright.core.analyse.answers import Answers, Given, Written
from cupwright.core.taste.note import Value


@dataclass(frozen=True, slots=True)
class AnswerRow:
    """One answer of one taster. `cup_c` with its interval is how warm the cup was, in °C.

    None for a dry cup, and where nobody knows: an answer typed in from paper, or one about the whole table,
    which has the place "table" and no coffee. `written_at` is in ms since 1970.
    """

    taster: str
    place: str
    coffee: str
    part: str
    field: str
    value: Value
    written_at: int
    cup_c: float | None
    cup_low_c: float | None
    cup_high_c: float | None


def answer_rows(answers: Answers) -> tuple[AnswerRow, ...]:
    """Every answer in the order in which it was written."""
    tasters = {seat.id: seat.name for seat in answers.seats}
    coffees = {coffee.id: coffee.name for coffee in answers.coffees}
    found: list[Written | Given] = [*answers.written, *answers.given, *answers.compared]
    found.sort(key=lambda one: one.written_at)
    warmth = answers.cups.at([(one.place, one.tasted_at) for one in found])
    return tuple(
        AnswerRow(
            tasters[one.seat],
            one.place,
            coffees.get(one.coffee, ""),
            one.part,
            one.field,
            _value(one),
            one.written_at,
            *((cup.celsius, cup.low, cup.high) if cup else (None, None, None)),
        )
        for one, cup in zip(found, warmth, strict=True)
    )


def _value(answer: Written | Given) -> Value:
    return answer.text if isinstance(answer, Written) else answer.value
