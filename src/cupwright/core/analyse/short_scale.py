"""Short scales: where the answers are few whole steps, their order can be asked for beside their mean."""

import numpy as np

from cupwright.core.analyse.cumulative_link_mixed import CumulativeLinkMixed, cumulative_link_mixed
from cupwright.core.analyse.scores import Scores
from cupwright.errors import TooLarge

MOST_STEPS = 10
# Beyond, a report would wait for it; so many coffees are compared well enough by their means.
_MOST_COFFEES = 20
_MOST_SCORES = 1000


def is_short(scores: Scores | None) -> bool:
    """Whether all values are whole and lie within ten steps, of two coffees and two tasters at least."""
    if scores is None or not len(scores) or min(len(scores.coffees), len(scores.tasters)) < 2:
        return False
    whole = bool((scores.value == np.round(scores.value)).all())
    return whole and float(np.ptp(scores.value)) <= MOST_STEPS - 1


def coffees_by_order(scores: Scores, *, level: float = 0.95) -> CumulativeLinkMixed:
    """The coffees, tasters random, from the order of the answers; the spread's own interval is left out.

    Raises
    ------
    TooLarge
        If there are more than 20 coffees or 1,000 scores.
    TooFewObservations, NoSpread
        As `cumulative_link_mixed` does.
    """
    if len(scores.coffees) > _MOST_COFFEES or len(scores) > _MOST_SCORES:
        raise TooLarge(
            f"The order of answers is taken of up to {_MOST_COFFEES} coffees and {_MOST_SCORES:,} scores.",
            todo="Choose some coffees.",
        )
    return cumulative_link_mixed(scores, level=level, profile=False)
