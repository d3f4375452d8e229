"""Act by act: some way to keep a flight within wide windows, found by giving whoever is free something to do.

Whoever is free first takes the first act of a wish list that may begin now, or waits until something changes:
a bowl has steeped long enough, a break is over, somebody else is free. Where this fails, the last decisions
are taken back. Branches end where hands have idled longer than they may in all, or will because no acts fill
what each has left; where a bowl has steeped too long; and where the same situation has failed before.

Error: what is found is kept by every rule; nothing found proves nothing, since a pour that is put off without
any such reason is not tried.
"""

from bisect import insort
from functools import lru_cache

from cupwright.core.pour.task import ActTimes, Task
from cupwright.core.pour.work import Work

POUR, BREAK, SKIM, WAIT = range(4)
# What to do first if several acts may begin. Each finds some flights that the others do not find soon.
WISHES = ((POUR, SKIM, BREAK), (POUR, BREAK, SKIM), (BREAK, POUR, SKIM))

_Situation = tuple[object, ...]


def act_by_act(bowls: int, task: Task, work: Work, wishes: tuple[int, ...]) -> ActTimes | None:
    """Act times within the task's window of steep; None if none were found with so much work."""
    if not task.has_room() or bowls > task.bound():
        return None
    day = _Day(bowls, task, wishes)
    while work.left > 0:
        work.left -= 1
        if day.is_over():
            return day.times()
        if not day.is_dead():
            day.weigh()
        if not day.do_next():
            return None
    return None


class _Day:
    """What everybody has done up to a moment."""

    def __init__(self, bowls: int, task: Task, wishes: tuple[int, ...]) -> None:
        self.bowls, self.task, self.wishes = bowls, task, wishes
        self.lengths = (task.pour, task.crust, task.skim)
        self.last = task.last_begins()
        # Once all is poured only breaks and skims can fill what is left, and at last only skims.
        self.unfilled = [_unfilled(self.lengths[first:], task.end) for first in range(3)]
        self.free = [0] * task.people
        self.idle = task.people * task.end - bowls * sum(self.lengths)
        self.begun: tuple[list[int], list[int], list[int]] = ([], [], [])
        self.open: list[tuple[list[int], _Situation]] = []
        self.done: list[tuple[int, list[int], int]] = []
        self.failed: set[_Situation] = set()

    def is_over(self) -> bool:
        return len(self.begun[SKIM]) == self.bowls

    def times(self) -> ActTimes:
        """When everything was begun."""
        pours, breaks, skims = self.begun
        return ActTimes(tuple(pours), tuple(breaks), tuple(skims))

    def is_dead(self) -> bool:
        """Whether nothing can come of this any more."""
        pours, breaks, _ = self.begun
        waiting = len(breaks) < len(pours)
        steeps_too_long = waiting and self.free[0] > pours[len(breaks)] + self.task.latest
        return self._idle_at_best() < 0 or steeps_too_long or self._situation() in self.failed

    def weigh(self) -> None:
        """List what can be done next, the most wanted last."""
        can = [act for act in self.wishes if self._may_begin(act)]
        # The first bowl is poured at once: waiting for it would only move everything.
        if self.begun[POUR]:
            can.append(WAIT)
        self.open.append((can[::-1], self._situation()))
        self.done.append((WAIT, self.free, self.idle))

    def do_next(self) -> bool:
        """Do what is wanted most of all that was not tried yet; False if nothing is left to try."""
        while self.open:
            can, situation = self.open[-1]
            self._take_back()
            if can:
                self._do(can.pop())
                return True
            self.failed.add(situation)
            self.open.pop()
            self.done.pop()
        return False

    def _may_begin(self, act: int) -> bool:
        now = self.free[0]
        if len(self.begun[act]) == self.bowls or now > self.last[act]:
            return False
        return act == POUR or (len(self.begun[act]) < len(self.begun[act - 1]) and now >= self._ripe(act))

    def _ripe(self, act: int) -> int:
        """When the next bowl has steeped, or its break is over."""
        before = self.begun[act - 1][len(self.begun[act])]
        return before + (self.task.earliest if act == BREAK else self.task.crust)

    def _do(self, act: int) -> None:
        now, (first, *others) = self.free[0], self.free
        self.done[-1] = (act, self.free, self.idle)
        if act == WAIT:
            first = self._next_change(now)
            self.idle -= first - now
        else:
            first += self.lengths[act]
            self.begun[act].append(now)
        insort(others, first)
        self.free = others

    def _take_back(self) -> None:
        """Undo the last thing done in the open situation, if any."""
        act, free, idle = self.done[-1]
        if self.free is not free:
            if act != WAIT:
                self.begun[act].pop()
            self.free, self.idle = free, idle

    def _idle_at_best(self) -> int:
        """Idle time that is left for whatever is still to come."""
        finished = sum(len(begun) == self.bowls for begun in self.begun[:SKIM])
        unfilled, end = self.unfilled[finished], self.task.end
        return self.idle - sum(unfilled[end - until] for until in self.free if until < end)

    def _next_change(self, now: int) -> int:
        changes = [until for until in self.free if until > now]
        changes += [
            self._ripe(act) for act in (BREAK, SKIM) if len(self.begun[act]) < len(self.begun[act - 1])
        ]
        return min((change for change in changes if change > now), default=self.task.end + 1)

    def _situation(self) -> _Situation:
        pours, breaks, skims = self.begun
        return (
            tuple(self.free),
            len(pours),
            tuple(pours[len(breaks) :]),
            len(skims),
            tuple(breaks[len(skims) :]),
        )


@lru_cache(maxsize=256)
def _unfilled(lengths: tuple[int, ...], end: int) -> tuple[int, ...]:
    """For each number of moments up to `end`: how many of them acts of these lengths cannot fill."""
    filled = [0] * (end + 1)
    for moments in range(end + 1):
        fitting = [length for length in lengths if 0 < length <= moments]
        filled[moments] = max((filled[moments - length] + length for length in fitting), default=0)
    return tuple(moments - most for moments, most in enumerate(filled))
