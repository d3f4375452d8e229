"""Own words: concepts and forms that users add to the lexicon, and the file in which they travel.

They are kept in the store, one list an installation, and taken into every reading (`extended`). The file is
TOML: a list of [[concept]] (label, parents, forms) and a list of [[form]] (concept, form).
"""

import json
import re
import tomllib
import unicodedata
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from cupwright.core.words.tokens import fold, tokens
from cupwright.errors import BadFile, Place, Refused

# Where a concept is asked for: these words name none.
NOT_THAT = "none"
LONGEST_FORM = 80
MOST_WORDS_IN_A_FORM = 8
MOST_FORMS = 50
MOST_PARENTS = 5
MOST_OWN_WORDS = 2000
_UNPRINTABLE = {"Cc", "Cf", "Cs"}
_GAPS = re.compile("[^a-z0-9]+")


@dataclass(frozen=True, slots=True)
class OwnConcept:
    """A concept that the lexicon does not have. It is read where its label or one of `forms` is written."""

    id: str
    label: str
    parents: tuple[str, ...]
    forms: tuple[str, ...] = ()

    @property
    def written(self) -> tuple[str, ...]:
        """Every way to write it, the label first."""
        return tuple(dict.fromkeys((self.label, *self.forms)))


@dataclass(frozen=True, slots=True)
class OwnForm:
    """One more way to write a concept, of the lexicon's or an own one."""

    concept: str
    form: str


Addition = OwnConcept | OwnForm
_Made = TypeVar("_Made", OwnConcept, OwnForm)


def own_concept(label: str, parents: Iterable[str], forms: Iterable[str] = ()) -> OwnConcept:
    """A concept of that label; its id is made from the label, "Quince soda" gives quince_soda.

    Raises
    ------
    Refused
        If the label or a form cannot be read from a note, nothing is named above it, or there is too much.
    """
    tidy, above = tidy_form(label), tuple(dict.fromkeys(parents))
    if not above:
        raise Refused(f"'{tidy}' hangs under nothing.", todo="Name a concept that it is a kind of.")
    if len(above) > MOST_PARENTS:
        raise Refused(f"'{tidy}' hangs under {len(above)} concepts.", todo=f"Name {MOST_PARENTS} at most.")
    if id_of(tidy) == NOT_THAT:
        raise Refused(f"No concept can be called '{tidy}'.", todo="Call it something else.")
    written = tuple(dict.fromkeys(form for form in map(tidy_form, forms) if form != tidy))
    if len(written) > MOST_FORMS:
        raise Refused(f"'{tidy}' has {len(written)} forms.", todo=f"Give {MOST_FORMS} at most.")
    return OwnConcept(id_of(tidy), tidy, above, written)


def own_form(concept: str, form: str) -> OwnForm:
    """One more way to write a concept. Raises Refused for a form that cannot be read from a note."""
    return OwnForm(concept, tidy_form(form))


def tidy_form(form: str) -> str:
    """A form with single spaces and composed accents.

    Raises
    ------
    Refused
        If it holds no word, a character that cannot be printed or a brace, or is too long.
    """
    tidy = unicodedata.normalize("NFC", " ".join(form.split()))
    if len(tidy) > LONGEST_FORM or len(tidy.split()) > MOST_WORDS_IN_A_FORM:
        raise Refused(
            f"'{tidy[:LONGEST_FORM]}' is longer than a form can be.",
            todo=f"Use {MOST_WORDS_IN_A_FORM} words and {LONGEST_FORM} characters at most.",
        )
    if any(unicodedata.category(character) in _UNPRINTABLE or character in "{}" for character in tidy):
        raise Refused("A form holds a character that no note can be read by.", todo="Type it anew.")
    if not any(character.isalpha() for word in tokens(tidy) for character in word.word):
        raise Refused(f"'{tidy}' holds no word.", todo="Write it as a taster would.")
    return tidy


def id_of(label: str) -> str:
    """The id of a concept with that label: its letters folded, all else made one underscore.

    A label in letters that have no Latin base gets an id of its code points.
    """
    bare = _GAPS.sub("_", " ".join(fold(word) for word in label.split())).strip("_")
    return bare or "u" + "_".join(f"{ord(character):x}" for character in label if character.isalnum())


