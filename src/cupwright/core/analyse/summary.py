"""The analysis of a table: every figure of this room at once, from one set of answers."""

from dataclasses import dataclass

from cupwright.core.analyse.agreement import Agreement, agreement
from cupwright.core.analyse.answers import Answers, Scale
from cupwright.core.analyse.coverage import Coverage, coverage, had_it
from cupwright.core.analyse.scales import (
    Mean,
    PairDifference,
    mean_interval,
    pair_differences,
    rounding_spread,
)
from cupwright.core.analyse.word_counts import (
    Contrasts,
    WordCount,
    word_contrasts,
    word_counts,
    word_use,
)
from cupwright.errors import Refused

LEVEL = 0.95


@dataclass(frozen=True, slots=True)
class ScaleSummary:
    """One scale: its mean per coffee, what lies between coffees, and how far tasters agree.

    `agreement` is None where it cannot be had; `why_not` then says why in a sentence.
    """

    scale: Scale
    means: tuple[Mean, ...]
    differences: tuple[PairDifference, ...]
    agreement: Agreement | None
    why_not: str = ""


@dataclass(frozen=True, slots=True)
class Analysis:
    """Everything that is counted, per coffee in the order of `answers.coffees`."""

    answers: Answers
    words: tuple[tuple[WordCount, ...], ...]
    families: tuple[tuple[WordCount, ...], ...]
    wrote: tuple[int, ...]  # tasters who wrote on each coffee
    had: tuple[int, ...]  # tasters who were given each coffee
    contrasts: Contrasts
    scales: tuple[ScaleSummary, ...]
    coverage: Coverage
    level: float

    @property
    def liking(self) -> ScaleSummary | None:
        """The scale that holds overall liking, if the sheet names one."""
        wanted = self.answers.sheet.liking
        return next((s for s in self.scales if (s.scale.part.id, s.scale.field.id) == wanted), None)


def analyse(answers: Answers, *, level: float = LEVEL) -> Analysis:
    """Every figure of this room for one table; `level` is the coverage of all intervals."""
    use = word_use(answers)
    return Analysis(
        answers=answers,
        words=word_counts(use, level=level),
        families=word_counts(word_use(answers, families=True), level=level),
        wrote=tuple(int(n) for n in use.wrote.sum(axis=1)),
        had=had_it(answers),
        contrasts=word_contrasts(use, level=level),
        scales=tuple(_summary(scale, level) for scale in answers.scales),
        coverage=coverage(answers),
        level=level,
    )


def _summary(scale: Scale, level: float) -> ScaleSummary:
    found, why_not, ends, step = None, "", scale.ends, scale.field.step
    least = rounding_spread(step)
    try:
        found = agreement(scale.values, level=level, step=step)
    except Refused as refusal:
        why_not = refusal.message
    return ScaleSummary(
        scale=scale,
        means=tuple(mean_interval(row, level=level, ends=ends, least_spread=least) for row in scale.values),
        differences=pair_differences(scale.values, level=level, ends=ends, step=step),
        agreement=found,
        why_not=why_not,
    )
