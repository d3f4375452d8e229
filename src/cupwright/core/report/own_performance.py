"""A taster's own page: what the scores say of their habits, in kind sentences, for their eyes alone."""

from collections.abc import Sequence

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.finding import Finding
from cupwright.core.analyse.taster_record import PooledRecord
from cupwright.core.analyse.tasters import TasterPerformance
from cupwright.core.report.document import Block, Caveat, Heading, Paragraph
from cupwright.core.report.wording import between, counted, level_name

_MUCH_SCATTER = "Everyone scatters: the bowl, the warmth and the cup before all count in it."
# A correlation whose interval begins above this is called close; one that holds 0 is left open.
_CLOSE = 0.5


def own_performance(found: Sequence[tuple[str, TasterPerformance]]) -> tuple[Block, ...]:
    """One taster's own page over the attributes of a table.

    Parameters
    ----------
    found : sequence of (attribute, TasterPerformance)
        All of the same taster.
    """
    paragraphs = [Paragraph(" ".join(own_sentences(one)), label) for label, one in found]
    return _page(paragraphs, "There are no scores of yours at this table yet.")


def own_over_tables(found: Sequence[PooledRecord]) -> tuple[Block, ...]:
    """One taster's own page over several tables."""
    paragraphs = [Paragraph(" ".join(pooled_sentences(one)), one.attribute) for one in found]
    return _page(paragraphs, "There is no opened table with scores of yours yet.")


def _page(paragraphs: Sequence[Paragraph], nothing: str) -> tuple[Block, ...]:
    if not paragraphs:
        return (Heading("Your own tasting"), Paragraph(nothing))
    caveat = (
        "Only you and whoever leads the table see this. The others are not the truth: where you differ, "
        "you may "
        "have tasted what they missed. Intervals take the scatter as normal; of 20 of them one misses by "
        "luck."
    )
    return (Heading("Your own tasting"), *paragraphs, Caveat(caveat))


def own_sentences(one: TasterPerformance) -> tuple[str, ...]:
    """What one table says of a taster on one attribute; what it cannot say in one sentence at the end."""
    said = [
        *_level(one.bias, "these coffees"),
        *_steady(one.repeatability),
        *_apart(one),
        *_scale(one),
        *_together(one.agreement),
        *_drift(one.drift_position),
    ]
    return (*said, *_left_open(one)) if said else (_nothing(one),)


def pooled_sentences(one: PooledRecord) -> tuple[str, ...]:
    """What several tables say together of a taster on one attribute."""
    opening = f"Over {counted(one.tables, 'table')} and {counted(one.coffees, 'coffee')}:"
    said = [
        *_level(one.bias, "the coffees"),
        *_moves(one),
        *_steady(one.repeatability),
        *_together(one.agreement),
    ]
    return (opening, *said) if said else (opening, f"too little yet to say. {one.bias.why_not}".strip())


def _level(finding: Finding, coffees: str) -> list[str]:
    bias = finding.found
    if bias is None:
        return []
    if not bias.differs_from_zero:
        return [f"You set {coffees} about where the others did ({_interval(bias)} points apart)."]
    side = "lower" if bias.estimate < 0 else "higher"
    return [
        f"You set {coffees} about {abs(bias.estimate):.1f} points {side} than the others "
        f"({_interval(bias)}); "
        "that is a habit, not a fault."
    ]


def _moves(one: PooledRecord) -> list[str]:
    if one.bias_shift is None or one.bias.found is None:
        return []
    return [f"From table to table your level moves by about {one.bias_shift:.1f} points."]


def _steady(finding: Finding) -> list[str]:
    if finding.found is None:
        return []
    return [
        f"When you met the same coffee again your scores scattered by {finding.found.estimate:.1f} points "
        f"({_interval(finding.found)}). {_MUCH_SCATTER}"
    ]


def _apart(one: TasterPerformance) -> list[str]:
    if one.p_alike is None or one.separation.found is None:
        return []
    if one.p_alike <= 1 - one.separation.found.level:
        return ["You set the coffees farther apart than your own repeats lie: you told them from each other."]
    return ["Your repeats lie about as far apart as the coffees do; more cups would show more."]


def _scale(one: TasterPerformance) -> list[str]:
    """Only what is clear of the usual draw towards 0."""
    slope, usual = one.slope.found, one.attenuation
    if slope is None or usual is None:
        return []
    if slope.low > 1:
        return [
            "You use more of the scale than the others: your good coffees stand higher, your plain ones "
            "lower."
        ]
    if slope.high < usual:
        return ["You use less of the scale than the others; you may go higher and lower if you like."]
    return []


def _together(finding: Finding) -> list[str]:
    agreement = finding.found
    if agreement is None:
        return []
    if agreement.low > _CLOSE:
        return ["You put the coffees in much the same places as the others."]
    if agreement.low > 0:
        return ["You put the coffees in places like those of the others."]
    if agreement.high < 0:
        return ["You put the coffees the other way round than the others did; it is worth talking about why."]
    return ["Whether you and the others like the same coffees cannot be told from so few."]


def _drift(finding: Finding) -> list[str]:
    drift = finding.found
    if drift is None or not drift.differs_from_zero:
        return []
    side = "lower" if drift.estimate < 0 else "higher"
    return [
        f"Your scores went {abs(drift.estimate):.2f} points {side} with each cup, against the others' "
        f"({_interval(drift)}). Many tasters do that; a pause and some water help."
    ]


def _left_open(one: TasterPerformance) -> list[str]:
    asked = {
        "how steady you are": one.repeatability,
        "your level": one.bias,
        "how you go with the others": one.agreement,
    }
    return [
        f"Too little data to say {what}: {finding.why_not}"
        for what, finding in asked.items()
        if not finding.found
    ]


def _nothing(one: TasterPerformance) -> str:
    return f"Too little data to say anything of your tasting yet. {one.bias.why_not}"


def _interval(found: Estimate) -> str:
    return f"{level_name(found.level)} interval {between(found, 1)}"
