"""Telling apart: which of the coffees that others wrote about a new note is about.

A note is seen in several views: the concepts it names, everything above them, what they are made of and in
what state, the sensations that carry them, the families that keep like company with theirs. Each view is a
naive Bayes classifier of its own, so that a word nobody wrote before still speaks through its kin; their
verdicts are added with weights (docs/methods/telling_apart.md).
"""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from math import log
from types import MappingProxyType

from cupwright.core.words.facets import facets_of
from cupwright.core.words.kinship_weights import KinshipWeights, builtin_kinship_weights, family_of
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.reading import LOWERED, Reading, Word
from cupwright.core.words.scale import HIGH, LOW
from cupwright.errors import TooFewObservations

# How much a word says that is not said plainly; set by judgement beforehand, not fitted.
_SLIGHT, _MUCH, _DOUBTED, _LESS = 0.6, 1.3, 0.8, -0.5
VIEWS = ("concepts", "above", "made_of", "state", "feels", "company")
Company = Mapping[str, Mapping[str, float]]  # concept -> family -> how like the company of both is


@dataclass(frozen=True, slots=True)
class ViewWeight:
    """How much a view counts, and how many times each of its marks is taken as seen before anything was."""

    weight: float
    seen_before: float


@dataclass(frozen=True, slots=True)
class Portraits:
    """What notes on some coffees have in common: view -> coffee -> mark -> its logarithm of probability.

    Only differences between coffees matter: each mark's mean over the coffees is 0. Marks that no note had
    weigh `unseen`.
    """

    coffees: tuple[str, ...]
    marks: Mapping[str, Mapping[str, Mapping[str, float]]]
    unseen: Mapping[str, Mapping[str, float]]
    weights: Mapping[str, ViewWeight]
    lexicon: Lexicon
    company: Company


@cache
def builtin_weights() -> Mapping[str, ViewWeight]:
    """The fitted weights of the views, from kinship_weights.toml."""
    text = files("cupwright.core.words").joinpath("kinship_weights.toml").read_text("utf-8")
    rows = tomllib.loads(text)["telling"]
    return MappingProxyType({view: ViewWeight(*map(float, rows[view])) for view in VIEWS})


@lru_cache(maxsize=4)
def builtin_company(lexicon: Lexicon) -> Company:
    """The families that keep like company with a concept's, by the fitted weights of kinship."""
    return company_of(lexicon, builtin_kinship_weights())


def company_of(lexicon: Lexicon, fitted: KinshipWeights) -> Company:
    """The same by weights of one's own: each concept's family in full, others as far as they are alike."""
    families = fitted.families
    alike = {
        one: {one: 1.0}
        | {other: near for other in families if other != one and (near := fitted.alike(one, other))}
        for one in families
    }
    return {concept: alike.get(family_of(concept, lexicon, families), {}) for concept in lexicon.concepts}


def learn(
    notes: Iterable[tuple[str, Reading]],
    lexicon: Lexicon,
    *,
    weights: Mapping[str, ViewWeight] | None = None,
    company: Company | None = None,
) -> Portraits:
    """Portraits of coffees from notes on them.

    Parameters
    ----------
    notes : iterable of (coffee, reading)
        Any number a coffee, from any tasters.
    weights : mapping, optional
        view -> weight; the fitted ones if left out.
    company : mapping, optional
        Which families keep like company; the fitted ones if left out.

    Raises
    ------
    TooFewObservations
        If there are notes on fewer than two coffees.

    Notes
    -----
    Error: views overlap and words of one note depend on each other, so what `evidence` returns orders the
    coffees and is no probability.
    Source: naive Bayes with a prior count [Maron1961]; adding weighted logarithms [Bordley1982].
    """
    read = list(notes)
    coffees = tuple(dict.fromkeys(coffee for coffee, _ in read))
    if len(coffees) < 2:
        raise TooFewObservations(
            "Telling apart needs notes on two coffees.", todo="Add notes on another coffee."
        )
    used = {view: weight for view, weight in (weights or builtin_weights()).items() if weight.weight}
    kept = builtin_company(lexicon) if company is None else company
    tables: dict[str, Mapping[str, Mapping[str, float]]] = {}
    unseen: dict[str, Mapping[str, float]] = {}
    for view, weight in used.items():
        counts = _counted(view, read, coffees, lexicon, kept)
        size = len(marks_of_view(view, lexicon, kept))
        tables[view], unseen[view] = _logarithms(counts, weight.seen_before, size)
    return Portraits(coffees, tables, unseen, used, lexicon, kept)


