"""A schedule as a calendar file, so that a phone reminds each person of what is next.

Acts of one kind that one person does one after another are one event; the first taste of each flight is an
event of its own. Times are UTC where the start is an instant, else floating: they mean 14:00 wherever the
calendar is looked at.

Source: [RFC5545], sections 3.1 (lines of at most 75 octets, CRLF), 3.3.5 (form of times), 3.3.11 (escapes),
3.6.1 and 3.6.6 (events and alarms), 3.8.4.7 (UID), 3.8.7.2 (DTSTAMP).
"""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from cupwright.core.pour.laid import Act, Schedule
from cupwright.core.pour.timing import CueKind

LONGEST_LINE = 75
_VERB = {CueKind.POUR: "Pour", CueKind.BREAK: "Break", CueKind.SKIM: "Skim"}


@dataclass(frozen=True, slots=True)
class Event:
    """Seconds since the first pour; `detail` has a line for each bowl."""

    start_s: int
    end_s: int
    title: str
    detail: str


def calendar(laid: Schedule, bowls: Sequence[str], start: datetime, *, name: str, stamp: datetime) -> str:
    """The calendar's text, with CRLF at the end of each line.

    Parameters
    ----------
    bowls : sequence of str
        What each bowl is called, in pouring order.
    start : datetime
        When the first pour begins: aware for an instant, naive for floating time.
    stamp : datetime
        When the file is made, aware.
    """
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Cupwright//Run sheet//EN", "CALSCALE:GREGORIAN"]
    for number, event in enumerate(events(laid, bowls)):
        about = "\n".join([name, start.isoformat(), str(number), event.title])
        uid = hashlib.sha256(about.encode()).hexdigest()[:32]
        lines += [
            "BEGIN:VEVENT",
            f"UID:{uid}@cupwright",
            f"DTSTAMP:{_moment(stamp)}",
            f"DTSTART:{_moment(start + timedelta(seconds=event.start_s))}",
            f"DTEND:{_moment(start + timedelta(seconds=event.end_s))}",
            f"SUMMARY:{_escaped(event.title)}",
            f"DESCRIPTION:{_escaped(name)}\\n{_escaped(event.detail)}",
            *_reminder(event),
            "END:VEVENT",
        ]
    return "".join(f"{_folded(line)}\r\n" for line in [*lines, "END:VCALENDAR"])


def _reminder(event: Event) -> tuple[str, ...]:
    said = f"DESCRIPTION:{_escaped(event.title)}"
    return "BEGIN:VALARM", "ACTION:DISPLAY", said, "TRIGGER:PT0S", "END:VALARM"


def events(laid: Schedule, bowls: Sequence[str]) -> tuple[Event, ...]:
    """One event for each run of acts of one person and kind, and one for the first taste of each flight."""
    runs: list[list[Act]] = []
    for person in range(laid.people):
        own = [act for act in laid.acts if act.person == person]
        for before, act in zip([None, *own], own, strict=False):
            if before is None or (before.kind, _flight(laid, before)) != (act.kind, _flight(laid, act)):
                runs.append([])
            runs[-1].append(act)
    found = [*(_of_run(run, bowls, laid.people) for run in runs), *_tastes(laid)]
    return tuple(sorted(found, key=lambda event: (event.start_s, event.title)))


def clock_time(seconds: int) -> str:
    """Seconds since the first pour as minutes: 4:05."""
    return f"{seconds // 60}:{seconds % 60:02d}"


def _of_run(run: Sequence[Act], bowls: Sequence[str], people: int) -> Event:
    named = [bowls[act.bowl] for act in run]
    which = named[0] if len(named) == 1 else f"{named[0]} to {named[-1]}"
    who = f" (person {run[0].person + 1})" if people > 1 else ""
    detail = "\n".join(f"{clock_time(act.start_s)} {bowls[act.bowl]}" for act in run)
    return Event(run[0].start_s, run[-1].end_s, f"{_VERB[run[0].kind]} {which}{who}", detail)


def _tastes(laid: Schedule) -> list[Event]:
    timing = laid.timing
    return [
        Event(
            flight.start_s + timing.first_taste_s[0],
            flight.start_s + timing.first_taste_s[1],
            "First taste" if len(laid.flights) == 1 else f"First taste of flight {number}",
            "Hot coffee burns: let a spoonful cool.",
        )
        for number, flight in enumerate(laid.flights, start=1)
    ]


def _flight(laid: Schedule, act: Act) -> int:
    return next(n for n, flight in enumerate(laid.flights) if flight.first <= act.bowl < flight.after)


def _moment(at: datetime) -> str:
    if at.tzinfo is None:
        return at.strftime("%Y%m%dT%H%M%S")
    return at.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")


def _escaped(text: str) -> str:
    # Other control characters may not stand in a calendar at all.
    kept = "".join(each for each in text if each == "\n" or (each >= " " and each != "\x7f"))
    for plain in ("\\", ";", ","):
        kept = kept.replace(plain, f"\\{plain}")
    return kept.replace("\n", "\\n")


def _folded(line: str) -> str:
    """Lines of at most 75 octets, never cut inside a letter; each further one begins with a space."""
    parts: list[str] = [""]
    for letter in line:
        if len((parts[-1] + letter).encode()) > LONGEST_LINE - (len(parts) > 1):
            parts.append("")
        parts[-1] += letter
    return "\r\n ".join(parts)
