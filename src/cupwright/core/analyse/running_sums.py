"""Running sums: count, mean and squares of many groups, into which new scores are folded at once.

Squares are about each group's own mean, so that scores far from 0 lose no digits; two sums that know nothing
of each other join exactly. Sources: [Welford1962], [ChanGolubLeVeque1983].
"""

from dataclasses import dataclass

import numpy as np

from cupwright.core.analyse.scores import Floats, Ints
from cupwright.core.analyse.tabular import Tabular

# Scores folded at once: so few that what is put aside for them stays small beside the scores.
CHUNK = 1 << 18


@dataclass(frozen=True, slots=True)
class RunningSums(Tabular):
    """Of each group, arrays of shape (n_groups,): count, mean, and sum of squares about the mean.

    The mean of an empty group is 0 here; `means` has NaN for it.
    """

    count: Ints
    mean: Floats
    squares: Floats

    @property
    def means(self) -> Floats:
        """Means, NaN where there is no score."""
        return np.where(self.count > 0, self.mean, np.nan)

    @property
    def spreads(self) -> Floats:
        """Standard deviations (n - 1 below), NaN where there are fewer than two scores."""
        freedom = self.count - 1.0
        out = np.full(len(self.count), np.nan)
        return np.asarray(np.sqrt(np.divide(self.squares, freedom, out=out, where=freedom > 0)))


def no_scores(groups: int) -> RunningSums:
    """The sums before the first score."""
    return RunningSums(np.zeros(groups, dtype=np.int64), np.zeros(groups), np.zeros(groups))


def folded(sums: RunningSums, group: Ints, value: Floats) -> RunningSums:
    """The sums with more scores in them; equal to the sums over all scores at once, but for rounding.

    Parameters
    ----------
    group : int array, shape (n,)
        The group of each score, from 0 to n_groups - 1.
    value : float array, shape (n,)
        Finite scores.

    Notes
    -----
    Error: of rounding alone, about 1e-16 of the largest score for each doubling of the number of scores.
    Source: pairwise joining, [ChanGolubLeVeque1983] eq. 2.1.
    """
    for at in range(0, len(value), CHUNK):
        sums = joined(sums, _summed(group[at : at + CHUNK], value[at : at + CHUNK], len(sums.count)))
    return sums


def joined(first: RunningSums, second: RunningSums) -> RunningSums:
    """Two sums over different scores of the same groups, as one."""
    count = first.count + second.count
    share = np.divide(second.count, count, out=np.zeros(len(count)), where=count > 0)
    apart = second.mean - first.mean
    return RunningSums(
        count,
        first.mean + apart * share,
        first.squares + second.squares + apart**2 * first.count * share,
    )


def _summed(group: Ints, value: Floats, groups: int) -> RunningSums:
    count = np.bincount(group, minlength=groups)
    total = np.bincount(group, weights=value, minlength=groups)
    mean = np.divide(total, count, out=np.zeros(groups), where=count > 0)
    apart = value - mean[group]
    squares = np.zeros(groups) + np.bincount(group, weights=apart * apart, minlength=groups)
    return RunningSums(count, mean, squares)
