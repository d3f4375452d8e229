"""The paper sheet: any sheet as a form to fill in by hand, one taster each, in that taster's own order."""

from collections.abc import Sequence
from typing import Any

from cupwright.core.plan.limits import BREAK_MINUTES
from cupwright.core.plan.table import Blinding, Table
from cupwright.core.pour.flights import flights_of_order
from cupwright.core.taste.sheet import Field, Kind, Moment, Over, Pass, Sheet
from cupwright.render.typesetting import typeset, typst_paper

# More steps than this do not fit on a line side by side; then the number is written in a box.
MOST_STEPS = 11

_MOMENTS = {
    Moment.DRY: "dry grounds",
    Moment.BREAK: "at the break, 4:00 after the pour",
    Moment.HOT: "hot, from 8 to 10 minutes after the pour",
    Moment.WARM: "warm",
    Moment.COOL: "cool",
}


def paper_sheet_pdf(
    sheet: Sheet,
    *,
    table_name: str,
    places: Sequence[str],
    seat_name: str = "",
    order: Sequence[str] = (),
    bowls: int = 1,
    commitment: str = "",
    size: str = "a4",
) -> bytes:
    """One taster's form.

    Parameters
    ----------
    places : sequence of str
        Codes or positions; `order` is this taster's order of them (as they stand if empty).
    seat_name : str
        Printed on every page; empty leaves a line for it.
    bowls : int
        How many bowls a place has, for ticks.
    size : str
        "a4" or "letter".
    """
    seat = {"name": seat_name, "flights": [{"number": 1, "order": list(order or places)}]}
    return _forms(sheet, table_name, [seat], bowls=bowls, commitment=commitment, size=size)


def paper_sheets_pdf(table: Table, size: str = "a4") -> bytes:
    """The forms of a whole table, one after the other; a table without seats gets one form without a name."""
    seats = [_seat(table, seat.name, seat.order) for seat in table.seats]
    return _forms(
        table.sheet,
        table.plan.name,
        seats or [_seat(table, "", table.places)],
        bowls=1 if table.plan.blinding is Blinding.SHUFFLE else table.plan.bowls_per_sample,
        flights=len(table.flights),
        commitment=table.commitment,
        size=size,
    )


def _seat(table: Table, name: str, order: Sequence[str]) -> dict[str, Any]:
    flights = flights_of_order(table, order)
    return {"name": name, "flights": [{"number": one.number, "order": list(one.order)} for one in flights]}


def _forms(
    sheet: Sheet,
    table_name: str,
    seats: list[dict[str, Any]],
    *,
    bowls: int,
    commitment: str,
    size: str,
    flights: int = 1,
) -> bytes:
    return typeset(
        "paper_sheet.typ",
        {
            "title": f"{sheet.title}, {table_name}",
            "sheet": sheet.title,
            "version": f"{sheet.name} {sheet.version}",
            "paper": typst_paper(size),
            "table": table_name,
            "seats": seats,
            "flights": flights,
            "break": f"{BREAK_MINUTES:g} minutes",
            "has_lines": any(field.kind is Kind.LINE for part in sheet.passes for field in part.fields),
            "passes": [_pass(part, bowls) for part in sheet.passes],
            "seal": commitment,
        },
    )


def _pass(part: Pass, bowls: int) -> dict[str, Any]:
    return {
        "title": part.title,
        "ask": part.ask,
        "moment": _MOMENTS[part.moment],
        "caution": part.caution,
        "once": part.over is Over.TABLE,
        "fields": [_field(field, bowls) for field in part.fields],
        # The only words of a pass need no label: the pass has just asked for them.
        "one_text": sum(field.kind is Kind.WORDS for field in part.fields) == 1,
    }


def _field(field: Field, bowls: int) -> dict[str, Any]:
    steps = _steps(field) if field.kind is Kind.POINTS else []
    return {
        "kind": field.kind.value,
        "label": field.label,
        "hint": field.hint,
        "low": field.low_label or f"{field.low:g}",
        "high": field.high_label or f"{field.high:g}",
        "range": f"{field.low:g} to {field.high:g}, steps of {field.step:g}",
        "options": list(field.choices) or steps,
        "most": field.most,
        "ties": field.ties,
        "good": field.high_label or "good",
        "bowls": bowls,
    }


def _steps(field: Field) -> list[str]:
    """The points one can give, if they are few enough to be ringed."""
    count = round((field.high - field.low) / field.step) + 1
    return [f"{field.low + n * field.step:g}" for n in range(count)] if count <= MOST_STEPS else []
