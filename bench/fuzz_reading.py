"""Reads a hundred thousand senseless notes on the server's side and on the client's: none may fail or differ.

    .venv/bin/python bench/fuzz_reading.py [--notes N] [--seed N] [--quick] [--json]

A third are any characters of Unicode 14 (control characters, other scripts, lone low surrogates), a third are
words of the lexicon and of the languages with punctuation between them, a third are such texts with letters
changed. What must hold for every reading is checked: words and unread pieces lie apart, in order, inside the
text.

The client's reader runs in Node, from client/src/words/reading; without Node or client/node_modules only the
server's is tried, and `compared_with_client` is 0. `client_ms` are milliseconds a note on this machine:
their mean, and what 99 of 100 notes stay under.
"""

import argparse
import json
import random
import shutil
import subprocess
import sys
import tempfile
import time
import unicodedata
from collections.abc import Sequence
from dataclasses import asdict
from itertools import pairwise
from pathlib import Path
from typing import Any

from cupwright.core.words.lexicon import Lexicon, load_lexicon
from cupwright.core.words.reading import Reading, read_note

ROOT = Path(__file__).parents[1]
NOTES, QUICK_NOTES = 100_000, 4_000
BETWEEN = [
    " ",
    " ",
    " ",
    ", ",
    "/",
    "-",
    ". ",
    "; ",
    "? ",
    ": ",
    " & ",
    "\n",
    "... ",
    " (",
    "'",
    "\u2019",
    "",
    "\x00",
    "🍋",
]
RANGES = [(0, 0x80), (0, 0x250), (0x300, 0x370), (0x400, 0x700), (0x2000, 0x2100), (0x3040, 0x3100)]
# Of the surrogates only the low ones: a high one would join the next, where text is kept in 16-bit units.
RANGES += [(0x1D400, 0x1D800), (0x1F300, 0x1F700), (0xDC00, 0xE000), (0xE000, 0x30000)]


def main() -> None:
    """Make the notes, read them twice, compare."""
    asked = _arguments()
    rng = random.Random(asked.seed)
    count = asked.notes or (QUICK_NOTES if asked.quick else NOTES)
    lexicon = load_lexicon()
    words = _vocabulary(lexicon)
    notes = [_note(rng, words) for _ in range(count)]
    started = time.process_time()
    readings = [_checked(read_note(note, lexicon), note) for note in notes]
    figures: dict[str, float] = {
        "notes": count,
        "seed": asked.seed,
        "characters": sum(map(len, notes)),
        "words_found": sum(len(reading.words) for reading in readings),
        "notes_per_second": count / (time.process_time() - started),
    }
    figures |= _compared(notes, readings)
    if asked.json:
        print(json.dumps({name: round(value, 4) for name, value in figures.items()}))
    else:
        for name, value in figures.items():
            print(f"{name:24} {value:>14,.4g}" if value < 1000 else f"{name:24} {value:>14,.0f}")
    sys.exit(1 if figures["different"] else 0)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="Read senseless notes on both sides and compare.")
    parser.add_argument("--notes", type=int, default=0, help=f"{NOTES:,}, with --quick {QUICK_NOTES:,}")
    parser.add_argument("--seed", type=int, default=11)
    parser.add_argument("--quick", action="store_true", help="fewer notes, well under a minute")
    parser.add_argument("--json", action="store_true", help="one JSON object on the last line")
    return parser.parse_args()


# ------------------------------------------------------------------------------------------ senseless notes


def _vocabulary(lexicon: Lexicon) -> list[str]:
    """Forms and marks of all languages, and some words of neither."""
    languages = (lexicon.language, *lexicon.others.values())
    forms = [form for concept in lexicon for code in languages for form in concept.forms_in(code.code)]
    marks = [phrase for language in languages for phrases in language.marks.values() for phrase in phrases]
    return (
        [word for word in forms if "{" not in word] + marks * 6 + ["table", "xyzzy", "12", "B", "qu'il"] * 40
    )


def _note(rng: random.Random, words: Sequence[str]) -> str:
    kind = rng.randrange(3)
    if kind == 0:
        return "".join(_character(rng) for _ in range(rng.randrange(60)))
    text = ""
    for _ in range(rng.randrange(14)):
        text += rng.choice(words) + rng.choice(BETWEEN)
    return text if kind == 1 else _changed(text, rng)


def _character(rng: random.Random) -> str:
    while True:
        character = chr(rng.randrange(*rng.choice(RANGES)))
        # Not assigned here means that a newer Unicode on the other side may know it.
        if unicodedata.category(character) != "Cn":
            return character


def _changed(text: str, rng: random.Random) -> str:
    letters = list(text)
    for _ in range(rng.randrange(1, 5)):
        at = rng.randrange(len(letters) + 1)
        kind = rng.randrange(4)
        if kind == 0:
            letters.insert(at, rng.choice("aeiouyrstln "))
        elif at < len(letters):
            letters[at] = {1: "", 2: letters[at] * 2, 3: letters[at].upper()}[kind]
    return "".join(letters)


def _checked(reading: Reading, text: str) -> Reading:
    """What must hold for every reading of every text."""
    spans = sorted([(w.start, w.end) for w in reading.words] + [(s.start, s.end) for s in reading.unread])
    assert reading.text == text
    assert all(0 <= start < end <= len(text) for start, end in spans), text
    assert all(one[1] <= other[0] for one, other in pairwise(spans)), text
    assert all(0 < word.certainty <= 1 for word in reading.words), text
    return reading


# ---------------------------------------------------------------------------------------- the client's reader


def _compared(notes: Sequence[str], readings: Sequence[Reading]) -> dict[str, float]:
    bundler = ROOT / "client/node_modules/.bin/rolldown"
    if not (shutil.which("node") and bundler.exists()):
        return {"compared_with_client": 0, "different": 0}
    with tempfile.TemporaryDirectory() as folder:
        program = Path(folder) / "read_lines.mjs"
        source = ROOT / "bench/read_lines.ts"
        options = ["--format", "esm", "--platform", "node", "--file", str(program)]
        subprocess.run([bundler, source, *options], check=True, capture_output=True, cwd=ROOT / "client")
        texts = "\n".join(json.dumps(note) for note in notes)
        run = subprocess.run(["node", program], input=texts, capture_output=True, text=True, check=True)
    theirs = [json.loads(line) for line in run.stdout.splitlines()]
    apart = [at for at, (one, other) in enumerate(zip(readings, theirs, strict=True)) if _data(one) != other]
    for at in apart[:5]:
        print(
            f"different: {notes[at]!r}\n  server {_data(readings[at])}\n  client {theirs[at]}",
            file=sys.stderr,
        )
    timing = json.loads(run.stderr)
    return {
        "compared_with_client": len(theirs),
        "different": len(apart),
        "client_compiled_ms": timing["compiled"],
        "client_ms": timing["mean"],
        "client_ms_99th": timing["of99"],
    }


def _data(reading: Reading) -> dict[str, Any]:
    return {
        "words": [asdict(word) for word in reading.words],
        "unread": [asdict(span) for span in reading.unread],
    }


if __name__ == "__main__":
    main()
