"""The sweep: act times of one flight, found by deciding moment by moment how many bowls are broken.

Nothing but pours comes before the first break. So pours and breaks are laid side by side: a bowl broken at
`earliest` + x was poured at x or up to `latest` - `earliest` before. Two of the three acts then need no
search:

- pours come in the order of breaks, each as soon as a person is free and its steep allows: acts that are
  alike and whose windows follow one order can be exchanged until they lie so;
- skims begin as soon as a bowl is broken and hands are free for the whole skim: by induction over k, the
  k-th skim of any other choice is no earlier.

What remains is how many bowls are broken at each moment. As many as possible are tried first, so the first
answer has the earliest breaks and pours, compared from the first bowl on. Branches end where what is left to
do exceeds the hands that are left, and where the same situation has failed before.

Pours that come after the first break take hands beside it. Whether a skim should then wait for a pour is not
searched, so such a sweep may miss something. A `loose` one lets them keep clear of breaks alone: what it does
not find cannot be kept, and what it finds has to be checked.

With a `pace`, hands may idle no faster than bowls are broken: nothing is proven by that, but where hands are
scarce it leads to a rhythm that can be held to the end, in a step or two for each moment.

Error: none beyond the data where the work limit did not strike; `settled` says so.
"""

from bisect import bisect_right

from cupwright.core.pour.task import ActTimes, Task
from cupwright.core.pour.work import NEVER, UNKNOWN, Outcome, Work

_Situation = tuple[object, ...]


def sweep(bowls: int, task: Task, work: Work, *, loose: bool = False, pace: float = 0.0) -> Outcome:
    """Act times within the task's window of steep.

    Parameters
    ----------
    task : Task
        Has a break, and is in steps: the fewer, the faster.
    pace : float in [0, 1)
        Share of the idle time that is kept back for the bowls still to be broken.
    """
    if not task.has_room() or bowls > task.bound():
        return NEVER
    line = _Line(bowls, task, loose, pace)
    while work.left > 0:
        work.left -= 1
        if line.is_full():
            skims = line.last_skims()
            if skims is not None:
                return Outcome(line.times(skims), settled=True)
        elif not line.is_dead():
            line.go_on(line.most_breaks())
            continue
        if not line.turn_back():
            return NEVER if pace == 0 and (loose or pours_come_first(task)) else UNKNOWN
    return UNKNOWN


def pours_come_first(task: Task) -> bool:
    """Whether every pour is over when the first bowl is broken, however the flight is kept."""
    return task.last_begins()[0] + task.pour <= task.earliest


