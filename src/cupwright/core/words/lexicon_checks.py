"""Refusing a lexicon that does not hang together."""

import re
from collections.abc import Mapping
from typing import Any, NoReturn

from cupwright.core.words.forms import spellings
from cupwright.core.words.lexicon import CHARACTER, ENGLISH, INTENSITY, Lexicon
from cupwright.core.words.marks import DEGREES
from cupwright.errors import BadFile, Place

# The fourteen groups that food law makes sellers name: [EU1169], Annex II.
ALLERGENS = frozenset(
    [
        "gluten",
        "crustaceans",
        "egg",
        "fish",
        "peanut",
        "soya",
        "milk",
        "tree nuts",
        "celery",
        "mustard",
        "sesame",
        "sulphites",
        "lupin",
        "molluscs",
    ]
)
_COLOUR = re.compile("#[0-9a-f]{6}")
_KEYS = frozenset(
    [
        *("label", "parents", "forms", "slips", "shared", "about", "takes"),
        *("low", "middle", "high", "denied"),
        *("scale", "place", "colour", "reference", "allergens", "defect", "todo"),
    ]
)
_ID = re.compile("[a-z][a-z0-9_]*")

Row = Mapping[str, Any]
Rows = Mapping[str, Row]


def check_concepts(rows: Rows, families: tuple[str, ...], more: Rows, file: str) -> None:
    """Each concept by itself, and that parents lead up to a family."""
    for concept, row in rows.items():
        _check_row(concept, row, rows, families, file)
        _check_values(concept, row, rows, file)
    for code, words in more.items():
        for concept in [*words.get("label", ()), *words.get("forms", ())]:
            if concept not in rows:
                _refuse(f"The language '{code}' has words for '{concept}', which does not exist.", file)
    _check_no_circle(rows, file)


def check_forms(lexicon: Lexicon, file: str) -> None:
    """In each language a form belongs to one concept; a form that more concepts share has an owner."""
    for language in (lexicon.language, *lexicon.others.values()):
        owners: dict[tuple[str, ...], str] = {}
        for concept in lexicon:
            mistyped = concept.slips if language.code == ENGLISH else ()
            for form in (*concept.forms_in(language.code), *mistyped):
                for spelling in spellings(form, language):
                    owner = owners.setdefault(spelling, concept.id)
                    if owner != concept.id:
                        _refuse(f"'{' '.join(spelling)}' belongs to both '{owner}' and '{concept.id}'.", file)
        if language.code == ENGLISH:
            _check_shared(lexicon, owners, file)


def _check_shared(lexicon: Lexicon, owners: Mapping[tuple[str, ...], str], file: str) -> None:
    for concept in lexicon:
        for form in concept.shared:
            if not owners.keys() & set(spellings(form, lexicon.language)):
                _refuse(f"'{form}' is shared by '{concept.id}', but no concept owns it.", file)


def _check_row(concept: str, row: Row, rows: Rows, families: tuple[str, ...], file: str) -> None:
    parents = row.get("parents", [])
    if not _ID.fullmatch(concept):
        _refuse(f"The concept '{concept}' is not named in small letters, digits and underscores.", file)
    if unknown := set(row) - _KEYS:
        _refuse(f"The concept '{concept}' has a key nobody reads: {sorted(unknown)[0]}.", file)
    if not row.get("forms", {}).get("en"):
        _refuse(f"The concept '{concept}' has no English form.", file)
    if missing := [parent for parent in parents if parent not in rows]:
        _refuse(f"The concept '{concept}' hangs under '{missing[0]}', which does not exist.", file)
    if not parents and concept not in families:
        _refuse(f"The concept '{concept}' has no parent and is no family.", file)
    if parents and concept in families:
        _refuse(f"The family '{concept}' cannot hang under '{parents[0]}'.", file)


def _check_values(concept: str, row: Row, rows: Rows, file: str) -> None:
    if not _COLOUR.fullmatch(row.get("colour", "#000000")):
        _refuse(f"The colour of '{concept}' is no #rrggbb: {row['colour']}.", file)
    if not -1 <= row.get("place", 0) <= 1 or ("place" in row) != ("scale" in row):
        _refuse(f"'{concept}' needs both a scale and a place on it from -1 to 1, or neither.", file)
    if unknown := set(row.get("allergens", ())) - ALLERGENS:
        _refuse(
            f"The concept '{concept}' names an allergen that is none of the 14: {sorted(unknown)[0]}.", file
        )
    if row.get("allergens") and not row.get("reference"):
        _refuse(f"The concept '{concept}' has allergens but no reference that holds them.", file)
    if bool(row.get("defect")) != bool(row.get("todo")):
        _refuse(f"The fault '{concept}' needs both its usual cause and what to do, or neither.", file)
    if row.get("about", CHARACTER) not in (CHARACTER, INTENSITY):
        _refuse(f"'{concept}' is about '{row['about']}', which is neither {CHARACTER} nor {INTENSITY}.", file)
    if unknown := set(row.get("takes", {}).get("en", {}).values()) - set(DEGREES):
        _refuse(f"'{concept}' takes the degree '{sorted(unknown)[0]}', which does not exist.", file)
    for end in ("low", "middle", "high", "denied"):
        if row.get(end, concept) not in rows:
            _refuse(f"'{concept}' is '{row[end]}' when {end}, which does not exist.", file)


def _check_no_circle(rows: Rows, file: str) -> None:
    done: set[str] = set()

    def climb(concept: str, path: tuple[str, ...]) -> None:
        if concept in path:
            _refuse(f"The parents of '{concept}' run in a circle: {' > '.join((*path, concept))}.", file)
        if concept not in done:
            for parent in rows[concept].get("parents", []):
                climb(parent, (*path, concept))
            done.add(concept)

    for concept in rows:
        climb(concept, ())


def _refuse(sentence: str, file: str) -> NoReturn:
    raise BadFile(sentence, todo="Mend the lexicon.", where=Place(file))
