"""Coffees: which stands higher, by how much, and how sure, for one attribute."""

from cupwright.core.analyse.coffee_estimates import CoffeeComparison, CoffeeEstimate, compare_coffees
from cupwright.core.analyse.coffee_pairs import PairComparison
from cupwright.core.analyse.components import Components, crossed_components
from cupwright.core.analyse.scores import Scores
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
from cupwright.core.report.wording import capital, counted, level_name, listed
from cupwright.errors import Refused

_ESTIMATES = (
    Column("Coffee"),
    Column("Estimate", 2, "right"),
    Column("From", 2, "right"),
    Column("To", 2, "right"),
    Column("Highest, probability", 2, "right"),
    Column("Mean", 2, "right"),
    Column("Scores", 0, "right"),
)
_PAIRS = (
    Column("Coffee"),
    Column("less"),
    Column("Difference", 2, "right"),
    Column("From", 2, "right"),
    Column("To", 2, "right"),
    Column("Higher, probability", 2, "right"),
)
_PARTS = (Column("What moves a score"), Column("Variance", 3, "right"), Column("Spread", 2, "right"))
_PART_NAMES = {
    "coffee": "coffees",
    "taster": "tasters' levels",
    "coffee_taster": "tastes: one taster's liking of one coffee",
    "residual": "the rest, bowl to bowl",
}
# A best coffee that is less likely than that is not called "probably" so.
_PROBABLY = 0.5
_NUMBERS = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_MOST_NAMED = 3


def coffees_section(
    scores: Scores,
    attribute: str = "",
    *,
    step: float = 0.0,
    ends: tuple[float, float] | None = None,
    level: float = 0.95,
    found: CoffeeComparison | None = None,
) -> tuple[Block, ...]:
    """The answer, its picture, estimates, differences, variances and what to know about them.

    `step` is the scale's step, `ends` its lowest and highest point; `found` the comparison, if it was made
    already. What cannot be said is a sentence.
    """
    heading = Heading("Which coffee stands highest" + (f": {attribute}" if attribute else ""))
    try:
        found = found or compare_coffees(scores, level=level, step=step)
    except Refused as silence:
        return heading, Paragraph(f"Too little to say which coffee stands highest. {silence.message}")
    return (
        heading,
        Paragraph(answer(found)),
        _figure(found, attribute, ends),
        _estimates(found, attribute),
        *_pairs(found, attribute),
        *_components(scores, attribute, level),
        *_caveats(found, ends),
    )


def answer(found: CoffeeComparison) -> str:
    """In a sentence: the highest coffee and its probability; which coffees cannot be told apart.

    More of an attribute need not be better (dryness, weight): the sentence says higher, never better.
    """
    best = max(found.coffees, key=lambda one: one.p_best)
    count = len(found.coffees)
    many = _NUMBERS[count] if count < len(_NUMBERS) else str(count)
    if best.p_best >= _PROBABLY:
        said = f"Coffee {best.coffee} probably stands highest of the {many} ({_chance(best.p_best)})"
    else:
        said = (
            f"None of the {many} stands out: coffee {best.coffee} stands highest with a probability "
            f"of {_chance(best.p_best)} only"
        )
    return f"{said}; {_told_apart(found.pairs, best)}."


def _told_apart(pairs: tuple[PairComparison, ...], best: CoffeeEstimate) -> str:
    if not pairs:
        return "with so many coffees pairs are not listed"
    together = [pair for pair in pairs if not pair.apart]
    if not together:
        return "all can be told apart" if len(pairs) > 1 else "the two can be told apart"
    if len(together) == len(pairs) > 1:
        return "no two can be told apart for sure"
    rivals = [_other(pair, best.coffee) for pair in together if best.coffee in (pair.a, pair.b)]
    if rivals:
        return (
            f"{listed([best.coffee, *rivals])} cannot be told apart for sure"
            if len(rivals) == 1
            else f"it cannot be told for sure from {listed(rivals[:_MOST_NAMED] + _more(rivals))}"
        )
    return f"it is told from all others; {_among_the_others(pairs, together, best.coffee)}"


def _among_the_others(pairs: tuple[PairComparison, ...], together: list[PairComparison], best: str) -> str:
    others = [pair for pair in pairs if best not in (pair.a, pair.b)]
    if len(together) == len(others) > 1:
        return "of the others no two can be told apart for sure"
    named = [f"{pair.a} from {pair.b}" for pair in together[:_MOST_NAMED]] + _more_pairs(together)
    return f"not for sure {listed(named)}"


