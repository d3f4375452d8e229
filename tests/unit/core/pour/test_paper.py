"""Whose sheets are printed at once."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from cupwright.core.plan.table import Blinding, Plan, Seat, Table
from cupwright.core.pour.paper import MOST_FORMS, to_print
from cupwright.core.taste.sheet_file import builtin_sheet
from cupwright.errors import NotFound, TooLarge


def table(tasters: int, places: int) -> Table:
    codes = tuple(str(200 + n) for n in range(places))
    return Table(
        "t",
        Plan("Thursday", ("c",), blinding=Blinding.CODES),
        builtin_sheet("open"),
        datetime(2026, 11, 25, tzinfo=UTC),
        codes=codes,
        seats=tuple(Seat(f"s{n}", f"Taster {n}", codes) for n in range(tasters)),
    )


def test_all_seats_are_printed_up_to_the_most_that_a_machine_bears():
    whole = table(MOST_FORMS // 8, 8)

    assert to_print(whole) is whole


def test_one_more_is_refused_with_what_to_do():
    with pytest.raises(TooLarge, match=r"51 tasters at 8 places .* one taster at a time"):
        to_print(table(MOST_FORMS // 8 + 1, 8))


@pytest.mark.parametrize("seat", ["s3", "taster  3"])
def test_one_seat_is_found_by_its_id_or_its_name_at_the_largest_table(seat):
    assert [one.id for one in to_print(table(200, 60), seat).seats] == ["s3"]


def test_a_seat_that_is_not_there_is_refused():
    with pytest.raises(NotFound, match="Nobody called 'Zoe'"):
        to_print(table(2, 2), "Zoe")


def test_only_the_forms_that_tasters_fill_in_count():
    """Eighty tasters at eight places, five each: 400 forms."""
    whole = table(80, 8)
    part = replace(whole, seats=tuple(replace(seat, order=seat.order[:5]) for seat in whole.seats))

    assert to_print(part) is part
