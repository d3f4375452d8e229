"""The forms of a lexicon as a tree of words, and the longest phrase of it that starts at a word of a note."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache

from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.lexicon_file import spellings
from cupwright.core.words.spelling import EXACT, Candidate, Mender, inflected_from
from cupwright.core.words.tokens import Token

# How sure a reading is when the form may stand for another concept, too.
AMBIGUOUS = 0.6
# The "concept" of a phrase that says nothing about the coffee, such as "not sure".
NOTHING = ""
_CACHED_WORDS = 65_536


@dataclass(slots=True)
class _Node:
    """One word of a phrase: what may follow, and the concept a phrase ending here stands for, if one ends."""

    next: dict[str, "_Node"] = field(default_factory=dict)
    concept: str | None = None
    certainty: float = EXACT


@dataclass(frozen=True, slots=True)
class Found:
    """A phrase in a note: words `first` up to but not including `after`."""

    concept: str
    first: int
    after: int
    certainty: float


class PhraseIndex:
    """Compiled once a lexicon; answers in the time of a few dictionary look-ups."""

    def __init__(self, lexicon: Lexicon) -> None:
        self._root = _Node()
        self._known: set[str] = set()
        self._mendable: set[str] = set()  # single words somebody may have meant to type
        self._small = lexicon.language.small
        self._real = lexicon.language.real_words
        for form in lexicon.language.empty_phrases:
            self._plant(form, NOTHING, lexicon)
        for concept in lexicon:
            for form in concept.synonyms:
                self._plant(form, concept.id, lexicon)
        for concept in lexicon:
            for form in concept.shared:
                self._doubt(form, lexicon)
        self._mender = Mender(self._mendable - self._small)
        self._stands_for = lru_cache(_CACHED_WORDS)(self._candidates)

    def longest(self, words: Sequence[Token], first: int) -> Found | None:
        """The phrase of most words that starts at `first`; of equally long ones the most certain."""
        best: tuple[int, float, _Node] | None = None
        open_ends = [(self._root, first, EXACT)]
        while open_ends:
            node, at, certainty = open_ends.pop()
            if node.concept is not None and (best is None or (at, certainty) > best[:2]):
                best = (at, certainty, node)
            if at < len(words) and (at == first or words[at].joined):
                for candidate in self._stands_for(words[at].word):
                    following = node.next.get(candidate.word)
                    if following is None or (candidate.alone and at > first):
                        continue
                    if candidate.alone:
                        following = _Node(concept=following.concept, certainty=following.certainty)
                    open_ends.append((following, at + 1, certainty * candidate.certainty))
        if best is None:
            return None
        after, certainty, node = best
        return Found(node.concept or NOTHING, first, after, certainty * node.certainty)

    def _plant(self, form: str, concept: str, lexicon: Lexicon) -> None:
        """Take a form in; one of two words also run together (brownsugar), because people type that."""
        for spelling in spellings(form, lexicon.groups):
            self._grow(spelling, concept)
            if len(spelling) == 1:
                self._mendable.update(spelling)
            elif len(spelling) == 2 and not self._root.next.get("".join(spelling)):
                self._grow(("".join(spelling),), concept)

    def _grow(self, spelling: tuple[str, ...], concept: str) -> None:
        node = self._root
        for word in spelling:
            node = node.next.setdefault(word, _Node())
        node.concept = concept
        self._known.update(spelling)

    def _doubt(self, form: str, lexicon: Lexicon) -> None:
        for spelling in spellings(form, lexicon.groups):
            node: _Node | None = self._root
            for word in spelling:
                node = node.next.get(word) if node else None
            if node:
                node.certainty = AMBIGUOUS

    def _candidates(self, word: str) -> tuple[Candidate, ...]:
        """What a word may stand for. Small words and protected words stand for themselves only."""
        if word in self._small or word in self._real:
            return (Candidate(word, EXACT),) if word in self._known else ()
        stems = tuple(stem for stem in inflected_from(word, self._known) if stem.word not in self._small)
        if stems:
            return stems
        slip = self._mender.meant(word)
        return (slip,) if slip else ()


@cache
def phrase_index(lexicon: Lexicon) -> PhraseIndex:
    """The index of a lexicon, compiled at first use."""
    return PhraseIndex(lexicon)
