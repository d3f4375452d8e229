"""How well notes tell coffees apart: named from notes of k other tasters, against counting words.

    .venv/bin/python bench/telling_apart.py NOTES.csv [--quick] [--cross] [--json]

NOTES.csv: columns taster, coffee, note. Of the tasters who wrote on every coffee, k are drawn; from their
notes each way learns the coffees, and then names the coffee of every note of all the others. 15 draws for
each k. In one run, on the same draws:

    words      counts of words: TF-IDF and multinomial naive Bayes of scikit-learn, as they come
    patterns   words sorted into 30 families by regular expressions, multinomial naive Bayes
    cupwright  core/words/telling.py: concepts, what stands above them, their facets, like company

The weights of the views and what families keep like company were learnt from one file of notes. For that file
use --cross: tasters are halved, and each half is told apart with both learnt from the other.
"""

import argparse
import csv
import json
import random
import re
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from parts.company import counted_company
from sklearn.feature_extraction.text import TfidfVectorizer
from sklearn.naive_bayes import MultinomialNB

from cupwright.core.words.lexicon import Lexicon, load_lexicon
from cupwright.core.words.reading import Reading, read_note
from cupwright.core.words.telling import (
    VIEWS,
    Company,
    ViewWeight,
    builtin_company,
    builtin_weights,
    learn,
    likeliest,
    marks_of,
    marks_of_view,
)

TRAINING = (5, 10, 20, 40, 80, 160)
DRAWS = 15
Curve = list[float]
Weights = Mapping[str, ViewWeight]


@dataclass(frozen=True)
class Note:
    """One note: the coffee it is about, as written, as read."""

    coffee: str
    text: str
    reading: Reading


Tasters = dict[str, list[Note]]


# Families of words as one might sort them in an afternoon.
PATTERNS = [
    r"berr|cassis|currant",
    r"lemon|lime|citr|orange|grapefruit|tangerine|mandarin|bergamot|zest",
    r"apple|pear|quince|grape\b|grapes",
    r"peach|apricot|plum|cherr|nectarine|stone ?fruit",
    r"tropical|mango|pineapple|papaya|guava|passion|banana|kiwi|melon|coconut",
    r"raisin|prune|fig\b|figs|date\b|dates|dried",
    r"fruit",
    r"jam|jelly|compote|candy|candied|gummy|soda",
    r"flor|flower|jasmin|rose\b|lavender|hibiscus|blossom|perfum",
    r"\btea",
    r"choc|cocoa|cacao|brownie|mocha",
    r"nut|almond|hazel|pecan|walnut|cashew",
    r"caramel|toffee|butterscotch|brown sugar|molasses|maple|syrup",
    r"honey|sweet|sugar|vanilla|marshmallow",
    r"malt|grain|cereal|bread|toast|biscuit|cracker|oat|wheat",
    r"cream|milk|butter|yog",
    r"spic|cinnamon|clove|nutmeg|ginger|pepper|cardamom|anise",
    r"smok|ash|tobacco|char|burn",
    r"roast|dark",
    r"wood|cedar|oak|pine|earth|soil|leather|mushroom|musty|mineral",
    r"grass|veget|green|herb|hay|pea\b|peas|tomato",
    r"ferment|funk|wine|winey|rum\b|whisk|boozy|alcohol|kombucha|vinegar|cider|beer|natural",
    r"sour|tart|tang|sharp",
    r"acid|bright|crisp|juic|zing",
    r"bitter|harsh|astring|dry",
    r"light|thin|water|tea-like|weak|mild|delicate|subtle|clean|clear",
    r"heav|full|thick|rich|bold|strong|intens|robust|body",
    r"smooth|silk|velvet|round|balanc|mellow|soft",
    r"bor|bland|flat|plain|generic|diner|typical|classic|standard|regular|normal|basic|dull",
    r"complex|interest|unique|wild|weird|differ|favou?rite|love|amazing|exciting|fun",
]


