"""How well notes are read against annotations by hand, how much of them is understood, and how fast.

    .venv/bin/python bench/reading.py [NOTES.csv] [--gold FILE.jsonl] [--apart] [--quick] [--json]

NOTES.csv needs a column `note`; any file of tasting notes will do. Without one, invented notes are read and
only speed and the annotated notes are reported: how much of invented notes is understood would say nothing.

Against the annotations (docs/methods/annotating.md) a word counts as read if concept and place agree:
precision is the share of the words read that were annotated, recall the share of the annotated that were
read. A concept that became its own after the notes were annotated counts as the one that held its words then
(reading_gold_since.toml); the figures without that are given, too. Negation, degree, comparison, doubt and
stage are compared on the words that agree. `--apart` lists where the two differ. Of the second and
third set (reading_second.jsonl, reading_third.jsonl) only totals are given.

Speed is given as notes a second of one core's time with an empty cache (each word met for the first time), as
the median of interleaved rounds with its range, and as a ratio to the least a reader could do: cutting a note
into words and looking each up in a set.
"""

import argparse
import json
import re
import statistics
import time
import tomllib
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from parts.notes import INVENTED, invented_notes, notes_of

from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.lexicon_file import builtin_lexicon
from cupwright.core.words.phrases import phrase_index
from cupwright.core.words.reading import Reading, Word, read_note

GOLD = Path(__file__).parents[1] / "tests/contract/reading_gold.jsonl"
SECOND = GOLD.with_name("reading_second.jsonl")
THIRD = GOLD.with_name("reading_third.jsonl")
DENIALS = GOLD.with_name("negation_gold.jsonl")
SINCE = GOLD.with_name("reading_gold_since.toml")
DEGREES = {"trace": "low", "slight": "low", "plain": "plain", "marked": "high", "very": "high", "too": "high"}
Figures = dict[str, float]
Annotated = Mapping[str, Any]
Pair = tuple[Annotated, Word]


def main() -> None:
    """Measure and print."""
    asked = _arguments()
    notes = notes_of(asked.notes) if asked.notes else invented_notes(INVENTED)
    figures = _against(asked.gold, apart=asked.apart) if asked.gold.is_file() else {}
    figures |= _totals(SECOND, "second") | _totals(THIRD, "third")
    figures |= _denied(DENIALS, apart=asked.apart)
    figures |= {"notes": len(notes)}
    if asked.notes:
        figures |= _understood(notes, show=0 if asked.json else 40)
    figures |= _speed(notes, rounds=3 if asked.quick else 9)
    if asked.json:
        print(json.dumps({name: round(value, 4) for name, value in figures.items()}))
    else:
        for name, value in figures.items():
            print(f"{name:32} {value:>12.4g}" if value < 1000 else f"{name:32} {value:>12,.0f}")


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="How fast and how well tasting notes are read.")
    parser.add_argument("notes", nargs="?", type=Path, help="a CSV file with a column 'note'")
    parser.add_argument("--gold", type=Path, default=GOLD, help="notes annotated by hand, one a line")
    parser.add_argument("--apart", action="store_true", help="list where reading and annotation differ")
    parser.add_argument("--quick", action="store_true", help="fewer rounds, well under a minute")
    parser.add_argument("--json", action="store_true", help="one JSON object on the last line")
    return parser.parse_args()


# ------------------------------------------------------------------------------ against annotations by hand


def _against(path: Path, *, apart: bool) -> Figures:
    lexicon = builtin_lexicon()
    rows = [json.loads(line) for line in path.read_text("utf-8").splitlines() if line.strip()]
    since = tomllib.loads(SINCE.read_text("utf-8"))
    pairs: list[Pair] = []
    read = annotated = 0
    for row in rows:
        reading = read_note(row["note"], lexicon)
        matched, missed, extra = _matched(row, reading, since)
        pairs += matched
        read += len(reading.words)
        annotated += len(row["words"])
        if apart:
            _show_apart(row, matched, missed, extra)
    return {
        "gold_notes": len(rows),
        "gold_words": annotated,
        "precision": len(pairs) / max(1, read),
        "recall": len(pairs) / max(1, annotated),
        "precision_as_annotated": _same(pairs) / max(1, read),
        "recall_as_annotated": _same(pairs) / max(1, annotated),
        **_agreement(pairs),
    }


