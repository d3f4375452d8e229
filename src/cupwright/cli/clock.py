"""`cupwright clock`: who pours, breaks and skims which bowl when, for a table or for any hands."""

import argparse
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import say, say_json, say_rows, write_file

if TYPE_CHECKING:
    from cupwright.core.pour.hands import Hands
    from cupwright.steps.clock import LaidOut
    from cupwright.steps.ports import Tools

_SAYS = "Say who pours, breaks and skims which bowl when, and how many bowls these hands can keep."


def add_to(commands: Commands) -> None:
    """Make the command known."""
    parser = command(commands, "clock", clock, says=_SAYS)
    parser.add_argument("table", metavar="TABLE", nargs="?", help="the name of a table, or its id")
    parser.add_argument("--bowls", metavar="N", type=int, help="without a table: how many bowls")
    parser.add_argument("--flights", metavar="N,N", type=_numbers, help="without a table: bowls by flight")
    parser.add_argument("--people", metavar="N", type=int, help="who pour, break and skim (1, or the plan's)")
    for act in ("pour", "break", "skim"):
        usual = {"pour": 15, "break": 10, "skim": 15}[act]
        parser.add_argument(
            f"--{act}-s", metavar="S", type=float, help=f"seconds to {act} one bowl ({usual}, or the plan's)"
        )
    parser.add_argument("--protocol", metavar="NAME", default="cupping", help="whose times (cupping)")
    parser.add_argument(
        "--start", metavar="WHEN", help='when the first pour begins: 14:00, or "2026-11-30 14:00"'
    )
    parser.add_argument("--ics", metavar="FILE", type=Path, help="write a calendar; needs --start")
    with_json(parser)


def clock(joint: Joint, chosen: argparse.Namespace) -> None:
    """The schedule as text or as data, and as a calendar."""
    from cupwright.core.plain import plain
    from cupwright.core.pour.calendar import calendar

    if (chosen.table is not None) + (chosen.bowls is not None) + (chosen.flights is not None) != 1:
        chosen.wrong_use("give one of the three: a TABLE, --bowls or --flights")
    if chosen.ics and not chosen.start:
        chosen.wrong_use("say with --start when the first pour begins")
    with joint.open_tools(data_folder(chosen.data)) as tools:
        start = _start(chosen.start, tools) if chosen.start else None
        laid, bowls, name = _laid(tools, chosen)
        if chosen.ics and start:
            text = calendar(laid.schedule, bowls, start, name=name, stamp=tools.now())
            write_file(chosen.ics, text.encode())
    if chosen.json:
        begins = start.isoformat(timespec="minutes") if start else None
        say_json({"name": name, "start": begins, "bowls": bowls, **plain(laid)})
    else:
        _say(laid, bowls, start)
        if chosen.ics:
            say(f"Wrote {chosen.ics}.")


def _laid(tools: "Tools", chosen: argparse.Namespace) -> "tuple[LaidOut, list[str], str]":
    from cupwright.core.pour.hands import Hands
    from cupwright.core.pour.table_sheet import bowl_names, flights_of, hands_of
    from cupwright.steps.clock import laid_for_protocol, laid_out
    from cupwright.steps.plan import find_table

    if chosen.table is None:
        flights = tuple(chosen.flights) if chosen.flights is not None else (chosen.bowls,)
        laid = laid_out(tools, _hands(Hands(), chosen), flights, chosen.protocol)
        return laid, [f"bowl {bowl}" for bowl in range(1, sum(flights) + 1)], "Run sheet"
    table = find_table(tools, chosen.table)
    hands = _hands(hands_of(table.plan), chosen)
    return laid_for_protocol(table.protocol, hands, flights_of(table)), bowl_names(table), table.plan.name


def _hands(usual: "Hands", chosen: argparse.Namespace) -> "Hands":
    from dataclasses import replace

    asked = {name: getattr(chosen, name) for name in ("people", "pour_s", "break_s", "skim_s")}
    return replace(usual, **{name: value for name, value in asked.items() if value is not None})


def _start(text: str, tools: "Tools") -> datetime:
    """Floating time: an hour of today where this machine stands, or of the day that is named."""
    from cupwright.errors import Refused

    try:
        for form in ("%Y-%m-%d %H:%M", "%Y-%m-%dT%H:%M"):
            if "-" in text and form[8] == text[10:11]:
                return datetime.strptime(text, form)  # noqa: DTZ007 - floating on purpose
        hour = datetime.strptime(text, "%H:%M").time()  # noqa: DTZ007
    except ValueError:
        raise Refused(
            f"'{text[:40]}' is no time of day.", todo='Write it as 14:00, or "2026-11-30 14:00" with a date.'
        ) from None
    return datetime.combine(tools.now().astimezone().date(), hour)


def _say(laid: "LaidOut", bowls: list[str], start: datetime | None) -> None:
    from datetime import timedelta

    from cupwright.core.pour.calendar import clock_time

    schedule = laid.schedule
    headings = ["at", *(["o'clock"] if start else []), "person", "act", "bowl"]
    rows = [
        [
            clock_time(act.start_s),
            *([f"{start + timedelta(seconds=act.start_s):%H:%M:%S}"] if start else []),
            str(act.person + 1),
            str(act.kind),
            bowls[act.bowl],
        ]
        for act in schedule.acts
    ]
    say_rows(headings, rows)
    for number, flight in enumerate(schedule.flights, start=1):
        which = f" of flight {number}" if len(schedule.flights) > 1 else ""
        taste = flight.start_s + schedule.timing.first_taste_s[0]
        say(f"First taste{which} from {clock_time(taste)}.")
    if schedule.steep_s:
        low, high = clock_time(min(schedule.steep_s)), clock_time(max(schedule.steep_s))
        say(f"Every bowl steeps {low}." if low == high else f"Bowls steep {low} to {high}.")
    if not schedule.least:
        say("All is within the windows; the spread may not be the least, nor the steep the nearest.")
    say(f"These hands can keep {laid.largest} bowls of one flight.")


def _numbers(text: str) -> list[int]:
    try:
        return [int(part) for part in text.split(",")]
    except ValueError:
        raise argparse.ArgumentTypeError(f"'{text}' does not say bowls by flight, such as 8,8") from None
