"""Judged: totals, orders, picks and repeats of an opened table, as plain data and as parts of a report."""

from dataclasses import dataclass
from typing import Any

from cupwright.core.analyse.answers import Answers, Given
from cupwright.core.analyse.repeats import Repeats, repeats
from cupwright.core.analyse.totals import Total, totals
from cupwright.core.plain import plain
from cupwright.core.plan.table import Table
from cupwright.core.report.compared_section import odd_place
from cupwright.core.taste.sheet import Kind


@dataclass(frozen=True, slots=True)
class OddPicks:
    """How many of `of` tasters picked `place`, the odd one (and so were `right`), for one question."""

    part: str
    field: str
    place: str
    right: int
    of: int


@dataclass(frozen=True, slots=True)
class Judged:
    """What was judged beside words and single scales."""

    totals: tuple[Total, ...]
    compared: tuple[Given, ...]
    odd: tuple[OddPicks, ...]
    repeats: Repeats


def judged(table: Table, answers: Answers) -> Judged:
    """All of it; empty where the sheet asks for nothing of the kind."""
    found = totals(table, answers)
    return Judged(found, answers.compared, _odd(answers), repeats(answers, found))


def judged_as_data(found: Judged) -> dict[str, Any]:
    """The same as JSON-able data: totals as numbers, null with the least and the most where one is open."""
    return {
        "totals": [
            {
                "seat": one.seat,
                "name": one.name,
                "place": one.place,
                "coffee": one.coffee,
                "total": None if one.points.total is None else float(one.points.total),
                "low": float(one.points.low),
                "high": float(one.points.high),
            }
            for one in found.totals
        ],
        "compared": [
            {
                "seat": one.seat,
                "pass": one.part,
                "field": one.field,
                "kind": one.kind.value,
                "value": one.value,
            }
            for one in found.compared
        ],
        "odd": plain(found.odd),
        "repeats": plain(found.repeats),
    }


def _odd(answers: Answers) -> tuple[OddPicks, ...]:
    odd = odd_place(answers)
    asked = [(part.id, f.id) for part in answers.sheet.passes for f in part.fields if f.kind is Kind.ODD]
    if odd is None:
        return ()
    picks: list[OddPicks] = []
    for part, field in asked:
        picked = [one.value for one in answers.compared if (one.part, one.field) == (part, field)]
        picks.append(OddPicks(part, field, odd, picked.count(odd), len(picked)))
    return tuple(picks)
