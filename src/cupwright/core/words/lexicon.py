"""The lexicon: concepts that a coffee can call to mind, how they are written, and how they hang together.

A concept hangs under one or more parents; a concept without parents is the head of a family. The data are in
lexicon.toml (concepts, English) and one file a language: english.toml holds the small words of English,
spanish.toml and portuguese.toml also labels and forms. lexicon_file.py and language_file.py read them,
lexicon_checks.py refuses what does not hang together.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

ENGLISH, AMERICAN = "en", "en-us"
INTENSITY, CHARACTER = "intensity", "character"


@dataclass(frozen=True, slots=True)
class Concept:
    """One entry.

    `family` is the id of the head reached through first parents. `synonyms` are the English forms as the
    file has them, with groups in braces; `slips` are common misspellings; `shared` are forms that another
    concept owns and is read from first. `labels` and `forms` are those of the other languages.

    `about` says what a word of degree asks of it: how much (INTENSITY: sweet, body) or what it is like
    (CHARACTER: plum); `takes` are degree words of its own (soft acidity: slight). `low`, `middle`
    and `high` are the concepts that mean little, some and much of it, `denied` the one that means it is not
    there (not balanced), where there are any.

    `defect` is the usual cause when the concept is a fault of the coffee ("" when it is none) and `todo` what
    to do at the table. `reference` is a home-made sample to learn it from, `allergens` what that sample may
    hold. `scale` and `place` (-1 to 1) say where a word of touch or taste lies between two ends.
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
    slips: tuple[str, ...] = ()
    about: str = CHARACTER
    takes: Mapping[str, str] = field(default_factory=dict)
    low: str = ""
    middle: str = ""
    high: str = ""
    denied: str = ""
    labels: Mapping[str, str] = field(default_factory=dict)
    forms: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def label_in(self, language: str) -> str:
        """The label in a language, the British English one where there is none."""
        return self.labels.get(language, self.label)

    def forms_in(self, language: str) -> tuple[str, ...]:
        """How it is written in a language; nothing where nobody has said so yet."""
        return self.synonyms if language == ENGLISH else self.forms.get(language, ())


@dataclass(frozen=True, slots=True)
class Endings:
    """Endings of a language, each with what may have stood in its place ("ies": "y", "ie").

    `number` holds those of number, gender and comparison, `quality` those that make a quality of a thing
    (nutty). Before an ending in `doubling` the last letter may have been doubled (thinner). The ending "es"
    is taken off only after one of `hissing`, "s" never after another s. Those in `comparing` compare.
    """

    number: tuple[tuple[str, tuple[str, ...]], ...] = ()
    quality: tuple[tuple[str, tuple[str, ...]], ...] = ()
    doubling: frozenset[str] = frozenset()
    hissing: tuple[str, ...] = ()
    comparing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Language:
    """The small words of one language, all folded to lower case without accents.

    `plain` carry no character of the coffee, `moments` say when in the life of a cup. `marks` are phrases by
    what they do to the words around them (marks.py). `real_words` must never be taken for typing errors.
    `spelling` gives for a word that two shores write differently the other shore's (flavour, flavor);
    `groups` are words that stand in braces in forms. `small`: all that carry no meaning by themselves.
    """

    code: str
    plain: frozenset[str]
    moments: frozenset[str]
    real_words: frozenset[str]
    marks: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    spelling: Mapping[str, str] = field(default_factory=dict)
    endings: Endings = Endings()
    groups: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def small(self) -> frozenset[str]:
        """The words without a meaning of their own; single words that only mark others are among them."""
        single = (phrase for phrases in self.marks.values() for phrase in phrases if " " not in phrase)
        return self.plain | self.moments | frozenset(single)


@dataclass(frozen=True, eq=False)
class Lexicon:
    """All concepts by id, in file order. Compared and hashed by identity, so that indexes can be cached.

    `language` is English; `others` are the further languages by their code (ISO 639). `own` counts the words
    that users added (extending.py).
    """

    concepts: Mapping[str, Concept]
    families: tuple[str, ...]
    language: Language
    others: Mapping[str, Language] = field(default_factory=dict)
    own: int = 0

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
