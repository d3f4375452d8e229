"""Telling apart: which of the coffees that others wrote about a new note is about.

A note is seen in several views: the concepts it names, everything above them, the sensations that carry
them, the company they keep. Each view is a naive Bayes classifier of its own, so that a word nobody wrote
before still speaks through its kin; their verdicts are added with weights (docs/methods/telling_apart.md).
"""

import tomllib
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from math import log
from types import MappingProxyType

from cupwright.core.words.facets import facets_of
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.reading import Reading
from cupwright.errors import TooFewObservations

VIEWS = ("concepts", "above", "made_of", "state", "feels", "company")
Marks = Mapping[str, Mapping[str, float]]  # view -> mark -> how often


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


@cache
def builtin_weights() -> Mapping[str, ViewWeight]:
    """The fitted weights of the views, from kinship_weights.toml."""
    text = files("cupwright.core.words").joinpath("kinship_weights.toml").read_text("utf-8")
    rows = tomllib.loads(text)["telling"]
    return MappingProxyType({view: ViewWeight(*map(float, rows[view])) for view in VIEWS})


def learn(
    notes: Iterable[tuple[str, Reading]],
    lexicon: Lexicon,
    *,
    weights: Mapping[str, ViewWeight] | None = None,
) -> Portraits:
    """Portraits of coffees from notes on them.

    Parameters
    ----------
    notes : iterable of (coffee, reading)
        Any number a coffee, from any tasters.
    weights : mapping, optional
        view -> weight; the fitted ones if left out.

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
    tables: dict[str, Mapping[str, Mapping[str, float]]] = {}
    unseen: dict[str, Mapping[str, float]] = {}
    for view, weight in used.items():
        counts = _counted(view, read, coffees, lexicon)
        tables[view], unseen[view] = _logarithms(counts, weight.seen_before, _size(view, lexicon))
    return Portraits(coffees, tables, unseen, used, lexicon)


def evidence(reading: Reading, portraits: Portraits) -> dict[str, float]:
    """How much a note speaks for each coffee: sums of logarithms, 0 for all if nothing in it was read.

    What the note denies speaks the other way.
    """
    said = dict.fromkeys(portraits.coffees, 0.0)
    for view, weight in portraits.weights.items():
        marks = marks_of(reading, portraits.lexicon, view)
        for coffee in portraits.coffees:
            known, unseen = portraits.marks[view][coffee], portraits.unseen[view][coffee]
            said[coffee] += weight.weight * sum(n * known.get(mark, unseen) for mark, n in marks.items())
    return said


def likeliest(reading: Reading, portraits: Portraits) -> str:
    """The coffee that a note speaks for most; of equals the one that was learnt first."""
    said = evidence(reading, portraits)
    return max(portraits.coffees, key=lambda coffee: said[coffee])


def marks_of(reading: Reading, lexicon: Lexicon, view: str) -> dict[str, float]:
    """What a note shows in one view, and how often; less than nothing where it denies."""
    shown: dict[str, float] = {}
    for sign, concepts in ((1.0, reading.concepts), (-1.0, reading.denied)):
        for concept in concepts:
            for mark in marks_of_concept(concept, view, lexicon):
                shown[mark] = shown.get(mark, 0.0) + sign
    return shown


def marks_of_concept(concept: str, view: str, lexicon: Lexicon) -> Collection[str]:
    """What one concept shows in one view."""
    if view == "concepts":
        return (concept,)
    if view == "above":
        return lexicon.ancestors(concept) - {concept}
    facets = facets_of(lexicon)[concept]
    if view == "state":
        return (facets.state,) if facets.state else ()
    words: frozenset[str] = getattr(facets, view)
    return words


def _counted(
    view: str, read: list[tuple[str, Reading]], coffees: tuple[str, ...], lexicon: Lexicon
) -> dict[str, dict[str, float]]:
    """coffee -> mark -> how many notes show it, less those that deny it; never below 0."""
    counts: dict[str, dict[str, float]] = {coffee: {} for coffee in coffees}
    for coffee, reading in read:
        for mark, n in marks_of(reading, lexicon, view).items():
            counts[coffee][mark] = counts[coffee].get(mark, 0.0) + n
    return {
        coffee: {mark: max(n, 0.0) for mark, n in of_coffee.items()} for coffee, of_coffee in counts.items()
    }


@lru_cache(maxsize=32)
def _size(view: str, lexicon: Lexicon) -> int:
    """How many marks a view has in all."""
    return len({mark for concept in lexicon.concepts for mark in marks_of_concept(concept, view, lexicon)})


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
