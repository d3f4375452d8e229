"""Whether a note can stand at a table: its seat, place and question exist and its value fits the question.

Nothing is judged but the form: whatever a taster writes in words is kept word for word.
"""

import re
import sys
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol, TypeGuard

from cupwright.core.flow import Step, require
from cupwright.core.plan.coffee import LONGEST_TEXT
from cupwright.core.plan.table import Table
from cupwright.core.taste.note import Note, Value
from cupwright.core.taste.sheet import WHOLE_TABLE, Field, Kind, Over, Pass
from cupwright.core.taste.stamp import Stamp
from cupwright.errors import NotFound, Refused

# A taster writes some hundreds of notes; far below 2**53, so that every client counts exactly.
GREATEST_COUNTER = 1_000_000_000
LATEST_WRITTEN_AT = 2**53 - 1
_NAME = re.compile(r"[A-Za-z0-9-]{1,64}")
_DECIMAL = re.compile(r"-?[0-9]{1,9}(\.[0-9]{1,9})?")
# NUL cannot be kept by every database; a lone surrogate is half of a character and has no UTF-8.
_UNKEEPABLE = re.compile("[\x00\ud800-\udfff]")


# How much a mark on a cup is: found clean, a taint, a fault; what each takes away [SCAA-form-2004].
CLEAN, TAINT, FAULT = 0, 2, 4
# A cup that is marked where a sheet only asks whether it is.
MARKED = 1


@dataclass(frozen=True, slots=True)
class Asked:
    """What a question is about: so many cups of a sample, or these places to compare."""

    cups: int
    places: tuple[str, ...] = ()


class Message(Protocol):
    """What every append-only message of a device carries."""

    @property
    def id(self) -> str: ...
    @property
    def stamp(self) -> Stamp: ...
    @property
    def written_at(self) -> int: ...


def checked_note(note: Note, table: Table) -> Note:
    """The note itself, if it can stand at the table.

    Raises
    ------
    WrongStep
        If the table takes no notes now.
    NotFound
        If the seat, place, pass or field is unknown.
    Refused
        If the value does not fit the field, or id, stamp or time are malformed.
    """
    require(table.step, Step.POUR, Step.TASTE, to_do="write notes")
    check_message(note, called="note")
    _check_seat(note, table)
    field = _field(note, table)
    _check_place(note, table)
    check_value(note.value, field, cups=_cups(note.place, table), places=table.places)
    return note


def check_value(value: Value, field: Field, *, cups: int, places: tuple[str, ...] = ()) -> None:
    """Refuse a value that does not fit its field.

    Parameters
    ----------
    cups : int
        How many cups the sample has.
    places : tuple of str
        The places of the table, for questions that compare them.

    Raises
    ------
    Refused
        With a sentence that names the field and what it takes.
    """
    if value is not None:
        _CHECKS[field.kind](value, field, Asked(cups, places))


def check_message(message: Message, *, called: str) -> None:
    """Refuse a message that a device has malformed; `called` is what a refusal calls it.

    Raises
    ------
    Refused
        If its id, its stamp or its time are malformed.
    """
    if not _NAME.fullmatch(message.id):
        raise Refused(
            f"A {called} has a malformed id.",
            todo="Use 1 to 64 letters, digits and hyphens; devices make time-ordered UUIDs.",
        )
    if not _NAME.fullmatch(message.stamp.device):
        raise Refused(
            f"The {called} {message.id} has a malformed device in its stamp.",
            todo="Use 1 to 64 letters, digits and hyphens.",
        )
    if not 1 <= message.stamp.counter <= GREATEST_COUNTER:
        raise Refused(
            f"The {called} {message.id} has the counter {message.stamp.counter} in its stamp.",
            todo=f"Counters run from 1 to {GREATEST_COUNTER}.",
        )
    if not 0 <= message.written_at <= LATEST_WRITTEN_AT:
        raise Refused(
            f"The {called} {message.id} says it was written at {message.written_at}.",
            todo="Give milliseconds since 1970.",
        )


