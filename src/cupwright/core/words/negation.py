"""What a note denies: "not sweet", "no acidity", "lacks body", "sweetness missing"."""

from collections.abc import Sequence
from dataclasses import dataclass

from cupwright.core.words import marks
from cupwright.core.words.pieces import LONGEST_CLAUSE, Piece
from cupwright.core.words.tokens import STOP

# A denial reaches over at most this many other words: "I don't think I'd want to drink it every day".
_REACH = 8
# Endings of names of qualities, which are listed with one another: no sweetness and acidity.
_NAMING = ("ness", "ity", "acid")


@dataclass(slots=True)
class _Denial:
    """A negator under way: how far it still reaches, what it has hit last, whether "and" carries it on."""

    reach: int = _REACH
    hit: Piece | None = None
    carries: bool = False
    start: int = -1  # where the negator starts; -1 if what it denies does not mean the opposite


class _Clause:
    """Walks one clause from left to right."""

    def __init__(self) -> None:
        self.denial: _Denial | None = None
        self.last: Piece | None = None  # what a negator behind it would deny
        self.owed: Piece | None = None  # what "lacking" denies if nothing follows it

    def meet(self, at: int, line: Sequence[Piece]) -> None:
        """One piece."""
        piece = line[at]
        if not piece.linked:
            self._pause(at, line)
        if piece.concept:
            self._name(piece, line[at - 1] if at else None)
        else:
            self._word(at, line)

    def end(self) -> None:
        """The sentence ends."""
        if self.owed:
            self.owed.negated = True
        self.denial = self.last = self.owed = None

    def _pause(self, at: int, line: Sequence[Piece]) -> None:
        """Punctuation ends a denial, except in a list: not bitter, sour or harsh; no, either good or bad."""
        either = line[at].has(marks.EITHER)
        going_on = self.denial if self.denial and (self.denial.hit or either) and _listed(at, line) else None
        if going_on and either:
            going_on.start = -1
        self.end()
        if line[at].gap != STOP:
            self.denial = going_on

    def _name(self, piece: Piece, before: Piece | None) -> None:
        together = piece.joined and self.denial and before is self.denial.hit
        if together and before and _names_quality(before):
            self.denial = None  # no sourness or bitterness | fruity
        if self.denial:
            piece.negated, piece.denied_from = True, self.denial.start
            self.denial.hit, self.denial.reach = piece, _REACH
            self.owed = None
        self.last = piece

    def _word(self, at: int, line: Sequence[Piece]) -> None:
        piece = line[at]
        following = line[at + 1] if at + 1 < len(line) else None
        if piece.has(marks.DENY_BACK):
            self.owed = self.last
        if piece.has(marks.DENY):
            if not (following and following.joined and following.has(marks.UNDO)):
                self.denial = _Denial(
                    carries=piece.has(marks.DENY_MORE), start=-1 if piece.has(marks.BOTH) else piece.start
                )
        elif piece.has(marks.TURN, marks.ANEW):
            self.denial = None
        elif self.denial:
            self._go_on(self.denial, piece, following)

    def _go_on(self, denial: _Denial, piece: Piece, following: Piece | None) -> None:
        denial.reach -= 1
        linked = _is_link(piece) or (
            piece.has(marks.AND) and (denial.carries or _same_kind(denial.hit, following))
        )
        if denial.reach < 0 or (denial.hit and not linked):
            self.denial = None


def deny(line: Sequence[Piece]) -> None:
    """Mark the pieces that the note denies.

    A negator reaches to the end of its clause, a contrast ("but") or eight words on. After it has denied
    something it goes on only over "or", articles and degree words, over a comma if the list ends with "or",
    and over "and" between two names of qualities ("no acid and smooth" denies acid alone); "without" and
    "lacking" go on over every "and".
    """
    if not any(piece.has(marks.DENY, marks.DENY_BACK) for piece in line if piece.marks):
        return
    clause = _Clause()
    for at in range(len(line)):
        clause.meet(at, line)
    clause.end()


def _is_link(piece: Piece) -> bool:
    return piece.has(marks.OVER) or any(
        piece.degree_by(how) for how in (marks.DEGREE, marks.SHARE, marks.AMOUNT)
    )


def _listed(at: int, line: Sequence[Piece]) -> bool:
    """Whether the list that goes on here ends with "or" or "nor" before anything else is said."""
    for piece in line[at : at + LONGEST_CLAUSE]:
        if piece.gap == STOP or piece.has(marks.TURN, marks.DENY):
            return False
        if piece.has(marks.OR):
            return True
    return False


def _same_kind(hit: Piece | None, following: Piece | None) -> bool:
    if hit is None or following is None or not following.concept:
        return False
    return _names_quality(hit) and _names_quality(following)


def _names_quality(piece: Piece) -> bool:
    return piece.has(marks.CARRIER) or piece.word.endswith(_NAMING)
