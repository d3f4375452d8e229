"""Across tables: all coffees of a season on one scale, which of them changed, and the tasters' levels."""

from collections.abc import Sequence

from cupwright.core.analyse.across_tables import (
    AcrossTables,
    LinkedValue,
    across_tables,
    tasters_across_tables,
)
from cupwright.core.analyse.course_over_tables import Course, coffee_course
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
from cupwright.core.report.wording import between, counted, level_name, listed
from cupwright.errors import Refused

_VALUES = (
    Column("Coffee"),
    Column("Points", 2, "right"),
    Column("From", 2, "right"),
    Column("To", 2, "right"),
    Column("Tables", 0, "right"),
    Column("Tasters' scores", 0, "right"),
)
_LEVELS = (
    Column("Taster"),
    Column("Points above the others", 2, "right"),
    Column("From", 2, "right"),
    Column("To", 2, "right"),
    Column("Tables", 0, "right"),
    Column("Scores of coffees", 0, "right"),
)
_COURSES = (
    Column("Coffee"),
    Column("Tables", 0, "right"),
    Column("Points a table", 2, "right"),
    Column("From", 2, "right"),
    Column("To", 2, "right"),
)
_MOST_DRAWN = 40
_MOST_COMPARED = 200
_MOST_COURSES = 8
# As in the rest of the report, more than that are not looked at one by one.
_MOST_TASTERS = 1000
# Each course fits all scores once more.
_MOST_FOLLOWED = 50_000
_MOST_NAMED = 4


def across_section(
    scores: Scores,
    attribute: str = "",
    *,
    levels: str = "sitting",
    level: float = 0.95,
    found: AcrossTables | None = None,
) -> tuple[Block, ...]:
    """The highest of the season, what is not linked, the changes of those that came back, the tasters.

    For whoever leads the panel; `found` is the comparison, if it was made already. What cannot be said is a
    sentence.
    """
    heading = Heading("Across tables" + (f": {attribute}" if attribute else ""))
    try:
        found = found or across_tables(scores, levels=levels, level=level)
    except Refused as silence:
        return heading, Paragraph(f"Too little to compare coffees across tables. {silence.message}")
    courses = _courses(scores, found)
    said = [*_highest(found), *_changes(courses), _between_tables(found)]
    return (
        heading,
        Paragraph(" ".join(said)),
        *_unlinked(found),
        *_season_figure(found, attribute),
        _season_table(found, attribute),
        *_course_blocks(courses, attribute, level),
        *_tasters(scores, attribute, level),
        *_caveats(found, courses),
    )


def _highest(found: AcrossTables) -> list[str]:
    main = [one for one in found.ranked if one.group == 1 and one.estimate is not None]
    first = main[0]
    said = (
        f"Of {counted(len(main), 'coffee')} on linked tables {first.name} stands highest ({_points(first)})"
    )
    if len(main) > _MOST_COMPARED:
        return [f"{said}."]
    # All others against the highest at once: each by a stricter level, so that they hold together.
    stricter = 1 - (1 - found.level) / (len(main) - 1)
    together = [
        one.name
        for one in main[1:]
        if not found.difference(first.name, one.name, level=stricter).differs_from_zero
    ]
    if not together:
        return [f"{said} and is told from {'all others' if len(main) > 2 else main[1].name}."]
    if len(together) == len(main) - 1:
        others = "any other" if len(main) > 2 else together[0]
        return [f"{said}, but cannot be told for sure from {others}."]
    return [f"{said}; it cannot be told for sure from {_few(together)}."]


def _points(one: LinkedValue) -> str:
    return f"{one.estimate:.2f}, {one.low:.2f} to {one.high:.2f}"


def _few(names: Sequence[str]) -> str:
    rest = len(names) - _MOST_NAMED
    return listed([*names[:_MOST_NAMED], *([counted(rest, "other")] if rest > 0 else [])])


def _between_tables(found: AcrossTables) -> str:
    variance = found.errors.variance_between_tables
    if found.levels != "sitting":
        return ""
    if variance is None:
        return "Whether a coffee differs from one table to another cannot be told: too few come back."
    if variance == 0:
        return "No coffee differs from table to table by more than tasters do at one table."
    return f"The same coffee differs from table to table by about {variance**0.5:.2f} points."


def _unlinked(found: AcrossTables) -> tuple[Block, ...]:
    """Who is not compared with whom, and what would link them."""
    if len(found.groups) == 1:
        return ()
    parts = [_few(group) for group in found.groups]
    parts = [*parts[:_MOST_NAMED], *(["others"] if len(parts) > _MOST_NAMED else [])]
    said = f"Nothing links these to one another: {'; '.join(parts)}."
    return (
        Caveat(
            f"{said} They are compared within their own group only. A coffee of each group at one table "
            "would link them."
        ),
    )


