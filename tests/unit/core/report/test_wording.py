"""Pieces of sentences."""

from datetime import UTC, datetime

import pytest

from cupwright.core.report.wording import capital, chance, counted, listed, long_date, percent

NBSP = "\N{NO-BREAK SPACE}"


@pytest.mark.parametrize(("number", "text"), [(0, "0 notes"), (1, "1 note"), (1896, "1,896 notes")])
def test_a_number_takes_its_noun(number, text):
    assert counted(number, "note") == text


def test_a_list_in_prose_ends_in_and():
    assert [listed(list("abc")[:n]) for n in range(4)] == ["", "a", "a and b", "a, b and c"]


def test_items_that_hold_commas_are_parted_by_semicolons():
    assert listed(["One, washed", "Two", "Three"]) == "One, washed; Two and Three"


@pytest.mark.parametrize(
    ("share", "text"), [(0, "0"), (0.004, "under 1"), (0.125, "12"), (0.997, "over 99"), (1, "100")]
)
def test_a_percentage_never_claims_none_or_all_falsely(share, text):
    assert percent(share) == f"{text}{NBSP}%"


def test_a_date_has_its_month_in_letters():
    assert long_date(datetime(2026, 3, 4, tzinfo=UTC)) == "4 March 2026"


def test_a_capital_changes_one_letter_only():
    assert capital("iN Short") == "IN Short"
    assert capital("") == ""


@pytest.mark.parametrize(
    ("p", "said"), [(0.0004, "p < 0.001"), (0.0123, "p = 0.012"), (0.5, "p = 0.50"), (1.0, "p = 1.00")]
)
def test_a_chance_is_told_as_far_as_it_is_worth_reading(p, said):
    assert chance(p) == said
