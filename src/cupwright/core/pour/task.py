"""One flight as arithmetic sees it: alike bowls, whole seconds, so many pairs of hands."""

from dataclasses import dataclass, replace
from math import gcd


@dataclass(frozen=True, slots=True)
class Task:
    """One flight, in whole seconds: hands, lengths of the acts (0: none), window of steep, end of work."""

    people: int
    pour: int
    crust: int
    skim: int
    earliest: int
    latest: int
    end: int

    def beat(self) -> int:
        """The greatest step on which all of these times lie."""
        return gcd(self.pour, self.crust, self.skim, self.earliest, self.latest, self.end)

    def on(self, beat: int) -> "Task":
        """The same in steps of `beat` seconds, rounded so that what can be kept there can be kept here."""
        return Task(
            self.people,
            -(-self.pour // beat),
            -(-self.crust // beat),
            -(-self.skim // beat),
            -(-self.earliest // beat),
            self.latest // beat,
            self.end // beat,
        )

    def within(self, earliest: int, latest: int) -> "Task":
        """The same with another window of steep."""
        return replace(self, earliest=earliest, latest=latest)

    def last_begins(self) -> tuple[int, int, int]:
        """The latest moment at which a pour, a break and a skim may begin, from the end of work backwards."""
        skim = self.end - self.skim
        crust = skim - self.crust
        return crust - self.earliest, crust, skim

    def of(self, people: int) -> "Task":
        """The same for so many people."""
        return replace(self, people=people)

    def has_room(self) -> bool:
        """Whether one bowl can be kept by somebody who has nothing else to do."""
        return 0 <= self.earliest <= self.latest and self.last_begins()[0] >= 0

    def bound(self) -> int:
        """Bowls that no order of acts can exceed.

        Hands have `people` x `end` seconds, and after the pours of all bowls they idle until the first break.
        """
        a_bowl = self.pour + self.crust + self.skim
        after = self.crust + self.skim
        most = self.people * self.end // a_bowl
        return min(most, self.people * (self.end - self.earliest) // after) if after else most


@dataclass(frozen=True, slots=True)
class ActTimes:
    """Seconds from the first pour to the beginning of each bowl's act, bowls in pouring order.

    `least`: whether it is proven that nothing spreads less, or as little and steeps nearer to the wish.
    """

    pours: tuple[int, ...]
    breaks: tuple[int, ...]
    skims: tuple[int, ...]
    least: bool = True

    @property
    def spread(self) -> int:
        """Seconds between the longest and the shortest steep."""
        steeps = [broken - poured for poured, broken in zip(self.pours, self.breaks, strict=True)]
        return max(steeps) - min(steeps)

    def in_seconds(self, beat: int) -> "ActTimes":
        """The same, where these are steps of `beat` seconds."""
        pours, breaks, skims = (
            tuple(moment * beat for moment in moments) for moments in (self.pours, self.breaks, self.skims)
        )
        return replace(self, pours=pours, breaks=breaks, skims=skims)


def side_by_side(one: ActTimes, other: ActTimes) -> ActTimes:
    """Two flights as one, each act in order of time."""
    return ActTimes(
        tuple(sorted(one.pours + other.pours)),
        tuple(sorted(one.breaks + other.breaks)),
        tuple(sorted(one.skims + other.skims)),
    )


def most_at_work(times: ActTimes, task: Task) -> int:
    """The most acts that are under way at one moment."""
    lengths = ((times.pours, task.pour), (times.breaks, task.crust), (times.skims, task.skim))
    turns = sorted(
        turn
        for begins, length in lengths
        if length
        for begin in begins
        for turn in ((begin, 1), (begin + length, -1))
    )
    most = at_work = 0
    for _, change in turns:
        at_work += change
        most = max(most, at_work)
    return most
