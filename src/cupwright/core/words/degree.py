"""How much of it: "a hint of plum", "very sweet", "plum hints", "sweeter", "less bitter".

Degrees in order: trace, slight, plain, marked, very, too. That a word compares is read here as well, because
it reaches the compared in the same way; with what it is compared is found in comparison.py.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from cupwright.core.words import marks
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.pieces import Piece
from cupwright.core.words.scale import HIGH, LOW, become, together
from cupwright.core.words.tokens import LINK

_BETWEEN = 2
_COMPARED = {
    marks.MORE: ("marked", "more"),
    marks.MOST: ("very", "most"),
    marks.LESS: ("slight", "less"),
    marks.LEAST: ("trace", "least"),
}


@dataclass(slots=True)
class _Waiting:
    """A degree under way to its word.

    `share`: it covers all of a name ("a hint of ripe plum"). `given`: it has reached a word and reaches
    another only over "and". `by_amount`: it comes from a word such as "high". `worded`: "more" was said.
    `linked`: it goes on over "and".
    """

    degree: str = ""
    comparison: str = ""
    share: bool = False
    by_amount: bool = False
    worded: bool = False
    linked: bool = False
    start: int = -1
    given: bool = False


def grade(line: Sequence[Piece], lexicon: Lexicon) -> None:
    """Give each concept its degree and comparison, and turn acidity of a low degree into low acidity."""
    waiting = _Waiting()
    for at, piece in enumerate(line):
        if not piece.linked:
            waiting = _Waiting()
        elif piece.gap == LINK:
            waiting.given, waiting.start = False, -1
        if piece.concept:
            _give(piece, waiting, lexicon)
            waiting.given = True
        else:
            waiting = _heard(piece, waiting)
        if piece.marks and not piece.concept:
            _look_back(at, line, lexicon)


def _heard(piece: Piece, waiting: _Waiting) -> _Waiting:
    """What is under way after a piece that names nothing."""
    if not piece.marks:
        return _Waiting()
    for mark, (degree, comparison) in _COMPARED.items():
        if mark in piece.marks:
            heard = _added(waiting, piece, _compared(waiting, degree), comparison=comparison)
            heard.worded = True
            return heard
    for how in (marks.SHARE, marks.DEGREE, marks.AMOUNT):
        if degree := piece.degree_by(how):
            return _graded(waiting, piece, degree, how)
    return _passed(waiting, piece)


def _graded(waiting: _Waiting, piece: Piece, degree: str, how: str) -> _Waiting:
    comparison = _way(piece.compares, degree) if how == marks.AMOUNT and piece.compares else ""
    heard = _added(
        waiting, piece, together(_under_way(waiting), degree), share=how == marks.SHARE, comparison=comparison
    )
    heard.by_amount = heard.by_amount or how == marks.AMOUNT
    return heard


def _passed(waiting: _Waiting, piece: Piece) -> _Waiting:
    """Over "and" and "or" a degree reaches another word; over some small words it reaches its own."""
    if piece.has(marks.AND, marks.OR):
        waiting.linked, waiting.given, waiting.start = waiting.given, False, -1
        return waiting
    passed = piece.has(marks.HEDGE, marks.FIRST, marks.FINISH, marks.COOLING) or (
        piece.has(marks.PASSED) and (waiting.share or bool(waiting.comparison))
    )
    ended = waiting.given or (waiting.linked and piece.has(marks.HEDGE))
    return waiting if passed and not ended else _Waiting()


def _under_way(waiting: _Waiting) -> str:
    return "" if waiting.given else waiting.degree


def _compared(waiting: _Waiting, degree: str) -> str:
    """A little sweeter is plain; much sweeter is very."""
    before = _under_way(waiting)
    if before in LOW and degree in HIGH:
        return "plain"
    return "very" if before in HIGH and degree == "marked" else degree


def _added(
    waiting: _Waiting, piece: Piece, degree: str, *, share: bool = False, comparison: str = ""
) -> _Waiting:
    if waiting.given:
        waiting = _Waiting()
    return _Waiting(
        degree,
        comparison or waiting.comparison,
        share or waiting.share,
        waiting.by_amount,
        waiting.worded,
        start=piece.start if waiting.start < 0 else waiting.start,
    )


def _way(ending: str, amount: str) -> str:
    most = ending.endswith("est")
    if amount in LOW:
        return "least" if most else "less"
    return "most" if most else "more"


def _give(piece: Piece, waiting: _Waiting, lexicon: Lexicon) -> None:
    linked = waiting.given
    if piece.has(marks.RANKED):
        piece.comparison = "most"
    elif piece.compares or piece.has(marks.MORE, marks.MOST):
        most = piece.compares.endswith("est") or piece.has(marks.MOST)
        piece.comparison = piece.comparison or ("most" if most else "more")
        piece.degree = _compared(waiting, "very" if most else "marked")
    elif waiting.degree and (waiting.share or not linked):
        piece.degree, piece.comparison = waiting.degree, waiting.comparison
        start = -1 if linked else waiting.start
        if piece.negated:
            _give_denied(piece, lexicon)
        else:
            become(piece, lexicon, by_amount=waiting.by_amount and not waiting.worded, start=start)
    if piece.negated:
        piece.degree = "plain"
        _turn_round(piece, lexicon)


def _give_denied(piece: Piece, lexicon: Lexicon) -> None:
    """Not too acidic is low acidity, where the lexicon has such a concept."""
    if piece.degree in HIGH and lexicon[piece.concept].low and not piece.comparison:
        piece.negated, piece.degree = False, "slight"
        become(piece, lexicon, by_amount=False, start=piece.denied_from)


def _turn_round(piece: Piece, lexicon: Lexicon) -> None:
    """Not balanced is unbalanced, where the lexicon has such a concept."""
    opposite = lexicon[piece.concept].denied
    if opposite and piece.denied_from >= 0 and not piece.comparison:
        piece.concept, piece.negated, piece.reach = opposite, False, piece.denied_from


def _look_back(at: int, line: Sequence[Piece], lexicon: Lexicon) -> None:
    """A degree or comparison behind its word: plum hints, chocolate forward, liked it less."""
    piece = line[at]
    named = _named_before(at, line, lexicon)
    if named is None or named.negated or _reaches_on(at, line):
        return
    degree = piece.degree_by(marks.AFTER)
    if degree and line[at - 1] is named:
        named.degree = degree
    for mark, (how_much, comparison) in _COMPARED.items():
        if mark in piece.marks and not named.comparison:
            named.degree, named.comparison = how_much, comparison


def _reaches_on(at: int, line: Sequence[Piece]) -> bool:
    """Whether a word of degree has a word behind it to grade, so that it does not look back."""
    following = line[at + 1] if at + 1 < len(line) else None
    return bool(
        following and following.joined and (following.concept or following.has(marks.SHARE + "trace"))
    )


def _named_before(at: int, line: Sequence[Piece], lexicon: Lexicon) -> Piece | None:
    """The word right before; for a verdict small words may stand between: liked this one more."""
    for back in range(at - 1, max(-1, at - 2 - _BETWEEN), -1):
        if not line[back + 1].joined:
            return None
        if line[back].concept:
            near = back == at - 1 or lexicon[line[back].concept].family == "verdict"
            return line[back] if near else None
        if line[back].marks or line[back].unread:
            return None
    return None