def _more_pairs(together: list[PairComparison]) -> list[str]:
    rest = len(together) - _MOST_NAMED
    return [counted(rest, "other pair")] if rest > 0 else []


def _more(rivals: list[str]) -> list[str]:
    rest = len(rivals) - _MOST_NAMED
    return [counted(rest, "other")] if rest > 0 else []


def _other(pair: PairComparison, one: str) -> str:
    return pair.b if pair.a == one else pair.a


def _chance(share: float) -> str:
    if share > 0.99:
        return "over 0.99"
    return "under 0.01" if share < 0.01 else f"{share:.2f}"


def _figure(found: CoffeeComparison, attribute: str, ends: tuple[float, float] | None) -> Figure:
    rows: tuple[dict[str, Cell], ...] = tuple(
        {"label": one.coffee, "estimate": one.estimate, "low": one.low, "high": one.high}
        for one in found.ranked
    )
    said = "; ".join(
        f"{one.coffee} {one.estimate:.2f} ({one.low:.2f} to {one.high:.2f})" for one in found.ranked
    )
    inside = ends and all(ends[0] <= one.low and one.high <= ends[1] for one in found.coffees)
    return Figure(
        FigureKind.INTERVALS,
        rows,
        f"Coffees with their {level_name(found.level)} intervals, the highest first: {said}.",
        f"Each coffee's true value lies in its line with {level_name(found.level)}.",
        x_title=attribute or "points",
        name=_name("coffees", attribute),
        domain=ends if inside else None,
    )


def _estimates(found: CoffeeComparison, attribute: str) -> TableBlock:
    rows = tuple(
        (one.coffee, one.estimate, one.low, one.high, one.p_best, one.mean, one.scores)
        for one in found.ranked
    )
    caption = "Estimates are drawn towards the mean of all, the more the less the scores agree."
    return TableBlock(_ESTIMATES, rows, caption, _name("coffees-table", attribute))


def _pairs(found: CoffeeComparison, attribute: str) -> tuple[Block, ...]:
    if not found.pairs:
        return ()
    rows = tuple(
        (pair.a, pair.b, pair.difference, pair.low, pair.high, pair.p_a_better) for pair in found.pairs
    )
    caption = f"All differences; their intervals hold together with {level_name(found.level)}."
    return (TableBlock(_PAIRS, rows, caption, _name("coffee-pairs", attribute)),)


def _components(scores: Scores, attribute: str, level: float) -> tuple[Block, ...]:
    try:
        found = crossed_components(scores, level=level)
    except Refused:
        return ()  # One taster: the comparison stands, and its caveat says on what.
    rows = tuple(
        (_PART_NAMES[row["part"]], row["variance"], row["deviation"])
        for row in found.rows()
        if row["variance"] is not None
    )
    block = TableBlock(_PARTS, rows, _about(found), _name("components", attribute))
    zero = [_PART_NAMES[name].split(":")[0] for name in found.truncated]
    if not zero:
        return (block,)
    said = f"{capital(listed(zero))} moved the scores less than chance alone would; taken as 0."
    return block, Caveat(said)


def _about(found: Components) -> str:
    if found.coffee_taster is None:
        return "Without repeats, tastes and the rest cannot be told apart; the rest holds both."
    return "How much each part moves one score."


def _caveats(found: CoffeeComparison, ends: tuple[float, float] | None) -> tuple[Block, ...]:
    said = [
        "Method: a model of coffees, tasters and their tastes, all random; intervals and probabilities from "
        "draws in which the variances are unknown too. A coffee's value is what tasters like these "
        "would give it on average."
    ]
    if found.taster is not None:
        said.append(f"This is what {found.taster} finds; it says nothing about other tasters.")
    if ends and any(one.low < ends[0] or one.high > ends[1] for one in found.coffees):
        said.append(
            f"An interval reaches past the end of the scale ({ends[0]:g} to {ends[1]:g}): the scores crowd "
            "at that end, where equal steps no longer mean equal differences."
        )
    return tuple(Caveat(one) for one in said)


def _name(what: str, attribute: str) -> str:
    plain = "".join(letter if letter.isalnum() else "-" for letter in attribute.lower()).strip("-")
    return f"{what}-{plain}" if plain else what
