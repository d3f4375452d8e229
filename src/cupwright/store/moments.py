"""Moments as whole microseconds since 1970, UTC, and back, without passing through a binary fraction."""

from datetime import UTC, datetime, timedelta

_BEGINNING = datetime(1970, 1, 1, tzinfo=UTC)
_MICROSECOND = timedelta(microseconds=1)


def microseconds(moment: datetime) -> int:
    """Since 1970. The moment has to carry its time zone."""
    return (moment - _BEGINNING) // _MICROSECOND


def moment(microseconds_since: int) -> datetime:
    """The moment, in UTC."""
    return _BEGINNING + timedelta(microseconds=microseconds_since)