def evidence(reading: Reading, portraits: Portraits) -> dict[str, float]:
    """How much a note speaks for each coffee: sums of logarithms, 0 for all if nothing in it was read.

    What the note denies speaks the other way.
    """
    said = dict.fromkeys(portraits.coffees, 0.0)
    for view, weight in portraits.weights.items():
        marks = marks_of(reading, portraits.lexicon, view, portraits.company)
        for coffee in portraits.coffees:
            known, unseen = portraits.marks[view][coffee], portraits.unseen[view][coffee]
            said[coffee] += weight.weight * sum(n * known.get(mark, unseen) for mark, n in marks.items())
    return said


def likeliest(reading: Reading, portraits: Portraits) -> str:
    """The coffee that a note speaks for most; of equals the one that was learnt first."""
    said = evidence(reading, portraits)
    return max(portraits.coffees, key=lambda coffee: said[coffee])


def marks_of(
    reading: Reading, lexicon: Lexicon, view: str, company: Company | None = None
) -> dict[str, float]:
    """What a note shows in one view, and how much; less than nothing where it denies."""
    kept = builtin_company(lexicon) if company is None else company
    shown: dict[str, float] = {}
    for word in reading.words:
        said = _said(word)
        if said:
            for mark, much in marks_of_concept(word.concept, view, lexicon, kept).items():
                shown[mark] = shown.get(mark, 0.0) + said * much
    return shown


def _said(word: Word) -> float:
    """How much a word says its concept is there: 1 plainly, more or less by degree, below 0 if it denies."""
    if word.comparison == "other":
        return 0.0
    if word.negated:
        return -1.0
    if word.comparison in LOWERED:
        return _LESS
    much = _SLIGHT if word.degree in LOW else _MUCH if word.degree in HIGH else 1.0
    return much * _DOUBTED if word.hedged else much


def marks_of_concept(concept: str, view: str, lexicon: Lexicon, company: Company) -> Mapping[str, float]:
    """What one concept shows in one view, and how much of it."""
    if view == "company":
        return company[concept]
    if view == "concepts":
        return {concept: 1.0}
    if view == "above":
        return dict.fromkeys(lexicon.ancestors(concept) - {concept}, 1.0)
    facets = facets_of(lexicon)[concept]
    if view == "state":
        return {facets.state: 1.0} if facets.state else {}
    words: frozenset[str] = getattr(facets, view)
    return dict.fromkeys(words, 1.0)


def marks_of_view(view: str, lexicon: Lexicon, company: Company) -> frozenset[str]:
    """Everything that any concept shows in a view."""
    if view == "company":
        return frozenset(mark for shown in company.values() for mark in shown)
    return _marks_of_written(view, lexicon)


@lru_cache(maxsize=32)
def _marks_of_written(view: str, lexicon: Lexicon) -> frozenset[str]:
    return frozenset(
        mark for concept in lexicon.concepts for mark in marks_of_concept(concept, view, lexicon, {})
    )


def _counted(
    view: str, read: list[tuple[str, Reading]], coffees: tuple[str, ...], lexicon: Lexicon, company: Company
) -> dict[str, dict[str, float]]:
    """coffee -> mark -> how many notes show it, less those that deny it; never below 0."""
    counts: dict[str, dict[str, float]] = {coffee: {} for coffee in coffees}
    for coffee, reading in read:
        for mark, n in marks_of(reading, lexicon, view, company).items():
            counts[coffee][mark] = counts[coffee].get(mark, 0.0) + n
    return {
        coffee: {mark: max(n, 0.0) for mark, n in of_coffee.items()} for coffee, of_coffee in counts.items()
    }


def _logarithms(
    counts: dict[str, dict[str, float]], seen_before: float, size: int
) -> tuple[dict[str, dict[str, float]], dict[str, float]]:
    """Logarithms of smoothed shares, centred over the coffees; and those of a mark that no note shows."""
    totals = {coffee: log(sum(marks.values()) + seen_before * size) for coffee, marks in counts.items()}
    every = {mark for marks in counts.values() for mark in marks}
    known: dict[str, dict[str, float]] = {coffee: {} for coffee in counts}
    for mark in every:
        logs = {
            coffee: log(counts[coffee].get(mark, 0.0) + seen_before) - totals[coffee] for coffee in counts
        }
        middle = sum(logs.values()) / len(logs)
        for coffee, value in logs.items():
            known[coffee][mark] = value - middle
    mean = sum(totals.values()) / len(totals)
    return known, {coffee: mean - total for coffee, total in totals.items()}
