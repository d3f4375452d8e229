"""What a note denies: "not sweet", "no acidity", "lacks body", "sweetness missing"."""

from collections.abc import Sequence
from dataclasses import dataclass

from cupwright.core.words import marks
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.pieces import LONGEST_CLAUSE, Piece
from cupwright.core.words.tokens import COLON, STOP

# A denial reaches over at most this many other words: "I don't think I'd want to drink it every day".
_REACH = 8
# Endings of names of qualities, which are listed with one another: no sweetness and acidity.
_NAMING = ("ness", "acid")
_NAMING_IN_THE_MOUTH = ("ity", "cy")  # acidity, clarity, astringency; but not fruity, juicy
_OF_THE_MOUTH = ("taste", "touch", "finish", "character")


@dataclass(slots=True)
class _Denial:
    """A negator under way: how far it still reaches, what it has hit last, whether "and" carries it on."""

    reach: int = _REACH
    hit: Piece | None = None
    carries: bool = False
    shared: bool = False  # one article stands before what was hit and what follows "and"
    start: int = -1  # where the negator starts; -1 if what it denies does not mean the opposite


class _Clause:
    """Walks one clause from left to right."""

    def __init__(self, lexicon: Lexicon) -> None:
        self.lexicon = lexicon
        self.denial: _Denial | None = None
        self.last: Piece | None = None  # what a negator behind it would deny
        self.undone: Piece | None = None  # a negator that another has taken back
        self.owed: Piece | None = None  # what "lacking" denies if nothing follows it

    def meet(self, at: int, line: Sequence[Piece]) -> None:
        """One piece."""
        piece = line[at]
        if not piece.linked:
            self._pause(at, line)
        if piece.concept:
            self._name(at, line)
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
        last = self.last if line[at].gap == COLON else None  # sweetness: none
        going_on = (
            self.denial if self.denial and (self.denial.hit or either) and self._listed(at, line) else None
        )
        if going_on and either:
            going_on.start = -1
        self.end()
        self.last = last
        if line[at].gap != STOP:
            self.denial = going_on

    def _name(self, at: int, line: Sequence[Piece]) -> None:
        piece, before = line[at], line[at - 1] if at else None
        if before and piece.joined and self.denial and before is self.denial.hit and self._closes(before):
            self.denial = None  # no sourness or bitterness | fruity; not a great | acidity
        if self.denial:
            piece.negated, piece.denied_from = True, self.denial.start
            self.denial.shared = before is not None and before.has(marks.OVER) and not before.has(marks.OR)
            self.denial.hit, self.denial.reach = piece, _REACH
            self.owed = None
        self.last = piece

    def _word(self, at: int, line: Sequence[Piece]) -> None:
        piece = line[at]
        following = line[at + 1] if at + 1 < len(line) else None
        if piece is not self.undone and _denies_back(at, line):
            self.owed = self.last
        if piece.has(marks.DENY):
            if following and following.joined and _lacks(following):
                self.undone = following  # not without | sweetness
            elif piece is not self.undone and not (
                following and following.joined and following.has(marks.UNDO)
            ):
                self.denial = _Denial(
                    carries=piece.has(marks.DENY_MORE), start=-1 if piece.has(marks.BOTH) else piece.start
                )
        elif piece.has(marks.TURN, marks.ANEW):
            self.denial = None
        elif self.denial:
            self._go_on(self.denial, piece, following)

    def _go_on(self, denial: _Denial, piece: Piece, following: Piece | None) -> None:
        denial.reach -= 1
        linked = self._leads_on(piece, denial.hit) or (
            piece.has(marks.AND) and (denial.carries or self._goes_on_over_and(denial, following))
        )
        if denial.reach < 0 or (denial.hit and not linked):
            self.denial = None

    def _leads_on(self, piece: Piece, hit: Piece | None) -> bool:
        """Or, articles, degrees; behind a verdict only "or": I don't dislike | the funk."""
        if hit and self.lexicon[hit.concept].family == "verdict":
            return piece.has(marks.OR)
        return _is_link(piece)

    def _goes_on_over_and(self, denial: _Denial, following: Piece | None) -> bool:
        """No sweetness and acidity; not the dark and bitter cup I was told of; but: no acid | and smooth."""
        if denial.hit is None or following is None or not following.concept:
            return False
        return denial.shared or (self._names_quality(denial.hit) and self._names_quality(following))

    def _closes(self, hit: Piece) -> bool:
        """Whether what stands right behind a denied word is no longer denied."""
        return self._names_quality(hit) or self.lexicon[hit.concept].family == "verdict"

    def _listed(self, at: int, line: Sequence[Piece]) -> bool:
        """Whether the list that goes on here ends with "or" or "nor" before anything else is said.

        After "without" a list of qualities may end with "and", too: lacking body, sweetness and depth.
        """
        carried = self.denial is not None and self.denial.carries and self._names_quality(line[at])
        for piece in line[at : at + LONGEST_CLAUSE]:
            if piece.gap == STOP or piece.has(marks.TURN, marks.DENY):
                return False
            if piece.has(marks.OR) or (carried and piece.has(marks.AND)):
                return True
        return False

    def _names_quality(self, piece: Piece) -> bool:
        if piece.has(marks.CARRIER) or piece.word.endswith(_NAMING):
            return True
        mouth = piece.concept and self.lexicon[piece.concept].family in _OF_THE_MOUTH
        return bool(mouth) and piece.word.endswith(_NAMING_IN_THE_MOUTH)


def deny(line: Sequence[Piece], lexicon: Lexicon) -> None:
    """Mark the pieces that the note denies.

    A negator reaches to the end of its clause, a contrast ("but") or eight words on. After it has denied
    something it goes on only over "or", articles and degree words, over a comma if the list ends with "or",
    and over "and" between two names of qualities ("no acid and smooth" denies acid alone) or behind one
    article ("not the dark and bitter cup"); "without" and "lacking" go on over every "and". What stands right
    behind a denied verdict is not denied ("not a great acidity").
    """
    if not any(piece.has(marks.DENY, marks.DENY_BACK, marks.ANSWER) for piece in line if piece.marks):
        return
    clause = _Clause(lexicon)
    for at in range(len(line)):
        clause.meet(at, line)
    clause.end()


def _is_link(piece: Piece) -> bool:
    return piece.has(marks.OVER) or any(
        piece.degree_by(how) for how in (marks.DEGREE, marks.SHARE, marks.AMOUNT)
    )


def _lacks(piece: Piece) -> bool:
    return piece.has(marks.DENY_MORE) and not piece.has(marks.BOTH)


def _denies_back(at: int, line: Sequence[Piece]) -> bool:
    """Sweetness is gone; but not: gone bitter. Sweetness, none; but not: none of it."""
    piece, following = line[at], line[at + 1] if at + 1 < len(line) else None
    if piece.has(marks.DENY_BACK):
        return not (following and following.joined and following.concept)
    return piece.has(marks.ANSWER) and _ends_clause(at, line)


def _ends_clause(at: int, line: Sequence[Piece]) -> bool:
    following = line[at + 1] if at + 1 < len(line) else None
    return following is None or not following.linked or following.turns
