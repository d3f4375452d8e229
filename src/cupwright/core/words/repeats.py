"""One thing said in two words: "liked it better" is one verdict, "good with milk and sugar" one addition."""

from collections.abc import Sequence

from cupwright.core.words import marks
from cupwright.core.words.pieces import Piece
from cupwright.core.words.tokens import LINK

_BETWEEN = 3  # small words that may stand between a verb of liking and how much it was liked
_PUT_IN = frozenset(["dairy", "sugar", "cream"])


def join_repeats(line: Sequence[Piece]) -> None:
    """Take the second word into the first, which keeps its degree and comparison."""
    for at, piece in enumerate(line):
        if piece.concept == "liked" and piece.has(marks.MORE, marks.MOST) and piece.joined:
            _join_liking(at, line)
        elif piece.concept in _PUT_IN:
            _join_addition(at, line)


def _join_liking(at: int, line: Sequence[Piece]) -> None:
    """Liked it better, liked this the best; but: nice and better."""
    better = line[at]
    for before in reversed(line[max(0, at - 1 - _BETWEEN) : at]):
        if before.concept:
            if before.concept == "liked" and not before.negated and not before.comparison:
                before.degree, before.comparison = better.degree, better.comparison
                _take_in(before, better)
            return
        if before.unread or not before.joined or before.has(marks.AND, marks.OR, marks.TURN):
            return


def _join_addition(at: int, line: Sequence[Piece]) -> None:
    """Milk/sugar, milk or sugar, milk and sugar, behind words such as "good with milk"."""
    piece, back = line[at], at - 1
    if piece.gap != LINK:
        if back < 1 or not piece.joined or not line[back].joined or not line[back].has(marks.AND, marks.OR):
            return
        back -= 1
    if back >= 0 and line[back].concept == "goes_with_milk":
        _take_in(line[back], piece)


def _take_in(first: Piece, second: Piece) -> None:
    first.end, second.concept = second.end, ""
