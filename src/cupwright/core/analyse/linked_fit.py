"""Linked fit: least squares of coffees over many tables, with the levels of tasters and tables swept out.

Letters: C coffees, B levels (blocks), K cells coffee x table, n scores. A (C, C) is the information left on
coffees once the levels are swept out, U (C, K) the same between coffees and cells. Sources: [Searle1992],
[Henderson1953].
"""

from dataclasses import dataclass, replace
from typing import Any, Self

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtrit

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.scales import rounding_spread
from cupwright.core.analyse.scores import Floats, Ints, Scores
from cupwright.core.analyse.tabular import Tabular
from cupwright.errors import NoSpread, Refused, TooFewObservations, TooLarge

LEVELS = ("sitting", "table", "taster")
MOST_COFFEES = 4000
# Up to so many numbers an incidence is cheaper as a full array.
_DENSE = 30_000_000
# Tables of more coffees than that are worked out one by one, as full arrays.
_WIDE = 64


@dataclass(frozen=True, slots=True)
class SeasonScores:
    """One score for each taster, coffee and table (repeats averaged), less `origin`; columns of shape (n,).

    `gap` is the smallest distance between two scores.
    """

    coffees: tuple[str, ...]
    table: Ints
    taster: Ints
    coffee: Ints
    value: Floats
    origin: float
    gap: float


@dataclass(frozen=True, slots=True)
class LinkErrors(Tabular):
    """Mean squares and their freedom: `rest` within cells, `moved` of coffees from table to table.

    `moved` expects rest + weight x variance of a coffee between its tables. Where it is the smaller the two
    are pooled (`moved_freedom` is 0 then); it is None where no coffee comes back often enough to show it.
    """

    rest: float
    rest_freedom: int
    moved: float | None = None
    moved_freedom: int = 0
    weight: float = 0.0

    @property
    def variance_between_tables(self) -> float | None:
        """How much one coffee's true value varies from table to table, in points squared; None: unknown."""
        return None if self.moved is None else max(self.moved - self.rest, 0.0) / self.weight


@dataclass(frozen=True, slots=True)
class LinkSquares:
    """Sums of squares and their freedom: of the rest, and of coffees that move between tables.

    `moved` expects moved_freedom x rest + weight x variance of a coffee between its tables.
    """

    rest: float
    rest_freedom: int
    moved: float = 0.0
    moved_freedom: int = 0
    weight: float = 0.0

    def with_more(self, moved: float, freedom: int, weight: float) -> Self:
        """The same with more squares of coffees that move."""
        return replace(
            self,
            moved=self.moved + moved,
            moved_freedom=self.moved_freedom + freedom,
            weight=self.weight + weight,
        )

    def errors(self, gap: float) -> LinkErrors:
        """Mean squares; where all agree, no smaller than what a step of `gap` hides."""
        hidden, freedom = rounding_spread(gap) ** 2, self.rest_freedom + self.moved_freedom
        if freedom < 1:
            raise TooFewObservations(
                "The scores leave nothing to judge by how far these differ over the tables.",
                todo="Let more tasters score the same coffees, or bring some coffees back.",
            )
        pool = _at_least((self.rest + self.moved) / freedom, hidden)
        if self.moved_freedom < 1 or self.rest_freedom < 1 or self.weight <= 0:
            return LinkErrors(pool, freedom)
        rest = _at_least(self.rest / self.rest_freedom, hidden)
        moved, weight = self.moved / self.moved_freedom, self.weight / self.moved_freedom
        if moved >= rest:
            return LinkErrors(rest, self.rest_freedom, moved, self.moved_freedom, weight)
        return LinkErrors(pool, freedom, pool, 0, weight)


@dataclass(frozen=True, slots=True)
class LinkedFit:
    """Coffees' values less an unknown for each group of linked coffees.

    `inverse` (C, C) and `moving` (C, C; None where it is not asked for) times the variances of the rest and
    between tables make the covariance. `group` (C,) numbers the groups, `level` (n_groups,) is the value at
    the average level of each. `errors` are made of `squares`.
    """

    values: Floats
    inverse: Floats
    moving: Floats | None
    group: Ints
    level: Floats
    squares: LinkSquares
    errors: LinkErrors

    def contrast(self, weights: Floats, level: float) -> Estimate:
        """A weighted sum of coffees of one group, weights adding up to 0, with its t interval."""
        moving = 0.0 if self.moving is None else float(weights @ self.moving @ weights)
        estimate = float(weights @ self.values)
        at = np.array([float(weights @ self.inverse @ weights)]), np.array([moving])
        reach = float(reaches(*at, self.errors, level)[0])
        return Estimate(estimate, estimate - reach, estimate + reach, level)