def _check_seat(note: Note, table: Table) -> None:
    if note.seat not in {seat.id for seat in table.seats}:
        raise NotFound(
            f"There is no such seat at the table '{table.plan.name}'.",
            todo="Join the table again with its code.",
        )


def _check_place(note: Note, table: Table) -> None:
    part = table.sheet.part(note.part)
    once = part is not None and part.over is Over.TABLE
    if once != (note.place == WHOLE_TABLE):
        raise _misplaced(note, part)
    if not once and note.place not in table.places:
        raise NotFound(
            f"There is no place '{note.place[:40]}' at the table '{table.plan.name}'.",
            todo=f"Its places are {_few(table.places)}.",
        )


def _misplaced(note: Note, part: Pass | None) -> NotFound:
    title = part.title if part else note.part
    if note.place == WHOLE_TABLE:
        return NotFound(f"The pass '{title}' is asked at each place.", todo="Name one of the places.")
    todo = f"Write it at the place '{WHOLE_TABLE}'."
    return NotFound(f"The pass '{title}' is asked once for the whole table.", todo=todo)


def _field(note: Note, table: Table) -> Field:
    parts = tuple(one.id for one in table.sheet.passes)
    if note.part not in parts:
        raise NotFound(
            f"The sheet '{table.sheet.name}' has no pass '{note.part[:40]}'.",
            todo=f"Its passes are {_few(parts)}.",
        )
    field = table.sheet.field(note.part, note.field)
    if field is None:
        fields = tuple(f.id for one in table.sheet.passes if one.id == note.part for f in one.fields)
        raise NotFound(
            f"The pass '{note.part}' of the sheet '{table.sheet.name}' has no field '{note.field[:40]}'.",
            todo=f"Its fields are {_few(fields)}.",
        )
    return field


def _cups(place: str, table: Table) -> int:
    return sum(1 for bowl_place, _ in table.bowls if bowl_place == place)


def _few(names: tuple[str, ...]) -> str:
    shown = ", ".join(names[:12])
    return shown if len(names) <= 12 else f"{shown} and {len(names) - 12} more"


def _misfit(field: Field, takes: str) -> Refused:
    return Refused(f"The answer does not fit the field '{field.label}'.", todo=f"It takes {takes}.")


def _check_text(value: Value, field: Field, _asked: Asked) -> None:
    if not isinstance(value, str):
        raise _misfit(field, "a text")
    if len(value) > LONGEST_TEXT:
        raise Refused(
            f"The text for the field '{field.label}' has {len(value)} characters.",
            todo=f"It takes at most {LONGEST_TEXT}; put the rest into the free line.",
        )
    if _UNKEEPABLE.search(value):
        raise Refused(
            f"The text for the field '{field.label}' contains a character that cannot be kept.",
            todo="Write it again by hand instead of pasting it.",
        )


def _check_line(value: Value, field: Field, _asked: Asked) -> None:
    if not _is_number(value) or not field.low <= value <= field.high:
        raise _misfit(field, f"a number from {field.low:g} to {field.high:g}")


def _check_points(value: Value, field: Field, _asked: Asked) -> None:
    takes = f"points from {field.low:g} to {field.high:g} in steps of {field.step:g}, written as a text"
    if not isinstance(value, str) or not _DECIMAL.fullmatch(value):
        raise _misfit(field, takes)
    # Exact fractions of the shortest decimal texts, so that a step of 0.1 divides evenly.
    points = Fraction(value)
    low, high, step = (Fraction(repr(number)) for number in (field.low, field.high, field.step))
    if not low <= points <= high or (points - low) % step:
        raise _misfit(field, takes)


def _check_choice(value: Value, field: Field, _asked: Asked) -> None:
    if value not in field.choices:
        raise _misfit(field, f"one of {_few(field.choices)}")


