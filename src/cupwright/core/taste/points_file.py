"""The rule for points in a sheet file: a table of sums, or the name of a sheet whose rule it shares."""

import re
from collections.abc import Callable, Mapping
from dataclasses import asdict, replace
from fractions import Fraction
from itertools import pairwise
from typing import Any

from cupwright.core.taste.sheet import CUP_KINDS, Field, Kind, Over, Pass, PointsRule, Term
from cupwright.core.taste.sheet_reader import POINTS, Reader

_ADDED = (Kind.POINTS, Kind.LINE, Kind.CUPS)
_SUBTRACTED = (*_ADDED, Kind.FAULTS, Kind.TICKS)
_KEYS = ("start", "add", "subtract", "step", "least", "cups", "both", "bands")
_DECIMAL = re.compile(r"[0-9]{1,9}(\.[0-9]{1,9})?")

Found = Mapping[str, list[tuple[str, Field]]]


def points_as_data(rule: PointsRule) -> dict[str, Any]:
    """A rule as it stands in a file; every term names its pass too."""
    data = asdict(rule)
    for key in ("add", "subtract"):
        terms = getattr(rule, key)
        data[key] = [{"field": f"{one.part}.{one.field}", "times": one.times} for one in terms]
    return data | {key: [list(pair) for pair in getattr(rule, key)] for key in ("both", "bands")}


def points_rule(
    sheet: Reader, passes: tuple[Pass, ...], builtin: Callable[[str], PointsRule | None]
) -> PointsRule | None:
    """The rule of a sheet, or None if it makes no points.

    Parameters
    ----------
    builtin : callable
        Name of a sheet that comes with the program -> its rule, or None.

    Raises
    ------
    BadSheet
        If it names fields that are not there or cannot be counted, or a sheet without a rule.
    """
    value = sheet.data.get("points")
    if value is None:
        return None
    fields: dict[str, list[tuple[str, Field]]] = {}
    for part in (one for one in passes if one.over is Over.PLACES):
        for field in part.fields:
            fields.setdefault(field.id, []).append((part.id, field))
    if isinstance(value, str):
        return _shared(sheet, value, builtin(value), fields)
    if not isinstance(value, Mapping):
        todo = 'Write a table [points], or points = "hundred-point".'
        raise sheet.bad("has something else than a rule as its 'points'.", todo, "points")
    return _rule(Reader(value, sheet.source, "The rule for points", POINTS), fields)


def _shared(sheet: Reader, name: str, rule: PointsRule | None, fields: Found) -> PointsRule:
    """The rule of another sheet on the fields of this one that have the same ids."""
    if rule is None:
        raise sheet.bad(f"takes its points from '{name}', which makes none.", "Name another.", "points")
    add = tuple(_here(sheet, name, one, fields, _ADDED) for one in rule.add)
    subtract = tuple(_here(sheet, name, one, fields, _SUBTRACTED) for one in rule.subtract)
    return replace(rule, add=add, subtract=subtract)


def _here(sheet: Reader, name: str, term: Term, fields: Found, kinds: tuple[Kind, ...]) -> Term:
    found = fields.get(term.field)
    if not found:
        todo = "Add that field, or write the rule as a table [points]."
        raise sheet.bad(f"has no field '{term.field}', which the points of '{name}' need.", todo, "points")
    _require_kind(sheet, "points", found[0][1], kinds)
    return replace(term, part=found[0][0])


def _rule(reader: Reader, fields: Found) -> PointsRule:
    reader.only(*_KEYS)
    add = _terms(reader, "add", fields, _ADDED)
    if not add:
        raise reader.bad("adds nothing.", 'Write add = ["field", "field"].', "add")
    subtract = _terms(reader, "subtract", fields, _SUBTRACTED)
    step = reader.decimal("step", "")
    if step and Fraction(step) <= 0:
        raise reader.bad(f"rounds to a step of {step}.", 'Use more than 0: step = "0.25".', "step")
    _refuse_twice(reader, (*add, *subtract))
    return PointsRule(
        reader.decimal("start", "0"),
        add,
        subtract,
        step,
        reader.decimal("least", ""),
        reader.whole_from_1("cups", 5),
        _pairs(reader, fields),
        _bands(reader),
    )


