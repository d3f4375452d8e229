"""Components: how much of the spread is the coffees', the tasters', their tastes' and the rest's.

The crossed random model: score = mean + coffee + taster + coffee x taster + residual, all but the mean drawn
at random, each with its own variance. No I/O, no clock, no chance.
"""

from dataclasses import dataclass, replace

import numpy as np

from cupwright.core.analyse.cell_sums import CellSums, cell_sums, refuse_unfit
from cupwright.core.analyse.crossed_squares import (
    CrossedSquares,
    Expected,
    crossed_squares,
    expected,
    log_likelihood,
)
from cupwright.core.analyse.fixed_terms import FixedTerm, Terms, fixed_term, term_columns, term_of
from cupwright.core.analyse.reml import COFFEE, CROSSED, RESIDUAL, TASTER, hessian, reml
from cupwright.core.analyse.scores import Floats, Scores, scores_of
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NoSpread


@dataclass(frozen=True, slots=True)
class Components(Tabular):
    """Variances (points squared) of coffees, tasters, coffee x taster and the residual.

    `coffee_taster` is None without repeats: the residual then holds both. `log_likelihood` is the restricted
    one with its constant; None where the scores are explained without rest. `truncated` names the variances
    that lie at 0 because the scores would have them below. `terms` are the optional fixed terms.
    """

    coffee: float
    taster: float
    coffee_taster: float | None
    residual: float
    log_likelihood: float | None
    mean: FixedTerm
    terms: tuple[FixedTerm, ...]
    truncated: tuple[str, ...]
    coffees: tuple[str, ...]
    tasters: tuple[str, ...]
    scores: int

    def rows(self) -> list[Record]:
        """One row a part: variance, standard deviation, share of one score's variance."""
        parts = {
            "coffee": self.coffee,
            "taster": self.taster,
            "coffee_taster": self.coffee_taster,
            "residual": self.residual,
        }
        total = sum(part or 0.0 for part in parts.values())
        return [
            {
                "part": name,
                "variance": part,
                "deviation": None if part is None else part**0.5,
                "share": None if part is None else part / total,
            }
            for name, part in parts.items()
        ]


def crossed_components(
    values: Scores | Floats,
    *,
    level: float = 0.95,
    position: bool = False,
    temperature: bool = False,
    carry_over: bool = False,
    table: bool = False,
) -> Components:
    """How much do coffees, tasters, tastes (coffee x taster) and the rest each move a score?

    Parameters
    ----------
    values : Scores, or float array of shape (n_coffees, n_tasters[, n_repeats])
        Points of one scale; NaN where there is none.
    level : float in (0, 1)
        Coverage of the intervals of the mean and the fixed terms.
    position, temperature, carry_over, table : bool
        Add a fixed slope by place in the order, by °C, an effect of the coffee tasted just before, of the
        table. These need the columns of a `Scores`.

    Returns
    -------
    Components
        Variances at least 0. Closed form where every cell holds equally many, else REML: the same numbers.

    Raises
    ------
    TooFewObservations
        If fewer than two coffees or tasters have scores, or nothing is left to judge by.
    NoSpread
        If all scores are the same, or a term is.
    Refused
        If some coffees share no taster with the rest, even through others.

    Notes
    -----
    Error: of a variance on f degrees of freedom about sqrt(2 / f) of itself; for three coffees (f = 2) it
    may be off by a factor of several. Normal parts with one variance each are assumed.
    Source: [Searle1992]; [PattersonThompson1971]; degrees of freedom, [Satterthwaite1946].
    """
    asked = {"position": position, "temperature": temperature, "carry_over": carry_over, "table": table}
    chosen = tuple(name for name, wanted in asked.items() if wanted)
    if not chosen and (full := full_table(values)) is not None:
        return _balanced(*full, level)
    scores = scores_of(values)
    terms = term_columns(scores, chosen)
    cells = cell_sums(scores, terms.columns)
    refuse_unfit(cells)
    if not chosen and cells.is_balanced:
        found = squares_of(cells)
        return _balanced(found, cells.coffees, cells.tasters, level)
    return _uneven(cells, terms, level)


def full_table(
    values: Scores | Floats,
) -> tuple[CrossedSquares, tuple[str, ...], tuple[str, ...]] | None:
    """Mean squares and names of an array without holes; None for anything else.

    A shortcut past the columns, for whoever calls this thousands of times.
    """
    if isinstance(values, Scores):
        return None
    array = np.asarray(values, dtype=float)
    array = array[:, :, None] if array.ndim == 2 else array
    if array.ndim != 3 or min(array.shape) < 1 or array.shape[0] < 2 or array.shape[1] < 2:
        return None
    found = crossed_squares(array) if np.isfinite(array.sum()) else None
    if found is None or not any(found.squares):
        return None
    coffees, tasters = (tuple(map(str, range(1, count + 1))) for count in array.shape[:2])
    return found, coffees, tasters


