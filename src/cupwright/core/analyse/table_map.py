"""The map of a table: all kinds of answers together, tasters' own levels set aside, and how sure it is."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.axes import NOTHING
from cupwright.core.analyse.axis_chance import DEALS, affordable, axes_beyond_chance
from cupwright.core.analyse.axis_words import CHANCE, AxisWords, axis_words
from cupwright.core.analyse.map_answers import MOST_COFFEES, AnswerKind, MapAnswers
from cupwright.core.analyse.multiple_factor import MultipleFactor, multiple_factor_analysis
from cupwright.core.analyse.pca import point_rows
from cupwright.core.analyse.regions import AXES, FEWEST_TASTERS, Regions, map_regions
from cupwright.core.analyse.resamples import DRAWS
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]

FEWEST_COFFEES = 3
_FEWEST_DRAWS = 200
_ROUNDS = 200


@dataclass(frozen=True, slots=True)
class TableMap(Tabular):
    """Where the tasters together put n coffees.

    factor          the analysis itself; its first two axes are the map
    kinds           the kinds of answers in it; `columns` and `opposites` name what is more at either end
    tasters         whose answers made it; `complete` if they left nothing out
    chance (k,)     p value of each axis, from `axes_beyond_chance`
    words           each of the two axes in words
    regions         None where there are none, and `why_no_regions` says why
    left_out        kinds and columns in which a coffee has no answer at all
    own (t, n, p)   each taster's table in the unit of the map, levels taken out
    """

    factor: MultipleFactor
    kinds: tuple[str, ...]
    columns: tuple[str, ...]
    opposites: tuple[str, ...]
    tasters: tuple[str, ...]
    complete: bool
    chance: Floats
    words: tuple[AxisWords, ...]
    regions: Regions | None
    why_no_regions: str
    left_out: tuple[str, ...]
    own: Floats

    def rows(self) -> list[Record]:
        """A row for each coffee: its place on every axis."""
        return point_rows(self.factor.coffees, self.factor.points)

    @property
    def beyond_chance(self) -> bool:
        """Whether the first axis is longer than chance makes it."""
        return bool(len(self.chance) and self.chance[0] <= CHANCE)


def table_map(
    answers: MapAnswers,
    *,
    level: float = 0.95,
    draws: int = DRAWS,
    rng: np.random.Generator | None = None,
) -> TableMap:
    """What does the table look like in two dimensions?

    Parameters
    ----------
    answers : MapAnswers
    level : float in (0, 1)
        Coverage of each region.
    draws : int
        Resamples of the tasters.
    rng : numpy Generator, optional
        Source of chance; a fixed one if left out.

    Raises
    ------
    Refused
        If there are fewer than 3 coffees or more than 60, or no kind of answer covers them all
        (TooFewObservations), or none tells any two apart (NoSpread).

    Notes
    -----
    Four tasters or more who answered everything make the map alone; else all do, an answer that is missing
    being filled with what the taster's level and the coffee's mean add up to, and there are no regions.
    Error: as `map_regions` and `axes_beyond_chance`. Column spreads and the weights of the kinds are
    those of the table in every draw.
    Source: [EscofierPages1994]; as the functions that it joins.
    """
    kinds, left_out = _mappable(answers)
    chosen, complete = _whose(kinds)
    tables = {kind.name: _without_levels(kind.values[chosen]) for kind in kinds}
    factor = multiple_factor_analysis(
        {name: table.mean(axis=0) for name, table in tables.items()},
        unscaled=[kind.name for kind in kinds if not kind.scaled],
        coffees=answers.coffees,
    )
    used = [kind for kind in kinds if kind.name in factor.groups]
    own = _weighted(used, tables, factor)
    chance = axes_beyond_chance(own, deals=affordable(DEALS, own.size), rng=rng)
    drawn = affordable(draws, own.size, least=_FEWEST_DRAWS)
    regions, why_not = _regions(own, answers.coffees, complete, chance, (level, drawn, rng))
    return TableMap(
        factor=factor,
        kinds=factor.groups,
        columns=_joined(kind.columns for kind in used),
        opposites=_joined(kind.opposites for kind in used),
        tasters=tuple(answers.tasters[one] for one in chosen),
        complete=complete,
        chance=chance,
        words=_axes_in_words(factor, used, chance),
        regions=regions,
        why_no_regions=why_not,
        left_out=(*left_out, *factor.left_out),
        own=own,
    )


def _joined(parts: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    return tuple(name for part in parts for name in part)


def _mappable(answers: MapAnswers) -> tuple[list[AnswerKind], list[str]]:
    """The kinds that make a map, and what is left out; refusals as `table_map`."""
    if len(answers.coffees) < FEWEST_COFFEES:
        raise TooFewObservations(
            f"A map needs {FEWEST_COFFEES} coffees; here are {len(answers.coffees)}.",
            todo="Read the scales and the words instead.",
        )
    if len(answers.coffees) > MOST_COFFEES:
        raise Refused(
            f"A map of {len(answers.coffees):,} coffees is read by nobody; {MOST_COFFEES} are the most.",
            todo="Map the coffees of one table.",
        )
    kinds, left_out = _covering(answers.kinds)
    if not kinds:
        raise TooFewObservations(
            "No kind of answer covers all coffees.", todo="Leave out the coffee that nobody answered about."
        )
    return kinds, left_out


def _whose(kinds: Sequence[AnswerKind]) -> tuple[list[int], bool]:
    """The rows of the tasters who make the map, and whether none of them left anything out."""
    count = len(kinds[0].values)
    full = [one for one in range(count) if all(np.isfinite(kind.values[one]).all() for kind in kinds)]
    some = [one for one in range(count) if any(np.isfinite(kind.values[one]).any() for kind in kinds)]
    complete = len(full) >= FEWEST_TASTERS or full == some
    return (full if complete else some), complete


def _covering(kinds: tuple[AnswerKind, ...]) -> tuple[list[AnswerKind], list[str]]:
    """The kinds with the columns in which every coffee has an answer, and the names of what is left out."""
    kept, left_out = [], []
    for kind in kinds:
        whole = np.flatnonzero(np.isfinite(kind.values).any(axis=0).all(axis=0)).tolist()
        left_out += [name for column, name in enumerate(kind.columns) if column not in whole]
        if whole:
            columns, opposites = (
                tuple(names[one] for one in whole) for names in (kind.columns, kind.opposites)
            )
            kept.append(AnswerKind(kind.name, columns, opposites, kind.values[:, :, whole], kind.scaled))
    return kept, left_out


def _without_levels(values: Floats) -> Floats:
    """Less each taster's level on each column; holes filled with the additive fit."""
    known = np.isfinite(values)
    if known.all():
        return np.asarray(values - values.mean(axis=1, keepdims=True))
    filled = np.where(known, values, 0.0)
    counts = np.maximum(known.sum(axis=1, keepdims=True), 1), np.maximum(known.sum(axis=0, keepdims=True), 1)
    coffee = np.zeros((1, *values.shape[1:]))
    for _ in range(_ROUNDS):
        level = np.where(known, filled - coffee, 0.0).sum(axis=1, keepdims=True) / counts[0]
        coffee = np.where(known, filled - level, 0.0).sum(axis=0, keepdims=True) / counts[1]
    fitted = np.where(known, filled - level, coffee)
    return np.asarray(fitted - fitted.mean(axis=1, keepdims=True))