def _terms(reader: Reader, key: str, fields: Found, kinds: tuple[Kind, ...]) -> tuple[Term, ...]:
    rows = reader.data.get(key, [])
    if not isinstance(rows, list):
        raise reader.bad(f"needs a list as its '{key}'.", f'Write {key} = ["field", "field"].', key)
    return tuple(_term(reader, key, row, fields, kinds) for row in rows)


def _term(reader: Reader, key: str, row: object, fields: Found, kinds: tuple[Kind, ...]) -> Term:
    """A field's name, or a table with its name and what it is worth."""
    own = Reader(row if isinstance(row, Mapping) else {"field": row}, reader.source, reader.name, reader.spot)
    own.only("field", "times")
    part, field = _found(own, own.text("field"), fields, key)
    _require_kind(reader, key, field, kinds)
    times = own.decimal("times", "1")
    if Fraction(times) <= 0:
        raise reader.bad(f"counts '{field.id}' {times} times.", "Use more than 0.", key)
    return Term(part, field.id, times)


def _require_kind(reader: Reader, key: str, field: Field, kinds: tuple[Kind, ...]) -> None:
    if field.kind not in kinds:
        todo = f"Only {', '.join(kinds)} can stand there."
        raise reader.bad(f"counts '{field.id}', which is of the kind '{field.kind}', in '{key}'.", todo, key)


def _found(reader: Reader, named: str, fields: Found, key: str) -> tuple[str, Field]:
    """The field of that name; "pass.field" where several passes have one of it."""
    part, _, ident = named.rpartition(".")
    found = [one for one in fields.get(ident, ()) if part in ("", one[0])]
    if not found:
        todo = f"Fields are: {', '.join(fields)}."
        raise reader.bad(f"names a field '{named}', which is not there.", todo, key)
    if len(found) > 1:
        todo = f"Write {' or '.join(f'{one[0]}.{ident}' for one in found)}."
        raise reader.bad(f"names '{named}', which several passes have.", todo, key)
    return found[0]


def _refuse_twice(reader: Reader, terms: tuple[Term, ...]) -> None:
    seen: set[tuple[str, str]] = set()
    for term in terms:
        if (term.part, term.field) in seen:
            raise reader.bad(f"counts '{term.field}' twice.", "Remove one of them.", "add")
        seen.add((term.part, term.field))


def _bands(reader: Reader) -> tuple[tuple[str, str], ...]:
    """Pairs of the least total and a name, from the highest down."""
    rows = _text_pairs(
        reader, "bands", "texts", 'Write bands = [["90", "outstanding"], ["80", "very good"]].'
    )
    if not all(_DECIMAL.fullmatch(least) and name.strip() for least, name in rows):
        raise reader.bad("has a band without a number or a name.", 'Write ["90", "outstanding"].', "bands")
    bounds = [Fraction(least) for least, _ in rows]
    if any(after >= before for before, after in pairwise(bounds)):
        raise reader.bad("has bands that do not go down.", "Begin with the highest.", "bands")
    return rows


def _text_pairs(reader: Reader, key: str, of: str, todo: str) -> tuple[tuple[str, str], ...]:
    rows = reader.data.get(key, [])
    well_formed = isinstance(rows, list) and all(
        isinstance(row, list) and len(row) == 2 and all(isinstance(one, str) for one in row) for row in rows
    )
    if not well_formed:
        raise reader.bad(f"needs pairs of {of} as its '{key}'.", todo, key)
    return tuple((str(one), str(other)) for one, other in rows)


def _pairs(reader: Reader, fields: Found) -> tuple[tuple[str, str], ...]:
    """Pairs of fields that mark cups."""
    rows = _text_pairs(reader, "both", "fields", 'Write both = [["one", "other"]].')
    for ident in (ident for row in rows for ident in row):
        if "." in ident or _found(reader, ident, fields, "both")[1].kind not in CUP_KINDS:
            todo = f"Only {', '.join(CUP_KINDS)} mark cups."
            raise reader.bad(f"names '{ident}' in 'both', which marks no cups.", todo, "both")
    return rows
