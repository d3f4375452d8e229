"""The run sheet: what is due with which bowl, for whom, at which moment, from time stamps alone.

A schedule says what each person does in which order; marks say what really happened. From these two the
rest of the sitting is laid anew at every look, so nothing has to be counted and no screen can drift.
Mirrored in client/src/pour/clock.ts; tests/contract/clock_cases.json is run against both.

Rules, flight after flight (docs/methods/run_sheet.md says why):
1.  A marked pour stands. Any other follows the pour before it by the same person as planned, and waits while
    that person is busy. Bowls are broken in the order in which they were really poured.
2.  A marked act ended at its mark. Any other begins as planned after its own bowl's pour, when its person is
    free; earlier, within the tolerance, where a later act of the sheet could not be kept otherwise.
3.  What cannot be kept even by haste is done as soon as it can be, and said (`unkept`).
"""

from collections.abc import Mapping
from dataclasses import dataclass

from cupwright.core.pour.clock import Clock
from cupwright.core.pour.laid import PAUSE_S, RANK, Act, Flight, Schedule
from cupwright.core.pour.timing import CueKind, Timing

ASIDE = "aside"
_NEVER = 1 << 60


@dataclass(frozen=True, slots=True)
class Cue:
    """One act on one bowl (index in pouring order from 0). Times in ms since 1970, as in `Clock`.

    `due` to `ends` is the act; `earliest` and `latest` are for its beginning. `person` counts from 0 and is
    None for a taste, which is everybody's; `done` where it was marked.
    """

    kind: CueKind
    bowl: int
    due: int
    earliest: int
    latest: int
    ends: int
    person: int | None = None
    done: bool = False

    @property
    def late_ms(self) -> int:
        """How much too late it begins; 0 if it does not."""
        return max(0, self.due - self.latest)


@dataclass(frozen=True, slots=True)
class _Mark:
    pours: Mapping[int, int]
    done: Mapping[tuple[str, int], int]


@dataclass(frozen=True, slots=True)
class _Slot:
    """A break or skim to be laid: its act as planned, now for `bowl`; moments in ms."""

    act: Act
    bowl: int
    earliest: int
    latest: int
    wish: int
    marked: int | None

    @property
    def length(self) -> int:
        return (self.act.end_s - self.act.start_s) * 1000


def run_sheet(laid: Schedule, clock: Clock) -> tuple[Cue, ...]:
    """Everything that is due, in order of time; at one moment pours come before breaks, skims and tastes.

    Parameters
    ----------
    laid : Schedule
        As planned (schedule.py).
    clock : Clock
        The start and the marks; those for other bowls are passed over. A bowl set aside has no cues.

    Returns
    -------
    tuple of Cue
        One a bowl for each act; empty if the clock was not started.
    """
    if clock.started_at is None:
        return ()
    marks = _Mark(dict(clock.pours), {(kind, bowl): at for kind, bowl, at in clock.done})
    cues: list[Cue] = []
    planned_start = clock.started_at
    for number, flight in enumerate(laid.flights):
        start = planned_start if number == 0 else _start(laid, flight, marks, planned_start)
        of_flight = _flight_cues(laid, flight, start, marks)
        cues += of_flight
        planned_start = max((cue.latest for cue in of_flight if cue.kind is CueKind.TASTE), default=start)
        planned_start += PAUSE_S * 1000
    return tuple(sorted(cues, key=lambda cue: (cue.due, RANK[cue.kind], cue.bowl)))


def unkept(cues: tuple[Cue, ...]) -> tuple[Cue, ...]:
    """Breaks and skims that begin, or were done, too late for their bowl."""
    return tuple(cue for cue in cues if cue.late_ms and cue.kind in (CueKind.BREAK, CueKind.SKIM))


def unkept_in_words(cue: Cue, name: str, poured: int, people: int) -> str:
    """What cannot be kept, in one sentence; `poured` is when its bowl was, `people` how many there are."""
    verb = {CueKind.BREAK: "broken", CueKind.SKIM: "skimmed"}[cue.kind]
    was = "was" if cue.done else "will be"
    said = f"{name} {was} {verb} at {_minutes(cue.due - poured)}, {-(-cue.late_ms // 1000)} s late"
    if cue.done:
        return f"{said}: set it aside, or taste it knowing that."
    who = "a second person" if people == 1 else "one more person"
    return f"{said}: let {who} {cue.kind}, or set it aside."