def _weighted(kinds: Sequence[AnswerKind], tables: dict[str, Floats], factor: MultipleFactor) -> Floats:
    """Every taster's table in the unit of the map, all kinds side by side, shape (t, n, p)."""
    parts = []
    for kind, eigenvalue in zip(kinds, factor.group_eigenvalues, strict=True):
        table = tables[kind.name]
        mean = table.mean(axis=0)
        lengths = np.sqrt(((mean - mean.mean(axis=0)) ** 2).sum(axis=0))
        alive = lengths > np.sqrt(NOTHING) * np.abs(table).max(axis=(0, 1))
        unit = np.where(alive & kind.scaled, lengths, 1.0)
        parts.append(np.where(alive, table, 0.0) / unit / np.sqrt(eigenvalue))
    joined = np.concatenate(parts, axis=2)
    return np.asarray((joined - joined.mean(axis=1, keepdims=True)) * np.sqrt(joined.shape[1]))


def _regions(
    values: Floats,
    coffees: tuple[str, ...],
    complete: bool,
    chance: Floats,
    asked: tuple[float, int, np.random.Generator | None],
) -> tuple[Regions | None, str]:
    """The regions, or the sentence that says why there are none."""
    if chance[0] > CHANCE:
        return None, "No regions are drawn, since the places themselves may be chance."
    if not complete:
        return None, (f"No regions are drawn: they need {FEWEST_TASTERS} tasters who answered everything.")
    level, draws, rng = asked
    try:
        return map_regions(values, coffees=coffees, level=level, draws=draws, rng=rng), ""
    except Refused as refused:
        return None, f"No regions are drawn. {refused.message}"


def _axes_in_words(
    factor: MultipleFactor, kinds: Sequence[AnswerKind], chance: Floats
) -> tuple[AxisWords, ...]:
    """Each axis of the map; a column that has a word for little of it speaks at both ends."""
    columns, opposites = (_joined(kind.columns for kind in kinds), _joined(kind.opposites for kind in kinds))
    turned = [index for index, name in enumerate(opposites) if name]
    named = [*columns, *(opposites[index] for index in turned)]
    found = []
    for axis in range(min(AXES, factor.points.shape[1])):
        along = factor.correlations[:, axis]
        both = np.concatenate([along, -along[turned]])
        found.append(axis_words(both, named, p_value=float(chance[axis]) if axis < len(chance) else 1.0))
    return tuple(found)
