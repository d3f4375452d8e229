"""Coffees by the order of the answers alone, beside the answer by points, on a short scale."""

from math import exp

from cupwright.core.analyse.coffee_estimates import CoffeeComparison
from cupwright.core.analyse.coffee_levels import CoffeeLevel, LevelPair
from cupwright.core.analyse.cumulative_link_mixed import CumulativeLinkMixed
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.short_scale import coffees_by_order
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
from cupwright.core.report.wording import counted, level_name, listed
from cupwright.errors import Refused

_LEVELS = (
    Column("Coffee"),
    Column("Log odds about the mean", 2, "right"),
    Column("From", 2, "right"),
    Column("To", 2, "right"),
    Column("Best, probability", 2, "right"),
)
_PAIRS = (
    Column("Coffee"),
    Column("less"),
    Column("Log odds", 2, "right"),
    Column("From", 2, "right"),
    Column("To", 2, "right"),
    Column("Higher, probability", 2, "right"),
)
_PROBABLY = 0.5
_MOST_NAMED = 3
_MOST_PAIRS = 66


def ordinal_section(
    scores: Scores,
    attribute: str = "",
    *,
    level: float = 0.95,
    found: CumulativeLinkMixed | None = None,
    by_points: CoffeeComparison | None = None,
) -> tuple[Block, ...]:
    """The answer, its picture, levels, differences and what to know about them.

    `found` is the fit, if it was made already; `by_points` the answer that it is set beside.
    """
    heading = Heading("Coffees by the order of answers" + (f": {attribute}" if attribute else ""))
    try:
        found = found or coffees_by_order(scores, level=level)
    except Refused as silence:
        return heading, Paragraph(f"Too little to go by the order of answers alone. {silence.message}")
    return (
        heading,
        Paragraph(answer(found, by_points)),
        _figure(found, attribute),
        _levels(found),
        *_pairs(found),
        *_caveats(found),
    )


def answer(found: CumulativeLinkMixed, by_points: CoffeeComparison | None = None) -> str:
    """In a sentence or two: the best coffee, what is told apart, and whether points say the same."""
    best = max(found.coffees, key=lambda one: one.p_best)
    if best.p_best >= _PROBABLY:
        said = f"Whatever the steps are worth, coffee {best.coffee} probably has the highest answers"
        said += f" ({_chance(best.p_best)})"
    else:
        said = f"By the order of answers no coffee stands out ({best.coffee} is highest with a probability of"
        said += f" {_chance(best.p_best)} only)"
    return f"{said}; {_told_apart(found)}.{_beside(best, by_points)}"


def _told_apart(found: CumulativeLinkMixed) -> str:
    apart = [pair for pair in found.pairs if _is_apart(pair)]
    if not apart:
        return "no two can be told apart for sure" if len(found.pairs) > 1 else "the two cannot be told apart"
    if len(apart) == len(found.pairs) > 1:
        return "all can be told apart"
    apart.sort(key=lambda pair: -abs(pair.difference))
    named = [_higher(pair) for pair in apart[:_MOST_NAMED]]
    more = len(apart) - _MOST_NAMED
    return f"told apart: {listed(named + ([counted(more, 'more pair')] if more > 0 else []))}"


def _is_apart(pair: LevelPair) -> bool:
    return pair.low > 0 or pair.high < 0


def _higher(pair: LevelPair) -> str:
    return f"{pair.a} above {pair.b}" if pair.difference > 0 else f"{pair.b} above {pair.a}"


def _beside(best: CoffeeLevel, by_points: CoffeeComparison | None) -> str:
    if by_points is None:
        return ""
    first = max(by_points.coffees, key=lambda one: one.p_best)
    if first.coffee == best.coffee:
        return " By points it is the same coffee."
    return (
        f" By points it is {first.coffee} ({_chance(first.p_best)}): which of the two leads hangs on what "
        "the steps are worth."
    )


def _chance(share: float) -> str:
    if share > 0.99:
        return "over 0.99"
    return "under 0.01" if share < 0.01 else f"{share:.2f}"


def _ranked(found: CumulativeLinkMixed) -> list[CoffeeLevel]:
    return sorted(found.coffees, key=lambda one: -one.estimate)


def _figure(found: CumulativeLinkMixed, attribute: str) -> Figure:
    ranked = _ranked(found)
    said = "; ".join(f"{one.coffee} {one.estimate:.2f} ({one.low:.2f} to {one.high:.2f})" for one in ranked)
    return Figure(
        FigureKind.INTERVALS,
        tuple(
            {"label": one.coffee, "estimate": one.estimate, "low": one.low, "high": one.high}
            for one in ranked
        ),
        f"Log odds of higher answers{f' for {attribute}' if attribute else ''}, about the mean of all, "
        f"with {level_name(found.level)} intervals, the highest first: {said}.",
        "One to the right: the odds of a higher answer are 2.7 times those of the mean.",
        x_title="log odds of a higher answer, about the mean",
        name="by-order",
    )


def _levels(found: CumulativeLinkMixed) -> TableBlock:
    rows = tuple((one.coffee, one.estimate, one.low, one.high, one.p_best) for one in _ranked(found))
    caption = f"From {counted(found.observations, 'answer')}; {_spread(found)}"
    return TableBlock(_LEVELS, rows, caption, "by-order-table")


def _spread(found: CumulativeLinkMixed) -> str:
    if found.taster_sd == 0:
        return "no spread of tasters' own levels shows beyond chance."
    times = exp(found.taster_sd)
    return (
        f"tasters' own levels spread by {found.taster_sd:.2f} "
        f"(a taster one spread above another: odds {times:.2g} times as high)."
    )


def _pairs(found: CumulativeLinkMixed) -> tuple[Block, ...]:
    if not 0 < len(found.pairs) <= _MOST_PAIRS:
        return ()
    rows = tuple(
        (pair.a, pair.b, pair.difference, pair.low, pair.high, pair.p_a_better) for pair in found.pairs
    )
    caption = f"All differences; their intervals hold together with {level_name(found.level)}."
    return (TableBlock(_PAIRS, rows, caption, "by-order-pairs"),)


def _caveats(found: CumulativeLinkMixed) -> tuple[Block, ...]:
    said = [
        "Method: cumulative logits; the steps of the scale may be worth anything, but a coffee or a taster "
        "moves all of them alike. Coffees are not drawn towards their mean here, as they are by points; "
        "tasters' levels are taken as normal."
    ]
    if found.penalised:
        said.append(
            "The answers alone set no limit to how far apart some coffees are, as when one always got the "
            "top answers. A weak penalty keeps the numbers finite: trust the direction, not the size."
        )
    return tuple(Caveat(one) for one in said)
