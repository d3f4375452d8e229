"""How sure the taster was: "maybe plum", "plum?", "kind of smoky"."""

from collections.abc import Sequence

from cupwright.core.words import marks
from cupwright.core.words.pieces import Piece
from cupwright.core.words.tokens import COLON, JOINED, PAUSE

_REACH = 4  # words that may stand between a hedge and what it doubts


def hedge(line: Sequence[Piece]) -> None:
    """Mark what is doubted: the name at which a hedge stands, all from a question mark back to a comma."""
    for at, piece in enumerate(line):
        if piece.has(marks.HEDGE):
            _doubt_beside(at, line)
        if piece.asked:
            _doubt_asked(at, line)


def _doubt_beside(at: int, line: Sequence[Piece]) -> None:
    """The name that follows, all of it; if none follows in the clause, the name before it."""
    for ahead in range(at + 1, min(len(line), at + 2 + _REACH)):
        if not line[ahead].joined and not (ahead == at + 1 and _leads_on(line[at], line[ahead])):
            break
        if line[ahead].concept:
            _doubt_run(ahead, line)
            return
    if at and line[at].gap in (JOINED, COLON) and line[at - 1].concept:
        line[at - 1].hedged = True


def _leads_on(doubt: Piece, following: Piece) -> bool:
    """Perhaps: honey; if I had to guess, honey. But "maybe, honey" doubts what was before."""
    return following.gap == COLON or (following.gap == PAUSE and not doubt.word)


def _doubt_run(at: int, line: Sequence[Piece]) -> None:
    line[at].hedged = True
    for piece in line[at + 1 :]:
        if not (piece.joined and piece.concept):
            return
        piece.hedged = True


def _doubt_asked(at: int, line: Sequence[Piece]) -> None:
    for back in range(at, -1, -1):
        line[back].hedged = line[back].hedged or bool(line[back].concept)
        if not line[back].linked:
            return
