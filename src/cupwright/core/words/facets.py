"""Facets: what the graph of the lexicon does not say of a concept. What it comes from, what was done to it,
and the sensations that carry it.

The data are in facets.toml. What is not said there of a concept is inherited from its parents, so a new
concept always has facets.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

from cupwright.core.words.lexicon import Lexicon
from cupwright.errors import BadFile, Place

FILE = "facets.toml"


@dataclass(frozen=True, slots=True)
class Facets:
    """Of one concept: what it is made of, its state ("" for none), its sensations."""

    made_of: frozenset[str]
    state: str
    feels: frozenset[str]


@dataclass(frozen=True, slots=True)
class FacetFile:
    """The facets as the file has them: rows by concept, and the words that may stand in them."""

    rows: Mapping[str, Mapping[str, str]]
    states: tuple[str, ...]
    feels: tuple[str, ...]


@cache
def builtin_facets() -> FacetFile:
    """The file beside this one."""
    return parse_facets(files("cupwright.core.words").joinpath(FILE).read_text("utf-8"))


def parse_facets(text: str, *, file: str = FILE) -> FacetFile:
    """A file of facets from its text.

    Raises
    ------
    BadFile
        If the text is not TOML, or a row has a key or a word that is not among those listed.
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise BadFile(
            f"This is not valid TOML: {fault}.", todo="Mend that line.", where=Place(file)
        ) from fault
    words: dict[str, str] = data.get("words", {})
    read = FacetFile(
        data.get("facets", {}),
        *(tuple(words.get(kind, "").split()) for kind in ("states", "feels")),
    )
    for concept, row in read.rows.items():
        _check(concept, row, read, file)
    return read


def _check(concept: str, row: Mapping[str, Any], read: FacetFile, file: str) -> None:
    allowed = {"state": read.states, "feels": read.feels}
    for key, said in row.items():
        if key not in (*allowed, "from"):
            _refuse(f"'{concept}' has a facet nobody reads: {key}.", file)
        unknown = set(said.split()) - set(allowed.get(key, said.split()))
        if unknown or (key == "state" and len(said.split()) > 1):
            _refuse(f"'{concept}' has a {key} that is not one of the list: {said}.", file)


def _refuse(sentence: str, file: str) -> None:
    raise BadFile(sentence, todo="Mend the file of facets.", where=Place(file))


@lru_cache(maxsize=4)
def facets_of(lexicon: Lexicon) -> Mapping[str, Facets]:
    """Concept -> facets, for every concept of a lexicon in its order: its own, else those of its parents.

    Made of and feels are inherited from all parents together, the state from the first that has one.
    """
    return inherited(lexicon, builtin_facets())


def inherited(lexicon: Lexicon, file: FacetFile) -> Mapping[str, Facets]:
    """The same from a file of one's own; rows on concepts that the lexicon lacks are left out."""
    found: dict[str, Facets] = {}

    def of(concept: str) -> Facets:
        if concept not in found:
            parents = [of(parent) for parent in lexicon[concept].parents]
            found[concept] = _facets(file.rows.get(concept, {}), parents)
        return found[concept]

    return {concept: of(concept) for concept in lexicon.concepts}


def _facets(row: Mapping[str, str], parents: list[Facets]) -> Facets:
    def words(key: str, attribute: str) -> frozenset[str]:
        if key in row:
            return frozenset(row[key].split())
        return frozenset[str]().union(*(getattr(parent, attribute) for parent in parents))

    state = row.get("state", next((parent.state for parent in parents if parent.state), ""))
    return Facets(words("from", "made_of"), state, words("feels", "feels"))
