"""Fixed terms: what may move a score beside coffee and taster, as columns, and their estimates.

Order in the session, temperature in the cup, the coffee before, the table.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import stdtrit

from cupwright.core.analyse.reml import Restricted
from cupwright.core.analyse.scores import Floats, Ints, Scores
from cupwright.core.analyse.tabular import Tabular
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

CHOICES = ("position", "temperature", "carry_over", "table")


@dataclass(frozen=True, slots=True)
class FixedTerm(Tabular):
    """One fixed term: `estimate` in points (a unit of the term), its standard error and interval.

    `freedom` are Satterthwaite's degrees of freedom. For `carry_over` and `table` one term a coffee or
    table, as a difference from the mean of all.
    """

    name: str
    estimate: float
    low: float
    high: float
    error: float
    freedom: float
    level: float


@dataclass(frozen=True, slots=True)
class Terms:
    """The fixed terms as fitted and as shown.

    `columns` (n_fitted, n) are each about their mean; row i of `shown` (n_shown, n_fitted) says how the term
    called `names[i]` comes out of those fitted.
    """

    names: tuple[str, ...]
    shown: Floats
    columns: Floats


def term_columns(scores: Scores, chosen: tuple[str, ...]) -> Terms:
    """The chosen terms.

    Raises
    ------
    IncompleteTable
        If a position or temperature is unknown.
    TooFewObservations, NoSpread
        If a term is the same for all scores, or cannot be told from the others.
    """
    makers = {
        "position": lambda: _slope(scores.position, "position"),
        "temperature": lambda: _slope(scores.temperature, "temperature"),
        "carry_over": lambda: _carried(scores),
        "table": lambda: _contrasts(scores.table, scores.tables, "table"),
    }
    parts = [makers[choice]() for choice in chosen]
    fitted = sum(len(part.columns) for part in parts)
    shown, columns, at = np.zeros((0, fitted)), np.ones((1, len(scores))), 0
    for choice, part in zip(chosen, parts, strict=True):
        block = np.zeros((len(part.names), fitted))
        block[:, at : at + len(part.columns)] = part.shown
        shown, at = np.vstack([shown, block]), at + len(part.columns)
        columns = np.vstack([columns, part.columns - part.columns.mean(axis=1, keepdims=True)])
        _refuse_confounded(columns, choice)
    return Terms(tuple(name for part in parts for name in part.names), shown, columns[1:])


def _refuse_confounded(columns: Floats, choice: str) -> None:
    sizes = np.linalg.norm(columns, axis=1, keepdims=True)
    if np.linalg.matrix_rank(columns / np.maximum(sizes, 1e-300), tol=1e-9) < len(columns):
        name = choice.replace("_", "-")
        raise NoSpread(
            f"The {name} cannot be told from the mean and the other terms.", todo=f"Leave the {name} out."
        )


def fixed_term(name: str, weights: Floats, top: Restricted, curvature: Floats, level: float) -> FixedTerm:
    """An estimate of a sum of fixed terms, with Satterthwaite's degrees of freedom.

    Notes
    -----
    Error: approximate; variances that lie at 0 are taken as known.
    Source: [Satterthwaite1946]; with REML, [GiesbrechtBurns1985].
    """
    variance = float(weights @ top.spread @ weights)
    slopes = np.einsum("i,kij,j->k", weights, top.change, weights)
    inner = np.flatnonzero(top.variances > 1e-9 * top.variances.sum())
    uncertain = slopes[inner] @ np.linalg.solve(curvature[np.ix_(inner, inner)], slopes[inner])
    freedom = 2 * variance**2 / uncertain if uncertain > 0 else np.inf
    return term_of(name, float(weights @ top.fixed), variance, float(freedom), level)


def term_of(name: str, estimate: float, variance: float, freedom: float, level: float) -> FixedTerm:
    """The term with its t interval."""
    error = float(np.sqrt(variance))
    reach = error * float(stdtrit(min(freedom, 1e9), (1 + level) / 2))
    return FixedTerm(name, estimate, estimate - reach, estimate + reach, error, freedom, level)


def _slope(values: Floats | None, name: str) -> Terms:
    return Terms((name,), np.eye(1), _known(values, name)[None, :])


def _known(values: Floats | None, name: str) -> Floats:
    if values is None or np.isnan(values).any():
        raise IncompleteTable(
            f"The {name} of some scores is unknown.",
            todo=f"Give every score its {name}, or leave the term out.",
        )
    return values


def _carried(scores: Scores) -> Terms:
    """Which coffee was tasted just before, as differences from the mean of all; none before the first."""
    return _contrasts(_before(scores), scores.coffees, "carry_over")


def _before(scores: Scores) -> Ints:
    """The coffee that the same taster had just before at the same table; -1 for none."""
    position = _known(scores.position, "position")
    table = np.zeros(len(scores), dtype=np.int64) if scores.table is None else scores.table
    order = np.lexsort((position, table, scores.taster))
    before = np.full(len(scores), -1)
    earlier, later = order[:-1], order[1:]
    same = (scores.taster[earlier] == scores.taster[later]) & (table[earlier] == table[later])
    if (position[earlier] == position[later])[same].any():
        raise Refused(
            "A taster has two scores at one position, so the coffee before is not known.",
            todo="Give each score its own position, or leave the carry-over out.",
        )
    before[later[same]] = scores.coffee[earlier[same]]
    return before


def _contrasts(index: Ints | None, names: tuple[str, ...], what: str) -> Terms:
    """Effects that add up to nothing: the last is less the sum of the others."""
    found = np.unique(index[index >= 0]) if index is not None else np.zeros(0, dtype=np.int64)
    if len(found) < 2:
        raise TooFewObservations(
            f"A {what.replace('_', '-')} term needs two to compare; here are {len(found)}.",
            todo="Leave the term out.",
        )
    columns = np.array([1.0 * (index == one) - 1.0 * (index == found[-1]) for one in found[:-1]])
    shown = np.vstack([np.eye(len(columns)), -np.ones(len(columns))])
    return Terms(tuple(f"{what} {names[one]}" for one in found), shown, columns)
