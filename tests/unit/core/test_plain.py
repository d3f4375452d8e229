"""Core values as JSON-able data."""

import json
from dataclasses import dataclass
from datetime import UTC, date, datetime
from enum import StrEnum

from cupwright.core.plain import plain


class Kind(StrEnum):
    ONE = "one"


@dataclass(frozen=True)
class Inner:
    kind: Kind
    day: date


@dataclass(frozen=True)
class Outer:
    names: frozenset[str]
    inner: tuple[Inner, ...]
    shares: dict[str, float]
    nothing: None = None


def test_every_field_stands_under_its_own_name_and_the_whole_is_json():
    value = Outer(frozenset({"b", "a"}), (Inner(Kind.ONE, date(2026, 3, 1)),), {"x": 0.5})

    data = plain(value)

    assert data == {
        "names": ["a", "b"],
        "inner": [{"kind": "one", "day": "2026-03-01"}],
        "shares": {"x": 0.5},
        "nothing": None,
    }
    assert json.loads(json.dumps(data, allow_nan=False)) == data


def test_a_number_that_is_none_becomes_null():
    assert plain([float("nan"), float("inf"), -float("inf"), 0.0]) == [None, None, None, 0.0]


def test_a_moment_keeps_its_zone():
    assert plain(datetime(2026, 3, 1, 12, tzinfo=UTC)) == "2026-03-01T12:00:00+00:00"
