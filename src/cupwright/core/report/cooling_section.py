"""As it cools: how points, colours and words move with the temperature of the cup."""

from collections.abc import Mapping, Sequence

from cupwright.core.analyse.as_it_cools import CoffeeCooling, CoolingTrend
from cupwright.core.analyse.words_as_they_cool import WordCooling
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
from cupwright.core.report.wording import between, chance, counted, level_name, listed

_SURE = 0.05
_MOST_LINES = 6
_PER_10_K = "for each 10 K cooler"
_COLUMNS = (
    Column("Coffee"),
    Column("Scores", 0, "right"),
    Column("From, °C", 0, "right"),
    Column("To, °C", 0, "right"),
    Column("Points for 10 K cooler", 2, "right"),
    Column("from", 2, "right"),
    Column("to", 2, "right"),
)
_WORD_COLUMNS = (
    Column("Word"),
    Column("Uses", 0, "right"),
    Column("Answers", 0, "right"),
    Column("Odds for 10 K cooler", 2, "right"),
    Column("from", 2, "right"),
    Column("to", 2, "right"),
    Column("p", 4, "right"),
    Column("p, all words counted", 4, "right"),
)


def cooling_section(
    found: CoolingTrend, *, label: str = "", unit: str = "points", name: str = "cooling"
) -> tuple[Block, ...]:
    """How one attribute moves as the cups cool.

    Parameters
    ----------
    found : CoolingTrend
    label : str
        What the attribute is called; `name` is the address of its picture and tables.
    unit : str
        What the attribute is counted in.
    """
    return (
        Heading(f"As it cools: {label}" if label else "As it cools"),
        Paragraph(" ".join(_answer(found, unit))),
        *_figure(found, label, unit, name),
        _table(found, name),
        *_caveats(found),
    )


def _answer(found: CoolingTrend, unit: str) -> list[str]:
    moving = [one for one in found.coffees if one.slope.found and one.slope.found.differs_from_zero]
    told = [one for one in found.coffees if one.slope.found]
    said = [f"{listed([_moves(one, unit) for one in moving])} {_PER_10_K}."] if moving else []
    still = [one.coffee for one in told if one not in moving]
    if still:
        said.append(f"Whether {listed(still)} {'moves' if len(still) == 1 else 'move'} cannot be told.")
    if not told:
        said.append(_overall(found, unit))
    if found.p_same is not None:
        said.append(_same(found.p_same))
    return said


def _moves(one: CoffeeCooling, unit: str) -> str:
    slope = one.slope.found
    if slope is None:
        return one.coffee
    verb = "gains" if slope.estimate > 0 else "loses"
    interval = f"{level_name(slope.level)} interval {between(slope, 2)}"
    return f"{one.coffee} {verb} {abs(slope.estimate):.2f} {unit} ({interval})"


def _overall(found: CoolingTrend, unit: str) -> str:
    slope = found.overall.found
    if slope is None:
        return f"No trend can be told. {found.overall.why_not}"
    verb = "gain" if slope.estimate > 0 else "lose"
    if not slope.differs_from_zero:
        reach = f"{between(slope, 2)} {unit} for 10 K"
        return f"Whether the coffees gain or lose as they cool cannot be told ({reach})."
    return f"The coffees together {verb} {abs(slope.estimate):.2f} {unit} {_PER_10_K} ({between(slope, 2)})."


def _same(p: float) -> str:
    if p <= _SURE:
        return f"The coffees differ in that ({chance(p)})."
    return f"That coffees differ in it cannot be told ({chance(p)})."


