"""Counted: what one answer is worth, with the line that explains it and what is wrong with it."""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from cupwright.core.taste.checking import CLEAN, FAULT, MARKED, TAINT
from cupwright.core.taste.note import Value
from cupwright.core.taste.sheet import Field, Kind

_DECIMAL = re.compile(r"[+-]?[0-9]{1,9}(\.[0-9]{1,9})?")
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_FOUND = {CLEAN: "clean", TAINT: "a taint", FAULT: "a fault"}


@dataclass(frozen=True, slots=True)
class Asking:
    """A sample: its cups, what complaints call it, from where scores count, and whether they are averages."""

    cups: int
    place: str = ""
    least: str = ""
    averages: bool = False

    def cup(self, number: int) -> str:
        """A cup's name, as a sentence begins."""
        return f"Cup {number} of {self.place}" if self.place else f"Cup {number}"


@dataclass(frozen=True, slots=True)
class Counted:
    """An answer's worth: from `low` to `high`, which are one number unless it is `open`."""

    low: Fraction
    high: Fraction
    line: str
    complaints: tuple[str, ...] = ()
    open: bool = False
    off_step: bool = False


def counted(field: Field, value: Value, asking: Asking, *, needed: bool) -> Counted:
    """What an answer counts for. One that is missing is none, or a range if it is `needed`."""
    if value is None or value == "":
        return _missing(field, asking) if needed else _none(field)
    if isinstance(value, str):
        return _of_text(field, value, asking)
    if isinstance(value, dict):
        found = {int(cup): int(worth) for cup, worth in value.items()}
        return (_of_tried if field.kind is Kind.TICKS else _of_faults)(field, found, asking)
    if isinstance(value, list):
        return _of_marks(field, sorted(int(cup) for cup in value), asking)
    # A place on a line is no decimal by itself: a billionth of it is finer than any thumb.
    return _of_text(field, f"{value:.9f}", asking)


def number(text: str) -> Fraction | None:
    """The number a text writes, with a point or a comma before its decimals; None for anything else."""
    plain = text.strip().replace(",", ".")
    return Fraction(plain) if _DECIMAL.fullmatch(plain) else None


def said(exact: Fraction) -> str:
    """A number as it is written; to two decimals where it has no end."""
    text = f"{float(exact):.10f}".rstrip("0").rstrip(".")
    return text if Fraction(text) == exact else f"{float(exact):.2f}"


def _missing(field: Field, asking: Asking) -> Counted:
    low, high = _ends(field, asking)
    line = f"{field.label}: nothing written; {said(low)} to {said(high)} possible"
    return Counted(low, high, line, (f"{field.label} is missing.",), open=True)


def _none(field: Field) -> Counted:
    return Counted(Fraction(0), Fraction(0), f"{field.label}: nothing written, taken as none")


def _ends(field: Field, asking: Asking) -> tuple[Fraction, Fraction]:
    """The least and the most an answer can be worth."""
    match field.kind:
        case Kind.CUPS:
            return Fraction(0), _exact(field.high)
        case Kind.FAULTS:
            return Fraction(0), Fraction(FAULT * asking.cups)
        case Kind.TICKS:
            return Fraction(0), Fraction(asking.cups)
        case _:
            return _exact(field.low), _exact(field.high)


def _exact(bound: float) -> Fraction:
    """Of the shortest decimal text, so that 0.1 is a tenth."""
    return Fraction(repr(bound))


# Kept: a file of thousands of sheets writes the same few dozen numbers over and over.
@lru_cache(maxsize=8192)
def _of_text(field: Field, text: str, asking: Asking) -> Counted:
    value = number(text)
    low, high = _ends(field, asking)
    least = Fraction(asking.least) if asking.least and field.kind is Kind.POINTS else low
    if value is None:
        return _unfit(field, low, high, f"{field.label} is '{text[:40]}', which is no number.")
    if not least <= value <= high:
        message = f"{field.label} is {said(value)}; {said(least)} to {said(high)} can be given."
        return _unfit(field, low, high, message)
    step = _step(field, asking)
    off_step = bool((value - low) % step)
    complaint = f"{field.label} is {said(value)}, between the steps of {said(step)}."
    complaints = (complaint,) if off_step and not asking.averages else ()
    return Counted(value, value, f"{field.label}: {said(value)}", complaints, off_step=off_step)


