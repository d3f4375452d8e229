"""The schedule: who pours, breaks and skims which bowl at which second, laid before the table begins.

P people share the bowls of a flight in whatever way keeps the protocol's times: nobody does two things at
once, each bowl is broken within the steep tolerance of its own pour, bowls are broken in pour order, and all
are skimmed before the first taste of the flight. Best is the least spread of steeps, then a steep nearest to
the protocol's own, then the earliest acts. What cannot be kept is refused with how many bowls can be.

Error: exact for hands that take their measured seconds (act_times.py says why); a schedule lies on full steps
of 5 s where one can, so spread and steep are the best on such steps. Work is limited: where that limit struck
before a better spread or steep was ruled out, the schedule is within the windows, but not `least`.
Source: the windows are the protocol's (timing.py). The pause between flights: common practice, no source.
"""

from collections.abc import Sequence
from functools import lru_cache

from cupwright.core.pour.act_times import act_times, can_keep, most_bowls
from cupwright.core.pour.hands import Hands, seconds_of
from cupwright.core.pour.laid import PAUSE_S, RANK, Act, Flight, Schedule
from cupwright.core.pour.task import ActTimes, Task
from cupwright.core.pour.timing import STANDARD_TIMING, CueKind, Timing
from cupwright.errors import Refused

STEP_S = 5
# Skims wait for the protocol's own time only while this much is left before the first taste.
RESERVE_S = 60


def schedule(
    bowls: int, hands: Hands, timing: Timing = STANDARD_TIMING, flights: Sequence[int] = ()
) -> Schedule:
    """The best way for these hands to keep these bowls.

    Parameters
    ----------
    flights : sequence of int
        Bowls of each flight, their sum `bowls`; empty: one flight. Each begins when the one before it has
        been tasted and a pause is over.

    Raises
    ------
    Refused
        If these hands cannot keep a flight; says how many bowls they can keep and how many people it takes.
    """
    sizes = _checked_flights(bowls, flights)
    task = task_of(hands, timing)
    for size in sizes:
        if not can_keep(size, task):
            raise Refused(refusal(size, hands, timing), todo=_WHAT_THEN, about="pourers")
    return laid(tuple(sizes), task, timing)


def keepable(
    bowls: int, hands: Hands, timing: Timing = STANDARD_TIMING, flights: Sequence[int] = ()
) -> Schedule:
    """The same, with as many more people as it takes; for a table that is poured whatever the plan said.

    Raises
    ------
    Refused
        If no number of people can keep the protocol's times.
    """
    sizes = _checked_flights(bowls, flights)
    needed = [people_needed(size, hands, timing) for size in sizes]
    return schedule(bowls, _with_people(hands, max([hands.people, *needed])), timing, sizes)


def largest(hands: Hands, timing: Timing = STANDARD_TIMING) -> int:
    """The most bowls of one flight that these hands can keep; 0 if not even one. Exact."""
    return most_bowls(task_of(hands, timing))


def people_needed(bowls: int, hands: Hands, timing: Timing = STANDARD_TIMING) -> int:
    """The fewest people who, each as quick as these, can keep so many bowls of one flight. Exact.

    Raises
    ------
    Refused
        If nobody can: a bowl's own acts do not fit between its pour and its first taste.
    """
    alone = _with_people(hands, 1)
    if bowls and not can_keep(1, task_of(alone, timing)):
        raise Refused(
            "By these times not one bowl can be poured, broken and skimmed before its first taste.",
            todo="Taste later, or measure the seconds of hands again.",
        )
    people = 1
    while not can_keep(bowls, task_of(_with_people(hands, people), timing)):
        people += 1
        if people >= bowls:
            break
    return people


def refusal(bowls: int, hands: Hands, timing: Timing = STANDARD_TIMING) -> str:
    """Why so many bowls cannot be kept, in one sentence."""
    needed = people_needed(bowls, hands, timing)
    who = "One person" if hands.people == 1 else f"{hands.people} people"
    most = largest(hands, timing)
    return (
        f"{who} can keep {most} bowl{'' if most == 1 else 's'} of one flight within the protocol's times, "
        f"and {bowls} bowls need {needed} people."
    )


def task_of(hands: Hands, timing: Timing) -> Task:
    """What one flight asks of these hands, in whole seconds."""
    seconds = seconds_of(hands, timing)
    breaks, skims = CueKind.BREAK in timing.acts, CueKind.SKIM in timing.acts
    pour = seconds[CueKind.POUR]
    # Where nothing is broken or skimmed, all stands before the first bowl has stood too long.
    end = timing.taste_from_s if breaks or skims else timing.taste_to_s
    return Task(
        people=hands.people,
        pour=pour,
        crust=seconds.get(CueKind.BREAK, 0),
        skim=seconds.get(CueKind.SKIM, 0),
        earliest=max(pour, timing.break_earliest_s) if breaks else pour,
        latest=timing.break_latest_s if breaks else pour,
        end=end,
    )


