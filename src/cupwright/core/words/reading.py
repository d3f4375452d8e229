"""Reading a note: which concepts a text names, where, how surely, and which words could not be read.

The method is described in docs/methods/reading.md; the client reads alike without a server
(client/src/words/reading/). The text is never changed, and nothing in it can make a reading fail: whatever is
not understood is returned as unread.
"""

from dataclasses import dataclass

from cupwright.core.words.comparison import compare
from cupwright.core.words.corrections import NO_CORRECTIONS, Corrections
from cupwright.core.words.degree import grade
from cupwright.core.words.habit import drop_habits
from cupwright.core.words.hedge import hedge
from cupwright.core.words.languages import spoken
from cupwright.core.words.lexicon import ENGLISH, Lexicon
from cupwright.core.words.negation import deny
from cupwright.core.words.phrases import phrase_index
from cupwright.core.words.pieces import Piece, pieces, take_reach
from cupwright.core.words.repeats import join_repeats
from cupwright.core.words.roles import drop_carriers, settle_amounts
from cupwright.core.words.stage import place
from cupwright.core.words.tokens import tokens

LOWERED = ("less", "least")


@dataclass(frozen=True, slots=True)
class Word:
    """A concept found in `text[start:end]`.

    `certainty` is in (0, 1]; `negated` if the text denies it. `degree`: trace, slight, plain, marked, very or
    too. `comparison` with another cup: more, most, less, least, other (said only of another cup) or "";
    `against` is that cup as the text names it. `hedged` if the taster was not sure. `stage`: first, finish,
    cooling or "".
    """

    concept: str
    label: str
    start: int
    end: int
    certainty: float
    negated: bool
    degree: str = "plain"
    comparison: str = ""
    against: str = ""
    hedged: bool = False
    stage: str = ""

    @property
    def compared(self) -> bool:
        """Whether it is said by comparison with another cup."""
        return bool(self.comparison)

    @property
    def said(self) -> bool:
        """Whether the text says that it is there: not denied, not less than elsewhere, not of another cup."""
        return not self.negated and self.comparison not in (*LOWERED, "other")


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
        """What the text says is there: not denied, not less than in another cup, not of another cup."""
        return frozenset(word.concept for word in self.words if word.said)

    @property
    def denied(self) -> frozenset[str]:
        """What the text says is not there."""
        return frozenset(word.concept for word in self.words if word.negated) - self.concepts

    def unread_words(self) -> tuple[str, ...]:
        """The unread pieces as written."""
        return tuple(self.text[span.start : span.end] for span in self.unread)


def read_note(
    text: str, lexicon: Lexicon, *, field: str = "", corrections: Corrections = NO_CORRECTIONS
) -> Reading:
    """Read a note into concepts of the lexicon.

    Parameters
    ----------
    text : str
        As written. Positions in the result count its characters (code points).
    field : str
        The family that was asked for, if one was: in a field "colour" the word orange is a colour.
    corrections : Corrections
        What this user has said pieces of text mean; they go before the lexicon.

    Returns
    -------
    Reading
        Words in order of the text, not overlapping; of two phrases from one word on, the longer.

    Notes
    -----
    Error: measured by bench/reading.py on notes annotated by hand; a word with two meanings is read as the
    one more usual in notes on coffee and carries a low certainty.
    """
    line = _pieces(text, lexicon, field if field in lexicon.families else "", corrections)
    if any(piece.concept for piece in line):
        _understand(line, text, lexicon)
    return Reading(
        text,
        tuple(_word(piece, lexicon) for piece in line if piece.concept),
        tuple(Span(piece.start, piece.end) for piece in line if piece.unread),
    )


def _pieces(text: str, lexicon: Lexicon, field: str, corrections: Corrections) -> list[Piece]:
    """The pieces of a note in English, or in the language that knows its other words."""
    words = tokens(text)
    line = pieces(words, phrase_index(lexicon, ENGLISH, field), corrections)
    unknown = [piece.word for piece in line if piece.unread]
    code = spoken(unknown, lexicon, field)
    return line if code == ENGLISH else pieces(words, phrase_index(lexicon, code, field), corrections)


def _understand(line: list[Piece], text: str, lexicon: Lexicon) -> None:
    settle_amounts(line, lexicon)
    drop_habits(line)
    deny(line, lexicon)
    grade(line, lexicon)
    drop_carriers(line, lexicon)
    join_repeats(line)
    compare(line, text, lexicon)
    hedge(line)
    place(line, lexicon)
    take_reach(line)


def _word(piece: Piece, lexicon: Lexicon) -> Word:
    return Word(
        piece.concept,
        lexicon[piece.concept].label,
        piece.start,
        piece.end,
        piece.certainty,
        piece.negated,
        piece.degree,
        piece.comparison,
        piece.against,
        piece.hedged,
        piece.stage,
    )
