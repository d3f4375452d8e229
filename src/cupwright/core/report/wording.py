"""Pieces of sentences that every part of a report uses."""

from collections.abc import Sequence
from datetime import date

from cupwright.core.analyse.estimate import Estimate

_PERCENT = "\N{NO-BREAK SPACE}%"


def counted(number: int, singular: str, plural: str = "") -> str:
    """A number with its noun: "1 taster", "1,896 tasters"."""
    return f"{number:,} {singular if number == 1 else plural or singular + 's'}"


def listed(items: Sequence[str], *, last: str = "and") -> str:
    """A list in prose: "a, b and c"; items that hold a comma themselves are parted by semicolons."""
    if len(items) < 2:
        return "".join(items)
    comma = "; " if any("," in item for item in items) else ", "
    return f"{comma.join(items[:-1])} {last} {items[-1]}"


def percent(share: float) -> str:
    """A share in whole percent, without claiming none or all where it is not so."""
    rounded = round(100 * share)
    if rounded == 0 and share > 0:
        return f"under 1{_PERCENT}"
    if rounded == 100 and share < 1:
        return f"over 99{_PERCENT}"
    return f"{rounded}{_PERCENT}"


def level_name(level: float) -> str:
    """How a level is called: "95 %"."""
    return f"{100 * level:g}{_PERCENT}"


def between(interval: Estimate, digits: int) -> str:
    """An interval in words: "3.4 to 4.6"."""
    return f"{interval.low:.{digits}f} to {interval.high:.{digits}f}"


def quoted(text: str) -> str:
    """Somebody's words, marked as theirs."""
    return f"“{text}”"


def long_date(day: date) -> str:
    """A date that is read the same everywhere: "25 November 2026"."""
    return f"{day.day} {day:%B %Y}"


def capital(sentence: str) -> str:
    """The sentence with a capital first letter, the rest untouched."""
    return sentence[:1].upper() + sentence[1:]


def chance(p: float) -> str:
    """A p value as far as it is worth reading: "p = 0.012", "p < 0.001"."""
    if p < 0.001:
        return "p < 0.001"
    return f"p = {p:.3f}" if p < 0.1 else f"p = {p:.2f}"