_WHAT_THEN = "Let more people help, or pour in smaller flights."


def _with_people(hands: Hands, people: int) -> Hands:
    return Hands(people, hands.pour_s, hands.break_s, hands.skim_s)


def _checked_flights(bowls: int, flights: Sequence[int]) -> tuple[int, ...]:
    sizes = tuple(flights) or ((bowls,) if bowls else ())
    least = min(sizes, default=1)
    if least < 1:
        raise Refused(f"A flight cannot have {least} bowls.", todo="Give each flight 1 bowl or more.")
    if sum(sizes) != bowls:
        raise Refused(
            f"Flights of {', '.join(map(str, sizes)) or 'no'} bowls do not make {bowls}.",
            todo="Say how many bowls each flight has.",
        )
    return sizes


@lru_cache(maxsize=256)
def laid(sizes: tuple[int, ...], task: Task, timing: Timing) -> Schedule:
    acts: list[Act] = []
    flights: list[Flight] = []
    steeps: list[int] = []
    first, start, spread, least = 0, 0, 0, True
    for size in sizes:
        times = act_times(size, task, timing.break_at_s, STEP_S)
        if times is None:
            raise Refused(f"{size} bowls cannot be kept.", todo=_WHAT_THEN)
        acts += _moved(_shared_out(times, task, timing), first, start)
        flights.append(Flight(first, first + size, start, start + task.end))
        if CueKind.BREAK in timing.acts:
            spread, least = max(spread, times.spread), least and times.least
            steeps += [broken - poured for poured, broken in zip(times.pours, times.breaks, strict=True)]
        first, start = first + size, start + times.pours[-1] + timing.first_taste_s[1] + PAUSE_S
    people = 1 + max((act.person for act in acts), default=-1)
    return Schedule(tuple(acts), tuple(flights), people, spread, tuple(steeps), timing, least)


def _moved(acts: Sequence[Act], bowl: int, seconds: int) -> list[Act]:
    return [
        Act(act.kind, act.bowl + bowl, act.person, act.start_s + seconds, act.end_s + seconds) for act in acts
    ]


def _shared_out(times: ActTimes, task: Task, timing: Timing) -> list[Act]:
    """Each act is done by whoever poured its bowl if free, else by the first who is.

    Somebody always is: no more acts than people are at work at any moment.
    """
    free = [0] * task.people
    poured_by: dict[int, int] = {}
    acts: list[Act] = []
    for start, _, bowl, kind, length in sorted(_all(times, task, timing)):
        person = poured_by.get(bowl, 0)
        if free[person] > start:
            person = next(each for each, until in enumerate(free) if until <= start)
        if kind is CueKind.POUR:
            poured_by[bowl] = person
        free[person] = start + length
        acts.append(Act(kind, bowl, person, start, start + length))
    return sorted(
        _with_late_skims(acts, task, timing), key=lambda act: (act.start_s, RANK[act.kind], act.bowl)
    )


def _all(times: ActTimes, task: Task, timing: Timing) -> list[tuple[int, int, int, CueKind, int]]:
    kinds = {
        CueKind.POUR: (times.pours, task.pour),
        CueKind.BREAK: (times.breaks, task.crust),
        CueKind.SKIM: (times.skims, task.skim),
    }
    return [
        (start, RANK[kind], bowl, kind, length)
        for kind, (starts, length) in kinds.items()
        if kind in timing.acts
        for bowl, start in enumerate(starts)
    ]


def _with_late_skims(acts: Sequence[Act], task: Task, timing: Timing) -> list[Act]:
    """Skims put off towards the protocol's own time, while nothing else waits and a reserve remains."""
    poured = {act.bowl: act.start_s for act in acts if act.kind is CueKind.POUR}
    begins = dict.fromkeys(range(task.people), task.end - RESERVE_S)
    kept: list[Act] = []
    for act in reversed(acts):
        start = act.start_s
        if act.kind is CueKind.SKIM:
            wish = min(poured[act.bowl] + timing.skim_at_s, begins[act.person] - task.skim)
            start = max(start, wish)
        begins[act.person] = start
        kept.append(Act(act.kind, act.bowl, act.person, start, start + act.end_s - act.start_s))
    return kept