def _start(laid: Schedule, flight: Flight, marks: _Mark, planned: int) -> int:
    """When a later flight began: by its first marked pour, or as planned."""
    offsets = {
        act.bowl: act.start_s - flight.start_s for act in _of(laid, flight) if act.kind is CueKind.POUR
    }
    began = [at - offsets[bowl] * 1000 for bowl, at in marks.pours.items() if bowl in offsets]
    return min(began, default=planned)


def _of(laid: Schedule, flight: Flight) -> list[Act]:
    return [act for act in laid.acts if flight.first <= act.bowl < flight.after]


def _flight_cues(laid: Schedule, flight: Flight, start: int, marks: _Mark) -> list[Cue]:
    aside = {bowl for kind, bowl in marks.done if kind == ASIDE}
    acts = [act for act in _of(laid, flight) if act.bowl not in aside]
    pours = _pours(acts, flight, start, marks)
    if not pours:
        return []
    planned = _slots(acts, pours, laid.timing, marks)
    # Whoever has fallen behind may have to break first and skim when all is broken.
    crust_first = sorted(planned, key=lambda slot: slot.act.kind is CueKind.SKIM)
    ways = [_slot_cues(acts, pours, slots) for slots in (planned, crust_first)]
    poured = [act for act in acts if act.kind is CueKind.POUR]
    return [
        *(_pour_cue(act, pours[act.bowl], act.bowl in marks.pours) for act in poured),
        *min(ways, key=lambda cues: sum(cue.late_ms for cue in cues)),
        *(_taste_cue(bowl, at, laid.timing) for bowl, at in pours.items()),
    ]


def _pours(acts: list[Act], flight: Flight, start: int, marks: _Mark) -> dict[int, int]:
    """The moment of each pour: as marked, or as planned after the last one of the same person."""
    pours: dict[int, int] = {}
    busy: dict[int, int] = {}
    last: dict[int, tuple[int, int]] = {}
    for act in acts:
        length = (act.end_s - act.start_s) * 1000
        if act.kind is CueKind.POUR:
            moment, planned = last.get(act.person, (start, flight.start_s))
            begin = moment + (act.start_s - planned) * 1000
            begin = marks.pours.get(act.bowl, max(begin, busy.get(act.person, begin)))
            pours[act.bowl] = begin
            last[act.person] = begin, act.start_s
        else:
            marked = marks.done.get((act.kind, act.bowl))
            poured = pours[act.bowl] + (act.start_s - _poured_at(acts, act.bowl)) * 1000
            begin = max(poured, busy.get(act.person, poured)) if marked is None else marked - length
        busy[act.person] = begin + length
    return pours


def _poured_at(acts: list[Act], bowl: int) -> int:
    return next(act.start_s for act in acts if act.kind is CueKind.POUR and act.bowl == bowl)


def _slots(acts: list[Act], pours: dict[int, int], timing: Timing, marks: _Mark) -> list[_Slot]:
    """Breaks and skims, in the order planned, for the bowls in the order in which they were poured."""
    order = sorted(pours, key=lambda bowl: (pours[bowl], bowl))
    waiting = {kind: list(order) for kind in (CueKind.BREAK, CueKind.SKIM)}
    planned = {act.bowl: act.start_s for act in acts if act.kind is CueKind.POUR}
    slots: list[_Slot] = []
    for act in acts:
        if act.kind not in waiting:
            continue
        bowl = waiting[act.kind].pop(0)
        poured = pours[bowl]
        earliest, latest = poured, poured + (timing.taste_from_s - act.end_s + act.start_s) * 1000
        if act.kind is CueKind.BREAK:
            earliest, latest = poured + timing.break_earliest_s * 1000, poured + timing.break_latest_s * 1000
        wish = poured + (act.start_s - planned[act.bowl]) * 1000
        slots.append(_Slot(act, bowl, earliest, latest, wish, marks.done.get((act.kind, bowl))))
    return slots


