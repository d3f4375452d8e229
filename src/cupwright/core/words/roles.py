"""Words that mark and mean: "strong" in "strong plum" says how much, alone it is a word of its own.

The same for nouns of the mouth: "dry mouthfeel" is dry, "nice mouthfeel" praises the mouthfeel.
"""

from collections.abc import Sequence

from cupwright.core.words import marks
from cupwright.core.words.lexicon import INTENSITY, Lexicon
from cupwright.core.words.pieces import Piece
from cupwright.core.words.scale import HIGH, become, together
from cupwright.core.words.tokens import COLON, JOINED

_BESIDE = 5  # words that may stand between a noun and what is said of it: "acidity is on the high side"
_PRAISE = frozenset(["liked", "disliked", "acceptable"])
# Families beside whose words "strong" or "light" is a word of its own.
_NOT_GRADED = frozenset(["touch", "finish", "character", "verdict", "make"])


def settle_amounts(line: Sequence[Piece], lexicon: Lexicon) -> None:
    """Decide for each word such as "strong", "light", "high" whether it grades a word beside it."""
    for at, piece in enumerate(line):
        following = line[at + 1] if at + 1 < len(line) else None
        if following and following.concept and following.joined:
            taken = lexicon[following.concept].takes.get(piece.word)
            if taken:
                piece.concept, piece.marks = "", frozenset([marks.AMOUNT + taken])
                piece.unread = False
                continue
        if piece.concept and piece.degree_by(marks.DEGREE) and _leads(following):
            piece.concept = ""  # mildly nutty
        if piece.concept and piece.degree_by(marks.AFTER) and _moves(at, line, lexicon):
            piece.concept = ""
        amount = piece.degree_by(marks.AMOUNT)
        if amount:
            _settle(at, amount, line, lexicon)


def _settle(at: int, amount: str, line: Sequence[Piece], lexicon: Lexicon) -> None:
    piece = line[at]
    if _grades_what_follows(at, line, lexicon):
        piece.concept = ""
        return
    noun_at = _noun_before(at, line, lexicon)
    if noun_at >= 0:
        _grade_noun(noun_at, at, amount, line, lexicon)
    elif piece.concept:
        piece.marks = frozenset(mark for mark in piece.marks if not mark.startswith(marks.AMOUNT))


def _grades_what_follows(at: int, line: Sequence[Piece], lexicon: Lexicon) -> bool:
    for following in line[at + 1 : at + 1 + _BESIDE]:
        if not following.joined:
            return False
        if following.concept and not following.degree_by(marks.AMOUNT):
            return _gradable(following, line[at], lexicon)
        if not (following.degree_by(marks.AMOUNT) or following.has(marks.FIRST, marks.COOLING, marks.FINISH)):
            return False
    return False


def _gradable(noun: Piece, amount: Piece, lexicon: Lexicon) -> bool:
    """Whether an amount grades the word behind it; if it means something itself, no adjective of taste."""
    concept = lexicon[noun.concept]
    if concept.low or concept.high:
        return not amount.concept or names_quality(noun)
    above = lexicon.ancestors(noun.concept)
    if not amount.concept:
        return True
    return not (above & _NOT_GRADED) and (concept.family != "taste" or names_quality(noun))


def _leads(following: Piece | None) -> bool:
    """Whether a word is there to be graded."""
    return following is not None and following.joined and bool(following.concept)


def _moves(at: int, line: Sequence[Piece], lexicon: Lexicon) -> bool:
    """Whether a word that names something is the verb of a quality here: acidity (that) rose."""
    back = at - 1
    if back > 0 and line[back].joined and line[back].has(marks.PASSED):
        back -= 1
    if back < 0 or not line[at].joined or not line[back].concept:
        return False
    noun = line[back]
    return lexicon[noun.concept].about == INTENSITY and (not noun.word or names_quality(noun))


