"""Corrections: what a user has said a piece of text means, so that the next reading knows it.

How they are written down and which of them hold: core/taste/correction.py.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

from cupwright.core.words import marks
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.own_words import NOT_THAT
from cupwright.core.words.phrases import Found
from cupwright.core.words.spelling import EXACT
from cupwright.core.words.tokens import Token, tokens


@dataclass(frozen=True)
class Corrections:
    """One user's: the folded words of a surface -> concept id, or NOT_THAT. Hashable, in one order."""

    meant: tuple[tuple[tuple[str, ...], str], ...] = ()

    def __bool__(self) -> bool:
        return bool(self.meant)

    def longest(self, words: Sequence[Token], first: int) -> Found | None:
        """The longest corrected surface that starts at a word."""
        surface: tuple[str, ...] = ()
        best: Found | None = None
        for at in range(first, min(len(words), first + self._most_words)):
            if at > first and not words[at].joined:
                break
            surface += (words[at].word,)
            if surface in self._by_surface:
                best = _found(self._by_surface[surface], first, at + 1)
        return best

    @cached_property
    def _by_surface(self) -> Mapping[tuple[str, ...], str]:
        return MappingProxyType(dict(self.meant))

    @cached_property
    def _most_words(self) -> int:
        return max((len(surface) for surface, _ in self.meant), default=0)


NO_CORRECTIONS = Corrections()
# Of no seat any.
NOBODYS: Mapping[str, Corrections] = MappingProxyType({})


def corrections(said: Mapping[str, str], lexicon: Lexicon) -> Corrections:
    """Corrections from surfaces as written -> concept id or NOT_THAT.

    A concept that the lexicon does not have is passed over, and so is a surface without a word: what was said
    with another lexicon must not stop a reading.
    """
    meant = {
        tuple(token.word for token in tokens(surface)): concept
        for surface, concept in said.items()
        if concept == NOT_THAT or concept in lexicon
    }
    return Corrections(tuple(sorted((surface, concept) for surface, concept in meant.items() if surface)))


def _found(meant: str, first: int, after: int) -> Found:
    if meant == NOT_THAT:
        return Found("", frozenset([marks.EMPTY]), first, after, EXACT)
    return Found(meant, marks.NONE, first, after, EXACT)
