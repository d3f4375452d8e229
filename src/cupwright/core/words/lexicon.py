"""The lexicon: concepts that a coffee can call to mind, how they are written, and how they hang together.

A concept hangs under one or more parents; a concept without parents is the head of a family. The data are
in lexicon.toml (concepts) and english.toml (the small words of the language); lexicon_file.py reads and
checks them.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property


@dataclass(frozen=True, slots=True)
class Concept:
    """One entry.

    `family` is the id of the head reached through first parents. `synonyms` are the English forms as the
    file has them, with groups in braces; `shared` are forms that another concept owns and is read from
    first. `defect` is the usual cause when the concept is a fault of the coffee ("" when it is none) and
    `todo` what to do at the table. `reference` is a home-made sample to learn it from, `allergens` what that
    sample may hold. `scale` and `place` (-1 to 1) say where a word of touch or taste lies between two ends.
    """

    id: str
    label: str
    family: str
    synonyms: tuple[str, ...]
    defect: str = ""
    reference: str = ""
    allergens: tuple[str, ...] = ()
    parents: tuple[str, ...] = ()
    shared: tuple[str, ...] = ()
    todo: str = ""
    colour: str = ""
    scale: str = ""
    place: float = 0.0


@dataclass(frozen=True, slots=True)
class Language:
    """The small words of one language, all folded to lower case without accents.

    `plain` carry no character of the coffee, `moments` say when in the life of a cup, `empty_phrases` are
    phrases that say nothing (not sure). `negators` deny what follows; `carrying` those of them that go on
    over "and" (without body and sweetness); `trailing` deny what stands before (acidity missing);
    `contrasts` end a denial, `linking` do not end one that has hit; `not_denying` undo a negator before them
    (not only sweet). `real_words` must never be taken for typing errors.
    """

    plain: frozenset[str]
    moments: frozenset[str]
    empty_phrases: tuple[str, ...]
    negators: frozenset[str]
    carrying: frozenset[str]
    trailing: frozenset[str]
    contrasts: frozenset[str]
    linking: frozenset[str]
    not_denying: frozenset[str]
    real_words: frozenset[str]
    small: frozenset[str]  # all of them that carry no meaning by themselves


@dataclass(frozen=True, eq=False)
class Lexicon:
    """All concepts by id, in file order. Compared and hashed by identity, so that indexes can be cached."""

    concepts: Mapping[str, Concept]
    families: tuple[str, ...]
    language: Language
    groups: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def __getitem__(self, concept: str) -> Concept:
        return self.concepts[concept]

    def __contains__(self, concept: object) -> bool:
        return concept in self.concepts

    def __iter__(self) -> Iterator[Concept]:
        return iter(self.concepts.values())

    def __len__(self) -> int:
        return len(self.concepts)

    def ancestors(self, concept: str) -> frozenset[str]:
        """The concept itself and everything above it."""
        return self._ancestors[concept]

    @cached_property
    def _ancestors(self) -> dict[str, frozenset[str]]:
        found: dict[str, frozenset[str]] = {}

        def above(concept: str) -> frozenset[str]:
            if concept not in found:
                parents = self.concepts[concept].parents
                found[concept] = frozenset({concept}).union(*(above(parent) for parent in parents))
            return found[concept]

        for concept in self.concepts:
            above(concept)
        return found


def load_lexicon() -> Lexicon:
    """The lexicon that comes with the program, read and checked once."""
    from cupwright.core.words.lexicon_file import builtin_lexicon

    return builtin_lexicon()
