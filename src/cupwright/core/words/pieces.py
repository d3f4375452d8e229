"""The pieces of a note: its phrases and other words in order, on which the steps of reading work in turn."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cupwright.core.words import marks
from cupwright.core.words.corrections import NO_CORRECTIONS, Corrections
from cupwright.core.words.phrases import Found, PhraseIndex
from cupwright.core.words.tokens import JOINED, LINK, STOP, Token

# No word bears on another over more pieces than this; it keeps the time of a text without punctuation linear.
LONGEST_CLAUSE = 40
_SHORTEST_WORD, _SHORTEST_OVERLAPPED = 2, 2


@dataclass(slots=True)
class Piece:
    """One phrase or word, `text[start:end]`, and what reading has found out about it so far.

    `concept` is "" for a word that names none. `gap` is what parts it from the piece before, `asked` whether
    a question mark follows. The rest is as in reading.Word.
    """

    word: str
    start: int
    end: int
    gap: str
    asked: bool
    concept: str = ""
    marks: frozenset[str] = marks.NONE
    certainty: float = 0.0
    compares: str = ""
    unread: bool = False
    negated: bool = False
    denied_from: int = -1  # where the negator starts; -1 if the denial does not mean the opposite
    degree: str = "plain"
    comparison: str = ""
    against: str = ""
    hedged: bool = False
    stage: str = ""
    reach: int = -1  # where what else belongs to the word starts (not too | acidic), if that is further ahead

    @property
    def joined(self) -> bool:
        """Whether no punctuation precedes it."""
        return self.gap == JOINED

    @property
    def linked(self) -> bool:
        """Whether it goes on in the clause of the piece before, or is listed with it by a sign."""
        return self.gap in (JOINED, LINK)

    @property
    def turns(self) -> bool:
        """Whether something else begins: then, but. "More" turns a denial only."""
        turned = self.has(marks.TURN) and not self.has(marks.MORE, marks.MOST)
        return turned or self.has(marks.THEN)

    def has(self, *kinds: str) -> bool:
        """Whether it is a mark of one of these kinds."""
        return bool(self.marks) and not self.marks.isdisjoint(kinds)

    def degree_by(self, how: str) -> str:
        """The degree it gives to another word in a way (marks.DEGREE …); "" if none."""
        return marks.degree_of(self.marks, how) if self.marks else ""


def pieces(
    words: Sequence[Token], index: PhraseIndex, corrections: Corrections = NO_CORRECTIONS
) -> list[Piece]:
    """The pieces of a note: from each word on the longest phrase, or the word alone."""
    line: list[Piece] = []
    at = 0
    while at < len(words):
        found = _told(words, at, index, corrections) if corrections else _longest(words, at, index)
        line.append(_phrase(found, words) if found else _bare(words[at], index))
        at = found.after if found else at + 1
    return line


def _told(words: Sequence[Token], at: int, index: PhraseIndex, corrections: Corrections) -> Found | None:
    """What the user has said goes before what the lexicon says, if it is at least as long."""
    told, found = corrections.longest(words, at), _longest(words, at, index)
    return told if told and (found is None or told.after >= found.after) else found


def _longest(words: Sequence[Token], at: int, index: PhraseIndex) -> Found | None:
    """The longest phrase from a word on, unless a longer one begins inside it: with | milk chocolate."""
    found = index.longest(words, at)
    if found is None or found.after - at < _SHORTEST_OVERLAPPED:
        return found
    for inside in range(at + 1, found.after):
        other = index.longest(words, inside)
        if other and other.after > found.after:
            gain = (other.after - inside) - (found.after - at)
            if gain > 0 or (gain == 0 and words[at].word in index.small):
                return index.longest(words, at, inside)
    return found


def take_reach(line: Sequence[Piece]) -> None:
    """Let words start where what belongs to them starts, unless another or an unread word stands between."""
    before = 0
    for piece in line:
        if piece.concept and before <= piece.reach < piece.start:
            piece.start = piece.reach
        if piece.concept or piece.unread:
            before = piece.end


def sentences(line: Sequence[Piece]) -> Iterator[Sequence[Piece]]:
    """The pieces of each sentence."""
    start = 0
    for at, piece in enumerate(line):
        if piece.gap == STOP and at > start:
            yield line[start:at]
            start = at
    if start < len(line):
        yield line[start:]


def _phrase(found: Found, words: Sequence[Token]) -> Piece:
    first, last = words[found.first], words[found.after - 1]
    return Piece(
        word=first.word if found.after == found.first + 1 else "",
        start=first.start,
        end=last.end,
        gap=first.gap,
        asked=last.asked,
        concept=found.concept,
        marks=found.marks,
        certainty=round(found.certainty, 3),
        compares=found.compares,
    )


def _bare(token: Token, index: PhraseIndex) -> Piece:
    unread = carries_meaning(token.word, index)
    return Piece(token.word, token.start, token.end, token.gap, token.asked, unread=unread)


def carries_meaning(word: str, index: PhraseIndex) -> bool:
    """Whether a folded word says something: no small word of the language, no number, no single letter."""
    return len(word) >= _SHORTEST_WORD and word[0].isalpha() and word not in index.small