def names_quality(piece: Piece) -> bool:
    """Whether a word is the name of a quality: acidity, sweetness, body."""
    return piece.has(marks.CARRIER) or piece.word.endswith(("ness", "ity"))


def _noun_before(at: int, line: Sequence[Piece], lexicon: Lexicon) -> int:
    """Where the noun is that is graded behind it ("acidity is rather high", "Sweetness: low"), or -1."""
    for back in range(at - 1, max(-1, at - 1 - _BESIDE), -1):
        if line[back + 1].gap not in (JOINED, COLON):
            return -1
        if line[back].concept:
            return back if _answers(line[back], line[at], lexicon) else -1
        if not _between(line[back]):
            return -1
    return -1


def _answers(noun: Piece, amount: Piece, lexicon: Lexicon) -> bool:
    """Whether the noun is one of which is asked how much; a word with a meaning of its own needs a noun."""
    concept = lexicon[noun.concept]
    if amount.concept and concept.id in lexicon.ancestors(amount.concept):
        return False  # mouthfeel: heavy is heavy body itself
    if concept.low or concept.high:
        return not amount.concept or names_quality(noun)
    return concept.about == INTENSITY and not amount.concept


def _between(piece: Piece) -> bool:
    return piece.has(marks.COPULA, marks.PASSED, marks.DENY) or any(
        piece.degree_by(how) for how in (marks.DEGREE, marks.SHARE)
    )


def _grade_noun(noun_at: int, at: int, amount: str, line: Sequence[Piece], lexicon: Lexicon) -> None:
    noun, piece = line[noun_at], line[at]
    degree = together(line[at - 1].degree_by(marks.DEGREE), amount)
    denier = next((other for other in line[noun_at + 1 : at] if other.has(marks.DENY)), None)
    if denier:
        degree = "slight" if degree in HIGH else "plain"
        denier.marks = marks.NONE
    noun.degree = degree
    if piece.compares:
        noun.comparison = _way(piece.compares, amount)
    piece.concept, piece.marks = "", marks.NONE
    become(noun, lexicon, by_amount=True, end=piece.end)


def _way(ending: str, amount: str) -> str:
    most = ending.endswith("est")
    if amount in HIGH:
        return "most" if most else "more"
    return "least" if most else "less"


def drop_carriers(line: Sequence[Piece], lexicon: Lexicon) -> None:
    """Body, acidity, finish and the like are no word of their own where the word beside them says how."""
    for at, piece in enumerate(line):
        if piece.concept and piece.has(marks.CARRIER) and _said_how(at, line, lexicon):
            piece.concept = ""


def _said_how(at: int, line: Sequence[Piece], lexicon: Lexicon) -> bool:
    back = at - 1
    while back > at - _BESIDE and back > 0 and line[back].joined and line[back].has(marks.WITHIN):
        back -= 1  # thick in texture
    if back >= 0 and line[at].joined and line[back + 1].joined and _describes(line[back], lexicon):
        return True
    for following in line[at + 1 : at + 1 + _BESIDE]:
        if following.gap not in (JOINED, COLON):
            return False
        if following.concept:
            told = following.gap == COLON or line[at + 1] is not following or not following.has(marks.CARRIER)
            return told and _describes(following, lexicon)
        if not _tells(following):
            return False
    return False


def _describes(piece: Piece, lexicon: Lexicon) -> bool:
    """Whether a word says how something is, and does not only praise or blame it."""
    if not piece.concept or piece.has(marks.CARRIER):
        return False
    return not lexicon.ancestors(piece.concept) & _PRAISE


def _tells(piece: Piece) -> bool:
    """A word that may stand between a noun of the mouth and what is said of it."""
    return piece.has(marks.COPULA, marks.HEDGE, marks.DENY, marks.BECOMING, marks.COOLING) or any(
        piece.degree_by(how) for how in (marks.DEGREE, marks.SHARE, marks.AMOUNT)
    )
