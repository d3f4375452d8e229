"""Points: what a filled-in sheet adds up to, exactly, with a line for everything that counts.

Nothing is repaired: what does not fit is complained about in a sentence and not counted, what is missing
leaves a range, and a fault found in one cup is not written down for the sample before the other cups were
tried. Sums are exact fractions; the same rules run on the phone (client/src/taste/points/), and both are held
to one file of cases (tests/contract/points_cases.json).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from cupwright.core.taste.counted import Asking, Counted, counted, said
from cupwright.core.taste.note import Value
from cupwright.core.taste.sheet import Field, Kind, PointsRule, Sheet, Term
from cupwright.errors import Refused

Answers = Mapping[tuple[str, str], Value]

_CENT = Decimal("0.01")
_HALF = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class Points:
    """What a sheet adds up to. `total` is None while something is missing or does not fit.

    `low` and `high` are the least and the most that is still possible; both are the total where there is one.
    `lines` say what was counted, in the order of the rule.
    """

    total: Decimal | None
    low: Decimal
    high: Decimal
    lines: tuple[str, ...]
    complaints: tuple[str, ...]


def points(
    sheet: Sheet, answers: Answers, *, cups: int = 5, place: str = "", averages: bool = False
) -> Points:
    """The points of one taster's answers on one sample.

    Parameters
    ----------
    answers : mapping
        (pass, field) -> value as in a note. What was counted elsewhere may come as the text of a decimal
        number: points for cups and faults, a number of cups for ticks.
    cups : int
        How many cups the sample has.
    place : str
        How complaints call the sample; "" if there is only one.
    averages : bool
        Whether numbers are averages over tasters, which may lie between the steps of the sheet.

    Raises
    ------
    Refused
        If the sheet makes no points.

    Notes
    -----
    Error: none; only a total that is no finite decimal (cups of a sample that do not divide 10) is rounded,
    to 0.01, and says so.
    Source: [SCAA-form-2004], [SCA-104-2024] (from memory); checked against worked examples.
    """
    rule = rule_of(sheet)
    asking = Asking(cups, place, rule.least, averages)
    counts = [(+1, term, _count(sheet, term, answers, asking, needed=True)) for term in rule.add]
    counts += [(-1, term, _count(sheet, term, answers, asking, needed=False)) for term in rule.subtract]
    low = high = Fraction(rule.start)
    lines = [f"Start: {rule.start}"] if Fraction(rule.start) else []
    complaints: list[str] = []
    for sign, term, one in counts:
        less, more = _worth(term, one)
        low, high = (low + less, high + more) if sign > 0 else (low - more, high - less)
        lines.append(_line(sign, term, one))
        complaints += one.complaints
    lines += _unlike(rule, answers, asking)
    complaints += _apart(rule, sheet, answers)
    settled = not any(one.open for _, _, one in counts)
    lines.append(_sum_line(low, rule) if settled else _range_line(low, high, rule))
    least, most = _rounded(low, rule), _rounded(high, rule)
    return Points(least if settled else None, least, most, tuple(lines), tuple(complaints))


def rule_of(sheet: Sheet) -> PointsRule:
    """The rule of a sheet that makes points. Raises Refused for one that does not."""
    if sheet.points is None:
        raise Refused(
            f"The sheet '{sheet.name}' makes no points.",
            todo="It describes or compares; choose another sheet.",
        )
    return sheet.points


def terms_of(sheet: Sheet) -> tuple[tuple[Term, Field], ...]:
    """What counts towards the points, in the order of the rule."""
    rule = rule_of(sheet)
    return tuple((term, _field(sheet, term)) for term in (*rule.add, *rule.subtract))


def band(sheet: Sheet, total: Decimal) -> str:
    """What the trade calls a total; "" where the sheet names no bands. A name, no verdict of the program."""
    return next((name for least, name in rule_of(sheet).bands if total >= Decimal(least)), "")


def off_steps(sheet: Sheet, answers: Answers, *, cups: int = 5) -> tuple[str, ...]:
    """Ids of the fields whose numbers lie between the steps of the sheet."""
    asking = Asking(cups, "", rule_of(sheet).least)
    return tuple(
        field.id
        for term, field in terms_of(sheet)
        if counted(field, answers.get((term.part, term.field)), asking, needed=False).off_step
    )


def _field(sheet: Sheet, term: Term) -> Field:
    field = sheet.field(term.part, term.field)
    if field is None:
        raise Refused(
            f"The points of the sheet '{sheet.name}' count a field '{term.field}' that it does not have.",
            todo="Check the sheet's rule.",
        )
    return field


def _count(sheet: Sheet, term: Term, answers: Answers, asking: Asking, *, needed: bool) -> Counted:
    field = _field(sheet, term)
    # What is only taken away and was not written down was not found.
    needed = needed or field.kind not in (Kind.FAULTS, Kind.TICKS)
    return counted(field, answers.get((term.part, term.field)), asking, needed=needed)


def _worth(term: Term, one: Counted) -> tuple[Fraction, Fraction]:
    if term.times == "1":
        return one.low, one.high
    return Fraction(term.times) * one.low, Fraction(term.times) * one.high


def _line(sign: int, term: Term, one: Counted) -> str:
    if one.open:
        return one.line
    if not one.high:
        return one.line
    if term.times == "1" or Fraction(term.times) == 1:
        return f"{one.line}, taken away" if sign < 0 else one.line
    worth = f"{one.line} x {term.times} = {said(one.high * Fraction(term.times))}"
    return f"{worth}, taken away" if sign < 0 else worth


def _unlike(rule: PointsRule, answers: Answers, asking: Asking) -> list[str]:
    """A line where marks on cups are taken away from a sample of another size than the rule was made for."""
    values = [answers.get((term.part, term.field)) for term in rule.subtract]
    if asking.cups == rule.cups or not any(map(_marks, values)):
        return []
    return [
        f"The rule was made for {rule.cups} cups; this sample has {asking.cups}. "
        "What is taken away goes by the number of cups as it is."
    ]


def _apart(rule: PointsRule, sheet: Sheet, answers: Answers) -> list[str]:
    """Cups marked in one field that count as good in another where they cannot."""
    found = {f.id: (f, answers.get((part.id, f.id))) for part in sheet.passes for f in part.fields}
    complaints = []
    for one, other in rule.both:
        if one not in found or other not in found:
            continue
        (field, value), (second, beside) = found[one], found[other]
        if isinstance(value, dict | list) and isinstance(beside, dict | list):
            for cup in sorted(_marks(value) - _marks(beside)):
                complaints.append(
                    f"Cup {cup} is marked under {field.label}, but counts as good under {second.label}."
                )
    return complaints


def _marks(value: Value) -> set[int]:
    """The cups that are marked."""
    if isinstance(value, dict):
        return {int(cup) for cup, found in value.items() if found}
    return {int(cup) for cup in value} if isinstance(value, list) else set()


def _sum_line(low: Fraction, rule: PointsRule) -> str:
    total = _rounded(low, rule)
    if rule.step:
        return f"Total: {said(low)}, to the nearest {rule.step} (a half upwards): {_two(total)}"
    if not _is_decimal(low):
        return f"Total: {total}, rounded to 0.01"
    return f"Total: {_two(total)}"


def _range_line(low: Fraction, high: Fraction, rule: PointsRule) -> str:
    return f"Total: from {_two(_rounded(low, rule))} to {_two(_rounded(high, rule))} still possible"


def _rounded(exact: Fraction, rule: PointsRule) -> Decimal:
    if rule.step:
        step = Fraction(rule.step)
        exact = ((exact / step + _HALF) // 1) * step
    total = Decimal(exact.numerator) / Decimal(exact.denominator)
    return _two(total) if _is_decimal(exact) else total.quantize(_CENT, ROUND_HALF_UP)


def _two(total: Decimal) -> Decimal:
    """With two decimals at least, as totals are written."""
    exponent = total.normalize().as_tuple().exponent
    return total.quantize(_CENT) if isinstance(exponent, int) and exponent >= -2 else total.normalize()


def _is_decimal(exact: Fraction) -> bool:
    """Whether it can be written with finitely many decimals."""
    rest = exact.denominator
    for factor in (2, 5):
        while rest % factor == 0:
            rest //= factor
    return rest == 1
