"""What a note denies: "not sweet", "no acidity", "lacks body", "sweetness missing"."""

from collections.abc import Sequence
from dataclasses import dataclass

from cupwright.core.words.lexicon import Language
from cupwright.core.words.phrases import NOTHING, Found
from cupwright.core.words.tokens import Token

# A denial reaches over at most this many other words: "I don't think I'd want to drink it every day".
_REACH = 8


@dataclass(slots=True)
class _Denial:
    """A negator under way: how far it still reaches, whether it has hit, whether "and" carries it on."""

    reach: int = _REACH
    hit: bool = False
    carries: bool = False


class _Clause:
    """Walks one clause from left to right."""

    def __init__(self, language: Language) -> None:
        self.language = language
        self.denied: set[Found] = set()
        self.denial: _Denial | None = None
        self.last: Found | None = None  # a phrase that a trailing negator would deny
        self.owed: Found | None = None  # what "lacking" denies if nothing follows it

    def phrase(self, phrase: Found, first_word: str) -> None:
        """A phrase of the lexicon."""
        if phrase.concept == NOTHING:
            return
        if first_word in self.language.contrasts:
            self.denial = None
        if self.denial:
            self.denied.add(phrase)
            self.denial.hit, self.denial.reach = True, _REACH
            self.owed = None
        self.last = phrase

    def word(self, word: str, following: str) -> None:
        """Any other word."""
        language = self.language
        if word in language.trailing:
            self.owed = self.last
        if word in language.negators:
            if following not in language.not_denying:
                self.denial = _Denial(carries=word in language.carrying)
        elif word in language.contrasts:
            self.denial = None
        elif self.denial:
            self._go_on(self.denial, word)

    def end(self) -> None:
        """Punctuation, or the end of the note."""
        if self.owed:
            self.denied.add(self.owed)
        self.denial = self.last = self.owed = None

    def _go_on(self, denial: _Denial, word: str) -> None:
        denial.reach -= 1
        linked = word in self.language.linking or (word == "and" and denial.carries)
        if denial.reach < 0 or (denial.hit and not linked):
            self.denial = None


def denied(words: Sequence[Token], found: Sequence[Found], language: Language) -> set[Found]:
    """The phrases that the note denies.

    A negator reaches to the end of its clause, a contrast ("but") or eight words on. After it has denied
    something it goes on only over "or", articles and degree words ("no acid and smooth" denies acid alone);
    "without" and "lacking" go on over "and", too.
    """
    clause = _Clause(language)
    starts = {phrase.first: phrase for phrase in found}
    at = 0
    while at < len(words):
        if not words[at].joined:
            clause.end()
        phrase = starts.get(at)
        if phrase:
            clause.phrase(phrase, words[at].word)
            at = phrase.after
        else:
            clause.word(words[at].word, words[at + 1].word if at + 1 < len(words) else "")
            at += 1
    clause.end()
    return clause.denied