def _slot_cues(acts: list[Act], pours: dict[int, int], slots: list[_Slot]) -> list[Cue]:
    """As wished, in haste where a later one needs it, when its person is free."""
    fixed = [(act, pours[act.bowl]) for act in acts if act.kind is CueKind.POUR]
    hasty = _forward(fixed, slots, [slot.earliest for slot in slots])
    reachable = [
        slot.latest if begin <= slot.latest else _NEVER for slot, begin in zip(slots, hasty, strict=True)
    ]
    needed = _backward(fixed, slots, reachable)
    wishes = [min(slot.wish, need) for slot, need in zip(slots, needed, strict=True)]
    begins = list(zip(slots, _forward(fixed, slots, wishes), strict=True))
    broken = {slot.bowl: begin + slot.length for slot, begin in begins if slot.act.kind is CueKind.BREAK}
    return [_slot_cue(slot, begin, broken) for slot, begin in begins]


def _forward(fixed: list[tuple[Act, int]], slots: list[_Slot], wishes: list[int]) -> list[int]:
    """Each slot at its wish or when it can be: its person free, its bowl steeped, broken, in its turn."""
    broken: dict[int, int] = {}
    busy: dict[int, int] = {}
    turn = -_NEVER
    pours = list(fixed)
    begins: list[int] = []
    for slot, wish in zip(slots, wishes, strict=True):
        person = slot.act.person
        while pours and pours[0][0].start_s < slot.act.start_s:
            act, at = pours.pop(0)
            busy[act.person] = max(busy.get(act.person, at), at + (act.end_s - act.start_s) * 1000)
        begin = max(wish, slot.earliest, broken.get(slot.bowl, slot.earliest), busy.get(person, -_NEVER))
        if slot.act.kind is CueKind.BREAK:
            begin = max(begin, turn)
        if slot.marked is not None:
            begin = slot.marked - slot.length
        if slot.act.kind is CueKind.BREAK:
            broken[slot.bowl], turn = begin + slot.length, begin
        busy[person] = begin + slot.length
        begins.append(begin)
    return begins


def _backward(fixed: list[tuple[Act, int]], slots: list[_Slot], latest: list[int]) -> list[int]:
    """The latest beginning of each slot with which all that follow it can still be kept."""
    needed = list(latest)
    by_person: dict[int, int] = {}
    by_bowl: dict[int, int] = {}
    turn = _NEVER
    pours = list(fixed)
    for index in range(len(slots) - 1, -1, -1):
        slot = slots[index]
        while pours and pours[-1][0].start_s >= slot.act.start_s:
            act, at = pours.pop()
            by_person[act.person] = at
        if slot.marked is not None:
            continue
        person = slot.act.person
        needed[index] = min(latest[index], by_person.get(person, _NEVER) - slot.length)
        if slot.act.kind is CueKind.BREAK:
            needed[index] = min(needed[index], turn, by_bowl.get(slot.bowl, _NEVER) - slot.length)
            turn = needed[index]
        else:
            by_bowl[slot.bowl] = needed[index]
        by_person[person] = needed[index]
    return needed


def _pour_cue(act: Act, at: int, marked: bool) -> Cue:
    return Cue(act.kind, act.bowl, at, at, at, at + (act.end_s - act.start_s) * 1000, act.person, marked)


def _slot_cue(slot: _Slot, begin: int, broken: Mapping[int, int]) -> Cue:
    act, ends, done = slot.act, begin + slot.length, slot.marked is not None
    earliest = broken.get(slot.bowl, slot.earliest) if act.kind is CueKind.SKIM else slot.earliest
    return Cue(act.kind, slot.bowl, begin, earliest, slot.latest, ends, act.person, done)


def _taste_cue(bowl: int, poured: int, timing: Timing) -> Cue:
    begin, end = (poured + seconds * 1000 for seconds in timing.first_taste_s)
    return Cue(CueKind.TASTE, bowl, begin, begin, end, end)


def _minutes(milliseconds: int) -> str:
    seconds = milliseconds // 1000
    return f"{seconds // 60}:{seconds % 60:02d}"
