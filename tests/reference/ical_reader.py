"""A reader of calendar files, written from RFC 5545 alone; it refuses what the RFC forbids."""

import re
from dataclasses import dataclass, field
from datetime import UTC, datetime

# Section 3.1: contentline = name *(";" param) ":" value CRLF
CONTENT_LINE = re.compile(r"([A-Za-z0-9-]+)((?:;[A-Za-z0-9-]+=[^;:,\"]*)*):(.*)", re.DOTALL)
# Section 3.3.5: forms 1 (floating) and 2 (UTC)
MOMENT = re.compile(r"\d{8}T\d{6}Z?")
# Section 3.3.11: TEXT, the only escapes there are
ESCAPE = re.compile(r"\\(?:\\|;|,|N|n)")
NOT_ALLOWED = re.compile(r"[\x00-\x08\x0a-\x1f\x7f]")


@dataclass
class Component:
    """A component with its properties in order, and what lies inside it."""

    name: str
    properties: list[tuple[str, str]] = field(default_factory=list)
    inside: list["Component"] = field(default_factory=list)

    def one(self, name: str) -> str:
        """The value of a property that occurs exactly once."""
        (value,) = [value for each, value in self.properties if each == name]
        return value


def unfolded(data: bytes) -> list[str]:
    """Section 3.1: lines end in CRLF, have at most 75 octets, and go on after CRLF and one space or tab."""
    if not data.endswith(b"\r\n"):
        raise ValueError("the last line does not end in CRLF")
    lines: list[bytes] = []
    for line in data[:-2].split(b"\r\n"):
        if b"\n" in line or b"\r" in line:
            raise ValueError("a line ends in something else than CRLF")
        if len(line) > 75:
            raise ValueError("a line has more than 75 octets")
        line.decode("utf-8")
        if line[:1] in (b" ", b"\t"):
            lines[-1] += line[1:]
        else:
            lines.append(line)
    return [line.decode("utf-8") for line in lines]


def parsed(data: bytes) -> Component:
    """The one calendar of a file."""
    stack = [Component("")]
    for line in unfolded(data):
        found = CONTENT_LINE.fullmatch(line)
        if found is None or NOT_ALLOWED.search(line):
            raise ValueError(f"no content line: {line!r}")
        name, value = found[1].upper(), found[3]
        if name == "BEGIN":
            stack.append(Component(value))
        elif name == "END":
            done = stack.pop()
            if done.name != value:
                raise ValueError(f"{done.name} ends as {value}")
            stack[-1].inside.append(done)
        else:
            stack[-1].properties.append((name, value))
    (root,) = stack
    (calendar,) = root.inside
    _require_calendar(calendar)
    return calendar


def text(value: str) -> str:
    """Section 3.3.11: a TEXT value; a bare comma, semicolon or backslash is refused."""
    if re.search(r"[\\;,]", ESCAPE.sub("", value)):
        raise ValueError(f"not escaped: {value!r}")
    return ESCAPE.sub(lambda found: "\n" if found[0] in ("\\n", "\\N") else found[0][1], value)


def moment(value: str) -> datetime:
    """Section 3.3.5: a date-time; aware if it is UTC, naive if it floats."""
    if not MOMENT.fullmatch(value):
        raise ValueError(f"no date-time: {value}")
    at = datetime.strptime(value.rstrip("Z"), "%Y%m%dT%H%M%S")  # noqa: DTZ007 - a floating time has none
    return at.replace(tzinfo=UTC) if value.endswith("Z") else at


def _require_calendar(calendar: Component) -> None:
    if calendar.name != "VCALENDAR" or calendar.one("VERSION") != "2.0" or not calendar.one("PRODID"):
        raise ValueError("section 3.6: no calendar of version 2.0 with a product")
    for event in calendar.inside:
        if event.name != "VEVENT":
            continue
        if not moment(event.one("DTSTAMP")).tzinfo:
            raise ValueError("section 3.8.7.2: DTSTAMP is not in UTC")
        if moment(event.one("DTEND")) <= moment(event.one("DTSTART")):
            raise ValueError("section 3.8.2.2: the end is not after the start")
        for alarm in event.inside:
            if alarm.name == "VALARM" and alarm.one("ACTION") == "DISPLAY":
                text(alarm.one("DESCRIPTION"))
                alarm.one("TRIGGER")
    identifiers = [event.one("UID") for event in calendar.inside if event.name == "VEVENT"]
    if len(set(identifiers)) < len(identifiers):
        raise ValueError("section 3.8.4.7: a UID occurs twice")
