"""Sheets as files: from TOML to a `Sheet` and back to plain data, with every complaint naming its place.

A file holds the sheet's own values, a rule for points if it has one, and two nested arrays of tables,
`[[passes]]` and `[[passes.fields]]`; the plain data kept in the store and sent to the clients has the same
names.
"""

from collections.abc import Mapping
from dataclasses import asdict
from functools import cache
from importlib.resources import files
from typing import Any

from cupwright.core import toml_reader
from cupwright.core.taste.pass_order import in_order
from cupwright.core.taste.points_file import points_as_data, points_rule
from cupwright.core.taste.sheet import (
    COMPARING,
    CUP_KINDS,
    Field,
    Kind,
    Moment,
    Over,
    Pass,
    PointsRule,
    Sheet,
)
from cupwright.core.taste.sheet_reader import Reader, Source, Spot
from cupwright.errors import NotFound

_SCALES = (Kind.LINE, Kind.POINTS)
_SCALE_KEYS = {"low": 0.0, "high": 100.0, "step": 1.0, "low_label": "", "high_label": ""}
_LISTS = (Kind.CHOICE, Kind.TAGS)


def parse_sheet(text: str, *, file: str = "sheet") -> Sheet:
    """The sheet a TOML text describes.

    Raises
    ------
    BadSheet
        With file and line: if the text is no TOML, or does not describe a sheet.
    """
    source = Source(file, text)
    return _sheet(source.data(), source)


def sheet_from_data(data: Mapping[str, Any]) -> Sheet:
    """The sheet of plain data, as made by `sheet_as_data`; checked like a file.

    Raises
    ------
    BadSheet
        If the data does not describe a sheet.
    """
    return _sheet(data, Source())


def sheet_as_data(sheet: Sheet) -> dict[str, Any]:
    """A sheet as dicts, lists, texts and numbers, ready for JSON; every key of every value is there."""
    data = asdict(sheet)
    data["liking"] = list(sheet.liking) if sheet.liking else None
    data["points"] = points_as_data(sheet.points) if sheet.points else None
    data["passes"] = [_pass_as_data(one) for one in sheet.passes]
    return data


def _pass_as_data(one: Pass) -> dict[str, Any]:
    fields = [asdict(f) | {"kind": f.kind.value, "choices": list(f.choices)} for f in one.fields]
    return asdict(one) | {"moment": one.moment.value, "over": one.over.value, "fields": fields}


@cache
def builtin_names() -> tuple[str, ...]:
    """The names of the sheets that come with the program, sorted."""
    names = [entry.name for entry in (files(__package__) / "sheets").iterdir()]
    return tuple(sorted(name.removesuffix(".toml") for name in names if name.endswith(".toml")))


@cache
def builtin_sheet(name: str) -> Sheet:
    """The sheet of that name that comes with the program.

    Raises
    ------
    NotFound
        If there is none; the message lists those there are.
    """
    return parse_sheet(builtin_text(name), file=f"{name}.toml")


def builtin_text(name: str) -> str:
    """The file of that sheet that comes with the program, to begin one of one's own with.

    Raises
    ------
    NotFound
        If there is none; the message lists those there are.
    """
    if name not in builtin_names():
        todo = f"Choose one of: {', '.join(builtin_names())}."
        raise NotFound(f"There is no sheet called '{name}'.", todo=todo)
    return (files(__package__) / "sheets" / f"{name}.toml").read_text(encoding="utf-8")


def _sheet(data: Mapping[str, Any], source: Source) -> Sheet:
    reader = Reader(data, source, "The sheet")
    reader.only("name", "version", "title", "liking", "points", "passes")
    name, version, title = reader.name_of_form("name"), reader.whole_from_1("version"), reader.text("title")
    rows = reader.rows("passes")
    passes = tuple(_pass(Reader(row, source, _called("pass", row, i), (i, -1))) for i, row in enumerate(rows))
    _refuse_twins("pass", [one.id for one in passes], source, [(i, -1) for i in range(len(passes))])
    ordered = in_order(passes, source)
    rule = points_rule(reader, passes, _points_of_builtin)
    return Sheet(name, version, title, ordered, _liking(reader, passes), rule)


def _points_of_builtin(name: str) -> PointsRule | None:
    return builtin_sheet(name).points if name in builtin_names() else None


def _pass(reader: Reader) -> Pass:
    reader.only("id", "title", "ask", "moment", "caution", "over", "after", "fields")
    part, number = reader.ident("id"), reader.spot[0]
    fields = tuple(
        _field(Reader(row, reader.source, f"{_called('field', row, i)} of the pass '{part}'", (number, i)))
        for i, row in enumerate(reader.rows("fields"))
    )
    _refuse_twins("field", [f.id for f in fields], reader.source, [(number, i) for i in range(len(fields))])
    over = reader.one_of("over", Over) if "over" in reader.data else Over.PLACES
    _check_over(reader, over, fields)
    return Pass(
        part,
        reader.text("title"),
        reader.text("ask"),
        reader.one_of("moment", Moment),
        fields,
        reader.text_or_none("caution"),
        over,
        reader.text_or_none("after"),
    )


