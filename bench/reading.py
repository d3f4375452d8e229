"""How fast notes are read, and how much of what people write is understood.

    .venv/bin/python bench/reading.py [NOTES.csv] [--quick] [--json]

NOTES.csv needs a column `note`; any file of tasting notes will do. Without one, invented notes are read and
only the speed is reported: how much of them is understood would say nothing.

Speed is given as notes a second with an empty cache (each word met for the first time), as the median of
interleaved rounds with its range, and as a ratio to the least a reader could do: cutting a note into words
and looking each up in a set.
"""

import argparse
import csv
import json
import random
import re
import statistics
import sys
import time
from collections import Counter
from collections.abc import Callable, Sequence
from pathlib import Path

from cupwright.core.words.lexicon_file import builtin_lexicon
from cupwright.core.words.reading import Reading, read_note

INVENTED = 5_000
Figures = dict[str, float]


def main() -> None:
    """Measure and print."""
    asked = _arguments()
    notes = _notes_of(asked.notes) if asked.notes else _invented_notes(INVENTED)
    figures: Figures = {"notes": len(notes)}
    figures |= _speed(notes, rounds=3 if asked.quick else 9)
    if asked.notes:
        figures |= _understood(notes, show=0 if asked.json else 40)
    if asked.json:
        print(json.dumps({name: round(value, 4) for name, value in figures.items()}))
    else:
        for name, value in figures.items():
            print(f"{name:32} {value:>12.4g}" if value < 1000 else f"{name:32} {value:>12,.0f}")


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="How fast and how well tasting notes are read.")
    parser.add_argument("notes", nargs="?", type=Path, help="a CSV file with a column 'note'")
    parser.add_argument("--quick", action="store_true", help="fewer rounds, well under a minute")
    parser.add_argument("--json", action="store_true", help="one JSON object on the last line")
    return parser.parse_args()


def _notes_of(path: Path) -> list[str]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        rows = csv.DictReader(file)
        if "note" not in (rows.fieldnames or ()):
            sys.exit(f"{path.name} has no column 'note'.")
        return [row["note"] for row in rows if (row["note"] or "").strip()]


def _invented_notes(count: int) -> list[str]:
    """Notes put together from forms of the lexicon, small words and a few slips, always the same."""
    rng = random.Random(7)
    forms = [form for concept in builtin_lexicon() for form in concept.synonyms if "{" not in form]
    notes = []
    for _ in range(count):
        words = rng.sample(forms, rng.randint(1, 6))
        if rng.random() < 0.2:
            words.append("not " + rng.choice(forms))
        text = rng.choice([", ", " and ", "; "]).join(words)
        if rng.random() < 0.1:
            at = rng.randrange(len(text))
            text = text[:at] + text[at + 1 :]
        notes.append(text)
    return notes


def _speed(notes: Sequence[str], rounds: int) -> Figures:
    """Notes a second; reader and baseline take turns so that a busy machine slows both."""
    reader, baseline = [], []
    for _ in range(rounds):
        lexicon = (
            builtin_lexicon.__wrapped__()
        )  # a new one, so that nothing is remembered from the last round
        read_note("", lexicon)  # the index is compiled outside the measurement
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
    start = time.perf_counter()
    for note in notes:
        act(note)
    return time.perf_counter() - start


def _looked_up(text: str, known: set[str]) -> int:
    return sum(word in known for word in re.findall(r"\w+", text.casefold()))


def _understood(notes: Sequence[str], show: int) -> Figures:
    lexicon = builtin_lexicon()
    readings = [read_note(note, lexicon) for note in notes]
    read = sum(_count_words(reading) for reading in readings)
    unread = Counter(word.casefold() for reading in readings for word in reading.unread_words())
    found = [word for reading in readings for word in reading.words]
    if show:
        print(
            "most frequent unread:", ", ".join(f"{word} {count}" for word, count in unread.most_common(show))
        )
    return {
        "meaningful_words": read + unread.total(),
        "share_of_meaningful_words_read": read / max(1, read + unread.total()),
        "share_of_notes_not_read_at_all": sum(not reading.words for reading in readings)
        / max(1, len(readings)),
        "concepts_per_note": len(found) / max(1, len(readings)),
        "different_concepts_met": len({word.concept for word in found}),
        "concepts_in_lexicon": len(lexicon),
        "share_denied": sum(word.negated for word in found) / max(1, len(found)),
        "share_of_low_certainty": sum(word.certainty < 0.9 for word in found) / max(1, len(found)),
    }


def _count_words(reading: Reading) -> int:
    """Words of the text that a phrase of the lexicon covers, small words inside a phrase left out."""
    small = builtin_lexicon().language.small
    pieces = (reading.text[word.start : word.end].casefold() for word in reading.words)
    return sum(word not in small for piece in pieces for word in re.findall(r"\w+", piece))


if __name__ == "__main__":
    main()