def _figure(found: CoolingTrend, label: str, unit: str, name: str) -> list[Figure]:
    """Each coffee a panel of its own, on the same axes, from hot at the left to cool."""
    drawn = [one for one in found.coffees if one.line]
    if not drawn or len(drawn) > 2 * _MOST_LINES:
        return []
    rows: tuple[dict[str, Cell], ...] = tuple(
        {
            "group": one.coffee,
            "label": _direction(one),
            "x": point.celsius,
            "estimate": point.estimate,
            "low": point.low,
            "high": point.high,
        }
        for one in drawn
        for point in one.line
    )
    said = [
        f"{one.coffee} from {one.line[0].estimate:.1f} at {one.hottest_c:.0f} °C "
        f"to {one.line[-1].estimate:.1f} at {one.coolest_c:.0f} °C"
        for one in drawn
    ]
    ends = (max(one.hottest_c for one in drawn), min(one.coolest_c for one in drawn))
    alt = f"Lines with their bands: {listed(said)}."
    title = f"{label} as the cups cool" if label else "As the cups cool"
    return [Figure(FigureKind.LINES, rows, alt, title, "°C in the cup", unit, name, ends)]


def _direction(one: CoffeeCooling) -> str:
    slope = one.slope.found
    return "" if slope is None else f"{slope.estimate:+.2f} for 10 K"


def _table(found: CoolingTrend, name: str) -> TableBlock:
    rows: list[tuple[Cell, ...]] = [
        (
            one.coffee,
            one.scores,
            one.hottest_c if one.scores else None,
            one.coolest_c if one.scores else None,
            *one.slope.flat("slope").values(),
        )
        for one in found.coffees
    ]
    silences = sorted({one.slope.why_not for one in found.coffees if one.slope.why_not})
    caption = " ".join(["Slopes with the ends of their intervals.", *silences])
    return TableBlock(_COLUMNS, tuple(rows), caption, name)


def _caveats(found: CoolingTrend) -> list[Caveat]:
    blocks = (
        "each taster's level for each coffee set aside"
        if found.within_cells
        else "levels of coffees and tasters set aside, since each coffee was met once"
    )
    error = (
        "Temperatures computed from the clock differ from the true ones; that widens the intervals but "
        "does not draw "
        "the slopes in."
        if found.attenuation == 1
        else f"The thermometer's error draws every slope towards 0, to {found.attenuation:.2f} of itself."
    )
    return [
        Caveat(
            f"Least squares, {blocks}; one scatter for all, Student's t. It speaks for these tasters. A "
            "cooler cup "
            f"is also a later one: tired tongues and talk move scores as well. {error}"
        )
    ]


def words_cooling_section(
    found: Sequence[WordCooling], names: Mapping[str, str], *, name: str = "words-cooling"
) -> tuple[Block, ...]:
    """Which words go with warm or cool cups; `names` says what each concept is called."""
    if not found:
        return (
            Heading("Words as it cools"),
            Paragraph("Too few words with known temperatures to say whether any goes with warmth."),
        )
    sure = [one for one in found if one.p_adjusted <= _SURE]
    rows: list[tuple[Cell, ...]] = [
        (
            names.get(one.word, one.word),
            one.uses,
            one.answers,
            *one.odds.flat("odds").values(),
            one.p,
            one.p_adjusted,
        )
        for one in found
    ]
    caption = "Odds above 1: used more as the cups cool. Empty where a word has no bound on one side."
    return (
        Heading("Words as it cools"),
        Paragraph(_words_answer(sure, found, names)),
        TableBlock(_WORD_COLUMNS, tuple(rows), caption, name),
        Caveat(
            "Each taster's answers to one question are compared among themselves, by the exact "
            "distribution of the "
            "temperatures over them; Holm's adjustment for all words. Different coffees stood at different "
            "warmths: over few coffees a word may go with the coffee rather than with the warmth."
        ),
    )


def _words_answer(sure: Sequence[WordCooling], found: Sequence[WordCooling], names: Mapping[str, str]) -> str:
    if not sure:
        return f"None of {counted(len(found), 'word')} can be said to go with warm or with cool cups."
    return " ".join(
        f"“{names.get(one.word, one.word)}” goes with {_side(one)} cups ({chance(one.p_adjusted)})."
        for one in sure
    )


def _side(one: WordCooling) -> str:
    if one.odds.found is None:
        return "the coolest" if "coolest" in one.odds.why_not else "the warmest"
    return "cooler" if one.odds.found.estimate > 1 else "warmer"
