"""Everything a line of the diary says goes into its digest."""

from datetime import timedelta

import pytest
from tests.fakes.values import NOON

from cupwright.core.reveal.diary import BEGINNING, digest

LINE = {"before": BEGINNING, "table_id": "t", "kind": "sealed", "at": NOON, "detail": {"n": 1}}


@pytest.mark.parametrize(
    "change",
    [
        {"before": "1" * 64},
        {"table_id": "u"},
        {"kind": "opened"},
        {"at": NOON + timedelta(microseconds=1)},
        {"detail": {"n": 2}},
        {"detail": {}},
    ],
)
def test_a_change_of_any_part_changes_the_digest(change: dict[str, object]) -> None:
    assert digest(**{**LINE, **change}) != digest(**LINE)


def test_the_order_of_the_details_does_not_matter() -> None:
    assert digest(BEGINNING, "t", "k", NOON, {"a": 1, "b": 2}) == digest(
        BEGINNING, "t", "k", NOON, {"b": 2, "a": 1}
    )
