"""Rest: how long coffee has lain since its roast, as far as a date tells.

A bag gives the day, not the hour: at a table at noon coffee roasted the day before has rested 12 to 36 h.
That is too short or too long only if all of it lies outside; if a part does, nobody can tell.
"""

from collections.abc import Sequence
from datetime import datetime, time, timedelta

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.deviation import Deviation, amount, counted, named
from cupwright.core.plan.protocol import Band

_HOURS_A_DAY = 24
_IN_DAYS_FROM_H = 72.0
_HOUR = timedelta(hours=1)


def rested(coffee: Coffee, at: datetime) -> tuple[float, float] | None:
    """Least and most hours since the roast at a moment of the table's own time; None without a date.

    Coffee that was roasted on the very day has rested 0 h at least; one roasted later has negative hours.
    """
    if coffee.roast_date is None:
        return None
    most = (at - datetime.combine(coffee.roast_date, time(), tzinfo=at.tzinfo)) / _HOUR
    least = most - _HOURS_A_DAY
    return (max(0.0, least) if most > 0 else least), most


def rest_deviations(
    rest: Band | None, coffees: Sequence[Coffee], at: datetime | None
) -> tuple[Deviation, ...]:
    """What of the coffees rested too short or too long, and of which nobody can tell."""
    if rest is None:
        return ()
    off = [found for coffee in coffees if (found := _off(rest, coffee, at)) is not None]
    undated = [coffee.name for coffee in coffees if coffee.roast_date is None or at is None]
    vague = [coffee.name for coffee in coffees if at is not None and _is_vague(rest, coffee, at)]
    return (
        *off,
        *((_unknown(rest, undated, "it is not known when"),) if undated else ()),
        *((_unknown(rest, vague, "only the day is known on which"),) if vague else ()),
    )


def _ends(rest: Band) -> tuple[float, float]:
    return (
        rest.low if rest.low is not None else float("-inf"),
        rest.high if rest.high is not None else float("inf"),
    )


def _off(rest: Band, coffee: Coffee, at: datetime | None) -> Deviation | None:
    hours = rested(coffee, at) if at is not None else None
    if hours is None:
        return None
    low, high = _ends(rest)
    least, most = hours
    if most < 0:
        sentence = f"{coffee.name} is said to be roasted on {coffee.roast_date}, which is yet to come."
        return Deviation(f"Rest of {coffee.name}", sentence, most - max(low, 0.0), 0.0, "h", rest.source)
    if most < low:
        return _outside(rest, coffee, most - low)
    return _outside(rest, coffee, least - high) if least > high else None


def _outside(rest: Band, coffee: Coffee, size: float) -> Deviation:
    sentence = (
        f"{coffee.name}, roasted on {coffee.roast_date}, has rested at least {_duration(abs(size))} "
        f"{'less' if size < 0 else 'more'} than the {window_in_words(rest)} asked for."
    )
    return Deviation(f"Rest of {coffee.name}", sentence, size, 0.0, "h", rest.source)


def _is_vague(rest: Band, coffee: Coffee, at: datetime) -> bool:
    hours = rested(coffee, at)
    if hours is None or _off(rest, coffee, at) is not None:
        return False
    low, high = _ends(rest)
    return hours[0] < low or hours[1] > high


def _unknown(rest: Band, names: list[str], why: str) -> Deviation:
    what = "it was" if len(names) == 1 else "they were"
    sentence = f"{named(names)}: {why} {what} roasted; {window_in_words(rest)} of rest are asked for."
    return Deviation("Rest", sentence, None, 0.0, "h", rest.source)


def window_in_words(rest: Band) -> str:
    """As "8 to 24 h", or in days where it is long."""
    low, high = rest.low, rest.high
    if low is None or high is None:
        return f"at most {_duration(high)}" if high is not None else f"at least {_duration(low or 0.0)}"
    if high > _IN_DAYS_FROM_H:
        return f"{amount(low / _HOURS_A_DAY)} to {amount(high / _HOURS_A_DAY)} days"
    return f"{amount(low)} to {amount(high)} h"


def _duration(hours: float) -> str:
    if hours < _IN_DAYS_FROM_H:
        return f"{amount(hours, 0)} h"
    return counted(int(hours // _HOURS_A_DAY), "day")
