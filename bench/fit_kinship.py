"""Fit the few weights of kinship and of telling apart on a file of notes, and write them down.

    .venv/bin/python bench/fit_kinship.py NOTES.csv [--write] [--json]

NOTES.csv: columns taster, coffee, note. Without --write nothing is changed; with it,
src/cupwright/core/words/kinship_weights.toml is written anew. No note and no word of a note is kept.

Kinship: words that are kin keep like company. For each word the families of the words that stand beside it
are foretold from those that stand beside its kin alone; the better that goes in notes of tasters who were
left out, the better the weights. Which coffee a note is about is not used. Of all weights within one standard
error of the best, those are taken that lean on the graph, which was written down, not on what was counted.

Telling apart: how much each view of a note counts, found by changing one weight at a time. How well that does
on tasters who were left out is what bench/telling_apart.py --cross says.
"""

import argparse
import csv
import json
import random
from collections.abc import Iterable
from itertools import product
from pathlib import Path

import numpy as np
from bench.telling_apart import Weights, fitted_views, tasters_of
from parts.company import families_in, likeness, members, used_in, weights_of

from cupwright.core.words.kinship_parts import co_use_part, facets_part, graph_part
from cupwright.core.words.kinship_weights import KinshipWeights
from cupwright.core.words.lexicon import Lexicon, load_lexicon
from cupwright.core.words.reading import read_note
from cupwright.core.words.telling import company_of

TARGET = Path(__file__).parents[1] / "src/cupwright/core/words/kinship_weights.toml"
FOLDS = 5
STEPS = (0.0, 0.2, 0.4, 0.6, 0.8)
SHARPNESS = (4.0, 8.0, 12.0)


class Notes:
    """What was read: who wrote, and which concepts, as a 0/1 array of shape (n_notes, n_concepts)."""

    def __init__(self, rows: Iterable[dict[str, str]], lexicon: Lexicon) -> None:
        kept = [row for row in rows if (row["note"] or "").strip()]
        self.lexicon = lexicon
        self.tasters = [row["taster"] for row in kept]
        self.coffees = [row["coffee"] for row in kept]
        self.readings = [read_note(row["note"], lexicon) for row in kept]
        self.used = used_in(self.readings, lexicon)

    def folds(self, count: int, seed: int = 7) -> np.ndarray:
        """A number from 0 to count-1 for each note, the same for all notes of a taster."""
        names = sorted(set(self.tasters))
        random.Random(seed).shuffle(names)
        number = {name: at % count for at, name in enumerate(names)}
        return np.array([number[name] for name in self.tasters])


def main() -> None:
    """Fit, show, and write if asked."""
    asked = _arguments()
    if not asked.notes:
        print("{}" if asked.json else "No file of notes was named: nothing to fit.")
        return
    lexicon = load_lexicon()
    with asked.notes.open(encoding="utf-8-sig", newline="") as file:
        notes = Notes(csv.DictReader(file), lexicon)
    families = families_in(notes.used, lexicon)
    weights, table = _fit_kinship(notes, families, folds=2 if asked.quick else FOLDS)
    tasters, company = tasters_of(asked.notes, lexicon)[0], company_of(lexicon, weights)
    views = fitted_views(tasters, lexicon, company, draws=2 if asked.quick else 6)
    if asked.write:
        TARGET.write_text(_as_toml(weights, families, views), encoding="utf-8")
        print(f"written: {TARGET.name}")
    if asked.json:
        found = {"kinship": table[:5], "telling": {v: [w.weight, w.seen_before] for v, w in views.items()}}
        print(json.dumps(found))
    else:
        _show(weights, table, views)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="Fit the weights of kinship and of telling apart.")
    parser.add_argument("notes", nargs="?", type=Path, help="a CSV file with columns taster, coffee, note")
    parser.add_argument("--quick", action="store_true", help="2 folds and 2 draws")
    parser.add_argument("--write", action="store_true", help="write the weights into the program")
    parser.add_argument("--json", action="store_true", help="one JSON object on the last line")
    return parser.parse_args()