def squares_of(cells: CellSums) -> CrossedSquares:
    """Mean squares of sums that are balanced."""
    repeats = int(cells.counts[0, 0])
    found = crossed_squares(cells.means[-1][:, :, None])
    free = cells.rows - cells.filled
    c, t, ct, _ = (repeats * square for square in found.squares)
    within = float(cells.within[-1, -1]) / free if free else 0.0
    return CrossedSquares(
        found.coffees,
        found.tasters,
        repeats,
        found.mean + cells.origin,
        (c, t, ct, within),
        (*found.freedom[:3], free),
    )


def variances_of(found: CrossedSquares, at: Expected) -> tuple[float, float, float | None, float]:
    """Coffee, taster, coffee x taster and residual from expected mean squares."""
    c, t, ct, e = at.squares
    each = found.repeats * found.tasters, found.repeats * found.coffees
    coffee, taster = max(c - ct, 0.0) / each[0], max(t - ct, 0.0) / each[1]
    if found.repeats == 1:
        return coffee, taster, None, ct
    return coffee, taster, max(ct - e, 0.0) / found.repeats, e


def _balanced(
    found: CrossedSquares, coffees: tuple[str, ...], tasters: tuple[str, ...], level: float
) -> Components:
    if not any(found.squares):
        raise NoSpread("Every score is the same.", todo="Report the common score; differences are undefined.")
    at = expected(found)
    count = found.coffees * found.tasters * found.repeats
    likelihood = log_likelihood(found, at)
    return Components(
        *variances_of(found, at),
        likelihood if np.isfinite(likelihood) else None,
        _mean(found, at, level),
        (),
        at.truncated,
        coffees,
        tasters,
        count,
    )


def _mean(found: CrossedSquares, at: Expected, level: float) -> FixedTerm:
    """The mean with Satterthwaite's freedom: its variance is (coffee + taster - crossed) / n of squares."""
    count = found.coffees * found.tasters * found.repeats
    c, t, ct, _ = at.squares
    # Pooled squares are one quantity: their signs add up before they are squared.
    pools: dict[tuple[float, int], int] = {}
    for square, freedom, sign in zip((c, t, ct), at.freedom[:3], (1, 1, -1), strict=True):
        pools[square, freedom] = pools.get((square, freedom), 0) + sign
    parts = [(sign * square, freedom) for (square, freedom), sign in pools.items()]
    variance = sum(part for part, _ in parts)
    uncertain = sum(part**2 / freedom for part, freedom in parts)
    satterthwaite = variance**2 / uncertain if uncertain > 0 else float(found.freedom[0])
    return term_of("mean", found.mean, variance / count, satterthwaite, level)


def _uneven(cells: CellSums, terms: Terms, level: float) -> Components:
    if cells.repeats_agree:
        return _without_residual(_uneven(cells.as_one_score_a_cell(), terms, level), cells)
    top = reml(cells)
    curvature = hessian(cells, top)
    weights = np.eye(1 + len(terms.names), cells.terms)
    weights[1:, 1:] = terms.shown
    mean, *shown = (
        fixed_term(name, row, top, curvature, level)
        for name, row in zip(("mean", *terms.names), weights, strict=True)
    )
    return Components(
        float(top.variances[COFFEE]),
        float(top.variances[TASTER]),
        float(top.variances[CROSSED]) if cells.has_repeats else None,
        float(top.variances[RESIDUAL]),
        top.log_likelihood,
        term_of("mean", mean.estimate + cells.origin, mean.error**2, mean.freedom, level),
        tuple(shown),
        _at_zero(top.variances, cells),
        cells.coffees,
        cells.tasters,
        cells.rows,
    )


def _without_residual(found: Components, cells: CellSums) -> Components:
    """Repeats that all agree leave no residual: what is left belongs to coffee x taster."""
    return replace(found, coffee_taster=found.residual, residual=0.0, log_likelihood=None, scores=cells.rows)


def _at_zero(variances: Floats, cells: CellSums) -> tuple[str, ...]:
    there = ("coffee", "taster", "coffee_taster") if cells.has_repeats else ("coffee", "taster")
    return tuple(name for at, name in enumerate(there) if variances[at] == 0)
