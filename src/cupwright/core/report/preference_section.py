"""Preference: which coffee such tasters would pick first, going by each one's own order alone."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit

from cupwright.core.analyse.choice_stages import MOST_TIED
from cupwright.core.analyse.choices import Choices
from cupwright.core.analyse.plackett_luce import plackett_luce
from cupwright.core.analyse.scores import Scores
from cupwright.core.report.document import (
    Block,
    Caveat,
    Column,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.question import question
from cupwright.core.report.wording import between, capital, counted, level_name, listed
from cupwright.errors import Refused

TITLE = "Which coffee would be picked first?"
_MOST_COFFEES = 60
# Five who all pick the same of two do so by luck once in 16 times, six once in 32.
_FEWEST_OF_TWO = 6
_MOST_PAIRS = 66
_COFFEES = (
    Column("Coffee"),
    Column("Picked first, share", 2, "right"),
    Column("From", 2, "right"),
    Column("To", 2, "right"),
    Column("Best, probability", 2, "right"),
    Column("Log worth", 2, "right"),
)
_PAIRS = (
    Column("Coffee"),
    Column("over"),
    Column("Picked, share", 2, "right"),
    Column("From", 2, "right"),
    Column("To", 2, "right"),
    Column("Better, probability", 2, "right"),
)


def preference_question(orders: Sequence[tuple[str, Scores]], *, level: float = 0.95) -> tuple[Block, ...]:
    """One section over all questions that tell what is preferred: (label, scores), more is better."""
    return question(TITLE, [(label, preference_section(scores, level=level)) for label, scores in orders])


def preference_section(scores: Scores, *, name: str = "preference", level: float = 0.95) -> tuple[Block, ...]:
    """The answer, its picture, shares, pairs, and what to know about them.

    Parameters
    ----------
    scores : Scores
        Liking, or the orders of `table_ranks`; each taster's own order alone is looked at, more is better.
    name : str
        The address of the picture and, with an ending, of the tables.
    """
    heading = Heading(TITLE)
    orders, left_out = _orders(scores)
    if len(orders) < 2:
        return heading, Paragraph("Fewer than two tasters put coffees in an order: nothing to go by.")
    if len(orders) < (_FEWEST_OF_TWO if orders.shape[1] < 3 else 3):
        size = f"{counted(orders.shape[1], 'coffee')} and {counted(len(orders), 'order')}"
        return heading, Paragraph(f"With {size} no share of first picks could stand out from chance.")
    if orders.shape[1] > _MOST_COFFEES:
        return heading, Paragraph(f"With {orders.shape[1]} coffees shares of first picks say little.")
    try:
        found = plackett_luce(orders, coffees=scores.coffees, level=level)
    except Refused as refusal:
        return heading, Paragraph(f"Nothing can be said of first picks. {refusal.message}")
    return (
        heading,
        Paragraph(answer(found)),
        _figure(found, name),
        _shares(found, name),
        *_pairs(found, name),
        *_caveats(found, left_out),
    )


def answer(found: Choices) -> str:
    """In a sentence: how often the leader would be picked, and over which coffees that is sure."""
    place = max(range(len(found.coffees)), key=lambda at: found.coffees[at].estimate)
    leader, share = found.coffees[place].coffee, found.picked_first[place]
    said = (
        f"Asked for one coffee, such tasters would pick {leader} first in about {_of_ten(share.estimate)} "
        f"({share.estimate:.2f}; {between(share, 2)})"
    )
    apart = [pair for pair in found.pairs if pair.low > 0 or pair.high < 0]
    if not apart:
        told = "no two coffees can" if len(found.coffees) > 2 else "the two coffees cannot"
        return f"{said}; {told} be told apart for sure."
    behind = [_other(pair.a, pair.b, leader) for pair in apart if leader in (pair.a, pair.b)]
    if not behind:
        return f"{said}; that it is ahead of any single other is not sure."
    if len(behind) == len(found.coffees) - 1:
        return f"{said}; it is ahead of {'the other' if len(behind) == 1 else 'each other one'}."
    return f"{said}; it is ahead of {listed(behind)}, of the rest not for sure."


def _of_ten(share: float) -> str:
    tenths = round(10 * share)
    if tenths == 0:
        return "fewer than 1 of 20 cases"
    return "nearly all cases" if tenths == 10 else f"{tenths} of 10 cases"


def _other(a: str, b: str, one: str) -> str:
    return b if a == one else a


def _orders(scores: Scores) -> tuple[NDArray[np.float64], int]:
    """Places, shape (n_tasters, n_coffees), and how many tasters are left out for too many equal ones."""
    rows, left_out = [], 0
    # Means of repeats that differ by rounding of the last binary digits are the same place.
    for column in np.round(-scores.means.T, 9):
        told = column[~np.isnan(column)]
        places, together = np.unique(told, return_counts=True)
        if len(places) < 2:
            continue
        if together.max() > MOST_TIED:
            left_out += 1
            continue
        rows.append(column)
    return np.array(rows).reshape(len(rows), len(scores.coffees)), left_out


def _ranked(found: Choices) -> list[int]:
    return sorted(range(len(found.coffees)), key=lambda at: -found.coffees[at].estimate)


def _figure(found: Choices, name: str) -> Figure:
    ranked = [(found.coffees[at].coffee, found.picked_first[at]) for at in _ranked(found)]
    said = "; ".join(f"{coffee} {share.estimate:.2f} ({between(share, 2)})" for coffee, share in ranked)
    return Figure(
        FigureKind.INTERVALS,
        tuple(
            {"label": coffee, "estimate": share.estimate, "low": share.low, "high": share.high}
            for coffee, share in ranked
        ),
        f"How often each coffee would be picked first, the most first: {said}.",
        f"Each share lies in its line with {level_name(found.level)}.",
        x_title="share of tasters who would pick it first",
        name=name,
        domain=(0.0, 1.0),
    )


def _shares(found: Choices, name: str) -> TableBlock:
    rows = []
    for at in _ranked(found):
        one, share = found.coffees[at], found.picked_first[at]
        rows.append((one.coffee, share.estimate, share.low, share.high, one.p_best, one.estimate))
    caption = "Shares add up to 1. Log worths are about their mean; their differences are log odds."
    return TableBlock(_COFFEES, tuple(rows), caption, f"{name}-shares")


def _pairs(found: Choices, name: str) -> tuple[Block, ...]:
    if not 0 < len(found.pairs) <= _MOST_PAIRS:
        return ()
    rows = tuple(
        (pair.a, pair.b, *expit([pair.difference, pair.low, pair.high]).tolist(), pair.p_a_better)
        for pair in found.pairs
    )
    caption = (
        "How often the one would be picked over the other by tasters who see a difference; "
        f"the intervals of all pairs hold together with {level_name(found.level)}."
    )
    return (TableBlock(_PAIRS, rows, caption, f"{name}-pairs"),)


def _caveats(found: Choices, left_out: int) -> tuple[Block, ...]:
    ties = " Equal places are part of the model." if found.ties else ""
    said = [
        f"Method: the first is picked from all, the next from the rest, and so on, each in proportion to its "
        f"worth; {counted(found.comparisons, 'order')} went in, distances between scores did not.{ties}"
    ]
    if found.penalised:
        said.append(
            "A coffee never lost to the others, or never won: so few orders set no end to its worth. Half an "
            "order for and half one against it keep it finite; the true share may be more extreme."
        )
    if left_out:
        verb = "is" if left_out == 1 else "are"
        said.append(
            capital(
                f"{counted(left_out, 'taster')} who put more than {MOST_TIED} coffees level {verb} left out."
            )
        )
    return tuple(Caveat(one) for one in said)
