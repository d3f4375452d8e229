"""What a taster usually drinks or likes: "I usually don't like citrus, but …" says nothing of this cup."""

from collections.abc import Sequence

from cupwright.core.words import marks
from cupwright.core.words.pieces import Piece


def drop_habits(line: Sequence[Piece]) -> None:
    """Take out the names behind a word of habit, to the end of its clause or to a contrast."""
    habit = False
    for piece in line:
        if not piece.linked or piece.turns or piece.has(marks.ANEW, marks.THAN):
            habit = False
        if piece.has(marks.HABIT):
            habit = True
        elif habit and piece.concept:
            piece.concept, piece.marks = "", marks.NONE
