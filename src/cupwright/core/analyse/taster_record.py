"""A taster's record: what one table said of them, small enough to keep; and what several say together."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtrit

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.finding import Finding, silent
from cupwright.core.analyse.normal_intervals import around
from cupwright.core.analyse.repeat_spread import spread_of
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.tabular import Tabular
from cupwright.core.analyse.tasters import TasterPerformance, taster_performance
from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]

_MOST_STEPS = 200


@dataclass(frozen=True, slots=True)
class TasterRecord(Tabular):
    """One taster on one attribute at one table; `table` and `attribute` as the caller calls them."""

    taster: str
    table: str
    attribute: str
    performance: TasterPerformance


@dataclass(frozen=True, slots=True)
class PooledRecord(Tabular):
    """One taster on one attribute over several tables. Measures as in `TasterPerformance`.

    `bias_shift` is the standard deviation of the taster's true level from table to table, in points; None
    with fewer than two tables.
    """

    taster: str
    attribute: str
    tables: int
    coffees: int
    repeatability: Finding
    bias: Finding
    bias_shift: float | None
    slope: Finding
    agreement: Finding
    drift_position: Finding


def taster_records(
    scores: Scores, *, table: str, attribute: str, level: float = 0.95
) -> tuple[TasterRecord, ...]:
    """One record a taster of one table's scores on one attribute, to be kept and pooled later."""
    performances = taster_performance(scores, level=level)
    return tuple(TasterRecord(one.taster, table, attribute, one) for one in performances)


def pool_records(records: Iterable[TasterRecord], *, level: float = 0.95) -> PooledRecord:
    """How is one taster doing over several tables?

    Parameters
    ----------
    records : iterable of TasterRecord
        Of one taster and one attribute, each table once.
    level : float in (0, 1)
        Coverage of each interval.

    Raises
    ------
    TooFewObservations
        If there is no record.
    Refused
        If they are of several tasters or attributes, or a table comes twice.

    Notes
    -----
    Repeats are pooled by their squares, with the chi-square interval. Level, slope, agreement (on Fisher's z)
    and drift are random-effects means: the spread between tables by [PauleMandel1982], the interval by
    Student's t with tables less 1 degrees of freedom and the scaled variance of [HartungKnapp2001]; one
    table is handed on as it is. The scatter behind each table's own variance is taken as one over all tables.
    Error: the t interval is close (95 in 100 over 2, 4 and 8 simulated tables of 5 coffees), and wide for
    two tables, as it should be.
    Source: as named; checked against statsmodels.
    """
    kept = tuple(records)
    _check(kept)
    found = [record.performance for record in kept]
    biases = [one.bias for one in found]
    return PooledRecord(
        taster=kept[0].taster,
        attribute=kept[0].attribute,
        tables=len(kept),
        coffees=sum(one.coffees for one in found),
        repeatability=_pooled_spread([one.repeatability for one in found], level),
        bias=_pooled(biases, level),
        bias_shift=_shift(biases),
        slope=_pooled([one.slope for one in found], level),
        agreement=_pooled_agreement([one.agreement for one in found], level),
        drift_position=_pooled([one.drift_position for one in found], level),
    )


def random_effects(estimates: Floats, variances: Floats, level: float) -> tuple[Estimate, float]:
    """The mean of at least two estimates with its interval, and the variance between them."""
    between = _between(estimates, variances)
    weights = 1 / (variances + between)
    mean = float((weights * estimates).sum() / weights.sum())
    freedom = len(estimates) - 1
    variance = float((weights * (estimates - mean) ** 2).sum() / freedom / weights.sum())
    return around(mean, float(stdtrit(freedom, (1 + level) / 2) * np.sqrt(variance)), level), between


def _between(estimates: Floats, variances: Floats) -> float:
    """The variance at which the weighted squares equal their freedom; Newton climbs to it from 0."""
    between = 0.0
    for _ in range(_MOST_STEPS):
        weights = 1 / (variances + between)
        mean = (weights * estimates).sum() / weights.sum()
        pulls = weights * (estimates - mean) ** 2
        step = float((pulls.sum() - (len(estimates) - 1)) / (weights * pulls).sum()) if pulls.any() else 0.0
        if step <= 1e-12 * (1 + between):
            break
        between += step
    return between


def _pooled(findings: Sequence[Finding], level: float) -> Finding:
    usable = [one for one in findings if one.found is not None]
    if len(usable) < 2:
        return usable[0] if usable else _silent_like(findings)
    estimates = np.array([one.found.estimate for one in usable if one.found])
    mean, _ = random_effects(estimates, _variances(usable), level)
    return Finding(mean, len(usable) - 1)


def _shift(findings: Sequence[Finding]) -> float | None:
    usable = [one for one in findings if one.found is not None]
    if len(usable) < 2:
        return None
    estimates = np.array([one.found.estimate for one in usable if one.found])
    return float(np.sqrt(_between(estimates, _variances(usable))))


def _variances(findings: Sequence[Finding]) -> Floats:
    """Of each table's estimate, as if the taster scattered alike at all of them.

    A table of few coffees hardly knows its own scatter; weights that follow it would make intervals too
    narrow. A variance goes down with the number of coffees, one more than its degrees of freedom.
    """
    freedom = np.array([one.freedom for one in findings], dtype=float)
    single = np.array([_variance(one) for one in findings]) * (freedom + 1)
    return np.asarray((freedom * single).sum() / freedom.sum() / (freedom + 1))


def _variance(finding: Finding) -> float:
    """Of an estimate that has Student's interval."""
    found = finding.found
    if found is None:
        raise TooFewObservations("A finding without an estimate has no variance.", todo="Leave it out.")
    return float(((found.high - found.low) / 2 / stdtrit(finding.freedom, (1 + found.level) / 2)) ** 2)


def _pooled_agreement(findings: Sequence[Finding], level: float) -> Finding:
    """On Fisher's z, where a correlation of n coffees has variance 1 / (n - 3)."""
    usable = [one for one in findings if one.found is not None and abs(one.found.estimate) < 1]
    if len(usable) < 2:
        return usable[0] if usable else _silent_like(findings)
    z = np.arctanh([one.found.estimate for one in usable if one.found])
    mean, _ = random_effects(z, np.array([1 / (one.freedom - 1) for one in usable]), level)
    middle, low, high = (float(np.tanh(end)) for end in (mean.estimate, mean.low, mean.high))
    return Finding(Estimate(middle, low, high, level), len(usable) - 1)


def _pooled_spread(findings: Sequence[Finding], level: float) -> Finding:
    """Repeats that are all equal count with squares of 0; a single pair's squares were not kept."""
    counted = [one for one in findings if one.freedom >= 2]
    squares = sum(one.freedom * one.found.estimate**2 for one in counted if one.found)
    freedom = sum(one.freedom for one in counted)
    spread = spread_of(squares, freedom, level)
    return Finding(spread, freedom) if spread else _silent_like(findings)


def _silent_like(findings: Sequence[Finding]) -> Finding:
    return silent(findings[-1].why_not or "Too little data to say.", findings[-1].freedom)


def _check(records: Sequence[TasterRecord]) -> None:
    if not records:
        raise TooFewObservations("There is no record to pool.", todo="Open a table first.")
    if len({(record.taster, record.attribute) for record in records}) > 1:
        raise Refused(
            "These records are of several tasters or attributes.",
            todo="Pool those of one taster and attribute.",
        )
    if len({record.table for record in records}) < len(records):
        raise Refused("One table comes twice among these records.", todo="Give each table once.")
