"""Reading lexicon.toml and the files of the languages into a lexicon. What is refused: lexicon_checks.py."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from cupwright.core.words.language_file import language_from
from cupwright.core.words.lexicon import AMERICAN, CHARACTER, ENGLISH, Concept, Lexicon
from cupwright.core.words.lexicon_checks import check_concepts, check_forms
from cupwright.errors import BadFile, Place

LANGUAGE_FILES = {"es": "spanish.toml", "pt": "portuguese.toml"}
Rows = Mapping[str, Mapping[str, Any]]


@cache
def builtin_lexicon() -> Lexicon:
    """The lexicon beside this file."""
    here = files("cupwright.core.words")
    return parse_lexicon(
        here.joinpath("lexicon.toml").read_text("utf-8"),
        here.joinpath("english.toml").read_text("utf-8"),
        others={code: here.joinpath(name).read_text("utf-8") for code, name in LANGUAGE_FILES.items()},
    )


def parse_lexicon(
    concepts: str, language: str, *, others: Mapping[str, str] | None = None, file: str = "lexicon.toml"
) -> Lexicon:
    """A lexicon from the text of its files.

    Raises
    ------
    BadFile
        If a text is not TOML, a concept has an unknown key, no form or no known parent, parents run in a
        circle, or two concepts own one form of a language. The sentence names the concept.
    """
    data, english = _toml(concepts, file), _toml(language, "english.toml")
    more = {code: _toml(text, f"{code}.toml") for code, text in (others or {}).items()}
    families = tuple(data.get("families", ()))
    rows: Rows = data.get("concept", {})
    check_concepts(rows, families, more, file)
    lexicon = Lexicon(
        {concept: _concept(concept, rows, more) for concept in rows},
        families,
        language_from(english, ENGLISH, "english.toml"),
        {code: language_from(words, code, f"{code}.toml") for code, words in more.items()},
    )
    check_forms(lexicon, file)
    return lexicon


def _toml(text: str, file: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise BadFile(
            f"This is not valid TOML: {fault}.", todo="Mend that line.", where=Place(file)
        ) from fault


def _concept(concept: str, rows: Rows, more: Mapping[str, Mapping[str, Any]]) -> Concept:
    row = rows[concept]
    american = {AMERICAN: row["label"]["us"]} if "us" in row.get("label", {}) else {}
    labels = american | {
        code: words["label"][concept] for code, words in more.items() if concept in words["label"]
    }
    forms = {
        code: tuple(words["forms"][concept]) for code, words in more.items() if concept in words["forms"]
    }
    return Concept(
        id=concept,
        label=row.get("label", {}).get("en", concept.replace("_", " ")),
        family=_inherited(concept, rows)[-1],
        synonyms=tuple(row["forms"]["en"]),
        defect=row.get("defect", ""),
        reference=row.get("reference", ""),
        allergens=tuple(row.get("allergens", ())),
        parents=tuple(row.get("parents", ())),
        shared=tuple(row.get("shared", {}).get("en", ())),
        todo=row.get("todo", ""),
        colour=row.get("colour", ""),
        scale=row.get("scale", ""),
        place=float(row.get("place", 0.0)),
        slips=tuple(row.get("slips", {}).get("en", ())),
        about=_about(concept, rows),
        takes=_takes(concept, rows),
        low=row.get("low", ""),
        middle=row.get("middle", ""),
        high=row.get("high", ""),
        denied=row.get("denied", ""),
        labels=american | labels,
        forms=forms,
    )


def _inherited(concept: str, rows: Rows) -> list[str]:
    """The concept, its first parent, and so on up to the head of the family."""
    line = [concept]
    while parents := rows[line[-1]].get("parents"):
        line.append(parents[0])
    return line


def _about(concept: str, rows: Rows) -> str:
    return next(
        (rows[above]["about"] for above in _inherited(concept, rows) if "about" in rows[above]), CHARACTER
    )


def _takes(concept: str, rows: Rows) -> dict[str, str]:
    """The degree words of a concept and of all above it; the nearest has the last word."""
    taken: dict[str, str] = {}
    for above in reversed(_inherited(concept, rows)):
        taken |= rows[above].get("takes", {}).get("en", {})
    return taken
