"""Act times: when the acts on the bowls of one flight begin, so that no more hands are needed than there are.

Acts at work at one moment form an interval graph, so "no more than P at a time" is the same as "P people can
do it". All times are whole seconds. Whether bowls can be kept is answered by what settles it first:

1. bounds by hand: seconds of hands there are, and hands that idle before the first break;
2. a way that was found, act by act (act_by_act.py) or in a rhythm (sweep.py);
3. the programme of counts (programme.py), in fractions and then whole.

The best of the ways is the first of these windows of steep in which the bowls can be kept: the narrower
first, and of the same width the nearer to the wish. A window is passed over when nothing was found in it with
limited work. `least` then says whether it was proven that nothing is there.

Error: exact where no limit struck; hands are taken to need the same seconds for every bowl.
"""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from cupwright.core.pour.programme import fractions_fit, programmed
from cupwright.core.pour.rhythm import proven, some_way, tried
from cupwright.core.pour.task import ActTimes, Task, side_by_side
from cupwright.core.pour.work import NEVER, UNKNOWN, Outcome, Work

# Situations looked at in one answer, about 10 microseconds each.
_WORK_FOR_SOME = 8100
_WORK_FOR_RHYTHM = 2000
_WORK_FOR_EVEN = 20000
_WORK_FOR_WIDTH = 6000
_WORK_FOR_PROOF = 3000
_PROOFS = 2


@lru_cache(maxsize=512)
def most_bowls(task: Task) -> int:
    """The most bowls that can be kept; 0 if not even one."""
    whole = task.on(task.beat())
    if not whole.has_room():
        return 0
    most = bowls = whole.bound()
    while bowls and some_way_of_any(bowls, whole).times is None:
        bowls -= 1
    # Who can keep a number of bowls can keep fewer: the first number that cannot be kept is the end.
    while bowls < most and can_keep(bowls + 1, task):
        bowls += 1
    return bowls


def can_keep(bowls: int, task: Task) -> bool:
    """Whether so many bowls can be kept."""
    return any_times(bowls, task) is not None


@lru_cache(maxsize=512)
def act_times(bowls: int, task: Task, wish: int, beat: int) -> ActTimes | None:
    """Times of the acts; None if these bowls cannot be kept.

    Parameters
    ----------
    wish : int
        Seconds of steep that are aimed at.
    beat : int
        People keep a sheet on full steps of so many seconds if they can.

    Returns
    -------
    ActTimes
        With the least spread of steeps (in steps of `beat`), then steeps nearest to `wish`, then pours as
        early as the hands allow. Bowls that can be kept only between the steps lie within the windows, with
        whatever spread that takes.
    """
    coarse = task.on(beat)
    some = any_times(bowls, coarse)
    if some is None:
        between = any_times(bowls, task)
        return between and replace(between, least=between.spread == 0)
    return _best(bowls, coarse, wish / beat, some).in_seconds(beat)


@lru_cache(maxsize=2048)
def any_times(bowls: int, task: Task) -> ActTimes | None:
    """Some way to keep the bowls, in seconds; None if there is none."""
    beat = task.beat()
    whole = task.on(beat)
    outcome = some_way_of_any(bowls, whole)
    if not outcome.settled:
        outcome = programmed(bowls, whole)
    return None if outcome.times is None else outcome.times.in_seconds(beat)


@lru_cache(maxsize=4096)
def some_way_of_any(bowls: int, task: Task) -> Outcome:
    """The same in steps and without the programme; settled if something was found or there is nothing."""
    if bowls < 1 or not task.has_room() or bowls > task.bound():
        return NEVER
    outcome = some_way(bowls, task, Work(_WORK_FOR_SOME))
    if not outcome.settled:
        outcome = _in_two_crews(bowls, task)
    return outcome if outcome.settled else tried(bowls, task, Work(_WORK_FOR_RHYTHM))


def _in_two_crews(bowls: int, task: Task) -> Outcome:
    """Two groups of people with bowls of their own: what both keep alone, they keep side by side.

    Put in one order of time, the k-th break still follows the k-th pour within the window: its bounds hold
    for each crew's counts of bowls, and so for their sums.
    """
    for people in sorted({1, task.people // 2} - {0} if task.people > 1 else set()):
        for share in sorted({bowls * people // task.people, -(-bowls * people // task.people)}):
            one, other = (
                some_way_of_any(own, task.of(hands)).times if own else None
                for own, hands in ((share, people), (bowls - share, task.people - people))
            )
            if one and other:
                return Outcome(side_by_side(one, other), settled=True)
    return UNKNOWN


def _best(bowls: int, task: Task, wish: float, some: ActTimes) -> ActTimes:
    """The way in the first window, by width and then by nearness, in which one is found."""
    if not task.crust:
        return some
    doubted: list[Task] = []
    work = Work(_WORK_FOR_EVEN)
    for window in _windows(task, wish):
        if window.latest - window.earliest == 1 and work.left < _WORK_FOR_WIDTH:
            work.left = _WORK_FOR_WIDTH
        if work.left <= 0:
            doubted.append(window)
            continue
        outcome = tried(bowls, window, work)
        if outcome.times is not None:
            return replace(outcome.times, least=_are_empty(bowls, doubted))
        if not outcome.settled:
            doubted.append(window)
    return replace(some, least=False)


def _windows(task: Task, wish: float) -> Iterator[Task]:
    for width in range(task.latest - task.earliest + 1):
        starts = range(task.earliest, task.latest - width + 1)
        for start in sorted(starts, key=lambda start: (abs(start + width / 2 - wish), start)):
            yield task.within(start, start + width)


def _are_empty(bowls: int, doubted: list[Task]) -> bool:
    """Whether it can be proven with limited work that bowls cannot be kept in any of these windows."""
    work = Work(_WORK_FOR_PROOF)
    if len(doubted) > _PROOFS:
        return False
    return all(_is_empty(bowls, window, work) or not fractions_fit(bowls, window) for window in doubted)


def _is_empty(bowls: int, window: Task, work: Work) -> bool:
    outcome = proven(bowls, window, work)
    return outcome.settled and outcome.times is None
