"""Notes for a benchmark of reading: from a file, or put together from the lexicon."""

import csv
import random
import sys
from pathlib import Path

from cupwright.core.words.lexicon_file import builtin_lexicon

INVENTED = 5_000


def notes_of(path: Path) -> list[str]:
    """The notes of a file with a column `note`, empty ones left out."""
    with path.open(encoding="utf-8-sig", newline="") as file:
        rows = csv.DictReader(file)
        if "note" not in (rows.fieldnames or ()):
            sys.exit(f"{path.name} has no column 'note'.")
        return [row["note"] for row in rows if (row["note"] or "").strip()]


def invented_notes(count: int) -> list[str]:
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
