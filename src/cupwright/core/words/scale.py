"""Degrees in order, how two of them go together, and the concepts that a graded concept becomes."""

from cupwright.core.words import marks
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.pieces import Piece

LOW, HIGH = frozenset(["trace", "slight"]), frozenset(["marked", "very", "too"])


def together(first: str, second: str) -> str:
    """Two degrees in a row: very faint is a trace, slightly strong is plain."""
    if not first or first == "plain":
        return second
    if second in LOW:
        return "trace" if first in HIGH else second
    if first in LOW and second in HIGH:
        return "plain" if second != "too" else "too"
    return "very" if second == "marked" else second


def become(piece: Piece, lexicon: Lexicon, *, by_amount: bool, start: int = -1, end: int = -1) -> None:
    """Acidity of a low degree is low acidity, where the lexicon has such a concept; its degree is then plain.

    What is only compared stays what it is: less acidic is no low acidity. "Lower acidity" (`by_amount`) is.
    """
    if piece.comparison and not by_amount:
        return
    concept = lexicon[piece.concept]
    if concept.middle and not piece.has(marks.CARRIER):
        return  # very textured is not much texture
    if piece.degree in LOW:
        turned = concept.low
    elif piece.degree in HIGH:
        turned = concept.high
    else:
        turned = concept.middle if by_amount else ""
    if turned:
        piece.concept, piece.degree, piece.marks = turned, "plain", marks.NONE
        piece.reach = start
        piece.end = max(piece.end, end)