def own_words_file(additions: Iterable[Addition]) -> str:
    """The text of a file of own words, readable by `parse_own_words`."""
    lines = ["# Own words of a Cupwright installation: concepts, and further ways to write a concept."]
    for one in additions:
        if isinstance(one, OwnConcept):
            lines += ["", "[[concept]]", *_pairs(label=one.label, parents=one.parents, forms=one.forms)]
        else:
            lines += ["", "[[form]]", *_pairs(concept=one.concept, form=one.form)]
    return "\n".join(lines) + "\n"


def parse_own_words(text: str, *, file: str = "own words") -> tuple[Addition, ...]:
    """The own words of a file, concepts first.

    Raises
    ------
    BadFile
        If the text is not TOML or an entry is not as expected; the sentence names the entry.
    """
    try:
        data = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as fault:
        raise BadFile(
            f"This is not valid TOML: {fault}.", todo="Mend that line.", where=Place(file)
        ) from fault
    if unknown := set(data) - {"concept", "form"}:
        raise _bad(f"'{min(unknown)}' is not known here; there are [[concept]] and [[form]].", file)
    concepts = [_concept(row, number, file) for number, row in enumerate(_list(data, "concept", file), 1)]
    forms = [_form(row, number, file) for number, row in enumerate(_list(data, "form", file), 1)]
    if len(concepts) + len(forms) > MOST_OWN_WORDS:
        raise _bad(f"There are more than {MOST_OWN_WORDS} own words.", file)
    return (*concepts, *forms)


def _pairs(**values: str | tuple[str, ...]) -> list[str]:
    # A JSON string is a TOML basic string, as long as every character above 7F stands as itself.
    return [f"{key} = {json.dumps(value, ensure_ascii=False)}" for key, value in values.items()]


def _list(data: Mapping[str, Any], key: str, file: str) -> list[Mapping[str, Any]]:
    rows = data.get(key, [])
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        raise _bad(f"'{key}' is no list of tables; write [[{key}]] before each.", file)
    return rows


def _concept(row: Mapping[str, Any], number: int, file: str) -> OwnConcept:
    entry = _Entry(row, f"[[concept]] {number}", file)
    entry.require({"label", "parents"}, {"forms"})
    label, parents, forms = entry.text("label"), entry.texts("parents"), entry.texts("forms")
    return entry.made(lambda: own_concept(label, parents, forms))


def _form(row: Mapping[str, Any], number: int, file: str) -> OwnForm:
    entry = _Entry(row, f"[[form]] {number}", file)
    entry.require({"concept", "form"}, set())
    concept, form = entry.text("concept"), entry.text("form")
    return entry.made(lambda: own_form(concept, form))


@dataclass(frozen=True, slots=True)
class _Entry:
    """One entry of a file, and how it is named in a complaint."""

    row: Mapping[str, Any]
    name: str
    file: str

    def require(self, needed: set[str], allowed: set[str]) -> None:
        if missing := needed - self.row.keys():
            raise _bad(f"{self.name} has no '{min(missing)}'.", self.file)
        if unknown := self.row.keys() - needed - allowed:
            raise _bad(f"{self.name} has a key nobody reads: '{min(unknown)}'.", self.file)

    def text(self, key: str) -> str:
        value = self.row[key]
        if not isinstance(value, str):
            raise _bad(f"In {self.name} the value of '{key}' is no text.", self.file)
        return value

    def texts(self, key: str) -> list[str]:
        values = self.row.get(key, [])
        if not isinstance(values, list) or not all(isinstance(value, str) for value in values):
            raise _bad(f"In {self.name} the value of '{key}' is no list of texts.", self.file)
        return values

    def made(self, make: Callable[[], _Made]) -> _Made:
        try:
            return make()
        except Refused as refusal:
            raise _bad(f"{self.name}: {refusal.message}", self.file, refusal.todo) from refusal


def _bad(sentence: str, file: str, todo: str = "Mend the file.") -> BadFile:
    return BadFile(sentence, todo=todo, where=Place(file))