def _totals(path: Path, name: str) -> Figures:
    """On another set of annotated notes, in totals only, so that nobody mends what it shows."""
    figures = _against(path, apart=False)
    told = {
        "notes": "gold_notes",
        "words": "gold_words",
        "precision": "precision_as_annotated",
        "recall": "recall_as_annotated",
    }
    return {f"{name}_{told_as}": figures[key] for told_as, key in told.items()}


def _denied(path: Path, *, apart: bool) -> Figures:
    """On invented notes full of denials: how much of what is denied is read as denied, and the other way."""
    lexicon = builtin_lexicon()
    rows = [json.loads(line) for line in path.read_text("utf-8").splitlines() if line.strip()]
    pairs: list[Pair] = []
    denied = read = 0
    for row in rows:
        reading = read_note(row["note"], lexicon)
        matched, missed, extra = _matched(row, reading, {})
        pairs += matched
        denied += sum(word["negated"] for word in row["words"])
        read += sum(word.negated for word in reading.words)
        differ = [(a["concept"], w.negated) for a, w in matched if a["negated"] != w.negated]
        if apart and (missed or extra or differ):
            print(
                f"{row['note']!r}",
                differ,
                [a["text"] for a in missed],
                [w.concept for w in extra],
                sep="\n  ",
            )
    both = sum(a["negated"] and w.negated for a, w in pairs)
    marked = sum(a["negated"] or w.negated for a, w in pairs)
    return {
        "denials_notes": len(rows),
        "denials_marked": marked,
        "denials_right": both / max(1, marked),
        "denials_precision": both / max(1, read),
        "denials_recall": both / max(1, denied),
        "denials_compared_right": _agreed([(a["compared"], w.compared) for a, w in pairs]),
    }


def _agreed(told: Sequence[tuple[object, object]]) -> float:
    """Of those that either side marks, the share that both mark alike."""
    marked = [(one, other) for one, other in told if one or other]
    return sum(one == other for one, other in marked) / max(1, len(marked))


def _same(pairs: Sequence[Pair]) -> int:
    return sum(annotated["concept"] == word.concept for annotated, word in pairs)


def _matched(
    row: Annotated, reading: Reading, since: Mapping[str, list[str]]
) -> tuple[list[Pair], list[Annotated], list[Word]]:
    """Words that agree in concept and place, annotated words that were missed, words read besides."""
    left = list(reading.words)
    matched: list[Pair] = []
    missed: list[Annotated] = []
    for word, (start, end) in zip(row["words"], _places(row), strict=True):
        here = (w for w in left if w.start < end and start < w.end)
        hit = next((w for w in here if word["concept"] in (w.concept, *since.get(w.concept, ()))), None)
        if hit:
            left.remove(hit)
            matched.append((word, hit))
        else:
            missed.append(word)
    return matched, missed, left


def _places(row: Annotated) -> Iterator[tuple[int, int]]:
    """Where each annotated word stands: behind the word before or, if it is not there, from its start on."""
    note, start, end = row["note"], 0, 0
    for word in row["words"]:
        behind = note.find(word["text"], end)
        start = behind if behind >= 0 else note.index(word["text"], start)
        end = start + len(word["text"])
        yield start, end


def _agreement(pairs: Sequence[Pair]) -> Figures:
    """On the words that agree: of those that either side marks, the share that both mark alike."""
    told: dict[str, list[tuple[object, object]]] = {
        "negation": [(a["negated"], w.negated) for a, w in pairs],
        "degree": [
            (a["degree"].replace("plain", ""), DEGREES[w.degree].replace("plain", "")) for a, w in pairs
        ],
        "comparison": [(a["compared"], w.compared) for a, w in pairs],
        "doubt": [(a["hedged"], w.hedged) for a, w in pairs],
        "stage": [(a["stage"], w.stage) for a, w in pairs],
    }
    figures: Figures = {}
    for name, both in told.items():
        figures[f"{name}_marked"] = sum(bool(one or other) for one, other in both)
        figures[f"{name}_right"] = _agreed(both)
    return figures