def main() -> None:
    """Draw, learn, name, and print the curves."""
    asked = _arguments()
    if not asked.notes:
        print("{}" if asked.json else "No file of notes was named: nothing to tell apart.")
        return
    lexicon = load_lexicon()
    tasters, left_out = tasters_of(asked.notes, lexicon)
    sizes = TRAINING[:4] if asked.quick else TRAINING
    draws = 3 if asked.quick else DRAWS
    started = time.perf_counter()
    curves = (_crossed if asked.cross else _measured)(tasters, lexicon, sizes, draws)
    figures = {
        "tasters": len(tasters),
        "tasters_left_out": left_out,
        "draws": draws,
        "training_tasters": list(sizes),
        "weights": "fitted on the other half" if asked.cross else "as shipped",
        "share_right": {name: [round(value, 4) for value in curve] for name, curve in curves.items()},
        "seconds": round(time.perf_counter() - started, 1),
    }
    print(json.dumps(figures) if asked.json else _as_table(figures))


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="How well notes tell coffees apart.")
    parser.add_argument("notes", nargs="?", type=Path, help="a CSV file with columns taster, coffee, note")
    parser.add_argument("--quick", action="store_true", help="3 draws, up to 40 tasters")
    parser.add_argument(
        "--cross", action="store_true", help="fit the weights on the other half of the tasters"
    )
    parser.add_argument("--json", action="store_true", help="one JSON object on the last line")
    return parser.parse_args()


def tasters_of(path: Path, lexicon: Lexicon) -> tuple[Tasters, int]:
    """Notes by taster, of those who wrote on every coffee; and how many others there are."""
    with path.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    if missing := {"taster", "coffee", "note"} - set(rows[0] if rows else ()):
        sys.exit(f"{path.name} has no column '{min(missing)}'.")
    found: Tasters = {}
    for row in rows:
        if (row["note"] or "").strip():
            note = Note(row["coffee"], row["note"], read_note(row["note"], lexicon))
            found.setdefault(row["taster"], []).append(note)
    coffees = {row["coffee"] for row in rows}
    whole = {name: notes for name, notes in found.items() if {note.coffee for note in notes} == coffees}
    return whole, len(found) - len(whole)


def drawn(
    tasters: Tasters, names: Sequence[str], size: int, draws: int
) -> Iterator[tuple[list[Note], list[Note]]]:
    """Notes to learn from and notes to name, by different tasters; the same in every run."""
    for draw in range(draws):
        mixed = sorted(names)
        random.Random(f"{size}/{draw}").shuffle(mixed)
        yield (
            [note for name in mixed[:size] for note in tasters[name]],
            [note for name in mixed[size:] for note in tasters[name]],
        )


def _measured(
    tasters: Tasters,
    lexicon: Lexicon,
    sizes: Sequence[int],
    draws: int,
    *,
    names: Sequence[str] | None = None,
    weights: Weights | None = None,
    company: Company | None = None,
) -> dict[str, Curve]:
    shown, kept = weights or builtin_weights(), company or builtin_company(lexicon)
    ways = {
        "words": _by_words,
        "patterns": _by_patterns,
        "cupwright": lambda known, asked: _by_concepts(known, asked, lexicon, shown, kept),
    }
    curves: dict[str, Curve] = {name: [] for name in ways}
    for size in sizes:
        shares: dict[str, list[float]] = {name: [] for name in ways}
        for known, asked in drawn(tasters, names or list(tasters), size, draws):
            for name, way in ways.items():
                right = [said == note.coffee for said, note in zip(way(known, asked), asked, strict=True)]
                shares[name].append(float(np.mean(right)))
        for name in ways:
            curves[name].append(float(np.mean(shares[name])))
    return curves


def _crossed(tasters: Tasters, lexicon: Lexicon, sizes: Sequence[int], draws: int) -> dict[str, Curve]:
    """Each half of the tasters with weights and company from the other half; the mean of the two curves."""
    first, second = halves(tasters)
    halved = []
    for fitted_on, told in ((first, second), (second, first)):
        of_half = {name: tasters[name] for name in fitted_on}
        company = counted_company((note.reading for notes in of_half.values() for note in notes), lexicon)
        weights = fitted_views(of_half, lexicon, company)
        curves = _measured(tasters, lexicon, sizes, draws, names=told, weights=weights, company=company)
        halved.append(curves)
    return {
        name: [float(np.mean(pair)) for pair in zip(*(h[name] for h in halved), strict=True)]
        for name in halved[0]
    }


def halves(tasters: Tasters) -> tuple[list[str], list[str]]:
    """Two halves of the names by lot, the same in every run."""
    mixed = sorted(tasters)
    random.Random(11).shuffle(mixed)
    return mixed[::2], mixed[1::2]


def _by_words(known: list[Note], asked: list[Note]) -> list[str]:
    vectors = TfidfVectorizer()
    seen = vectors.fit_transform([note.text for note in known])
    bayes = MultinomialNB().fit(seen, [note.coffee for note in known])
    return list(bayes.predict(vectors.transform([note.text for note in asked])))


def _by_patterns(known: list[Note], asked: list[Note]) -> list[str]:
    bayes = MultinomialNB().fit(_pattern_counts(known), [note.coffee for note in known])
    return list(bayes.predict(_pattern_counts(asked)))