def _unfit(field: Field, low: Fraction, high: Fraction, complaint: str) -> Counted:
    return Counted(low, high, f"{field.label}: not counted", (complaint,), open=True)


def _step(field: Field, asking: Asking) -> Fraction:
    match field.kind:
        case Kind.CUPS:
            return _exact(field.high) / asking.cups
        case Kind.FAULTS:
            return Fraction(TAINT)
        case Kind.TICKS:
            return Fraction(1)
        case Kind.LINE:
            # A line takes any place on it; its step is only how far a key moves the mark.
            return Fraction(1, 10**9)
        case _:
            return _exact(field.step)


def _of_marks(field: Field, marked: list[int], asking: Asking) -> Counted:
    """Ticks count the cups that are marked, cups those that are not."""
    bad = [cup for cup in marked if not 1 <= cup <= asking.cups]
    if bad or len(set(marked)) < len(marked):
        low, high = _ends(field, asking)
        message = f"{field.label} marks a cup that is not there, or one twice; there are {asking.cups}."
        return _unfit(field, low, high, message)
    if field.kind is Kind.TICKS:
        worth = Fraction(len(marked))
        listed = f" ({_cups(marked)})" if marked else ""
        return Counted(worth, worth, f"{field.label}: {len(marked)} of {asking.cups} cups{listed}")
    each = _exact(field.high) / asking.cups
    good = asking.cups - len(marked)
    called = field.high_label or "good"
    but = f", {_cups(marked)} {'is' if len(marked) == 1 else 'are'} not" if marked else ""
    line = f"{field.label}: {good} of {asking.cups} cups {called}{but}"
    worth = good * each
    return Counted(worth, worth, f"{line}: {good} x {said(each)} = {said(worth)}")


def _of_faults(field: Field, found: dict[int, int], asking: Asking) -> Counted:
    """Taints and faults cup by cup. With one found, the sample stands only when every cup was tried."""
    wrong = {cup: worth for cup, worth in found.items() if worth}
    if not wrong:
        return Counted(Fraction(0), Fraction(0), f"{field.label}: none in any cup")
    if any(not 1 <= cup <= asking.cups for cup in found):
        low, high = _ends(field, asking)
        return _unfit(field, low, high, f"{field.label} marks a cup that is not there.")
    worth = Fraction(sum(wrong.values()))
    listed = " + ".join(f"cup {cup} {_FOUND[each]} {each}" for cup, each in sorted(wrong.items()))
    untried = [cup for cup in range(1, asking.cups + 1) if cup not in found]
    if not untried:
        return Counted(worth, worth, f"{field.label}: {listed} = {said(worth)}")
    line = f"{field.label}: {listed}; {_cups(untried)} not tried yet"
    first = min(wrong)
    complaint = _try_others(f"{asking.cup(first)} has {_FOUND[wrong[first]]}", untried)
    return Counted(worth, worth + FAULT * len(untried), line, (complaint,), open=True)


def _of_tried(field: Field, found: dict[int, int], asking: Asking) -> Counted:
    """Marked cups. With one marked, the sample stands only when every cup was tried."""
    marked = sorted(cup for cup, worth in found.items() if worth)
    if any(not 1 <= cup <= asking.cups for cup in found):
        low, high = _ends(field, asking)
        return _unfit(field, low, high, f"{field.label} marks a cup that is not there.")
    untried = [cup for cup in range(1, asking.cups + 1) if cup not in found]
    if not marked or not untried:
        return _of_marks(field, marked, asking)
    line = f"{field.label}: {_cups(marked)}; {_cups(untried)} not tried yet"
    complaint = _try_others(f"{asking.cup(marked[0])} is marked under {field.label}", untried)
    worth = Fraction(MARKED * len(marked))
    return Counted(worth, worth + MARKED * len(untried), line, (complaint,), open=True)


def _try_others(found: str, untried: list[int]) -> str:
    others = f"the other {_NUMBERS[len(untried)] if len(untried) <= 10 else len(untried)}"
    return f"{found}: smell and taste {others} before you write it down for the sample."


def _cups(numbers: list[int]) -> str:
    listed = ", ".join(map(str, numbers[:-1]))
    return f"cups {listed} and {numbers[-1]}" if listed else f"cup {numbers[0]}"
