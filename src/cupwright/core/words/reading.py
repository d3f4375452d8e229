"""Reading a note: which concepts a text names, where, how surely, and which words could not be read.

The method is described in docs/methods/reading.md. The text is never changed, and nothing in it can make a
reading fail: whatever is not understood is returned as unread.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.negation import denied
from cupwright.core.words.phrases import NOTHING, Found, PhraseIndex, phrase_index
from cupwright.core.words.tokens import Token, tokens

_SHORTEST_WORD = 2


@dataclass(frozen=True, slots=True)
class Word:
    """A concept found in `text[start:end]`. `certainty` is in (0, 1]; `negated` if the text denies it."""

    concept: str
    label: str
    start: int
    end: int
    certainty: float
    negated: bool


@dataclass(frozen=True, slots=True)
class Span:
    """A piece of the text, `text[start:end]`."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Reading:
    """A text as written, the words found in it, and what carries meaning but was not understood."""

    text: str
    words: tuple[Word, ...]
    unread: tuple[Span, ...]

    @property
    def concepts(self) -> frozenset[str]:
        """What the text says is there; denied words are left out."""
        return frozenset(word.concept for word in self.words if not word.negated)

    @property
    def denied(self) -> frozenset[str]:
        """What the text says is not there."""
        return frozenset(word.concept for word in self.words if word.negated) - self.concepts

    def unread_words(self) -> tuple[str, ...]:
        """The unread pieces as written."""
        return tuple(self.text[span.start : span.end] for span in self.unread)


def read_note(text: str, lexicon: Lexicon) -> Reading:
    """Read a note into concepts of the lexicon.

    Parameters
    ----------
    text : str
        As written. Positions in the result count its characters (code points).

    Returns
    -------
    Reading
        Words in order of the text, not overlapping; of two phrases from one word on, the longer.

    Notes
    -----
    Error: measured by bench/reading.py on a file of notes; a word with two meanings is read as the one
    more usual in notes on coffee and carries a low certainty.
    """
    words = tokens(text)
    found = _phrases(words, phrase_index(lexicon))
    denials = denied(words, found, lexicon.language)
    return Reading(
        text,
        tuple(
            _word(phrase, words, lexicon, phrase in denials) for phrase in found if phrase.concept != NOTHING
        ),
        _unread(words, found, lexicon),
    )


def _phrases(words: Sequence[Token], index: PhraseIndex) -> list[Found]:
    found: list[Found] = []
    at = 0
    while at < len(words):
        phrase = index.longest(words, at)
        if phrase:
            found.append(phrase)
        at = phrase.after if phrase else at + 1
    return found


def _word(phrase: Found, words: Sequence[Token], lexicon: Lexicon, negated: bool) -> Word:
    start, end = words[phrase.first].start, words[phrase.after - 1].end
    return Word(
        phrase.concept, lexicon[phrase.concept].label, start, end, round(phrase.certainty, 3), negated
    )


def _unread(words: Sequence[Token], found: Sequence[Found], lexicon: Lexicon) -> tuple[Span, ...]:
    read = {at for phrase in found for at in range(phrase.first, phrase.after)}
    return tuple(
        Span(word.start, word.end)
        for at, word in enumerate(words)
        if at not in read and carries_meaning(word.word, lexicon)
    )


def carries_meaning(word: str, lexicon: Lexicon) -> bool:
    """Whether a folded word says something: no small word of the language, no number, no single letter."""
    return len(word) >= _SHORTEST_WORD and not word[0].isdigit() and word not in lexicon.language.small