class _Line:
    """What was decided up to a moment. Moments of breaks and skims count from the task's `earliest` on."""

    def __init__(self, bowls: int, task: Task, loose: bool, pace: float) -> None:
        self.bowls, self.task, self.loose = bowls, task, loose
        self.width = task.latest - task.earliest
        self.moments = task.end - task.earliest
        self.last_break = self.moments - task.crust - task.skim
        # Skims are decided this much later than breaks, when all breaks beside them are known.
        self.behind = max(0, task.skim - 1)
        self.at_work = [0] * (self.moments + task.crust + task.skim + 1)
        # What pours have to keep clear of, and take hands from.
        self.beside = self.at_work.copy() if loose else self.at_work
        self.pours: list[int] = []
        self.breaks: list[int] = []
        self.skims: list[int] = []
        self.now = 0
        self.choices: list[tuple[int, int, _Situation]] = []
        self.failed: set[_Situation] = set()
        idle = task.people * self.moments - bowls * (task.crust + task.skim)
        self.kept_back = pace * idle / bowls

    def is_full(self) -> bool:
        return len(self.breaks) == self.bowls

    def is_dead(self) -> bool:
        """Whether nothing can come of this any more."""
        if self.now > self.last_break or (not self.breaks and self.now > self.width):
            return True
        task, since, left = self.task, max(0, self.now - self.behind), self.bowls - len(self.breaks)
        to_do = left * task.crust + (self.bowls - len(self.skims)) * task.skim
        idle = task.people * (self.moments - since) - sum(self._ahead()) - to_do
        return idle < (left * self.kept_back if self.breaks else 0) or self._situation() in self.failed

    def most_breaks(self) -> int:
        """As many as hands and steeps allow to break now."""
        room = self.task.people - max(self.at_work[self.now : self.now + self.task.crust])
        most = 0
        while most < min(room, self.bowls - len(self.breaks)) and self._pour() is not None:
            most += 1
        self._unpour(most)
        return most

    def go_on(self, breaks: int) -> None:
        """Break so many bowls now, begin the skims that are ripe, and take the next moment."""
        situation = self._situation()
        for _ in range(breaks):
            self._pour()
        self.breaks += [self.now] * breaks
        self._occupy_by_breaks(breaks)
        ripe = self.now - self.behind
        skims = self._skims_at(ripe) if ripe >= 0 else 0
        self._occupy(ripe, self.task.skim, skims)
        self.skims += [ripe] * skims
        self.choices.append((breaks, skims, situation))
        self.now += 1

    def turn_back(self) -> bool:
        """Take back choices up to the last one where fewer bowls can be broken; False if there is none."""
        while self.choices:
            breaks, skims, situation = self.choices.pop()
            self.now -= 1
            self._occupy(self.now - self.behind, self.task.skim, -skims)
            self._occupy_by_breaks(-breaks)
            del self.skims[len(self.skims) - skims :]
            del self.breaks[len(self.breaks) - breaks :]
            self._unpour(breaks)
            if breaks:
                self.go_on(breaks - 1)
                return True
            self.failed.add(situation)
        return False

    def last_skims(self) -> list[int] | None:
        """All skims once all breaks are known; None if they do not fit."""
        before = len(self.skims)
        moment = max(0, self.now - self.behind)
        while len(self.skims) < self.bowls and moment + self.task.skim <= self.moments:
            begun = self._skims_at(moment)
            self._occupy(moment, self.task.skim, begun)
            self.skims += [moment] * begun
            moment += 1
        found = list(self.skims)
        for moment in found[before:]:
            self._occupy(moment, self.task.skim, -1)
        del self.skims[before:]
        return found if len(found) == self.bowls else None

    def times(self, skims: list[int]) -> ActTimes:
        """What was found, in moments since the first pour."""
        start = self.task.earliest
        return ActTimes(
            tuple(self.pours),
            tuple(start + moment for moment in self.breaks),
            tuple(start + moment for moment in skims),
        )

    def _pour(self) -> int | None:
        """Pour one more bowl, to be broken now; None if nobody can in time."""
        pours, task = self.pours, self.task
        moment = 0
        if pours:
            free = pours[-task.people] + task.pour if len(pours) >= task.people else 0
            moment = max(self.now - self.width, pours[-1], free)
        while moment <= self.now and self._is_busy(moment):
            moment += 1
        if moment > self.now:
            return None
        pours.append(moment)
        self._occupy_by_pour(moment, 1)
        return moment

    def _unpour(self, bowls: int) -> None:
        for _ in range(bowls):
            self._occupy_by_pour(self.pours.pop(), -1)

    def _is_busy(self, moment: int) -> bool:
        """Whether a pour at that moment finds everybody at breaks and skims."""
        begin, end = moment - self.task.earliest, moment - self.task.earliest + self.task.pour
        return end > 0 and max(self.beside[max(0, begin) : end]) >= self.task.people

    def _occupy_by_pour(self, moment: int, hands: int) -> None:
        begin, end = moment - self.task.earliest, moment - self.task.earliest + self.task.pour
        for each in range(max(0, begin), end):
            self.beside[each] += hands

    def _occupy_by_breaks(self, hands: int) -> None:
        self._occupy(self.now, self.task.crust, hands)
        if self.loose:
            for each in range(self.now, self.now + self.task.crust):
                self.beside[each] += hands

    def _skims_at(self, moment: int) -> int:
        """Skims that can begin at a moment beside all breaks."""
        task = self.task
        waiting = bisect_right(self.breaks, moment - task.crust) - len(self.skims)
        if waiting <= 0:
            return 0
        room = task.people - max(self.at_work[moment : moment + task.skim], default=0)
        return max(0, min(waiting, room))

    def _occupy(self, moment: int, length: int, hands: int) -> None:
        if hands:
            for each in range(moment, moment + length):
                self.at_work[each] += hands

    def _ahead(self) -> list[int]:
        """Hands at work from the first moment on whose skims are not decided."""
        reach = max(self.task.crust, self.task.skim)
        return self.at_work[max(0, self.now - self.behind) : self.now + reach]

    def _situation(self) -> _Situation:
        """All that what is still to come depends on."""
        task, since = self.task, self.now - self.width
        unfinished = bisect_right(self.breaks, self.now - self.behind - task.crust)
        beside = slice(max(0, since - task.earliest), max(0, self.last_break + task.pour - task.earliest))
        return (
            self.now,
            len(self.skims),
            len(self.breaks),
            tuple(self.breaks[unfinished:]),
            tuple(self._ahead()),
            tuple(max(0, pour + task.pour - since) for pour in self.pours[-task.people :]),
            max(0, self.pours[-1] - since) if self.pours else 0,
            tuple(self.beside[beside]),
        )