def reaches(rest: Floats, moving: Floats, errors: LinkErrors, level: float) -> Floats:
    """Half the widths of t intervals of sums whose variance is rest x s_rest + moving x s_between.

    Notes
    -----
    Source: [Satterthwaite1946] over the two mean squares.
    """
    share = moving / errors.weight if errors.moved_freedom else np.zeros_like(moving)
    first = (rest - share) * errors.rest
    second = share * (errors.moved or 0.0)
    variance = np.maximum(first + second, 0.0)
    uncertain = first**2 / errors.rest_freedom + second**2 / max(errors.moved_freedom, 1)
    freedom = np.divide(variance**2, uncertain, out=np.ones_like(variance), where=uncertain > 0)
    return np.asarray(np.sqrt(variance) * stdtrit(np.clip(freedom, 1.0, 1e9), (1 + level) / 2))


def season_scores(scores: Scores) -> SeasonScores:
    """The scores that count, one for each taster, coffee and table."""
    if not len(scores):
        raise TooFewObservations("There is not a single score.", todo="Add scores.")
    table = np.zeros(len(scores), np.int64) if scores.table is None else scores.table
    used, coffee = np.unique(scores.coffee, return_inverse=True)
    wide = len(used), len(scores.tasters)
    cell, row = np.unique((table * wide[1] + scores.taster) * wide[0] + coffee, return_inverse=True)
    origin = float(scores.value[0])
    value = np.bincount(row, scores.value - origin) / np.bincount(row)
    if np.ptp(scores.value) == 0:
        raise NoSpread("Every score is the same.", todo="Report the common score; differences are undefined.")
    sitting, kept = np.divmod(cell, wide[0])
    names = tuple(scores.coffees[at] for at in used)
    gap = float(np.diff(np.unique(scores.value)).min())
    return SeasonScores(names, sitting // wide[1], sitting % wide[1], kept, value, origin, gap)


def linked_fit(season: SeasonScores, levels: str = "sitting") -> LinkedFit:
    """Coffees by least squares beside the levels.

    Raises
    ------
    TooFewObservations
        If there are fewer than two coffees, or nothing is left to judge by.
    TooLarge
        If there are more than MOST_COFFEES coffees.
    Refused
        If nobody scored two of them at one table.
    """
    count = len(season.coffees)
    if count < 2:
        raise TooFewObservations("There is one coffee only.", todo="Compare it with others, blind.")
    if count > MOST_COFFEES:
        raise TooLarge(
            f"Up to {MOST_COFFEES:,} coffees are linked at once; here are {count:,}.", todo="Choose a season."
        )
    block = _block(season, levels)
    apart, information = _swept(season, block)
    if np.abs(information).max() < 1e-9:
        raise Refused(
            "No two of these were scored side by side by anyone.", todo="Bring several to one table."
        )
    if levels == "sitting":
        return _by_sitting(season, block, apart, information)
    return _plain(season, block, apart, information, tables=levels == "table")


def _block(season: SeasonScores, levels: str) -> Ints:
    label = season.taster
    if levels == "sitting":
        label = season.table * (int(season.taster.max()) + 1) + season.taster
    return np.asarray(np.unique(label, return_inverse=True)[1])


def _swept(season: SeasonScores, block: Ints) -> tuple[Floats, Floats]:
    """The scores less their level's mean, and A."""
    size = np.bincount(block)
    apart = season.value - (np.bincount(block, season.value) / size)[block]
    return apart, _information(season.coffee, season.coffee, block, size)


def _information(first: Ints, second: Ints, block: Ints, size: Ints) -> Floats:
    """X1'X2 less what the levels take of it, as a full array."""
    direct = _counts(first, second, (int(first.max()) + 1, int(second.max()) + 1)).toarray()
    one, other = (_counts(index, block, (int(index.max()) + 1, len(size))) for index in (first, second))
    if one.shape[0] * one.shape[1] <= _DENSE and one.nnz > 0.05 * one.shape[0] * one.shape[1]:
        return np.asarray(direct - (one.toarray() / size) @ other.toarray().T)
    return np.asarray(direct - (one.multiply(1.0 / size).tocsr() @ other.T).toarray())


def _counts(rows: Ints, columns: Ints, shape: tuple[int, int]) -> Any:
    from scipy.sparse import csr_array

    return csr_array((np.ones(len(rows)), (rows, columns)), shape=shape)


def _by_sitting(season: SeasonScores, block: Ints, apart: Floats, information: Floats) -> LinkedFit:
    from scipy.sparse import csr_array
    from scipy.sparse.csgraph import connected_components

    groups, group = connected_components(csr_array(np.abs(information) > 0), directed=False)
    inverse = _inverse_by_group(information, group)
    right = np.bincount(season.coffee, apart)
    values = inverse @ right
    rank = len(values) - groups
    between = _between_tables(season, block, apart)
    explained = float(right @ values)
    total = float(apart @ apart)
    moved_freedom = between.rank - rank
    rest_freedom = len(apart) - int(block.max()) - 1 - between.rank
    moved = max(between.explained - explained, 0.0)
    moving = inverse @ between.crossed @ inverse
    weight = between.trace - float((inverse * between.crossed).sum())
    rest = max(total - between.explained, 0.0)
    squares = LinkSquares(rest, rest_freedom, moved, moved_freedom, weight)
    group = np.asarray(group, dtype=np.int64)
    level, errors = _levels(season, values, group), squares.errors(season.gap)
    return LinkedFit(values, inverse, moving, group, level, squares, errors)


def _inverse_by_group(information: Floats, group: Ints) -> Floats:
    """The inverse for contrasts within groups; values of each group add up to 0."""
    inverse = np.zeros_like(information)
    order = np.argsort(group, kind="stable")
    for members in np.split(order, np.flatnonzero(np.diff(group[order])) + 1):
        count = len(members)
        if count == 1:
            continue
        part = information[np.ix_(members, members)]
        scale = np.trace(part) / count
        inverse[np.ix_(members, members)] = np.linalg.inv(part + scale / count) - 1 / (scale * count)
    return inverse


@dataclass(frozen=True, slots=True)
class _Between:
    """Cells coffee x table: what they explain, on how much freedom, trace of their information, U U'."""

    explained: float
    rank: int
    trace: float
    crossed: Floats


def _between_tables(season: SeasonScores, block: Ints, apart: Floats) -> _Between:
    from scipy.sparse import csr_array
    from scipy.sparse.csgraph import connected_components

    found, cell = np.unique(season.table * len(season.coffees) + season.coffee, return_inverse=True)
    size, cells = np.bincount(block), len(found)
    pieces = connected_components(
        csr_array((np.ones(len(cell)), (cell, cells + block)), shape=(cells + len(size),) * 2), directed=False
    )[0]
    _, table = np.unique(found // len(season.coffees), return_inverse=True)
    coffee, wide = found % len(season.coffees), np.bincount(table) > _WIDE
    crossed = _crossed(coffee, cell, block, ~wide[table[cell]])
    often, sums = np.bincount(cell), np.bincount(cell, apart)
    full = _is_full(table, cell, block)
    even = (full & ~wide)[table]
    explained = float((sums[even] ** 2 / often[even]).sum())
    order = np.argsort(table[cell], kind="stable")
    starts = np.concatenate([[0], np.cumsum(np.bincount(table[cell]))])
    for one in np.flatnonzero(~full | wide):
        rows = order[starts[one] : starts[one + 1]]
        own, place = np.unique(cell[rows], return_inverse=True)
        part = _table_information(place, block[rows])
        explained += _explained(part, sums[own])
        if wide[one]:
            crossed[np.ix_(coffee[own], coffee[own])] += part @ part
    trace = float(often.sum() - (1.0 / size)[block].sum())
    return _Between(explained, cells - pieces, trace, crossed)


def _crossed(coffee: Ints, cell: Ints, block: Ints, rows: NDArray[np.bool_]) -> Floats:
    """U U' of the chosen rows' tables, as a full array."""
    from scipy.sparse import diags_array

    size, count = np.bincount(block), (len(coffee), int(block.max()) + 1)
    incidence = _counts(cell[rows], block[rows], count)
    of_coffee = _counts(coffee, np.arange(len(coffee)), (int(coffee.max()) + 1, len(coffee)))
    often = np.bincount(cell[rows], minlength=len(coffee)).astype(float)
    taken = (of_coffee @ incidence.multiply(1.0 / size).tocsr()) @ incidence.T
    crossing = of_coffee @ diags_array(often).tocsr() - taken
    return np.asarray((crossing @ crossing.T).toarray())


def _is_full(table: Ints, cell: Ints, block: Ints) -> NDArray[np.bool_]:
    """At which tables every taster scored every coffee."""
    scores = np.bincount(table[cell])
    sittings = np.bincount(table[cell[np.unique(block, return_index=True)[1]]], minlength=len(scores))
    return np.asarray(scores == np.bincount(table) * sittings)


def _table_information(place: Ints, block: Ints) -> Floats:
    """A of one table's coffees."""
    _, seat = np.unique(block, return_inverse=True)
    counts = np.zeros((int(place.max()) + 1, int(seat.max()) + 1))
    counts[place, seat] = 1.0
    return np.asarray(np.diag(counts.sum(axis=1)) - (counts / counts.sum(axis=0)) @ counts.T)


def _explained(information: Floats, right: Floats) -> float:
    """Sum of squares of one table's coffees beside its sittings."""
    if len(right) <= _WIDE:
        return float(right @ np.linalg.pinv(information, hermitian=True) @ right)
    from scipy.sparse import csr_array
    from scipy.sparse.csgraph import connected_components

    _, group = connected_components(csr_array(np.abs(information) > 1e-12), directed=False)
    return float(right @ _inverse_by_group(information, np.asarray(group)) @ right)


def _at_least(found: float, hidden: float) -> float:
    return found if found > 1e-9 * hidden else hidden


def _plain(
    season: SeasonScores, block: Ints, apart: Floats, information: Floats, *, tables: bool
) -> LinkedFit:
    """Tasters swept out, and tables if they have levels; one variance."""
    size = np.bincount(block)
    right: Floats = np.asarray(np.bincount(season.coffee, apart), dtype=np.float64)
    explained, spent = 0.0, len(size)
    if tables:
        _, table = np.unique(season.table, return_inverse=True)
        own, crossed = (_information(table, other, block, size) for other in (table, season.coffee))
        inside = np.linalg.pinv(own, rcond=1e-10, hermitian=True)
        of_table = np.bincount(table, apart)
        explained = float(of_table @ inside @ of_table)
        spent += int(np.linalg.matrix_rank(own, tol=1e-8 * len(apart), hermitian=True))
        information = information - crossed.T @ inside @ crossed
        right = right - crossed.T @ (inside @ of_table)
    inverse, group, rank = _inverse(information)
    values = inverse @ right
    left = float(apart @ apart) - explained - float(right @ values)
    squares = LinkSquares(max(left, 0.0), len(apart) - spent - rank)
    level, errors = _levels(season, values, group), squares.errors(season.gap)
    return LinkedFit(values, inverse, None, group, level, squares, errors)


def _inverse(information: Floats) -> tuple[Floats, Ints, int]:
    """Pseudo-inverse, groups within which differences can be estimated, rank."""
    found, vectors = np.linalg.eigh(information)
    there = found > 1e-9 * max(found[-1], 1e-300)
    inverse = (vectors[:, there] / found[there]) @ vectors[:, there].T
    # Two coffees compare where no combination that the scores leave open tells them apart.
    open_ = vectors[:, ~there] @ vectors[:, ~there].T
    group = np.full(len(found), -1)
    for at in range(len(found)):
        if group[at] < 0:
            alike = np.abs(open_ - open_[at]).max(axis=1) < 1e-6
            group[alike & (group < 0)] = group.max() + 1
    return inverse, group, int(there.sum())


def _levels(season: SeasonScores, values: Floats, group: Ints) -> Floats:
    """Each group's mean level: its scores less its coffees' values, on the scale of the scores."""
    own = group[season.coffee]
    left = np.bincount(own, season.value - values[season.coffee]) / np.bincount(own)
    return np.asarray(left + season.origin)
