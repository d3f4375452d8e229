"""The run sheet: what is due with which bowl at which moment, computed from time stamps alone.

Each bowl has its own clock, which starts when its own water goes in. Mirrored in
client/src/pour/clock.ts; tests/contract/clock_cases.json is run against both.

Source: steep 3 to 5 min and then break the crust, [SCAA-cupping-2009] and trade pages (3 to 5 min as a
whole from memory); first taste 8 to 10 min after the pour, trade pages that restate the protocol.
Pace of pouring, 4:00 for the break and 6:00 for the skim: common practice, no source.
"""

from dataclasses import dataclass
from enum import StrEnum

from cupwright.core.pour.clock import Clock


class CueKind(StrEnum):
    """What is to be done with a bowl; in the order that decides when two are due at one moment."""

    POUR = "pour"
    BREAK = "break"
    SKIM = "skim"
    TASTE = "taste"


@dataclass(frozen=True, slots=True)
class Timing:
    """Seconds. `pour_every_s` from one bowl to the next; all others from a bowl's own pour.

    `acts` are those that the table's protocol has; the times of others mean nothing.
    """

    pour_every_s: int = 20
    break_at_s: int = 240
    break_earliest_s: int = 180
    break_latest_s: int = 300
    skim_at_s: int = 360
    taste_from_s: int = 480
    taste_to_s: int = 600
    acts: tuple[CueKind, ...] = tuple(CueKind)


@dataclass(frozen=True, slots=True)
class Cue:
    """One act on one bowl (index in pouring order from 0). Times in ms since 1970, as in `Clock`."""

    kind: CueKind
    bowl: int
    due: int
    earliest: int
    latest: int


STANDARD_TIMING = Timing()
_RANK = {kind: rank for rank, kind in enumerate(CueKind)}


def run_sheet(bowls: int, clock: Clock, timing: Timing = STANDARD_TIMING) -> tuple[Cue, ...]:
    """Everything that is due, in order of time; at one moment pours come before breaks, skims and tastes.

    Parameters
    ----------
    bowls : int
        How many; marks in the clock for other bowls are passed over.
    clock : Clock
        A bowl whose pour was marked counts from the mark. Any other is taken to follow the bowl before
        it at the planned pace: one pair of hands pours bowl after bowl, so a delay moves all that follow.

    Returns
    -------
    tuple of Cue
        One a bowl for each act; empty if the clock was not started. Breaks follow the order of the pours.
    """
    if clock.started_at is None:
        return ()
    pours = _pour_times(bowls, clock.started_at, dict(clock.pours), timing)
    cues = [cue for bowl, poured in enumerate(pours) for cue in _cues_of(bowl, poured, timing)]
    return tuple(sorted(cues, key=lambda cue: (cue.due, _RANK[cue.kind], cue.bowl)))


def _pour_times(bowls: int, started_at: int, marks: dict[int, int], timing: Timing) -> list[int]:
    times: list[int] = []
    planned = started_at
    for bowl in range(bowls):
        times.append(marks.get(bowl, planned))
        planned = times[-1] + timing.pour_every_s * 1000
    return times


def _cues_of(bowl: int, poured: int, timing: Timing) -> tuple[Cue, ...]:
    def cue(kind: CueKind, due_s: int, earliest_s: int, latest_s: int) -> Cue:
        return Cue(kind, bowl, poured + due_s * 1000, poured + earliest_s * 1000, poured + latest_s * 1000)

    cues = (
        cue(CueKind.POUR, 0, 0, 0),
        cue(CueKind.BREAK, timing.break_at_s, timing.break_earliest_s, timing.break_latest_s),
        # A bowl can be skimmed as soon as it is broken and has to be before it is tasted.
        cue(CueKind.SKIM, timing.skim_at_s, timing.break_at_s, timing.taste_from_s),
        cue(CueKind.TASTE, timing.taste_from_s, timing.taste_from_s, timing.taste_to_s),
    )
    return tuple(cue for cue in cues if cue.kind in timing.acts)


def feasible(bowls: int, timing: Timing = STANDARD_TIMING) -> tuple[str, ...]:
    """What one pair of hands cannot keep, each as a sentence; empty if all fits.

    Notes
    -----
    Error: assumes that every act on a bowl takes as long as its pour (`pour_every_s`).
    """
    poured = bowls * timing.pour_every_s
    if CueKind.BREAK not in timing.acts:
        return ()
    if poured > timing.break_latest_s:
        return (_too_many(bowls, timing),)
    if poured > timing.break_at_s:
        return (_break_waits(bowls, timing),)
    if CueKind.SKIM in timing.acts and poured > timing.skim_at_s - timing.break_at_s:
        return (_skim_waits(timing),)
    return ()


def _too_many(bowls: int, timing: Timing) -> str:
    return (
        f"{_pours(bowls, timing)}: the last pour ends after the first bowl has to be broken "
        f"({_minutes(timing.break_latest_s)} at the latest). One person cannot keep this: "
        f"let a second person break, or pour in flights of {timing.break_at_s // timing.pour_every_s} bowls."
    )


def _break_waits(bowls: int, timing: Timing) -> str:
    return (
        f"{_pours(bowls, timing)}: the first break is due at {_minutes(timing.break_at_s)}, before the last "
        "bowl is poured. Let a second person break; alone, break every bowl late by the same time, within "
        f"{_minutes(timing.break_latest_s)} of its own pour."
    )


def _skim_waits(timing: Timing) -> str:
    first = (timing.skim_at_s - timing.break_at_s) // timing.pour_every_s + 1
    return (
        f"From bowl {first} on, breaks and skims fall together: break first, "
        "and skim when the last bowl is broken."
    )


def _pours(bowls: int, timing: Timing) -> str:
    return f"{bowls} bowls poured {timing.pour_every_s} s apart"


def _minutes(seconds: int) -> str:
    return f"{seconds // 60}:{seconds % 60:02d}"
