"""`cupwright read`: what a note says, as the program reads it."""

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import read_text, say

if TYPE_CHECKING:
    from cupwright.core.words.reading import Reading, Word

LARGEST_NOTES_FILE = 50_000_000


def add_to(commands: Commands) -> None:
    """Make the command known."""
    says = "Read notes into words of the lexicon, each with its place, how much, how sure and when."
    parser = command(commands, "read", read, says=says)
    parser.add_argument("note", metavar="NOTE", nargs="*", help="a note; without any, standard input")
    parser.add_argument("--file", metavar="FILE", type=Path, help="a text file with one note a line")
    parser.add_argument(
        "--field", metavar="FAMILY", default="", help="what was asked for: in 'colour' orange is a colour"
    )
    parser.add_argument(
        "--taster",
        metavar="NAME",
        default="",
        help="as this taster's notes are read, with all they corrected",
    )
    with_json(parser)


def read(joint: Joint, chosen: argparse.Namespace) -> None:
    """Each note at once, so that notes can come through a pipe; with --json one object a line."""
    from cupwright.core.words.corrections import NO_CORRECTIONS
    from cupwright.core.words.reading import read_note
    from cupwright.errors import Refused
    from cupwright.steps.words import lexicon, words_of_taster

    if chosen.file and chosen.note:
        chosen.wrong_use("give notes or --file, not both")
    with joint.open_tools(data_folder(chosen.data)) as tools:
        if chosen.taster:
            words, corrected = words_of_taster(tools, chosen.taster)
        else:
            words, corrected = lexicon(tools), NO_CORRECTIONS
    if chosen.field and chosen.field not in words.families:
        families = ", ".join(words.families)
        raise Refused(f"There is no family '{chosen.field}'.", todo=f"Name one of {families}.")
    for note in _notes(chosen):
        reading = read_note(note, words, field=chosen.field, corrections=corrected)
        if chosen.json:
            _say_data(reading)
        else:
            _say_reading(reading)


def _notes(chosen: argparse.Namespace) -> Iterator[str]:
    if chosen.file:
        yield from read_text(chosen.file, largest=LARGEST_NOTES_FILE).splitlines()
    elif chosen.note:
        yield from chosen.note
    else:
        for line in getattr(sys.stdin, "buffer", sys.stdin):
            # What is in another encoding is read as far as it can be, and never stops the rest.
            text = line if isinstance(line, str) else line.decode("utf-8", errors="replace")
            yield text.rstrip("\r\n")


def _say_data(reading: "Reading") -> None:
    import json

    say(json.dumps(data_of(reading), ensure_ascii=False))


def data_of(reading: "Reading") -> dict[str, Any]:
    """A reading as data: the note word for word, its words, and what could not be read, as written."""
    from dataclasses import asdict

    return {
        "note": reading.text,
        "words": [asdict(word) for word in reading.words],
        "unread": list(reading.unread_words()),
    }


def _say_reading(reading: "Reading") -> None:
    say(reading.text)
    surfaces = [reading.text[word.start : word.end] for word in reading.words]
    width = max(map(len, surfaces), default=0)
    for surface, word in zip(surfaces, reading.words, strict=True):
        say(f"    {surface.ljust(width)}  {_said_of(word)}")
    if reading.unread:
        say(f"    not read: {', '.join(reading.unread_words())}")


def _said_of(word: "Word") -> str:
    """The concept in words: "not acidity", "sweet, very, more than B, on the finish"."""
    parts = [f"not {word.label}" if word.negated else word.label]
    if word.degree != "plain":
        parts.append(_DEGREES[word.degree])
    if word.comparison:
        against = f" than {word.against}" if word.against else ""
        parts.append(_COMPARISONS[word.comparison] + against)
    if word.hedged:
        parts.append("not sure")
    if word.stage:
        parts.append(_STAGES[word.stage])
    if word.certainty < _PLAINLY_READ:
        parts.append(f"read with certainty {word.certainty:g}")
    return ", ".join(parts)


_PLAINLY_READ = 0.9
_DEGREES = {"trace": "a trace", "slight": "a little", "marked": "much", "very": "very", "too": "too much"}
_COMPARISONS = {
    "more": "more",
    "most": "more than all others",
    "less": "less",
    "least": "less than all others",
    "other": "said of another cup",
}
_STAGES = {"first": "at first", "finish": "on the finish", "cooling": "as it cools"}
