"""The forms of a lexicon as a tree of words, and the longest phrase of it that starts at a word of a note."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache

from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.lexicon_file import spellings
from cupwright.core.words.spelling import EXACT, INFLECTED, inflected_from, mistyped_from
from cupwright.core.words.tokens import Token

AMBIGUOUS = 0.6
_CACHED_WORDS = 65_536


@dataclass(slots=True)
class _Node:
    """One word of a phrase: what may follow, and the concept a phrase ending here stands for."""

    next: dict[str, "_Node"] = field(default_factory=dict)
    concept: str = ""
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
        for concept in lexicon:
            for form in concept.synonyms:
                for spelling in spellings(form, lexicon.groups):
                    self._plant(spelling, concept.id)
        for concept in lexicon:
            for form in concept.shared:
                for spelling in spellings(form, lexicon.groups):
                    self._doubt(spelling)
        self._unmendable = lexicon.language.plain | lexicon.language.real_words | self._small_words(lexicon)
        self._by_first_letter = defaultdict(list)
        for word in sorted(self._known):
            self._by_first_letter[word[0]].append(word)
        self.stands_for = lru_cache(_CACHED_WORDS)(self._stands_for)

    def longest(self, words: Sequence[Token], first: int) -> Found | None:
        """The phrase of most words that starts at `first`; of equally long ones the most certain."""
        best: Found | None = None
        open_ends = [(self._root, first, EXACT)]
        while open_ends:
            node, at, certainty = open_ends.pop()
            if node.concept:
                sure = certainty * node.certainty
                if best is None or (at, sure) > (best.after, best.certainty):
                    best = Found(node.concept, first, at, sure)
            if at < len(words) and (at == first or words[at].joined):
                for word, how_sure in self.stands_for(words[at].word):
                    if following := node.next.get(word):
                        open_ends.append((following, at + 1, certainty * how_sure))
        return best

    def _plant(self, spelling: tuple[str, ...], concept: str) -> None:
        node = self._root
        for word in spelling:
            node = node.next.setdefault(word, _Node())
        node.concept = concept
        self._known.update(spelling)

    def _doubt(self, spelling: tuple[str, ...]) -> None:
        node: _Node | None = self._root
        for word in spelling:
            node = node.next.get(word) if node else None
        if node:
            node.certainty = AMBIGUOUS

    def _stands_for(self, word: str) -> tuple[tuple[str, float], ...]:
        stems = inflected_from(word, self._known)
        if stems:
            return tuple((stem, EXACT if stem == word else INFLECTED) for stem in stems)
        if word in self._unmendable:
            return ()
        slip = mistyped_from(word, self._by_first_letter)
        return (slip,) if slip else ()

    @staticmethod
    def _small_words(lexicon: Lexicon) -> frozenset[str]:
        language = lexicon.language
        return language.negators | language.trailing | language.contrasts | language.not_denying


@cache
def phrase_index(lexicon: Lexicon) -> PhraseIndex:
    """The index of a lexicon, compiled at first use."""
    return PhraseIndex(lexicon)


__all__ = ["AMBIGUOUS", "INFLECTED", "Found", "PhraseIndex", "phrase_index"]
