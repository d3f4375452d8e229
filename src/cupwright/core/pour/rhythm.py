"""Rhythm: one window of steep, settled as cheaply as it can be.

First come sweeps at several paces, which find most of what can be kept, then acts one by one, which finds
what has pours between breaks. A longer sweep proves that nothing is there.
"""

from cupwright.core.pour.act_by_act import WISHES, act_by_act
from cupwright.core.pour.sweep import pours_come_first, sweep
from cupwright.core.pour.task import Task, most_at_work
from cupwright.core.pour.work import NEVER, UNKNOWN, Outcome, Work

PACES = (0.0, 0.2, 0.4, 0.5, 0.7, 0.9)
A_TRY = 200
A_LONG_TRY = 2700
A_PROOF = 2000


def tried(bowls: int, task: Task, work: Work) -> Outcome:
    """Act times at any pace, those with the earliest pours first; perhaps a proof that there are none."""
    if not task.has_room() or bowls > task.bound():
        return NEVER
    for pace in PACES if task.crust else ():
        outcome = _swept(bowls, task, work, A_TRY, pace=pace)
        if outcome.settled:
            return outcome
    if pours_come_first(task):
        return UNKNOWN
    return some_way(bowls, task, work, A_TRY)


def some_way(bowls: int, task: Task, work: Work, most: int = A_LONG_TRY) -> Outcome:
    """Act times with whatever spread the window allows; settled only if some are found."""
    if not task.has_room() or bowls > task.bound():
        return NEVER
    for wishes in WISHES:
        part = work.part(most)
        times = act_by_act(bowls, task, part, wishes)
        work.left += part.left
        if times is not None:
            return Outcome(times, settled=True)
    return UNKNOWN


def proven(bowls: int, task: Task, work: Work) -> Outcome:
    """The same as `tried` by a longer search for a proof."""
    if not task.crust:
        return UNKNOWN
    return _swept(bowls, task, work, A_PROOF, loose=not pours_come_first(task))


def _swept(
    bowls: int, task: Task, work: Work, most: int, *, loose: bool = False, pace: float = 0.0
) -> Outcome:
    part = work.part(most)
    outcome = sweep(bowls, task, part, loose=loose, pace=pace)
    work.left += part.left
    if outcome.times is not None and most_at_work(outcome.times, task) > task.people:
        return UNKNOWN
    return outcome
