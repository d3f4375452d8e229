"""What a taster usually drinks or likes: "I usually don't like citrus, but …" says nothing of this cup.

The same for what was wished for ("could use more acid") and for tastes that were hard to tell apart.
"""

from collections.abc import Sequence

from cupwright.core.words import marks
from cupwright.core.words.pieces import Piece


def drop_habits(line: Sequence[Piece]) -> None:
    """Take out the names behind a word of habit, to the end of its clause or to a contrast.

    Also those right before a word for somebody who likes them ("not a dark roast person").
    """
    habit = False
    for at, piece in enumerate(line):
        if not piece.linked or piece.turns or piece.has(marks.ANEW, marks.THAN):
            habit = False
        if piece.has(marks.HABIT):
            habit = True
        elif habit and piece.concept:
            _drop(piece)
        if piece.has(marks.HABIT_BACK) and piece.joined:
            _drop_before(at, line)


def _drop_before(at: int, line: Sequence[Piece]) -> None:
    for back in range(at - 1, -1, -1):
        if not line[back].concept:
            return
        _drop(line[back])
        if not line[back].joined:
            return


def _drop(piece: Piece) -> None:
    piece.concept, piece.marks = "", marks.NONE