def _show_apart(
    row: Annotated, matched: Sequence[Pair], missed: Sequence[Annotated], extra: Sequence[Word]
) -> None:
    note = row["note"]
    lines = [f"  annotated only: {word['concept']} '{word['text']}'" for word in missed]
    lines += [f"  read only:      {word.concept} '{note[word.start : word.end]}'" for word in extra]
    for a, w in matched:
        by_hand = (a["negated"], a["degree"], a["compared"], a["hedged"], a["stage"])
        read = (w.negated, DEGREES[w.degree], w.compared, w.hedged, w.stage)
        if by_hand != read:
            lines.append(f"  {w.concept}: annotated {by_hand}, read {read}")
    if lines:
        print(f"{row['id']}: {note!r}", *lines, sep="\n")


# ------------------------------------------------------------------------------------- how much is understood


def _understood(notes: Sequence[str], show: int) -> Figures:
    lexicon = builtin_lexicon()
    readings = [read_note(note, lexicon) for note in notes]
    read = sum(_count_words(reading, lexicon) for reading in readings)
    unread = Counter(word.casefold() for reading in readings for word in reading.unread_words())
    found = [word for reading in readings for word in reading.words]
    if show:
        print(
            "most frequent unread:", ", ".join(f"{word} {count}" for word, count in unread.most_common(show))
        )
    return {
        "meaningful_words": read + unread.total(),
        "share_of_meaningful_words_read": read / max(1, read + unread.total()),
        "share_of_meaningful_words_unread": unread.total() / max(1, read + unread.total()),
        "share_of_notes_not_read_at_all": sum(not reading.words for reading in readings)
        / max(1, len(readings)),
        "concepts_per_note": len(found) / max(1, len(readings)),
        "different_concepts_met": len({word.concept for word in found}),
        "concepts_in_lexicon": len(lexicon),
        "share_denied": sum(word.negated for word in found) / max(1, len(found)),
        "share_of_low_certainty": sum(word.certainty < 0.9 for word in found) / max(1, len(found)),
    }


def _count_words(reading: Reading, lexicon: Lexicon) -> int:
    """Words of the text that a concept covers, small words inside a phrase left out."""
    small = phrase_index(lexicon).small
    pieces = (reading.text[word.start : word.end].casefold() for word in reading.words)
    return sum(word not in small for piece in pieces for word in re.findall(r"\w+", piece))


# ----------------------------------------------------------------------------------------------------- speed


def _speed(notes: Sequence[str], rounds: int) -> Figures:
    """Notes a second; reader and baseline take turns so that a busy machine slows both."""
    reader, baseline = [], []
    for _ in range(rounds):
        # a new one, so that nothing is remembered from the last round
        lexicon = builtin_lexicon.__wrapped__()
        for text in ("", "limón, jazmín", "limão, maracujá"):
            read_note(text, lexicon)  # the indexes are compiled outside the measurement
        reader.append(len(notes) / _seconds(lambda text, lexicon=lexicon: read_note(text, lexicon), notes))
        known = {word for concept in lexicon for form in concept.synonyms for word in form.split()}
        baseline.append(len(notes) / _seconds(lambda text, known=known: _looked_up(text, known), notes))
    return {
        "notes_per_second": statistics.median(reader),
        "notes_per_second_lowest": min(reader),
        "notes_per_second_highest": max(reader),
        "times_slower_than_look_up": statistics.median(b / r for b, r in zip(baseline, reader, strict=True)),
    }


def _seconds(act: Callable[[str], object], notes: Sequence[str]) -> float:
    """Of one core's time: what others do on the machine meanwhile does not count."""
    start = time.process_time()
    for note in notes:
        act(note)
    return time.process_time() - start


def _looked_up(text: str, known: set[str]) -> int:
    return sum(word in known for word in re.findall(r"\w+", text.casefold()))


if __name__ == "__main__":
    main()
