"""Everything that can be said of one attribute's scores; what cannot is None, with a sentence why."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from functools import partial
from typing import Any, TypeVar

import numpy as np

from cupwright.core.analyse.across_tables import AcrossTables, across_tables
from cupwright.core.analyse.as_it_cools import CoolingTrend, cooling_trend
from cupwright.core.analyse.coffee_estimates import MOST_IN_PAIRS, CoffeeComparison, compare_coffees
from cupwright.core.analyse.components import Components, crossed_components
from cupwright.core.analyse.cumulative_link_mixed import CumulativeLinkMixed
from cupwright.core.analyse.finding import Finding
from cupwright.core.analyse.fixed_terms import FixedTerm
from cupwright.core.analyse.friedman import Friedman, friedman
from cupwright.core.analyse.icc import FORMS, Iccs, icc
from cupwright.core.analyse.kendall import KendallW, kendall_w
from cupwright.core.analyse.krippendorff import Alpha, krippendorff_alpha
from cupwright.core.analyse.score_file import ScoreFile
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.short_scale import coffees_by_order, is_short
from cupwright.core.analyse.skillings_mack import SkillingsMack, skillings_mack
from cupwright.core.analyse.tasters import TasterPerformance, taster_performance
from cupwright.core.plain import plain
from cupwright.errors import NotFound, Refused, TooFewObservations, TooLarge

Found = TypeVar("Found")

MOST_TASTERS = 1000
# With holes each taster's rest is a fit of all others: the work grows with the fourth power of tasters.
MOST_TASTERS_WITH_HOLES = 200
# These fit every row; the rest works on cells.
_MOST_FOR_TERMS = 20_000
_MOST_NAMES_FOR_TERMS = 300
_NO_REPEATS = "Nobody scored a coffee twice: the residual holds the rest and the tastes together."
_NO_REST = "The parts explain the scores to the last digit, so the likelihood has no end."


@dataclass(frozen=True, slots=True)
class ScoreAnalysis:
    """One attribute. `silent`: part -> the sentence that stands for it."""

    name: str
    scores: Scores | None
    level: float
    draws: int
    components: Components | None
    comparison: CoffeeComparison | None
    effects: tuple[FixedTerm, ...]
    cooling: CoolingTrend | None
    across: AcrossTables | None
    iccs: Iccs | None
    kendall_w: KendallW | None
    alpha: Alpha | None
    tasters: tuple[TasterPerformance, ...] | None
    ranks: Friedman | SkillingsMack | None
    ordinal: CumulativeLinkMixed | None
    silent: Mapping[str, str]

    def as_data(self) -> dict[str, Any]:
        """The analysis as JSON-able data; a number that cannot be had is null."""
        found = self.components
        return {
            "components": found and {part: getattr(found, part) for part in _PARTS},
            "log_likelihood": found and found.log_likelihood,
            "coffees": self.comparison and [_picked(one, _COFFEE) for one in self.comparison.coffees],
            "pairs": (self.comparison and [_picked(one, _PAIR) for one in self.comparison.pairs]) or None,
            "effects": [_picked(one, _EFFECT) for one in self.effects],
            "agreement": _agreement(self),
            "tasters": self.tasters and [_taster(one) for one in self.tasters],
            "ranks": plain(self.ranks),
            "ordinal": plain(self.ordinal),
            "cooling": plain(self.cooling),
            "across_tables": self.across and self.across.as_data(),
            "silent": self._sentences,
        }

    @property
    def _sentences(self) -> dict[str, str]:
        """Why a number or an interval is not there, by the name of what is null."""
        unsure = {"kendall_w": self.kendall_w, "alpha": self.alpha}
        said = {name: one.why_not for name, one in unsure.items() if one and one.why_not}
        if self.comparison and not self.comparison.pairs:
            said["pairs"] = f"Pairs are listed of up to {MOST_IN_PAIRS} coffees."
        if self.components and self.components.coffee_taster is None:
            said["coffee_taster"] = _NO_REPEATS
        if self.components and self.components.log_likelihood is None:
            said["log_likelihood"] = _NO_REST
        return {**self.silent, **said}


@dataclass(frozen=True, slots=True)
class FileAnalysis:
    """A whole file: attribute -> its analysis, and what was remarked while it was read."""

    file: str
    level: float
    draws: int
    attributes: Mapping[str, ScoreAnalysis]
    remarks: tuple[str, ...]

    def as_data(self) -> dict[str, Any]:
        """The same as JSON-able data."""
        return {
            "file": self.file,
            "level": self.level,
            "draws": self.draws,
            "attributes": {name: one.as_data() for name, one in self.attributes.items()},
            "remarks": list(self.remarks),
        }


_PARTS = ("coffee", "taster", "coffee_taster", "residual")
_COFFEE = ("coffee", "estimate", "low", "high", "p_best", "mean", "scores")
_PAIR = ("a", "b", "difference", "low", "high", "p_a_better")
_EFFECT = ("name", "estimate", "low", "high", "error", "freedom")


def analyse_file(
    file: ScoreFile,
    *,
    attributes: tuple[str, ...] = (),
    level: float = 0.95,
    draws: int = 2000,
    rng: np.random.Generator | None = None,
) -> FileAnalysis:
    """Each attribute of a file, or those named. Raises NotFound for one that the file does not have."""
    known = [*file.attributes, *file.empty]
    for name in attributes:
        if name not in known:
            raise NotFound(
                f"The file has no attribute '{name}'; it has {', '.join(known)}.",
                todo="Name one of these, as it is written there.",
            )
    wanted = attributes or tuple(file.missing)
    found = {
        name: analyse_scores(name, file.attributes.get(name), level=level, draws=draws, rng=rng)
        for name in dict.fromkeys(wanted)
    }
    return FileAnalysis(file.file, level, draws, found, file.remarks)


def analyse_scores(
    name: str,
    scores: Scores | None,
    *,
    level: float = 0.95,
    draws: int = 2000,
    step: float = 0.0,
    rng: np.random.Generator | None = None,
    most_tasters: int = MOST_TASTERS,
) -> ScoreAnalysis:
    """Every statistic of one attribute.

    Parameters
    ----------
    scores : Scores or None
        None where there is not a single score.
    level : float in (0, 1)
        Coverage of all intervals.
    draws : int
        How many draws wherever chance is used.
    rng : numpy Generator, optional
        Source of chance; fixed ones if left out.
    step : float
        The scale's step, for what rounding to it hides.
    most_tasters : int
        With more of them they are not looked at one by one.
    """
    silent: dict[str, str] = {}
    effects: list[FixedTerm] = []

    def tried(part: str, statistic: Callable[[Scores], Found]) -> Found | None:
        try:
            return statistic(_some(scores))
        except Refused as refusal:
            silent[part] = refusal.message
            return None

    for term in _known_terms(scores):
        found = tried(term, partial(_effects, term=term, level=level))
        effects += found or ()
    return ScoreAnalysis(
        name=name,
        scores=scores,
        level=level,
        draws=draws,
        components=tried("components", lambda one: crossed_components(one, level=level)),
        comparison=tried(
            "coffees", lambda one: compare_coffees(one, level=level, step=step, draws=draws, rng=rng)
        ),
        effects=tuple(effects),
        cooling=tried("cooling", partial(_cooling, level=level)) if _is_timed(scores) else None,
        across=tried("across_tables", lambda one: across_tables(one, level=level))
        if has_tables(scores)
        else None,
        iccs=tried("icc", lambda one: icc(one, level=level, step=step)),
        kendall_w=tried("kendall_w", lambda one: kendall_w(one, level=level, test=False)),
        alpha=tried("alpha", lambda one: krippendorff_alpha(one, level=level, draws=draws, rng=rng)),
        tasters=tried("tasters", lambda one: _tasters(one, level, most_tasters)),
        ranks=tried("ranks", lambda one: _ranks(one, level, draws, rng)),
        ordinal=tried("ordinal", partial(coffees_by_order, level=level)) if is_short(scores) else None,
        silent=silent,
    )


def _known_terms(scores: Scores | None) -> tuple[str, ...]:
    """The fixed terms that a file with these columns can hold; without its column a term is not asked for."""
    if scores is None:
        return ()
    there = {
        "position": scores.position is not None,
        "carry_over": scores.position is not None,
        "temperature": scores.temperature is not None,
        "table": has_tables(scores),
    }
    return tuple(term for term, is_there in there.items() if is_there)


def _effects(scores: Scores, term: str, level: float) -> tuple[FixedTerm, ...]:
    """One term by itself beside coffees and tasters."""
    if len(scores) > _MOST_FOR_TERMS:
        raise _too_many(len(scores), _MOST_FOR_TERMS)
    if max(len(scores.tasters), len(scores.coffees)) > _MOST_NAMES_FOR_TERMS:
        raise TooLarge(
            f"This is worked out for up to {_MOST_NAMES_FOR_TERMS} tasters and as many coffees.",
            todo="Choose some.",
        )
    try:
        with np.errstate(over="raise", invalid="raise", divide="raise"):
            return crossed_components(scores, level=level, **{term: True}).terms
    except (np.linalg.LinAlgError, FloatingPointError):
        raise TooFewObservations(
            "So few scores do not tell this from coffees and tasters.", todo="Add scores."
        ) from None


def _is_timed(scores: Scores | None) -> bool:
    """Whether any temperature is known; else nobody asked how the cups cool."""
    return scores is not None and scores.temperature is not None


def has_tables(scores: Scores | None) -> bool:
    """Whether the scores are of more tables than one."""
    return scores is not None and scores.table is not None and len(scores.tables) > 1


def _cooling(scores: Scores, level: float) -> CoolingTrend:
    if len(scores) > _MOST_FOR_TERMS:
        raise _too_many(len(scores), _MOST_FOR_TERMS)
    return cooling_trend(scores, level=level)


def _too_many(count: int, most: int) -> TooLarge:
    return TooLarge(f"This is worked out for up to {most:,} scores; here are {count:,}.", todo="Choose some.")


def _tasters(scores: Scores, level: float, most: int) -> tuple[TasterPerformance, ...]:
    most = most if scores.counts.all() else min(most, MOST_TASTERS_WITH_HOLES)
    if len(scores.tasters) > most:
        raise Refused(
            f"Up to {most:,} tasters are looked at one by one; here are {len(scores.tasters):,}.",
            todo="Choose some of them.",
        )
    return taster_performance(scores, level=level)


def _ranks(
    scores: Scores, level: float, draws: int, rng: np.random.Generator | None
) -> Friedman | SkillingsMack:
    if scores.counts.all():
        return friedman(scores, level=level, resamples=draws, rng=rng)
    return skillings_mack(scores, resamples=draws, rng=rng)


def _some(scores: Scores | None) -> Scores:
    if scores is None:
        raise TooFewObservations("There is not a single score.", todo="Add scores.")
    return scores


def _picked(found: object, names: tuple[str, ...]) -> dict[str, Any]:
    picked: dict[str, Any] = plain({name: getattr(found, name) for name in names})
    return picked


def _taster(found: TasterPerformance) -> dict[str, Any]:
    """Every measure with its ends; under "silent" the sentences for those that are null."""
    (record,) = found.rows()
    measures = [(field.name, getattr(found, field.name)) for field in fields(found)]
    silent = {name: one.why_not for name, one in measures if isinstance(one, Finding) and one.why_not}
    return {**plain(record), "silent": silent}


def _agreement(found: ScoreAnalysis) -> dict[str, Any]:
    """The six correlations, W and alpha, each with its interval or null."""
    beside = {"kendall_w": found.kendall_w, "alpha": found.alpha}
    sixes = {form: found.iccs and found.iccs[form] for form in FORMS}
    return {
        name: one and plain({"estimate": one.estimate, "low": one.low, "high": one.high})
        for name, one in (sixes | beside).items()
    }
