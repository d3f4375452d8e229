"""Page's trend test: do the coffees rise in an order that was named beforehand?

Letters as in [Page1963]: m tasters, n coffees, L the sum of each coffee's place in the order times its rank
sum.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from cupwright.core.analyse.rank_null import within_taster_ranks
from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.core.analyse.tabular import Tabular
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]

# Working out all orders takes up to 2**n steps; with more coffees the normal tail is close.
_MOST_COFFEES = 10
# Beyond so many tasters the sum is as good as normal, and the list of its values long.
_MOST_TASTERS = 200


@dataclass(frozen=True, slots=True)
class PageTrend(Tabular):
    """Evidence for a rise in the given order: `p` is one-sided, by `method` ("exact" or "normal").

    `l` is Page's sum, `z` its deviate, `p_normal` the normal tail.
    """

    l: float  # noqa: E741 # the statistic's own letter
    z: float
    p: float
    p_normal: float
    method: str
    coffees: int
    tasters: int


def page_trend(scores: Scores | Floats, *, order: Sequence[str] = (), tied: bool = True) -> PageTrend:
    """Do scores rise along an order of the coffees that was fixed before tasting?

    Parameters
    ----------
    scores : Scores, or float array of shape (n_coffees, n_tasters[, n_repeats])
        Scores or ranks; only their order within a taster counts. Repeats are averaged first.
    order : sequence of str
        The coffees from the lowest expected to the highest; as they stand if left out.
    tied : bool
        Work with the ties as they are. False: as if each taster had ranked without ties and a half of L left
        out, as printed tables do.

    Raises
    ------
    IncompleteTable, TooFewObservations, NoSpread
        As `friedman`.
    Refused
        If the order does not name every coffee once.

    Notes
    -----
    L = sum j R_j. Without a trend its mean is m n (n + 1)^2 / 4; a taster adds the variance
    sum (j - mean)^2 sum (r - mean)^2 / (n - 1), without ties n^2 (n + 1)^2 (n - 1) / 144.
    Error: exact given the ties, up to 10 coffees and 200 tasters, else the normal tail. An order chosen after
    tasting makes the p value worthless.
    Source: [Page1963].
    """
    scores = scores_of(scores)
    ranks = _ordered_ranks(scores, order)
    m, n = ranks.shape
    places = np.arange(1, n + 1)
    total = float((ranks @ places).sum())
    used = ranks if tied else np.broadcast_to(places.astype(float), ranks.shape)
    z = (total - m * n * (n + 1) ** 2 / 4) / np.sqrt(_variance(used))
    p_normal = float(ndtr(-z))
    exact = n <= _MOST_COFFEES and m <= _MOST_TASTERS
    p = _exact(used, total if tied else np.floor(total)) if exact else p_normal
    return PageTrend(total, float(z), p, p_normal, "exact" if exact else "normal", n, m)


def _ordered_ranks(scores: Scores, order: Sequence[str]) -> Floats:
    n, m = scores.counts.shape
    if n < 3 or m < 1:
        raise TooFewObservations(f"A trend needs 3 coffees; here are {n}.", todo="Compare the two by rank.")
    if order and sorted(order) != sorted(scores.coffees):
        raise Refused("The order does not name every coffee once.", todo="Name each coffee once.")
    if not scores.counts.all():
        row, column = np.argwhere(scores.counts == 0)[0]
        raise IncompleteTable(
            f"Taster {scores.tasters[column]} did not score coffee {scores.coffees[row]}.",
            todo="Drop that coffee or that taster first.",
        )
    at = [scores.coffees.index(coffee) for coffee in order or scores.coffees]
    ranks = within_taster_ranks(scores.means[at])
    if not np.ptp(ranks, axis=1).any():
        raise NoSpread("No taster scored any two coffees differently.", todo="Report the common scores.")
    return ranks


def _variance(ranks: Floats) -> float:
    n = ranks.shape[1]
    squares = ((ranks - (n + 1) / 2) ** 2).sum()
    return float(n * (n**2 - 1) / 12 * squares / (n - 1))


def _exact(ranks: Floats, total: float) -> float:
    """Chance of a sum of at least `total`; twice the ranks, so that ties stay whole numbers."""
    chances = np.ones(1)
    for row in np.rint(2 * ranks).astype(int):
        chances = np.convolve(chances, _one_taster(tuple(sorted(row.tolist()))))
    return float(min(1.0, chances[int(np.ceil(2 * total - 1e-9)) :].sum()))


@lru_cache(maxsize=256)
def _one_taster(ranks: tuple[int, ...]) -> Floats:
    """Chances of sum j r_j over all orders of one taster's ranks: places are filled one after the other.

    What matters on the way is only how many of each rank are used up.
    """
    length = 1 + sum((place + 1) * rank for place, rank in enumerate(ranks))
    values = sorted(set(ranks))
    ways = {tuple(ranks.count(value) for value in values): np.ones(1)}
    for place in range(1, len(ranks) + 1):
        filled: dict[tuple[int, ...], Floats] = {}
        for left, counts in ways.items():
            for at, value in enumerate(values):
                if left[at]:
                    step, then = place * value, (*left[:at], left[at] - 1, *left[at + 1 :])
                    into = filled.setdefault(then, np.zeros(length))
                    into[step : step + len(counts)] += counts[: length - step]
        ways = filled
    (counts,) = ways.values()
    return np.asarray(counts / counts.sum())