def _check_colour(value: Value, field: Field, _asked: Asked) -> None:
    """OKLab: l from 0 to 1; a and b lie within 0.5 for every colour that can be shown [CssColor4]."""
    takes = "a colour as l from 0 to 1 and a, b from -0.5 to 0.5"
    if not isinstance(value, dict) or value.keys() != {"l", "a", "b"}:
        raise _misfit(field, takes)
    if not all(_is_number(number) for number in value.values()):
        raise _misfit(field, takes)
    if not 0 <= value["l"] <= 1 or abs(value["a"]) > 0.5 or abs(value["b"]) > 0.5:
        raise _misfit(field, takes)


def _check_ticks(value: Value, field: Field, asked: Asked) -> None:
    if field.try_all:
        takes = f"cups from 1 to {asked.cups}, each as fine ({CLEAN}) or marked ({MARKED})"
        _check_found(value, field, asked, (CLEAN, MARKED), takes)
    else:
        _check_cups(value, field, asked)


def _check_cups(value: Value, field: Field, asked: Asked) -> None:
    takes = f"each cup number from 1 to {asked.cups} at most once"
    if not isinstance(value, list) or len(set(map(str, value))) < len(value):
        raise _misfit(field, takes)
    if any(isinstance(cup, bool) or not isinstance(cup, int) or not 1 <= cup <= asked.cups for cup in value):
        raise _misfit(field, takes)


def _check_faults(value: Value, field: Field, asked: Asked) -> None:
    """Cup number (as a text) -> what was found in it; no cup at all says that none was found in any."""
    takes = f"cups from 1 to {asked.cups}, each as clean ({CLEAN}), taint ({TAINT}) or fault ({FAULT})"
    _check_found(value, field, asked, (CLEAN, TAINT, FAULT), takes)


def _check_found(value: Value, field: Field, asked: Asked, kinds: tuple[int, ...], takes: str) -> None:
    cups = {str(cup) for cup in range(1, asked.cups + 1)}
    if not isinstance(value, dict) or not value.keys() <= cups:
        raise _misfit(field, takes)
    if any(not _is_number(found) or found not in kinds for found in value.values()):
        raise _misfit(field, takes)


def _check_tags(value: Value, field: Field, _asked: Asked) -> None:
    takes = f"any of {_few(field.choices)}, each once"
    if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
        raise _misfit(field, takes)
    if not set(value) <= set(field.choices) or len(set(value)) < len(value):
        raise _misfit(field, takes)
    if field.most and len(value) > field.most:
        raise Refused(
            f"The field '{field.label}' has {len(value)} ticks; it takes at most {field.most}.",
            todo="Take out the weakest.",
        )


def _check_rank(value: Value, field: Field, asked: Asked) -> None:
    """Place -> its number in the order, from 1; places not yet in the order are left out."""
    takes = "places of the table with their numbers in the order, from 1 without a gap"
    if not isinstance(value, dict) or not value.keys() <= set(asked.places):
        raise _misfit(field, takes)
    if not all(_is_number(number) for number in value.values()):
        raise _misfit(field, takes)
    if set(value.values()) != set(range(1, len(set(value.values())) + 1)):
        raise _misfit(field, takes)
    if not field.ties and len(set(value.values())) < len(value):
        raise _misfit(field, f"{takes}, no two alike")


def _check_odd(value: Value, field: Field, asked: Asked) -> None:
    if value not in asked.places:
        raise _misfit(field, f"one of {_few(asked.places)}")


def _is_number(value: object) -> TypeGuard[float]:
    """Whether it is a finite number; True and False are not numbers here."""
    # Not math.isfinite: it fails on whole numbers beyond the range of a float.
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= sys.float_info.max


_CHECKS: dict[Kind, Callable[[Value, Field, Asked], None]] = {
    Kind.WORDS: _check_text,
    Kind.TEXT: _check_text,
    Kind.COLOUR: _check_colour,
    Kind.LINE: _check_line,
    Kind.POINTS: _check_points,
    Kind.CHOICE: _check_choice,
    Kind.TICKS: _check_ticks,
    Kind.CUPS: _check_cups,
    Kind.FAULTS: _check_faults,
    Kind.TAGS: _check_tags,
    Kind.RANK: _check_rank,
    Kind.ODD: _check_odd,
}
