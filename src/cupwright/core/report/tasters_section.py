"""Tasters, for whoever leads the panel: one measure at a time, no order of people, no praise and no blame."""

from collections.abc import Callable, Sequence

from cupwright.core.analyse.finding import Finding
from cupwright.core.analyse.tasters import TasterPerformance
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
from cupwright.core.report.wording import capital, counted, listed

Measure = Callable[[TasterPerformance], Finding]

# Fewer rows a picture than this are read at a glance.
_MOST_PICTURED = 40
_LEVEL = "points against the rest (0: level with them)"
_SCATTER = "points, standard deviation of a repeat"
_TOGETHER = "correlation with the rest (0: none, 1: full)"
_COLUMNS = (
    Column("Measure"),
    Column("Taster"),
    Column("Estimate", 2, "right"),
    Column("from", 2, "right"),
    Column("to", 2, "right"),
    Column("Degrees of freedom", 0, "right"),
)
_MEASURES: tuple[tuple[str, Measure], ...] = (
    ("Level against the rest", lambda one: one.bias),
    ("Scatter of a repeat", lambda one: one.repeatability),
    ("Slope on the rest", lambda one: one.slope),
    ("Coffees set apart, 0 to 1", lambda one: one.separation),
    ("Agreement with the rest", lambda one: one.agreement),
    ("Distance from the rest", lambda one: one.distance),
    ("Drift, a place later", lambda one: one.drift_position),
    ("Drift, a table later", lambda one: one.drift_table),
)


def tasters_section(
    found: Sequence[TasterPerformance], *, label: str = "", name: str = "tasters"
) -> tuple[Block, ...]:
    """How each taster is doing on one attribute.

    Parameters
    ----------
    found : sequence of TasterPerformance
        In the order in which they are to be shown, which is the order they sat in.
    label : str
        What the attribute is called; `name` is the address of its pictures and table.
    """
    heading = Heading(f"How each taster is doing: {label}" if label else "How each taster is doing")
    if not found:
        return (heading, Paragraph("Nobody scored, so nothing can be said of tasters."))
    return (
        heading,
        Paragraph(" ".join(_answer(found))),
        *_figures(found, name),
        *([table] if (table := _table(found, name)).rows else []),
        *_silences(found),
        *_caveats(found),
    )


def _answer(found: Sequence[TasterPerformance]) -> list[str]:
    return [sentence for sentence in (_levels(found), _separations(found)) if sentence]


def _levels(found: Sequence[TasterPerformance]) -> str:
    """Who stands above or below the rest for sure, in points; the others in one clause."""
    known = [(one.taster, one.bias.found) for one in found if one.bias.found]
    if not known:
        return f"Levels cannot be compared: {_lower(found[0].bias.why_not)}"
    sure = [
        f"{taster} scores about {abs(bias.estimate):.1f} points {'lower' if bias.estimate < 0 else 'higher'}"
        for taster, bias in known
        if bias.differs_from_zero
    ]
    if not sure:
        return f"No taster's level can be told from that of the rest ({counted(len(known), 'taster')})."
    others = len(known) - len(sure)
    rest = f"; {counted(others, 'level')} cannot be told from that of the rest" if others else ""
    return f"Against the rest, {listed(sure)}{rest}."


def _separations(found: Sequence[TasterPerformance]) -> str:
    tested = [one for one in found if one.p_alike is not None]
    if not tested:
        return "Without repeats nobody's scatter is known."
    sure = [one.taster for one in tested if one.p_alike is not None and one.p_alike <= 1 - _level(tested)]
    if not sure:
        return "No one's coffees lie farther apart than their own repeats would by luck."
    if len(sure) == len(tested):
        return (
            f"All {counted(len(tested), 'taster')} with repeats set these coffees apart beyond their scatter."
        )
    return f"Beyond their own scatter these coffees are set apart by {listed(sure)}."


def _level(found: Sequence[TasterPerformance]) -> float:
    return next((one.separation.found.level for one in found if one.separation.found), 0.95)


def _figures(found: Sequence[TasterPerformance], name: str) -> list[Figure]:
    if len(found) > _MOST_PICTURED:
        return []
    asked = (
        ("level", "Level against the rest", _LEVEL, _MEASURES[0][1], None),
        ("repeat", "Scatter of a repeat", _SCATTER, _MEASURES[1][1], None),
        ("agreement", "Agreement with the rest", _TOGETHER, _MEASURES[4][1], (-1.0, 1.0)),
    )
    return [
        Figure(FigureKind.INTERVALS, rows, _alt(title, rows), title, x_title, "", f"{name}-{key}", domain)
        for key, title, x_title, measure, domain in asked
        if (rows := _rows(found, measure))
    ]


def _rows(found: Sequence[TasterPerformance], measure: Measure) -> tuple[dict[str, Cell], ...]:
    return tuple(
        {"label": one.taster, "estimate": told.estimate, "low": told.low, "high": told.high}
        for one in found
        if (told := measure(one).found)
    )


def _alt(title: str, rows: Sequence[dict[str, Cell]]) -> str:
    said = [f"{row['label']} {row['estimate']:.2f} ({row['low']:.2f} to {row['high']:.2f})" for row in rows]
    return f"{title}: {listed(said)}."


def _table(found: Sequence[TasterPerformance], name: str) -> TableBlock:
    rows: list[tuple[Cell, ...]] = [
        (title, one.taster, told.estimate, told.low, told.high, measure(one).freedom)
        for title, measure in _MEASURES
        for one in found
        if (told := measure(one).found)
    ]
    caption = (
        "Each measure with the ends of its interval. Level, repeat, distance and drift in points; "
        "degrees of freedom say how much lies behind it."
    )
    return TableBlock(_COLUMNS, tuple(rows), caption, name)


def _silences(found: Sequence[TasterPerformance]) -> list[Paragraph]:
    """What could not be said, and why, once for each reason; named are those for whom it holds."""
    said: dict[tuple[str, str], list[str]] = {}
    for one in found:
        for title, measure in _MEASURES:
            told = measure(one)
            if told.found is None and title != "Drift, a table later":
                said.setdefault((title, told.why_not), []).append(one.taster)
    by_reason: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for (title, why), tasters in said.items():
        by_reason.setdefault((why, tuple(tasters)), []).append(title)
    return [
        Paragraph(why, f"{listed(titles)}{'' if len(who) == len(found) else ', ' + listed(who)}")
        for (why, who), titles in by_reason.items()
    ]


def _caveats(found: Sequence[TasterPerformance]) -> list[Caveat]:
    text = (
        "A level is a habit, not a fault, and the rest may be wrong together. Of 20 intervals one misses "
        "by luck; "
        "the measures are not to be added up, nor tasters put in order by one of them. Level and drift: "
        "Student's interval of the differences; repeat: Dahlberg (1940), ISO 5725-2; apart: the share of a "
        "taster's variance that lies between coffees, Wald (1940); with the rest: Pearson's correlation, "
        "Fisher's z."
    )
    drawn = [one.attenuation for one in found if one.slope.found and one.attenuation is not None]
    if not drawn:
        return [Caveat(text)]
    slope = (
        "The slope says how far a taster's scores rise where the rest's mean rises by a point. The "
        "rest's own "
        f"scatter draws it below 1: one who uses the scale as they do has about {min(drawn):.2f} to "
        f"{max(drawn):.2f}."
    )
    return [Caveat(slope), Caveat(text)]


def _lower(sentence: str) -> str:
    return capital(sentence)[:1].lower() + sentence[1:]
