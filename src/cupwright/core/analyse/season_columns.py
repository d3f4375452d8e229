"""Season columns: the scores of many tables as one set of columns."""

from collections import defaultdict
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from cupwright.core.analyse.overview import ScoreColumns
from cupwright.core.analyse.scores import Scores, counted_repeats
from cupwright.core.plan.names import folded


@dataclass(frozen=True, slots=True)
class TableScores:
    """One opened table: its name, its sheet's (with the version), and attribute -> its scores.

    `scales`: attribute -> what tells its scale from another of the same name, such as its ends; attributes of
    which nothing is known are taken to be on one scale.
    """

    table: str
    sheet: str
    attributes: Mapping[str, Scores]
    scales: Mapping[str, Hashable]


@dataclass(frozen=True, slots=True)
class SeasonColumns:
    """All scores, and the table of each (index into `tables`, the oldest first)."""

    scores: ScoreColumns
    table: np.ndarray
    tables: tuple[str, ...]

    def of(self, attribute: str) -> Scores | None:
        """The scores of one attribute with those names alone that occur in it; None without any."""
        whole = self.scores
        if attribute not in whole.attributes:
            return None
        rows = np.flatnonzero(np.asarray(whole.attribute) == whole.attributes.index(attribute))
        coffees, coffee = _used(whole.coffees, whole.coffee[rows])
        tasters, taster = _used(whole.tasters, whole.taster[rows])
        tables, table = _used(self.tables, self.table[rows])
        value = np.asarray(whole.value[rows], dtype=np.float64)
        repeat = counted_repeats(coffee, taster, table)
        return Scores(coffees, tasters, coffee, taster, value, repeat, table=table, tables=tables)


def season_columns(tables: Sequence[TableScores]) -> SeasonColumns:
    """The tables put together, in their order.

    Tasters are the same where their names are, letter case apart. An attribute of one name whose scales
    differ from sheet to sheet is kept apart, with the sheet's name behind it.
    """
    scales: dict[str, set[Hashable]] = defaultdict(set)
    for one in tables:
        for name in one.scales.keys() & one.attributes.keys():
            scales[name].add(one.scales[name])
    coffees, tasters, attributes = _Names(), _Names(), _Names()
    parts = []
    for number, one in enumerate(tables):
        for name, scores in one.attributes.items():
            called = name if len(scales[name]) < 2 else f"{name} ({one.sheet})"
            coffee, taster = coffees.numbers(scores.coffees), tasters.numbers(scores.tasters)
            count = len(scores)
            attribute = np.full(count, attributes.number(called))
            table = np.full(count, number)
            parts.append((coffee[scores.coffee], taster[scores.taster], attribute, table, scores.value))
    empty = [np.zeros(0)] * 5
    coffee, taster, attribute, table, value = (
        map(np.concatenate, zip(*parts, strict=True)) if parts else empty
    )
    return SeasonColumns(
        ScoreColumns(
            coffees.all,
            tasters.all,
            attributes.all,
            coffee.astype(np.int32),
            taster.astype(np.int32),
            attribute.astype(np.int32),
            value.astype(np.float64),
        ),
        table.astype(np.int32),
        tuple(one.table for one in tables),
    )


class _Names:
    """Names numbered as they come; those that differ in letter case alone are one."""

    def __init__(self) -> None:
        self._known: dict[str, int] = {}
        self._shown: list[str] = []

    @property
    def all(self) -> tuple[str, ...]:
        return tuple(self._shown)

    def number(self, name: str) -> int:
        at = self._known.setdefault(folded(name), len(self._shown))
        if at == len(self._shown):
            self._shown.append(name)
        return at

    def numbers(self, names: Sequence[str]) -> np.ndarray:
        return np.array([self.number(name) for name in names], dtype=np.int64)


def _used(names: tuple[str, ...], index: np.ndarray) -> tuple[tuple[str, ...], np.ndarray]:
    found, at = np.unique(index, return_inverse=True)
    return tuple(names[one] for one in found), at.astype(np.int64)
