"""The panel: can its scores be relied on, for what, and what would more tasters bring?"""

from cupwright.core.analyse.decision_study import DecisionStudy, decision_study
from cupwright.core.analyse.icc import FORMS, MEANINGS, Iccs, icc
from cupwright.core.analyse.kendall import KendallW, kendall_w
from cupwright.core.analyse.krippendorff import Alpha, krippendorff_alpha
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.which_to_quote import Purpose, which_to_quote
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
from cupwright.core.report.wording import capital, counted, level_name, listed, percent
from cupwright.errors import Refused

_MORE = 2
# By so much, levels make points less sure than differences before it is worth a sentence.
_LEVELS_MATTER = 0.1
# The mean of a panel can be as unreliable as one likes; the picture need not reach so far.
_DRAWN_TO = -1.0
_SHORT = {
    "icc1": "one taster, others each time",
    "icc2": "one taster, points",
    "icc3": "one taster, differences",
    "icc1k": "mean, others each time",
    "icc2k": "mean, points",
    "icc3k": "mean, differences",
}
_PAPER_NAMES = dict(
    zip(FORMS, ("ICC(1,1)", "ICC(2,1)", "ICC(3,1)", "ICC(1,k)", "ICC(2,k)", "ICC(3,k)"), strict=True)
)
_STUDY = (
    Column("Tasters", 0, "right"),
    Column("Differences", 2, "right"),
    Column("From", 2, "right"),
    Column("To", 2, "right"),
    Column("Points", 2, "right"),
    Column("From", 2, "right"),
    Column("To", 2, "right"),
    Column("Error of a difference, points", 2, "right"),
)
_CALLED = {"icc2k": "ICC(2,k)", "icc3k": "ICC(3,k)", "kendall_w": "W", "krippendorff_alpha": "alpha"}
_METHOD = (
    "Reliability is the part of the spread that belongs to the coffees: 1 all of it, 0 none. It holds for "
    "coffees as unlike as these; among four that are alike every panel looks worse. Intervals of the six "
    "take scores as normal: Shrout and Fleiss (1979), McGraw and Wong (1996). The forms for other tasters "
    "each time understate a panel that tasted all coffees together."
)


def panel_section(
    scores: Scores,
    attribute: str = "",
    *,
    step: float = 0.0,
    level: float = 0.95,
    iccs: Iccs | None = None,
    order: KendallW | None = None,
    alpha: Alpha | None = None,
) -> tuple[Block, ...]:
    """The answer, the coefficients as a picture and as numbers, which to quote, and what more tasters bring.

    `step` is the scale's step. `iccs`, `order` and `alpha` are worked out if they are not given. What cannot
    be said is a sentence.
    """
    heading = Heading("Can we rely on this panel" + (f": {attribute}" if attribute else "") + "?")
    try:
        iccs = iccs or icc(scores, level=level, step=step)
    except Refused as silence:
        return heading, Paragraph(f"Too little to say whether this panel can be relied on. {silence.message}")
    order, alpha = order or _order(scores, level), alpha or _alpha(scores, level)
    study = decision_study(iccs, _looked_at(len(iccs.tasters)))
    return (
        heading,
        Paragraph(answer(iccs, study)),
        _figure(iccs, order, alpha, attribute),
        _table(iccs, order, alpha, attribute),
        Paragraph(_which(iccs, order, alpha), "Which to quote"),
        *_study(iccs, study, attribute),
        *_caveats(iccs, order, alpha),
    )


def answer(iccs: Iccs, study: DecisionStudy) -> str:
    """In a sentence or two: what part of the differences belongs to the coffees; with two more, what."""
    mean, now = iccs.icc3k, len(iccs.tasters)
    who = f"the means of these {counted(now, 'taster')}"
    if mean.estimate <= 0:
        return (
            f"Nothing of the differences in {who} can be put down to the coffees: the tasters do not agree."
        )
    if mean.low <= 0:
        return (
            f"Whether to rely on this panel cannot be told: {percent(mean.estimate)} of the differences in "
            f"{who} is put down to the coffees, but none of it would fit the scores as well."
        )
    said = (
        f"Of the differences in {who}, {percent(mean.estimate)} can be put down to the coffees "
        f"({percent(mean.low)} to {percent(mean.high)}); in one taster's scores, "
        f"{percent(max(iccs.icc3.estimate, 0.0))}."
    )
    return f"{said}{_two_more(study)}{_levels(iccs)}"


def _two_more(study: DecisionStudy) -> str:
    more = study.at((study.now or 0) + _MORE)
    return f" With two more tasters like them it would be {percent(more.differences)}." if more else ""


def _levels(iccs: Iccs) -> str:
    if iccs.icc3k.estimate - iccs.icc2k.estimate < _LEVELS_MATTER:
        return ""
    part = percent(max(iccs.icc2k.estimate, 0.0))
    return f" The points themselves are less sure ({part}), for the tasters' levels lie apart."


def _order(scores: Scores, level: float) -> KendallW | None:
    try:
        return kendall_w(scores, level=level, test=False)
    except Refused:
        return None  # The six stand without it; the table leaves its row out.


def _alpha(scores: Scores, level: float) -> Alpha | None:
    try:
        return krippendorff_alpha(scores, level=level)
    except Refused:
        return None  # As above.


def _looked_at(now: int) -> range:
    return range(1, max(12, now + _MORE) + 1)


