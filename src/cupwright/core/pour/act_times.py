"""Act times: when the acts on the bowls of one flight begin, so that no more hands are needed than there are.

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

Error: none beyond the data; hands are taken to need the same seconds for every bowl.
Source: time-indexed formulation of scheduling, [Pritsker1969]; solved by HiGHS through scipy.
"""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import gcd

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, OptimizeResult, milp
from scipy.sparse import csr_array, dia_array, diags_array, eye_array, hstack, vstack

_NEARLY = 1e-6
_POURS_WEIGH = 20


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


@dataclass(frozen=True, slots=True)
class ActTimes:
    """Seconds from the first pour to the beginning of each bowl's act, bowls in pouring order."""

    pours: tuple[int, ...]
    breaks: tuple[int, ...]
    skims: tuple[int, ...]

    @property
    def spread(self) -> int:
        """Seconds between the longest and the shortest steep."""
        steeps = [broken - poured for poured, broken in zip(self.pours, self.breaks, strict=True)]
        return max(steeps) - min(steeps)


@lru_cache(maxsize=512)
def most_bowls(task: Task) -> int:
    """The most bowls that can be kept; 0 if not even one."""
    whole = task.on(task.beat())
    if not _has_room(whole):
        return 0
    # Fractions of bowls give a bound, which is nearly always reached.
    bowls = int(_solved(whole, None, whole=False).x[-1] + _NEARLY)
    while bowls and not can_keep(bowls, task):
        bowls -= 1
    return bowls


@lru_cache(maxsize=512)
def can_keep(bowls: int, task: Task) -> bool:
    """Whether so many bowls can be kept."""
    return _solution(bowls, task.on(task.beat())) is not None


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
        With the least spread of steeps (in steps of `beat`), then steeps nearest to `wish`, then acts as
        early as the hands allow. Bowls that can be kept only between the steps lie within the windows, with
        whatever spread that takes.
    """
    coarse = task.on(beat)
    if _solution(bowls, coarse) is None:
        own = task.beat()
        found = _solution(bowls, task.on(own))
        return None if found is None else _times(found, task.on(own), own)
    tightened = _least_spread(bowls, coarse, wish / beat)
    found = _solution(bowls, tightened, early=True)
    return None if found is None else _times(found, tightened, beat)


def _least_spread(bowls: int, task: Task, wish: float) -> Task:
    """The task with the narrowest window of steep, inside its own, in which the bowls can be kept."""
    even = _keepable(bowls, task, 0, wish)
    if even is not None:
        return even
    none, best, found = 0, task.latest - task.earliest, task
    # A wider window can be kept if a narrower one can, so the least width is found by halving.
    while best - none > 1:
        middle = (none + best) // 2
        window = _keepable(bowls, task, middle, wish)
        if window is None:
            none = middle
        else:
            best, found = middle, window
    return found


def _keepable(bowls: int, task: Task, width: int, wish: float) -> Task | None:
    """The window of that width nearest to the wish in which the bowls can be kept."""
    starts = range(task.earliest, task.latest - width + 1)
    for start in sorted(starts, key=lambda start: (abs(start + width / 2 - wish), start)):
        window = replace(task, earliest=start, latest=start + width)
        if _solution(bowls, window) is not None:
            return window
    return None


def _has_room(task: Task) -> bool:
    return 0 <= task.earliest <= task.latest and task.earliest + task.crust + task.skim <= task.end


@lru_cache(maxsize=4096)
def _solution(bowls: int, task: Task, *, early: bool = False) -> np.ndarray | None:
    """Counts a, b, c, each of shape (end + 1,), one after another; None if there are none."""
    if not _has_room(task) or bowls < 1:
        return None
    if not early and _solved(task, bowls, whole=False).x is None:
        return None
    solved = _solved(task, bowls, early=early)
    return None if solved.x is None else np.rint(solved.x).astype(int)


def _solved(task: Task, bowls: int | None, *, whole: bool = True, early: bool = False) -> OptimizeResult:
    """The programme; without `bowls` their number is made as large as possible."""
    moments = task.end + 1
    cost = np.zeros(3 * moments)
    if bowls is None:
        cost[-1] = -1
    elif early:
        # The sum of a count over time is the sum of how early its acts begin. Pours weigh most, so that the
        # kettle goes round without a stop and skims do not come between breaks unless they have to.
        cost[:] = -1
        cost[:moments] = -_POURS_WEIGH
    low = np.zeros(3 * moments)
    low[0] = 1
    high = np.full(3 * moments, np.inf if bowls is None else bowls)
    high[0] = task.people
    for count, last in enumerate(_last_begins(task)):
        if bowls is not None:
            low[count * moments + last : (count + 1) * moments] = bowls
    return milp(
        cost,
        constraints=_rules(task),
        integrality=np.full(3 * moments, int(whole)),
        bounds=Bounds(low, high),
    )


def _last_begins(task: Task) -> tuple[int, int, int]:
    """The latest moment at which each act may begin, from the end of work backwards."""
    skim = task.end - task.skim
    crust = skim - task.crust
    return crust - task.earliest, crust, skim


@lru_cache(maxsize=64)
def _rules(task: Task) -> LinearConstraint:
    size = task.end + 1
    same, none = eye_array(size, format="csr"), csr_array((size, size))
    last_pour, _, last_skim = _last_begins(task)
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


def _times(counts: np.ndarray, task: Task, beat: int) -> ActTimes:
    pours, breaks, skims = (
        tuple(int(moment) * beat for moment in np.repeat(np.arange(len(part)), np.diff(part, prepend=0)))
        for part in counts.reshape(3, task.end + 1)
    )
    return ActTimes(pours, breaks, skims)