def _season_figure(found: AcrossTables, attribute: str) -> tuple[Block, ...]:
    shown = [one for one in found.ranked if one.group == 1][:_MOST_DRAWN]
    rows: tuple[dict[str, Cell], ...] = tuple(
        {"label": one.name, "estimate": one.estimate, "low": one.low, "high": one.high} for one in shown
    )
    said = "; ".join(f"{one.name} {_points(one)}" for one in shown)
    which = "The coffees" if len(shown) < _MOST_DRAWN else f"The {_MOST_DRAWN} highest coffees"
    return (
        Figure(
            FigureKind.INTERVALS,
            rows,
            f"{which} of all linked tables with their {level_name(found.level)} intervals: {said}.",
            "As if all had stood on one table of average level.",
            x_title=attribute or "points",
            name=_name("season", attribute),
        ),
    )


def _season_table(found: AcrossTables, attribute: str) -> TableBlock:
    rows = tuple((one.name, one.estimate, one.low, one.high, one.tables, one.scores) for one in found.ranked)
    caption = (
        f"Points at the average level of the tables; each interval ({level_name(found.level)}) is of the "
        "coffee's distance from the mean of all."
    )
    return TableBlock(_VALUES, rows, caption, _name("season-table", attribute))


def _courses(scores: Scores, found: AcrossTables) -> tuple[Course, ...]:
    """Of the coffees at most tables, three at least; all their slopes hold together."""
    if len(scores) > _MOST_FOLLOWED:
        return ()
    back = sorted((one for one in found.values if one.tables > 2), key=lambda one: -one.tables)[
        :_MOST_COURSES
    ]
    level = 1 - (1 - found.level) / max(len(back), 1)
    courses = []
    for one in back:
        try:
            courses.append(coffee_course(scores, one.name, level=level))
        except Refused:
            continue  # Nothing but this one links its tables; the values above stand.
    return tuple(courses)


def _changes(courses: Sequence[Course]) -> list[str]:
    told = [(one.name, one.slope) for one in courses if one.slope is not None]
    moving = [
        f"{name} {'gains' if slope.estimate > 0 else 'loses'} {abs(slope.estimate):.2f} points a table "
        f"({between(slope, 2)})"
        for name, slope in told
        if slope.differs_from_zero
    ]
    if moving:
        return [f"{listed(moving)}."]
    return [f"No drift can be told of {_few([name for name, _ in told])}."] if told else []


def _course_blocks(courses: Sequence[Course], attribute: str, level: float) -> tuple[Block, ...]:
    told = [(one, one.slope) for one in courses if one.slope is not None]
    if not told:
        return ()
    drawn: tuple[dict[str, Cell], ...] = tuple(
        {
            "group": one.name,
            "label": one.name,
            "x": point.when,
            "estimate": point.estimate,
            "low": point.low,
            "high": point.high,
        }
        for one, _ in told
        for point in one.points
    )
    said = [
        f"{one.name} from {one.points[0].estimate:+.2f} to {one.points[-1].estimate:+.2f}" for one, _ in told
    ]
    figure = Figure(
        FigureKind.LINES,
        drawn,
        f"Points above the other coffees, table by table: {listed(said)}.",
        "Coffees that came back, against the others; tables in their order.",
        x_title="table",
        y_title="above the others",
        name=_name("courses", attribute),
    )
    rows = tuple((one.name, len(one.points), slope.estimate, slope.low, slope.high) for one, slope in told)
    caption = f"Change from table to table; all these intervals hold together with {level_name(level)}."
    return figure, TableBlock(_COURSES, rows, caption, _name("courses-table", attribute))


def _tasters(scores: Scores, attribute: str, level: float) -> tuple[Block, ...]:
    """Each taster's level over all tables, beside the coffees they met."""
    if len(scores.tasters) > _MOST_TASTERS:
        return ()
    try:
        found = tasters_across_tables(scores, level=level)
    except Refused:
        return ()  # One taster: there is no level to compare with.
    rows = tuple(
        (one.name, *(one.apart or (None, None, None)), one.tables, one.scores) for one in found.ranked
    )
    caption = "Tasters' levels over all tables, whichever coffees they met."
    return (TableBlock(_LEVELS, rows, caption, _name("season-tasters", attribute)),)


def _caveats(found: AcrossTables, courses: Sequence[Course]) -> tuple[Caveat, ...]:
    own = {
        "sitting": "each sitting of a taster has its own level, so only coffees that come back link tables",
        "table": "tasters and tables have their own levels",
        "taster": "tasters are taken to keep their level from table to table, and link tables too",
    }
    said = [
        f"Method: least squares over all tables; {own[found.levels]}. A coffee that comes back is taken to "
        "be the same coffee, roast and brew."
    ]
    if courses:
        said.append("A change is one against the others that came back: if all fade alike, none of it shows.")
    return tuple(Caveat(one) for one in said)


def _name(what: str, attribute: str) -> str:
    plain = "".join(letter if letter.isalnum() else "-" for letter in attribute.lower()).strip("-")
    return f"{what}-{plain}" if plain else what