def _check_over(reader: Reader, over: Over, fields: tuple[Field, ...]) -> None:
    """Questions that compare places are asked once; questions about cups are asked at each place."""
    for field in fields:
        if field.kind in COMPARING and over is Over.PLACES:
            todo = 'Write over = "table" in its pass, so that it is asked once.'
            raise reader.bad(f"asks '{field.id}', which compares all places, at each of them.", todo, "over")
        if field.kind in CUP_KINDS and over is Over.TABLE:
            todo = "Ask it in a pass over the places."
            raise reader.bad(f"asks '{field.id}', which is about one place's cups, only once.", todo, "over")


def _field(reader: Reader) -> Field:
    reader.only("id", "kind", "label", "hint", *_SCALE_KEYS, "choices", "most", "ties", "try_all")
    field = Field(
        reader.ident("id"),
        reader.one_of("kind", Kind),
        reader.text("label"),
        reader.text_or_none("hint"),
        reader.number("low", 0.0),
        reader.number("high", 10.0 if reader.data.get("kind") == Kind.CUPS else 100.0),
        reader.number("step", 1.0),
        reader.text_or_none("low_label"),
        reader.text_or_none("high_label"),
        reader.texts("choices"),
        reader.whole_from_1("most") if reader.data.get("most") else 0,
        reader.truth("ties"),
        reader.truth("try_all"),
    )
    if field.kind is Kind.CUPS:
        _check_cups(field, reader)
    else:
        _check_scale(field, reader)
    _check_choices(field, reader)
    return field


def _check_cups(field: Field, reader: Reader) -> None:
    if field.high <= 0:
        todo = "Give what a sample of good cups gets: high = 10."
        raise reader.bad(f"gives {field.high:g} points.", todo, "high")


def _check_scale(field: Field, reader: Reader) -> None:
    if field.kind not in _SCALES:
        # Where each cup is answered for, its two answers may have words of their own.
        worded = ("low_label", "high_label") if field.try_all else ()
        defaults = {key: default for key, default in _SCALE_KEYS.items() if key not in worded}
        stray = next((key for key, default in defaults.items() if getattr(field, key) != default), None)
        if stray:
            todo = "Remove it, or make the kind line or points."
            raise reader.bad(f"is of the kind '{field.kind}', which has no '{stray}'.", todo, stray)
        return
    if field.low >= field.high:
        complaint = f"runs from {field.low:g} to {field.high:g}."
        key = "high" if "high" in reader.data else "low"
        raise reader.bad(complaint, "Make 'low' smaller than 'high'.", key)
    if not 0 < field.step <= field.high - field.low:
        todo = f"Use more than 0 and at most {field.high - field.low:g}."
        raise reader.bad(f"has the step {field.step:g}.", todo, "step")


def _check_choices(field: Field, reader: Reader) -> None:
    if field.kind not in _LISTS and field.choices:
        todo = "Remove them, or make the kind choice or tags."
        raise reader.bad(f"is of the kind '{field.kind}', which has no 'choices'.", todo, "choices")
    if field.kind is not Kind.TAGS and field.most:
        raise reader.bad(f"is of the kind '{field.kind}', which has no 'most'.", "Remove it.", "most")
    if field.kind is not Kind.RANK and field.ties:
        raise reader.bad(f"is of the kind '{field.kind}', which has no 'ties'.", "Remove it.", "ties")
    if field.kind is not Kind.TICKS and field.try_all:
        raise reader.bad(f"is of the kind '{field.kind}', which has no 'try_all'.", "Remove it.", "try_all")
    if field.kind in _LISTS and len(field.choices) < 2:
        raise reader.bad("has fewer than two choices.", 'Write choices = ["one", "two"].', "choices")
    if len(set(field.choices)) < len(field.choices):
        raise reader.bad("has the same choice twice.", "Remove one of them.", "choices")


def _liking(reader: Reader, passes: tuple[Pass, ...]) -> tuple[str, str] | None:
    """The (pass, field) named as liking; it must be a scale of the sheet."""
    if reader.data.get("liking") is None:
        return None
    named = reader.texts("liking")
    if len(named) != 2:
        raise reader.bad("needs a pass and a field as its 'liking'.", 'Write ["pass", "field"].', "liking")
    kind = next((f.kind for p in passes if p.id == named[0] for f in p.fields if f.id == named[1]), None)
    if kind not in _SCALES:
        todo = "Name a pass and a field of it of the kind line or points."
        raise reader.bad(f"names '{named[0]}', '{named[1]}' as liking.", todo, "liking")
    return (named[0], named[1])


def _called(what: str, row: Mapping[str, Any], number: int) -> str:
    """How complaints call a pass or field: by its id where it has one, else by its place in the file."""
    ident = row.get("id")
    return (
        f"The {what} '{ident}'"
        if isinstance(ident, str) and ident.strip()
        else f"{what.capitalize()} {number + 1}"
    )


def _refuse_twins(what: str, ids: list[str], source: toml_reader.Source, spots: list[Spot]) -> None:
    for index, ident in enumerate(ids):
        if ident in ids[:index]:
            raise source.bad(f"Two {what} tables have the id '{ident}'.", "Rename one.", spots[index], "id")