def _rows(
    iccs: Iccs, order: KendallW | None, alpha: Alpha | None
) -> list[tuple[str, str, str, float, float | None, float | None]]:
    """Short name, name in papers, meaning, estimate, low, high."""
    rows: list[tuple[str, str, str, float, float | None, float | None]] = [
        (_SHORT[form], _PAPER_NAMES[form], MEANINGS[form], one.estimate, one.low, one.high)
        for form, one in ((form, iccs[form]) for form in reversed(FORMS))
    ]
    if order:
        meaning = "how far the tasters put the coffees in one order"
        rows.append(("order", "Kendall's W", meaning, order.estimate, order.low, order.high))
    if alpha:
        meaning = "how far they give one coffee the same points, holes allowed"
        rows.append(("same points", "Krippendorff's alpha", meaning, alpha.estimate, alpha.low, alpha.high))
    return rows


def _figure(iccs: Iccs, order: KendallW | None, alpha: Alpha | None, attribute: str) -> Figure:
    found = _rows(iccs, order, alpha)
    rows: tuple[dict[str, Cell], ...] = tuple(
        {
            "label": short,
            "estimate": max(estimate, _DRAWN_TO),
            "low": None if low is None else max(low, _DRAWN_TO),
            "high": None if high is None else max(high, _DRAWN_TO),
        }
        for short, _, _, estimate, low, high in found
    )
    said = "; ".join(
        f"{short} {estimate:.2f}"
        + (f" ({low:.2f} to {high:.2f})" if low is not None and high is not None else "")
        for short, _, _, estimate, low, high in found
    )
    cut = any(low is not None and low < _DRAWN_TO for *_, low, _ in found)
    return Figure(
        FigureKind.INTERVALS,
        rows,
        f"Reliability with {level_name(iccs.icc3.level)} intervals: {said}.",
        "Of one taster and of the panel's mean."
        + (" Lines that go on below -1 are cut there." if cut else ""),
        x_title="1: in full, 0: nothing in common",
        name=_name("panel", attribute),
    )


def _table(iccs: Iccs, order: KendallW | None, alpha: Alpha | None, attribute: str) -> TableBlock:
    columns = (
        Column("Coefficient"),
        Column("Reliability of"),
        Column("Estimate", 2, "right"),
        Column(f"{level_name(iccs.icc3.level)} from", 2, "right"),
        Column("To", 2, "right"),
    )
    rows = tuple((name, meaning, *numbers) for _, name, meaning, *numbers in _rows(iccs, order, alpha))
    caption = f"{counted(len(iccs.coffees), 'coffee')}, {counted(len(iccs.tasters), 'taster')}."
    return TableBlock(columns, rows, caption, _name("panel-table", attribute))


def _which(iccs: Iccs, order: KendallW | None, alpha: Alpha | None) -> str:
    holes = iccs.tasters_left_out or iccs.coffees_left_out
    purposes = [Purpose.COMPARE, Purpose.PUBLISH]
    purposes += [Purpose.ORDER] if order else []
    purposes += [Purpose.HOLES] if alpha and holes else []
    return " ".join(
        f"To {one.purpose.value}: {_CALLED[one.coefficient]}. {one.reason}"
        for one in map(which_to_quote, purposes)
    )


def _study(iccs: Iccs, study: DecisionStudy, attribute: str) -> tuple[Block, ...]:
    """What more tasters bring; a sentence where it is not even known what these do."""
    if iccs.icc3k.low <= 0:
        return (
            Paragraph("So it cannot be told either what more tasters would bring; more coffees would tell."),
        )
    return _study_figure(study, attribute), _study_table(study, attribute)


def _study_figure(study: DecisionStudy, attribute: str) -> Figure:
    rows: list[dict[str, Cell]] = []
    for step in study.steps:
        band = (step.differences_low, step.differences_high)
        rows.append(_point("differences", step.tasters, step.differences, *band))
        # Two bands over each other could not be told apart; the table has the ends of both.
        rows.append(_point("points", step.tasters, step.points, None, None))
    said = "; ".join(
        f"{counted(step.tasters, 'taster')} {step.differences:.2f} and {step.points:.2f}"
        for step in study.steps
    )
    return Figure(
        FigureKind.LINES,
        tuple(rows),
        f"Reliability of the mean of so many tasters, of differences and of points: {said}.",
        f"What more or fewer tasters like these would bring; there were {study.now}. Band: of differences.",
        x_title="tasters",
        y_title="reliability of the mean",
        name=_name("panel-more", attribute),
    )


def _point(
    label: str, tasters: int, estimate: float, low: float | None, high: float | None
) -> dict[str, Cell]:
    return {"group": "", "label": label, "x": tasters, "estimate": estimate, "low": low, "high": high}


def _study_table(study: DecisionStudy, attribute: str) -> TableBlock:
    rows = tuple(
        (
            step.tasters,
            step.differences,
            step.differences_low,
            step.differences_high,
            step.points,
            step.points_low,
            step.points_high,
            # Two means have each this error.
            step.relative_error * 2**0.5,
        )
        for step in study.steps
    )
    caption = "Reliability of the mean of so many tasters like these, and the standard error of a difference."
    return TableBlock(_STUDY, rows, caption, _name("panel-more-table", attribute))


def _caveats(iccs: Iccs, order: KendallW | None, alpha: Alpha | None) -> tuple[Caveat, ...]:
    said = [one.why_not for one in (order, alpha) if one and one.why_not]
    gone = [
        *(f"taster {name}" for name in iccs.tasters_left_out),
        *(f"coffee {n}" for n in iccs.coffees_left_out),
    ]
    if gone:
        said.insert(0, f"Left out of all but alpha, for a score is missing: {listed(gone)}.")
    if iccs.repeats > 1:
        said.append(
            "Scores of one taster for one coffee were averaged first, so 'one taster' is such a mean."
        )
    return (*(Caveat(capital(sentence)) for sentence in said), Caveat(_METHOD))


def _name(name: str, attribute: str) -> str:
    kept = "".join(letter if letter.isalnum() and letter.isascii() else "-" for letter in attribute.lower())
    return f"{name}-{kept}".strip("-")
