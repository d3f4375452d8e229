"""Calendar files against RFC 5545, by a reader that was written from the RFC."""

from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.reference.ical_reader import moment, parsed, text, unfolded

from cupwright.core.pour.calendar import calendar, events
from cupwright.core.pour.hands import Hands
from cupwright.core.pour.schedule import schedule

START = datetime(2026, 11, 30, 14, 0)  # noqa: DTZ001 - a floating time has no zone
STAMP = datetime(2026, 11, 29, 9, 30, 15, tzinfo=UTC)
LAID = schedule(6, Hands())
BOWLS = ["274", "538", "619", "402", "385", "751"]


def written(name: str = "Monday", start: datetime = START, bowls: list[str] = BOWLS) -> bytes:
    return calendar(LAID, bowls, start, name=name, stamp=STAMP).encode()


def test_a_calendar_is_read_back_with_every_event_at_its_time():
    """RFC 5545, sections 3.4, 3.6.1 and 3.3.5 (form 1: floating time)."""
    found = parsed(written())

    told = [
        (moment(one.one("DTSTART")), moment(one.one("DTEND")), text(one.one("SUMMARY")))
        for one in found.inside
    ]
    assert told == [
        (START, START + timedelta(seconds=90), "Pour 274 to 751"),
        (START + timedelta(seconds=240), START + timedelta(seconds=325), "Break 274 to 751"),
        (START + timedelta(seconds=330), START + timedelta(seconds=420), "Skim 274 to 751"),
        (START + timedelta(seconds=480), START + timedelta(seconds=600), "First taste"),
    ]
    assert {moment(one.one("DTSTAMP")) for one in found.inside} == {STAMP}
    assert all(len(one.inside) == 1 for one in found.inside)


def test_an_instant_is_written_in_utc():
    """RFC 5545, section 3.3.5, form 2: 14:00 one hour east of Greenwich is 13:00 UTC."""
    there = START.replace(tzinfo=timezone(timedelta(hours=1)))

    assert moment(parsed(written(start=there)).inside[0].one("DTSTART")) == there


def test_the_example_of_the_rfc_of_an_escaped_text_is_read_and_written_alike():
    """RFC 5545, section 3.3.11: the example of a multiple line value."""
    printed = r"Project XYZ Final Review\nConference Room - 3B\nCome Prepared."
    plain = "Project XYZ Final Review\nConference Room - 3B\nCome Prepared."

    assert text(printed) == plain
    assert text(parsed(written(name=plain)).inside[0].one("DESCRIPTION")).startswith(f"{plain}\n0:00 274")


def test_the_example_of_the_rfc_of_a_folded_line_is_one_line():
    """RFC 5545, section 3.1: the example of folding."""
    folded = b"DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.\r\n"

    assert unfolded(folded) == ["DESCRIPTION:This is a long description that exists on a long line."]


@settings(max_examples=100, deadline=None)
@given(name=st.text(max_size=200), bowl=st.text(max_size=40))
def test_any_name_is_a_calendar_and_comes_back(name: str, bowl: str):
    """RFC 5545, sections 3.1 and 3.3.11: any text, folded by octets, without control characters."""
    found = parsed(written(name=name, bowls=[bowl] * 6))

    kept = "".join(each for each in name if each == "\n" or (each >= " " and each != "\x7f"))
    assert text(found.inside[0].one("DESCRIPTION")).startswith(f"{kept}\n0:00 ")


def test_two_people_have_events_of_their_own():
    """Not of the RFC: who does what is said in the title."""
    titles = [event.title for event in events(schedule(8, Hands(2)), [str(n) for n in range(1, 9)])]

    assert titles[:2] == ["Pour 1 to 7 (person 1)", "Pour 2 to 8 (person 2)"]


@pytest.mark.parametrize(
    "broken",
    [
        b"BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:x\nEND:VCALENDAR\n",
        written().replace(b"UID:", b"UUID:"),
        written().replace(b"DTSTAMP:20261129T093015Z", b"DTSTAMP:20261129T093015"),
        written().replace(b"\r\n ", b""),
        written().replace(b"END:VALARM", b"END:VEVENT", 1),
    ],
)
def test_the_reader_refuses_what_the_rfc_forbids(broken: bytes):
    """RFC 5545: lines that end in LF, no UID, DTSTAMP not in UTC, lines not folded, components that cross."""
    with pytest.raises(ValueError):
        parsed(broken)