def _pattern_counts(notes: list[Note]) -> np.ndarray:
    return np.array([_counts_of(note.text) for note in notes], dtype=float)


_COUNTED: dict[str, list[int]] = {}


def _counts_of(text: str) -> list[int]:
    if text not in _COUNTED:
        _COUNTED[text] = [len(re.findall(pattern, text.lower())) for pattern in PATTERNS]
    return _COUNTED[text]


def _by_concepts(
    known: list[Note], asked: list[Note], lexicon: Lexicon, weights: Weights, company: Company
) -> list[str]:
    notes = ((note.coffee, note.reading) for note in known)
    portraits = learn(notes, lexicon, weights=weights, company=company)
    return [likeliest(note.reading, portraits) for note in asked]


# --------------------------------------------------------------- fitting the weights of the views
WEIGHTS = (0.0, 0.5, 1.0, 2.0, 3.0, 4.0)
SEEN_BEFORE = (0.5, 1.0, 2.0, 4.0)
LEAST_GAIN = 0.0005  # a change that gains less is chance
Evidence = dict[tuple[str, float], np.ndarray]
Draw = tuple[np.ndarray, Evidence]


def fitted_views(tasters: Tasters, lexicon: Lexicon, company: Company, *, draws: int = 6) -> Weights:
    """Weights of the views that tell the notes of these tasters apart best, over all sizes of training alike.

    From equal weights on, one view after the other takes the best of a few values, twice round.
    """
    prepared = [one for size in TRAINING for one in _evidence(tasters, lexicon, company, size, draws)]
    chosen = dict.fromkeys(VIEWS, (1.0, 1.0))
    best = _share_right(prepared, chosen)
    for _ in range(2):
        for view in VIEWS:
            for weight in WEIGHTS:
                for before in SEEN_BEFORE:
                    tried = chosen | {view: (weight, before)}
                    share = _share_right(prepared, tried)
                    if share > best + LEAST_GAIN:
                        best, chosen = share, tried
    return {view: ViewWeight(*chosen[view]) for view in VIEWS}


def _evidence(tasters: Tasters, lexicon: Lexicon, company: Company, size: int, draws: int) -> Iterator[Draw]:
    """For each draw: the true coffees, and for each view and prior count the evidence for each coffee."""
    for known, asked in drawn(tasters, list(tasters), size, draws):
        coffees = sorted({note.coffee for note in known})
        truth = np.array([coffees.index(note.coffee) for note in asked])
        of_known = np.array([coffees.index(note.coffee) for note in known])
        found: Evidence = {}
        for view in VIEWS:
            column = {mark: at for at, mark in enumerate(sorted(marks_of_view(view, lexicon, company)))}
            seen, shown = (
                _table([marks_of(note.reading, lexicon, view, company) for note in notes], column)
                for notes in (known, asked)
            )
            counts = np.array([np.maximum(seen[of_known == at].sum(axis=0), 0) for at in range(len(coffees))])
            for before in SEEN_BEFORE:
                logs = np.log((counts + before) / (counts + before).sum(axis=1, keepdims=True))
                found[view, before] = shown @ (logs - logs.mean(axis=0)).T
        yield truth, found


def _table(marks: Sequence[Mapping[str, float]], column: Mapping[str, int]) -> np.ndarray:
    """Marks of notes in one view, shape (n_notes, n_marks of the view)."""
    table = np.zeros((len(marks), len(column)))
    for row, shown in enumerate(marks):
        for mark, count in shown.items():
            table[row, column[mark]] = count
    return table


def _share_right(prepared: list[Draw], chosen: Mapping[str, tuple[float, float]]) -> float:
    shares = []
    for truth, found in prepared:
        said = sum(weight * found[view, before] for view, (weight, before) in chosen.items())
        shares.append(float(np.mean(np.argmax(said, axis=1) == truth)))
    return float(np.mean(shares))


def _as_table(figures: dict[str, object]) -> str:
    shares = figures["share_right"]
    assert isinstance(shares, dict)
    lines = [
        f"{figures['tasters']} tasters, {figures['tasters_left_out']} left out; weights {figures['weights']}"
    ]
    lines.append("tasters learnt from " + "".join(f"{size:>8}" for size in figures["training_tasters"]))
    lines += [f"{name:<20}" + "".join(f"{value:>8.3f}" for value in curve) for name, curve in shares.items()]
    return "\n".join([*lines, f"{figures['seconds']} s"])


if __name__ == "__main__":
    main()
