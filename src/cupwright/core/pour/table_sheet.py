"""The run sheet of a table: its plan's hands, its protocol's times, its flights, its clock."""

from dataclasses import replace

from cupwright.core.plan.table import Blinding, Plan, Table
from cupwright.core.pour.first_taste import MOST_PUT_OFF_S, put_off_by_readings_s, put_off_s
from cupwright.core.pour.hands import Hands
from cupwright.core.pour.laid import Schedule
from cupwright.core.pour.run_sheet import Cue, run_sheet, unkept, unkept_in_words
from cupwright.core.pour.schedule import keepable, people_needed, schedule
from cupwright.core.pour.timing import CueKind, Timing
from cupwright.errors import Refused


def hands_of(plan: Plan) -> Hands:
    """Who pours, breaks and skims, by the plan."""
    return Hands(plan.pourers, plan.pour_s, plan.break_s, plan.skim_s)


def timing_of(table: Table) -> Timing:
    """The protocol's times, with the first taste put off as the plan, or what was read, asks for it."""
    readings = _readings(table)
    if readings:
        return _put_off(table, put_off_by_readings_s(table.plan, table.protocol, readings))
    return _put_off(table, put_off_s(table.plan, table.protocol))


def _put_off(table: Table, seconds: int) -> Timing:
    return replace(table.protocol.timing, put_off_s=seconds)


def _readings(table: Table) -> tuple[tuple[float, float], ...]:
    """Seconds after its own pour and °C, of the bowls whose pour no call to taste moves.

    A later flight that nobody has begun to mark waits for the first taste of the one before it: its readings
    would move the very pours that they count from.
    """
    if table.clock.started_at is None or not table.clock.readings:
        return ()
    soonest, latest = (_poured(table, _put_off(table, seconds)) for seconds in (0, MOST_PUT_OFF_S))
    return tuple(
        ((at - soonest[bowl]) / 1000, celsius)
        for bowl, at, celsius in table.clock.readings
        if bowl in soonest and soonest[bowl] == latest[bowl] <= at
    )


def _poured(table: Table, timing: Timing) -> dict[int, int]:
    cues = run_sheet(_laid(table, timing), table.clock)
    return {cue.bowl: cue.due for cue in cues if cue.kind is CueKind.POUR}


def _laid(table: Table, timing: Timing) -> Schedule:
    flights = flights_of(table)
    return keepable(sum(flights), hands_of(table.plan), timing, flights)


def flights_of(table: Table) -> tuple[int, ...]:
    """Bowls of each flight; a table that is not blind is one flight."""
    if table.plan.blinding is Blinding.OPEN:
        bowls = len(table.plan.samples) * table.plan.bowls_per_sample
        return (bowls,) if bowls else ()
    at = [place for place, _ in table.bowls]
    return tuple(sum(at.count(place) for place in flight) for flight in table.flights)


def schedule_of(table: Table) -> Schedule:
    """What the table goes by: the plan's hands, or as many more as it takes.

    Raises
    ------
    Refused
        If no number of people can keep the protocol's times.
    """
    return _laid(table, timing_of(table))


def cues_of(table: Table) -> tuple[Cue, ...]:
    """Everything that is due; nothing before the clock is started."""
    return run_sheet(schedule_of(table), table.clock) if table.clock.started_at is not None else ()


def hands_warning(table: Table) -> tuple[str, ...]:
    """Why the plan's people cannot keep its bowls, as a sentence; empty if they can."""
    flights = flights_of(table)
    try:
        schedule(sum(flights), hands_of(table.plan), timing_of(table), flights)
    except Refused as refused:
        return (refused.sentence(),)
    return ()


def people_for(table: Table) -> int:
    """The fewest people, each as quick as the plan says, who can keep it. Raises Refused if nobody can."""
    hands, timing = hands_of(table.plan), table.protocol.timing
    return max((people_needed(size, hands, timing) for size in flights_of(table)), default=1)


def lateness(table: Table, cues: tuple[Cue, ...]) -> tuple[str, ...]:
    """What cannot be kept any more, as sentences."""
    poured = {cue.bowl: cue.due for cue in cues if cue.kind is CueKind.POUR}
    return tuple(
        unkept_in_words(cue, _name(table, cue.bowl), poured[cue.bowl], table.plan.pourers)
        for cue in unkept(cues)
    )


def bowl_names(table: Table) -> list[str]:
    """What each bowl is called, in pouring order; of a table that is not blind its number."""
    if table.plan.blinding is Blinding.OPEN:
        return [f"bowl {number}" for number in range(1, sum(flights_of(table)) + 1)]
    alone = all(number == 1 for _, number in table.bowls)
    return [place if alone else f"{place} bowl {number}" for place, number in table.bowls]


def _name(table: Table, bowl: int) -> str:
    place, number = table.bowls[bowl]
    alone = all(each == 1 for _, each in table.bowls)
    return f"Bowl {place}" if alone else f"{place}, bowl {number},"
