"""Reading lexicon.toml and english.toml, and refusing a lexicon that does not hang together.

A form may hold a group in braces: "light {body}" stands for every word of the group `body` in english.toml.
A hyphen in a form stands for written together, apart, or with the hyphen: "blue-berry".
"""

import re
import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from importlib.resources import files
from itertools import product
from typing import Any

from cupwright.core.words.lexicon import Concept, Language, Lexicon
from cupwright.core.words.tokens import fold
from cupwright.errors import BadFile, Place

_GROUP_OPEN, _GROUP_CLOSE = "{", "}"


@cache
def builtin_lexicon() -> Lexicon:
    """The lexicon beside this file."""
    here = files("cupwright.core.words")
    return parse_lexicon(
        here.joinpath("lexicon.toml").read_text("utf-8"), here.joinpath("english.toml").read_text("utf-8")
    )


def parse_lexicon(concepts: str, language: str, *, file: str = "lexicon.toml") -> Lexicon:
    """A lexicon from the text of its two files.

    Raises
    ------
    BadFile
        If the text is not TOML, a concept has an unknown key, no form or no known parent, parents run in a
        circle, or two concepts own one form. The sentence names the concept.
    """
    data, words = _toml(concepts, file), _toml(language, "english.toml")
    families = tuple(data.get("families", ()))
    rows: dict[str, dict[str, Any]] = data.get("concept", {})
    for concept, row in rows.items():
        _check_row(concept, row, rows, families, file)
    _check_no_circle(rows, file)
    lexicon = Lexicon(
        {concept: _concept(concept, row, rows) for concept, row in rows.items()},
        families,
        _language(words),
        {name: tuple(group) for name, group in words.get("groups", {}).items()},
    )
    _check_owners(lexicon, file)
    return lexicon


def spellings(form: str, groups: Mapping[str, Iterable[str]]) -> frozenset[tuple[str, ...]]:
    """Every way to write a form, each as a tuple of folded words."""
    return frozenset(
        tuple(word for piece in way for word in piece)
        for filled in _filled(form, groups)
        for way in product(*(_ways_of_part(part) for part in filled.split()))
    )


def _filled(form: str, groups: Mapping[str, Iterable[str]]) -> list[str]:
    """The form with each group in braces replaced by each of its words."""
    if _GROUP_OPEN not in form:
        return [form]
    head, rest = form.split(_GROUP_OPEN, 1)
    name, tail = rest.split(_GROUP_CLOSE, 1)
    return [head + word + end for word in groups[name] for end in _filled(tail, groups)]


def _ways_of_part(part: str) -> list[tuple[str, ...]]:
    pieces = tuple(fold(piece) for piece in part.split("-"))
    return [pieces] if len(pieces) == 1 else [pieces, ("".join(pieces),)]


def _toml(text: str, file: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise BadFile(
            f"This is not valid TOML: {fault}.", todo="Mend that line.", where=Place(file)
        ) from fault


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
        "label",
        "parents",
        "forms",
        "shared",
        "defect",
        "todo",
        "reference",
        "allergens",
        "colour",
        "scale",
        "place",
    ]
)


def _check_row(
    concept: str, row: dict[str, Any], rows: dict[str, Any], families: tuple[str, ...], file: str
) -> None:
    parents = row.get("parents", [])
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
    _check_values(concept, row, file)


def _check_values(concept: str, row: dict[str, Any], file: str) -> None:
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


def _check_no_circle(rows: dict[str, dict[str, Any]], file: str) -> None:
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


def _check_owners(lexicon: Lexicon, file: str) -> None:
    owners: dict[tuple[str, ...], str] = {}
    for concept in lexicon:
        for form in concept.synonyms:
            for spelling in spellings(form, lexicon.groups):
                owner = owners.setdefault(spelling, concept.id)
                if owner != concept.id:
                    _refuse(f"'{' '.join(spelling)}' belongs to both '{owner}' and '{concept.id}'.", file)
    for concept in lexicon:
        for form in concept.shared:
            if not spellings(form, lexicon.groups) & owners.keys():
                _refuse(f"'{form}' is shared by '{concept.id}', but no concept owns it.", file)


def _refuse(sentence: str, file: str) -> None:
    raise BadFile(sentence, todo="Mend the lexicon.", where=Place(file))


def _concept(concept: str, row: dict[str, Any], rows: dict[str, dict[str, Any]]) -> Concept:
    forms = tuple(row["forms"]["en"])
    head = concept
    while parents := rows[head].get("parents"):
        head = parents[0]
    return Concept(
        id=concept,
        label=row.get("label", {}).get("en", concept.replace("_", " ")),
        family=head,
        synonyms=forms,
        defect=row.get("defect", ""),
        reference=row.get("reference", ""),
        allergens=tuple(row.get("allergens", ())),
        parents=tuple(row.get("parents", ())),
        shared=tuple(row.get("shared", {}).get("en", ())),
        todo=row.get("todo", ""),
        colour=row.get("colour", ""),
        scale=row.get("scale", ""),
        place=float(row.get("place", 0.0)),
    )


def _language(words: dict[str, Any]) -> Language:
    """The small words from english.toml, where each set is one text of words between spaces."""
    sets = {
        key: frozenset(fold(word) for word in words[key].split())
        for key in (
            "plain",
            "moments",
            "negators",
            "carrying",
            "trailing",
            "contrasts",
            "linking",
            "not_denying",
            "real_words",
        )
    }
    meaningless = [words for name, words in sets.items() if name != "real_words"]
    return Language(
        **sets, empty_phrases=tuple(words["empty_phrases"]), small=frozenset().union(*meaningless)
    )