def _fit_kinship(
    notes: Notes, families: frozenset[str], *, folds: int
) -> tuple[KinshipWeights, list[list[float]]]:
    """The weights by the rule of one standard error, and all tries from the best down."""
    lexicon, names = notes.lexicon, sorted(families)
    member = members(families, lexicon)
    parts = (graph_part(lexicon), facets_part(lexicon))
    fold = notes.folds(folds)
    scores = np.array([_scores_of_fold(notes, member, names, parts, fold == left) for left in range(folds)])
    tries = [(triple, sharp) for triple in product(STEPS, repeat=3) for sharp in SHARPNESS]
    mean = scores.mean(axis=0)
    best = int(mean.argmax())
    error = (scores - scores[:, [best]]).std(axis=0, ddof=1) / np.sqrt(folds)
    near = [at for at in range(len(tries)) if mean[best] - mean[at] <= error[at]]
    taken = max(near, key=lambda at: (tries[at][0][0], -tries[at][0][2], mean[at]))
    order = sorted(range(len(tries)), key=lambda at: -mean[at])
    table = [[*tries[at][0], tries[at][1], float(mean[at]), float(error[at])] for at in [taken, *order]]
    return weights_of(tries[taken][0], names, likeness(notes.used, member)), table


def _scores_of_fold(
    notes: Notes, member: np.ndarray, names: list[str], parts: tuple[np.ndarray, np.ndarray], left: np.ndarray
) -> list[float]:
    """For each try: how well the company of words in the notes left out is foretold by their kin."""
    used = notes.used[~left]
    co_use = co_use_part(notes.lexicon, weights_of((1, 1, 1), names, likeness(used, member)))
    seen, often = _company(used, member), used.sum(axis=0)
    shares = (seen + 3 * seen.sum(axis=0) / seen.sum()) / (seen.sum(axis=1, keepdims=True) + 3)
    wanted = _company(notes.used[left], member)
    enough = wanted.sum(axis=1) >= 5
    scores = []
    for (g, f, c), sharp in product(product(STEPS, repeat=3), SHARPNESS):
        near = 1 - (1 - g * parts[0]) * (1 - f * parts[1]) * (1 - c * co_use)
        pull = np.exp(sharp * near) * often
        np.fill_diagonal(pull, 0.0)
        foretold = (pull / pull.sum(axis=1, keepdims=True)) @ shares
        said = (wanted * np.log(foretold)).sum(axis=1)[enough] / wanted.sum(axis=1)[enough]
        scores.append(float(said.mean()))
    return scores


def _company(used: np.ndarray, member: np.ndarray) -> np.ndarray:
    """How often a word of each family stands beside each word, itself left out."""
    return used.T @ (used @ member) - used.sum(axis=0)[:, None] * member


def _show(weights: KinshipWeights, table: list[list[float]], views: Weights) -> None:
    print(
        "graph facets co-use sharpness  foretold  s.e. of the difference; first the one taken, then the best"
    )
    for row in table[:9]:
        print("  ".join(f"{value:8.4f}" for value in row))
    print(f"{len(weights.likeness)} pairs of {len(weights.families)} families keep like company")
    print("views:", ", ".join(f"{view} {w.weight:g} ({w.seen_before:g})" for view, w in views.items()))


HEAD = """\
# Weights fitted on notes of home tasters by bench/fit_kinship.py, which says how; no note is kept.
# kinship: how far graph, facets and co-use can each make two words kin by itself.
# families: concepts that stand for all under them where company is counted.
# telling: for each view of a note how much it counts, and how often each mark is taken as seen beforehand.
# likeness: families that keep like company in notes, as a cosine in percent; under 50 is not kept.
"""


def _as_toml(weights: KinshipWeights, families: frozenset[str], views: Weights) -> str:
    lines = [HEAD, "[kinship]"]
    lines += [f"{part} = {getattr(weights, part)}" for part in ("graph", "facets", "co_use")]
    lines += [f'families = """\n{_wrapped(sorted(families))}"""', "", "[telling]"]
    lines += [f"{view} = [{w.weight:g}, {w.seen_before:g}]" for view, w in views.items()]
    lines += ["", "[likeness]"]
    for family in sorted(families):
        others = {b: share for (a, b), share in sorted(weights.likeness.items()) if a == family}
        if others:
            lines.append(
                f"{family} = {{ {', '.join(f'{b} = {round(100 * s)}' for b, s in others.items())} }}"
            )
    return "\n".join(lines) + "\n"


def _wrapped(words: list[str], width: int = 110) -> str:
    lines = [""]
    for word in words:
        if len(lines[-1]) + len(word) > width:
            lines.append("")
        lines[-1] += f"{word} "
    return "\n".join(line.strip() for line in lines) + "\n"


if __name__ == "__main__":
    main()
