"""The programme: whether a flight can be kept, as an integer programme over counts of acts.

The bowls of a flight are alike, so it is enough to count: a(t), b(t), c(t) bowls whose pour, break and skim
have begun by the moment t. Bowls are taken in one order throughout, which costs nothing (two bowls out of
order can be exchanged). In these counts every rule is linear:

    b(t) <= a(t - earliest)   nothing is broken before it has steeped long enough
    b(t) >= a(t - latest)     nothing steeps too long
    c(t) <= b(t - break)      a bowl is skimmed once it is broken
    a(t) - a(t - pour) + b(t) - b(t - break) + c(t) - c(t - skim) <= people
    a(0) >= 1, and a = b = c = bowls when the skims have to begin at the latest

Acts at work at one moment form an interval graph, so "no more than P at a time" is the same as "P people can
do it". All times are whole seconds, and with whole data some best solution is whole too (for a given order
of acts all rules are differences). So an integer programme over the counts is exact: bowls that it does not
find room for cannot be kept by anybody.

It is the last resort: slow, but exact where its limit of nodes does not strike.

Error: none beyond the data; hands are taken to need the same seconds for every bowl.
Source: time-indexed formulation of scheduling, [Pritsker1969]; solved by HiGHS through scipy.
"""

from functools import lru_cache

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, OptimizeResult, milp
from scipy.sparse import csr_array, dia_array, diags_array, eye_array, hstack, vstack

from cupwright.core.pour.task import ActTimes, Task
from cupwright.core.pour.work import NEVER, UNKNOWN, Outcome

_NODES = 500
_INFEASIBLE = 2


def fractions_fit(bowls: int, task: Task) -> bool:
    """Whether the bowls can be kept if each may be poured, broken and skimmed in parts."""
    return task.has_room() and _solved(task, bowls, whole=False).status != _INFEASIBLE


def programmed(bowls: int, task: Task) -> Outcome:
    """Act times within the task's window of steep, whatever their spread."""
    if not task.has_room():
        return NEVER
    solved = _solved(task, bowls)
    if solved.x is None:
        return NEVER if solved.status == _INFEASIBLE else UNKNOWN
    return Outcome(_times(np.rint(solved.x).astype(int), task), settled=True)


def _solved(task: Task, bowls: int, *, whole: bool = True) -> OptimizeResult:
    moments = task.end + 1
    low = np.zeros(3 * moments)
    low[0] = 1
    high = np.full(3 * moments, float(bowls))
    high[0] = task.people
    for count, last in enumerate(task.last_begins()):
        low[count * moments + last : (count + 1) * moments] = bowls
    return milp(
        np.zeros(3 * moments),
        constraints=_rules(task),
        integrality=np.full(3 * moments, int(whole)),
        bounds=Bounds(low, high),
        options={"node_limit": _NODES},
    )


@lru_cache(maxsize=64)
def _rules(task: Task) -> LinearConstraint:
    size = task.end + 1
    same, none = eye_array(size, format="csr"), csr_array((size, size))
    last_pour, _, last_skim = task.last_begins()
    blocks = [
        # each line: the matrices of a, b, c and the bounds of their sum
        (same - _earlier(size, 1), none, none, 0, np.inf),
        (none, same - _earlier(size, 1), none, 0, np.inf),
        (none, none, same - _earlier(size, 1), 0, np.inf),
        (-_earlier(size, task.earliest), same, none, -np.inf, 0),
        (-_earlier(size, task.latest), same, none, 0, np.inf),
        (none, -_earlier(size, task.crust), same, -np.inf, 0),
        (*(same - _earlier(size, act) for act in (task.pour, task.crust, task.skim)), -np.inf, task.people),
        # all that was poured is skimmed when the last skim has to begin, and nothing is poured later
        (_at(size, last_pour) - _at(size, task.end), none, none, 0, 0),
        (_at(size, task.end), none, -_at(size, last_skim), 0, 0),
        (none, none, _at(size, last_skim) - _at(size, task.end), 0, 0),
    ]
    matrix = vstack([hstack(block[:3]) for block in blocks], format="csr")
    low = np.repeat([block[3] for block in blocks], size)
    high = np.repeat([block[4] for block in blocks], size)
    return LinearConstraint(matrix, low, high)


def _earlier(size: int, by: int) -> dia_array:
    """The matrix that gives each moment the count of `by` moments before."""
    return diags_array([np.ones(max(0, size - by))], offsets=[-by], shape=(size, size))


def _at(size: int, moment: int) -> csr_array:
    """A matrix whose first line picks one moment."""
    return csr_array(([1.0], ([0], [moment])), shape=(size, size))


def _times(counts: np.ndarray, task: Task) -> ActTimes:
    pours, breaks, skims = (
        tuple(int(moment) for moment in np.repeat(np.arange(len(part)), np.diff(part, prepend=0)))
        for part in counts.reshape(3, task.end + 1)
    )
    return ActTimes(pours, breaks, skims)
