"""The RV coefficient: do two tasters, or two kinds of answers, put the coffees in the same arrangement?

W = XX' holds the products between coffees; the coefficient is the cosine of two of them. It asks for the
arrangement alone: a table turned round or multiplied by a number gives 1.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import permutations
from math import factorial

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.analyse.axes import NOTHING, centred, checked_table
from cupwright.core.analyse.resamples import DRAWS, generator
from cupwright.core.analyse.tabular import Tabular
from cupwright.errors import NoSpread, Refused

Floats = NDArray[np.float64]

_FEWEST = 3
_EXACT = 7  # 5,040 orders


@dataclass(frozen=True, slots=True)
class Rv(Tabular):
    """How alike two arrangements of n coffees are.

    `estimate` in [0, 1]; `expected` what it is on average if the coffees of one table are dealt out at
    random, large where there are few coffees or many columns; `adjusted` (estimate - expected) / (1 -
    expected), 0 on average by chance and 1 at best; `p_value` the share of such deals at least as alike;
    `exact` if all were looked at.
    """

    estimate: float
    adjusted: float
    expected: float
    p_value: float
    exact: bool


def rv_coefficient(
    first: ArrayLike,
    second: ArrayLike,
    *,
    draws: int = DRAWS,
    rng: np.random.Generator | None = None,
) -> Rv:
    """Are two arrangements of the same coffees alike?

    Parameters
    ----------
    first, second : float arrays, shapes (n_coffees, p) and (n_coffees, q)
        Centred here, not scaled: divide columns of different units by their spread first.
    draws : int
        Random orders of the coffees, where there are more than 7; up to 7 all are looked at.
    rng : numpy Generator, optional
        Source of chance; a fixed one if left out.

    Raises
    ------
    TooFewObservations
        If there are fewer than three coffees.
    Refused
        If the tables have different numbers of coffees.
    NoSpread
        If all coffees of a table are alike.

    Notes
    -----
    Error: with n coffees the smallest p value there can be is 1/n! (3 coffees: .17).
    Source: [RobertEscoufier1976]; its mean over orders, [KaziAoual1995]; [ElGhaziriQannari2015]. Checked
    against the wines of [AbdiWilliams2013].
    """
    a, b = (
        products_of(checked_table(table, rows="coffee", columns="column", least=_FEWEST))
        for table in (first, second)
    )
    if len(a) != len(b):
        raise Refused(f"The tables have {len(a)} and {len(b)} coffees.", todo="Give both the same coffees.")
    estimate = float(np.sum(a * b))
    expected = _expected(a, b)
    drawn, exact = _dealt(a, b, draws, rng)
    # Equal up to rounding counts as at least as alike.
    above = int(np.sum(drawn >= estimate - 1e-9))
    p_value = above / len(drawn) if exact else (above + 1) / (len(drawn) + 1)
    room = 1 - expected
    adjusted = (estimate - expected) / room if room > 1e-9 else float("nan")
    if not np.isfinite(adjusted):
        raise NoSpread("Any two such tables are alike.", todo="Compare more coffees or more columns.")
    return Rv(estimate, adjusted, expected, p_value, exact)


def rv_matrix(tables: Sequence[ArrayLike]) -> Floats:
    """RV coefficients between all pairs of tables, shape (n_tables, n_tables)."""
    flat = np.array(
        [products_of(checked_table(table, rows="coffee", columns="column")).ravel() for table in tables]
    )
    return np.asarray(np.clip(flat @ flat.T, 0.0, 1.0))


def products_of(table: Floats) -> Floats:
    """XX' of the centred table, divided by its own length."""
    about = centred(table)
    if not np.sum(about**2) > NOTHING * np.sum(table**2):
        raise NoSpread("All coffees of a table are alike.", todo="Leave that table out.")
    products = about @ about.T
    return np.asarray(products / np.linalg.norm(products))


def _expected(a: Floats, b: Floats) -> float:
    # W has length 1 here, so the effective dimension of [KaziAoual1995] is the squared trace.
    return float(np.trace(a) * np.trace(b) / (len(a) - 1))


def _dealt(a: Floats, b: Floats, draws: int, rng: np.random.Generator | None) -> tuple[Floats, bool]:
    """The coefficient with the coffees of the second table in other orders, and whether these are all."""
    n = len(a)
    if n <= _EXACT:
        orders = np.array(list(permutations(range(n))))
    else:
        orders = generator(rng).permuted(np.tile(np.arange(n), (draws, 1)), axis=1)
    found = np.empty(len(orders))
    for start in range(0, len(orders), 512):
        some = orders[start : start + 512]
        found[start : start + 512] = np.einsum("ij,rij->r", a, b[some[:, :, None], some[:, None, :]])
    return found, len(orders) == factorial(n) and n <= _EXACT
