"""Ranks: do the coffees differ when only each taster's own order counts?"""

from math import factorial

import numpy as np

from cupwright.core.analyse.durbin import durbin, is_balanced_plan
from cupwright.core.analyse.friedman import Friedman, friedman
from cupwright.core.analyse.rank_null import RESAMPLES, within_taster_ranks
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.skillings_mack import skillings_mack
from cupwright.core.report.document import (
    Block,
    Caveat,
    Cell,
    Column,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.wording import capital, chance, counted, level_name, listed
from cupwright.errors import Refused

_MOST_SAID = 6
_MOST_PAIRS = 66
_MOST_PICTURED = 60
_PLACE = "mean place (1: highest)"


def ranks_section(
    scores: Scores,
    *,
    label: str = "",
    name: str = "ranks",
    level: float = 0.95,
    resamples: int = RESAMPLES,
    found: Friedman | None = None,
) -> tuple[Block, ...]:
    """Ranks of one attribute; more of it ranks higher.

    Parameters
    ----------
    scores : Scores
        Of one attribute, or the orders of `table_ranks`.
    label : str
        What the attribute is called; `name` is the address of its picture and tables.
    found : Friedman, optional
        Of these scores, where they have been tested already.
    """
    heading = Heading(f"Ranks: {label}" if label else "Ranks")
    try:
        if found or scores.counts.all():
            return (heading, *_full(found or friedman(scores, level=level, resamples=resamples), name))
        return (heading, *_with_holes(scores, name, level, resamples))
    except Refused as refusal:
        return (heading, Paragraph(f"Nothing can be said from ranks. {refusal.message}"))


def _full(found: Friedman, name: str) -> list[Block]:
    blocks: list[Block] = [Paragraph(_answer(found))]
    if _is_beyond_reach(found):
        return blocks
    if len(found.coffees) <= _MOST_PICTURED:
        blocks.append(_figure(found, name))
    blocks.append(_table(found, name))
    if 0 < len(found.pairs) <= _MOST_PAIRS:
        blocks.append(_pairs(found, name))
    how = {
        "exact": "All orders that the tasters could have given are gone through.",
        "permutation": "Each taster's order was shuffled many times over.",
        "chi-squared": "The table is so large that the large-sample formula serves.",
    }[found.method]
    blocks.append(
        Caveat(
            f"Friedman's test: only each taster's own order counts, not how far apart the scores lie. {how} "
            "Pairs are compared by the range of all coffees, so all of them may be looked at."
        )
    )
    return blocks


def _answer(found: Friedman) -> str:
    alpha, p = 1 - found.level, chance(found.p)
    size = f"{counted(len(found.coffees), 'coffee')} and {counted(found.tasters, 'taster')}"
    if _is_beyond_reach(found):
        return f"With {size} no order could stand out from chance, however well the tasters agree."
    if found.p > alpha:
        same = "That is no proof that they are alike."
        return f"Ranked within each taster, the coffees cannot be told apart ({p}). {same}"
    apart = [_apart(found, pair.a, pair.b) for pair in found.pairs if pair.p <= alpha]
    said = f"The coffees differ in rank ({p}): {listed(_highest(found))} {_stands(found)} highest."
    if not found.pairs:
        return said
    if not apart:
        return f"{said} No single pair is clear when all pairs are looked at."
    more = len(apart) - _MOST_SAID
    clear = (
        listed(apart[:_MOST_SAID]) if more <= 0 else f"{', '.join(apart[:_MOST_SAID])} and {more} more pairs"
    )
    return f"{said} Clearly higher: {clear}; {_the_rest(len(found.pairs) - len(apart))}"


def _is_beyond_reach(found: Friedman) -> bool:
    """Whether even full agreement happens by luck too often: at most 3 coffees and 2 tasters, or 2 and 5."""
    coffees = len(found.coffees)
    return coffees < 5 and 1 / factorial(coffees) ** (found.tasters - 1) > 1 - found.level


def _the_rest(unclear: int) -> str:
    if not unclear:
        return "so every pair is told apart."
    return f"{counted(unclear, 'other pair')} cannot be told apart."


def _highest(found: Friedman) -> list[str]:
    most = max(found.rank_sums)
    return [coffee for coffee, total in zip(found.coffees, found.rank_sums, strict=True) if total == most]


def _stands(found: Friedman) -> str:
    return "stands" if len(_highest(found)) == 1 else "stand"


def _apart(found: Friedman, a: str, b: str) -> str:
    sums = dict(zip(found.coffees, found.rank_sums, strict=True))
    high, low = (a, b) if sums[a] > sums[b] else (b, a)
    return f"{high} than {low}"


def _places(found: Friedman) -> list[float]:
    return [len(found.coffees) + 1 - mean for mean in found.mean_ranks]


def _reach(found: Friedman) -> float | None:
    """Half the least difference: two coffees differ where their bars do not meet."""
    least = found.least_difference_all
    return None if least is None else least / found.tasters / 2


def _figure(found: Friedman, name: str) -> Figure:
    places, reach = _places(found), _reach(found)
    said = "; ".join(f"{coffee} {place:.2f}" for coffee, place in zip(found.coffees, places, strict=True))
    return Figure(
        kind=FigureKind.INTERVALS,
        rows=tuple(
            {
                "label": coffee,
                "estimate": place,
                "low": None if reach is None else place - reach,
                "high": None if reach is None else place + reach,
            }
            for coffee, place in zip(found.coffees, places, strict=True)
        ),
        alt=f"Mean place per coffee, 1 the highest. {said}.",
        caption=(
            ""
            if reach is None
            else f"Two coffees differ where their bars leave a gap ({level_name(found.level)}, all pairs)."
        ),
        x_title=_PLACE,
        name=name,
    )


def _table(found: Friedman, name: str) -> TableBlock:
    rows = list(zip(found.coffees, found.rank_sums, _places(found), strict=True))
    rows.sort(key=lambda row: row[2])
    ratio = "" if found.f is None or found.p_f is None else f"; F {found.f:.2f}, {chance(found.p_f)}"
    return TableBlock(
        columns=(Column("Coffee"), Column("Sum of ranks", 1, "right"), Column("Mean place", 2, "right")),
        rows=tuple(rows),
        caption=(
            f"Chi-squared {found.chi2:.2f} on {found.df}: {chance(found.p)} ({found.method}), "
            f"{chance(found.p_chi2)} by the large-sample formula{ratio}."
        ),
        name=name,
    )


def _pairs(found: Friedman, name: str) -> TableBlock:
    return TableBlock(
        columns=(
            Column("Coffee"),
            Column("and coffee"),
            Column("Difference of rank sums", 1, "right"),
            Column("p, all pairs", 4, "right"),
        ),
        rows=tuple((pair.a, pair.b, pair.difference, pair.p) for pair in found.pairs),
        caption="All pairs; each p allows for all of them having been looked at.",
        name=f"{name}-pairs",
    )


def _with_holes(scores: Scores, name: str, level: float, resamples: int) -> list[Block]:
    if is_balanced_plan(scores):
        balanced = durbin(scores, resamples=resamples)
        p, method = balanced.p, f"Durbin's test, {balanced.method}"
        tasters, statistic = balanced.tasters, f"chi-squared {balanced.chi2:.2f} on {balanced.df}"
    else:
        uneven = skillings_mack(scores, resamples=resamples)
        p, method = uneven.p, f"the test of Skillings and Mack, {uneven.method}"
        tasters, statistic = uneven.tasters, f"{uneven.statistic:.2f} on {uneven.df}"
    rows = _own_places(scores)
    said = (
        f"The coffees differ in rank ({chance(p)}); {rows[0][0]} stood highest in the flights it was in."
        if p <= 1 - level and rows
        else f"Ranked within each taster, the coffees cannot be told apart ({chance(p)})."
    )
    return [
        Paragraph(f"{said} {capital(counted(tasters, 'taster'))} had two coffees or more."),
        TableBlock(
            columns=(
                Column("Coffee"),
                Column("Tasters", 0, "right"),
                Column("Place in its flights, 0 highest to 1 lowest", 2, "right"),
            ),
            rows=tuple(rows),
            caption=f"Not everybody had every coffee: {method}; {statistic}.",
            name=name,
        ),
        Caveat("Holes do no harm only if they have nothing to do with how the coffees were found."),
    ]


def _own_places(scores: Scores) -> list[tuple[Cell, ...]]:
    """Each coffee's mean place among what its tasters had, the highest first."""
    ranks = within_taster_ranks(scores.means)
    size = (~np.isnan(ranks)).sum(axis=1, keepdims=True)
    usable = (size[:, 0] > 1) & (np.nanmax(np.where(size > 0, ranks, 0.0), axis=1) > 0)
    relative = (size[usable] - ranks[usable]) / (size[usable] - 1)
    found = [
        (coffee, int((~np.isnan(column)).sum()), float(np.nanmean(column)))
        for coffee, column in zip(scores.coffees, relative.T, strict=True)
        if not np.isnan(column).all()
    ]
    return [*sorted(found, key=lambda row: row[2])]
