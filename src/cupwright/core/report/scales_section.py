"""Scales: what tasters gave each coffee on average, and how far they agree."""

from math import isclose

from cupwright.core.analyse.answers import Scale
from cupwright.core.analyse.scales import Mean
from cupwright.core.analyse.summary import Analysis, ScaleSummary
from cupwright.core.report.document import (
    Block,
    Cell,
    Column,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.wording import between, counted, level_name, listed
from cupwright.core.taste.sheet import Field

_LONG = 20
_SAME_TASTERS = (
    "Plain means of what was given. Each interval says where the mean of many such tasters would lie for one "
    "coffee; two that overlap may still differ, since the same tasters stand behind both. Which coffee "
    "stands higher, allowing for all comparisons, is answered under the questions above."
)


def scales_section(analysis: Analysis) -> tuple[Block, ...]:
    """Liking first, then the other scales in the order of the sheet."""
    heading = Heading("Scales")
    if not analysis.scales:
        return (heading, Paragraph("The sheet asks for no scale."))
    answered = [scale for scale in _liking_first(analysis) if any(mean.n for mean in scale.means)]
    if not answered:
        return (heading, Paragraph("Nobody answered a scale."))
    blocks: list[Block] = [heading, Paragraph(_SAME_TASTERS)]
    for scale in answered:
        blocks += _one_scale(analysis, scale)
    return tuple(blocks)


def liked_most(analysis: Analysis) -> str:
    """One sentence or two on overall liking, or why nothing can be said."""
    liking = analysis.liking
    if liking is None:
        return "The sheet does not ask how much a coffee is liked."
    given = [(mean.mean.estimate, row) for row, mean in enumerate(liking.means) if mean.mean]
    if not given:
        return "Nobody said how much a coffee was liked."
    highest = max(estimate for estimate, _ in given)
    leaders = [row for estimate, row in given if isclose(estimate, highest)]
    names = [analysis.answers.coffees[row].name for row in leaders]
    leader = liking.means[leaders[0]]
    if len(leaders) > 1:
        return f"{listed(names)} have the same highest liking: {_in_words(leader, liking.scale, short=True)}."
    if leader.n < 2:
        return f"{names[0]} has the highest liking, from one taster; of others this says nothing."
    lead = _lead(analysis, liking, leaders[0])
    return f"{names[0]} was liked most: {_in_words(leader, liking.scale)}. {lead}"


def _in_words(mean: Mean, scale: Scale, *, short: bool = False) -> str:
    digits = 0 if scale.field.high - scale.field.low >= _LONG else 2
    if mean.mean is None:
        return "nobody scored it"
    average = f"{mean.mean.estimate:.{digits}f} on average {_reaching(scale)}"
    if short:
        return average
    interval = f"{level_name(mean.mean.level)} interval {between(mean.mean, digits)}"
    return f"{average} ({interval}, {counted(mean.n, 'taster')})"


def _reaching(scale: Scale) -> str:
    """How far the scale reaches or, where that is not known, its answers."""
    reach = f"{scale.field.low:g} to {scale.field.high:g}"
    return f"on a scale of {reach}" if scale.ends else f"of answers from {reach}"


def _lead(analysis: Analysis, liking: ScaleSummary, best: int) -> str:
    clear: list[str] = []
    unclear: list[str] = []
    for pair in liking.differences:
        if best in (pair.first, pair.second):
            other = pair.second if pair.first == best else pair.first
            (clear if pair.mean.differs_from_zero else unclear).append(analysis.answers.coffees[other].name)
    if not clear and not unclear:
        return "No other coffee was scored by the same tasters."
    if not clear:
        return f"Its lead over {listed(unclear)} is not larger than chance could make."
    beyond = f"Its lead over {listed(clear)} is larger than chance would make"
    return f"{beyond}; over {listed(unclear)} it is not." if unclear else f"{beyond}."


def _liking_first(analysis: Analysis) -> list[ScaleSummary]:
    return sorted(analysis.scales, key=lambda scale: scale is not analysis.liking)


def _one_scale(analysis: Analysis, scale: ScaleSummary) -> list[Block]:
    field = scale.scale.field
    blocks: list[Block] = [
        Heading(field.label, 2),
        Paragraph(_ends_of(analysis, scale)),
        _figure(analysis, scale),
        _table(analysis, scale),
    ]
    return blocks


def _ends_of(analysis: Analysis, scale: ScaleSummary) -> str:
    """The highest and the lowest plain mean; which coffees differ is another question."""
    named = zip(analysis.answers.coffees, scale.means, strict=True)
    given = sorted((mean.mean.estimate, coffee.name) for coffee, mean in named if mean.mean)
    digits = _digits(scale.scale.field)
    (lowest, low), (highest, high) = given[0], given[-1]
    if lowest == highest:
        return f"{highest:.{digits}f} on average {_reaching(scale.scale)}."
    reach = _reaching(scale.scale)
    return f"From {lowest:.{digits}f} on average for {low} to {highest:.{digits}f} for {high}, {reach}."


def _digits(field: Field) -> int:
    """Decimals in tables: a hundredth of a short scale and a tenth of a point of a long one."""
    return 1 if field.high - field.low >= _LONG else 2


def _axis(scale: Scale) -> str:
    field = scale.field
    if not scale.ends:
        return field.label
    low = f"{field.low:g} {field.low_label}".strip()
    high = f"{field.high:g} {field.high_label}".strip()
    return f"{field.label}: {low} – {high}"


def _figure(analysis: Analysis, scale: ScaleSummary) -> Figure:
    field, coffees = scale.scale.field, analysis.answers.coffees
    rows = tuple(
        {"label": coffee.name, "estimate": m.mean.estimate, **_ends(m)}
        for coffee, m in zip(coffees, scale.means, strict=True)
        if m.mean
    )
    said = "; ".join(
        f"{coffee.name}: {_in_words(m, scale.scale)}" for coffee, m in zip(coffees, scale.means, strict=True)
    )
    return Figure(
        kind=FigureKind.INTERVALS,
        rows=rows,
        alt=f"{field.label} per coffee. {said}.",
        x_title=_axis(scale.scale),
        name=f"{scale.scale.part.id}-{field.id}",
        domain=scale.scale.ends,
    )


def _ends(mean: Mean) -> dict[str, Cell]:
    if mean.mean is None or mean.n < 2:
        return {"low": None, "high": None}
    return {"low": mean.mean.low, "high": mean.mean.high}


def _table(analysis: Analysis, scale: ScaleSummary) -> TableBlock:
    field, digits = scale.scale.field, _digits(scale.scale.field)
    return TableBlock(
        columns=(
            Column("Coffee"),
            Column("Tasters", 0, "right"),
            Column("Mean", digits, "right"),
            Column(f"{level_name(analysis.level)} from", digits, "right"),
            Column("to", digits, "right"),
        ),
        rows=tuple(
            (coffee.name, m.n, m.mean.estimate if m.mean else None, *_ends(m).values())
            for coffee, m in zip(analysis.answers.coffees, scale.means, strict=True)
        ),
        caption=f"{field.label}, {_reaching(scale.scale)}: mean and interval per coffee.",
        name=f"{scale.scale.part.id}-{field.id}",
    )
