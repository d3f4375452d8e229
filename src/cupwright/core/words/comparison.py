"""With what a cup is compared: "sweeter than B", "the most bitter of the four", "second favourite"."""

from collections.abc import Sequence

from cupwright.core.words import marks
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.pieces import LONGEST_CLAUSE, Piece, sentences
from cupwright.core.words.roles import names_quality

_WAYS = ((marks.MORE, "more"), (marks.LESS, "less"), (marks.MOST, "most"), (marks.LEAST, "least"))
_OF_A_CUP = frozenset(["verdict", "make"])  # families that name another cup behind "than"
_LONGEST_OTHER = 4  # pieces that name what the cup is compared with


def compare(line: Sequence[Piece], text: str, lexicon: Lexicon) -> None:
    """Mark what is said of another cup, or of this one against others; needs the degrees (degree.py)."""
    for sentence in sentences(line):
        for at, piece in enumerate(sentence):
            if piece.has(marks.WISHED):
                _against_wish(at, sentence, lexicon)
            elif piece.has(marks.THAN):
                _against(at, sentence, text, lexicon)
            elif piece.has(marks.AMONG):
                _among(at, sentence)
            elif piece.has(marks.RANK):
                _rank(at, sentence, lexicon)
        _contrast(sentence)


def _contrast(sentence: Sequence[Piece]) -> None:
    """Not bitter, more tannic: rather tannic, and no other cup is meant; but: no bitterness, more acidity."""
    denied = False
    for piece in sentence:
        if piece.concept:
            if denied and _worded(piece) and not piece.against and not names_quality(piece):
                piece.comparison, piece.degree = "", "plain"
            denied = piece.negated
        elif piece.turns:
            denied = False


def _against(at: int, sentence: Sequence[Piece], text: str, lexicon: Lexicon) -> None:
    """Than: what is before it in its clause is compared with what is behind it."""
    behind = _clause_behind(at, sentence)
    if behind and behind[0].has(marks.FIRST, marks.COOLING):
        _with_itself(at, sentence)
        return
    named = [piece for piece in _clause_before(at, sentence) if piece.concept]
    if at == 0 and _fronted(sentence, text):
        return
    if _within(sentence[at], named, behind, lexicon):
        return
    other = _other(behind, text)
    way = (_way_of(sentence[at - 1]) if at else "") or "more"
    already = [piece for piece in named if piece.comparison]
    for piece in already or named[-1:]:
        piece.comparison, piece.against = piece.comparison or way, other
    for piece in behind:
        if piece.concept and not piece.comparison:
            piece.comparison = "other"


def _worded(piece: Piece) -> bool:
    """Whether "more" was said: more sour, not sourer or better."""
    return piece.comparison == "more" and not piece.compares and not piece.has(marks.MORE)


def _other(named: Sequence[Piece], text: str) -> str:
    return text[named[0].start : named[:_LONGEST_OTHER][-1].end] if named else ""


def _fronted(sentence: Sequence[Piece], text: str) -> bool:
    """Compared to A this is thin: all that is said after the name of the other cup is compared with it."""
    end = next((at for at, piece in enumerate(sentence) if at and _begins_anew(piece)), 0)
    for piece in sentence[end:] if end else ():
        if piece.concept and not piece.negated:
            piece.comparison, piece.against = piece.comparison or "more", _other(sentence[1:end], text)
    return end > 0


def _begins_anew(piece: Piece) -> bool:
    return not piece.joined or piece.has(marks.ANEW)


def _within(than: Piece, named: Sequence[Piece], behind: Sequence[Piece], lexicon: Lexicon) -> bool:
    """More sour than fruity: two things of one cup, of the second there is less; nothing is compared."""
    more = named[-1] if named else None
    if more is None or than.word != "than" or not _worded(more) or not behind:
        return False
    if not all(piece.concept and lexicon[piece.concept].family not in _OF_A_CUP for piece in behind):
        return False
    if lexicon[more.concept].family == "verdict":
        return False
    more.comparison = ""
    for piece in behind:
        piece.degree = "slight"
    return True


def _against_wish(at: int, sentence: Sequence[Piece], lexicon: Lexicon) -> None:
    """Sweeter than I like: no other cup is meant, and nothing is liked."""
    _with_itself(at, sentence)
    for piece in _clause_behind(at, sentence):
        if piece.concept and lexicon[piece.concept].family == "verdict":
            piece.concept = ""


def _with_itself(at: int, sentence: Sequence[Piece]) -> None:
    for piece in _clause_before(at, sentence):
        piece.comparison = ""


def _way_of(piece: Piece) -> str:
    return next((way for mark, way in _WAYS if piece.has(mark)), "")


def _clause_before(at: int, sentence: Sequence[Piece]) -> Sequence[Piece]:
    start, furthest = at, max(0, at - LONGEST_CLAUSE)
    while start > furthest and sentence[start].linked and not (start < at and sentence[start].turns):
        start -= 1
    return sentence[start:at]


def _clause_behind(at: int, sentence: Sequence[Piece]) -> Sequence[Piece]:
    end, furthest = at + 1, min(len(sentence), at + LONGEST_CLAUSE)
    while (
        end < furthest
        and sentence[end].linked
        and not (sentence[end].turns or sentence[end].has(marks.AND, marks.ANEW))
    ):
        end += 1
    return sentence[at + 1 : end]


def _among(at: int, sentence: Sequence[Piece]) -> None:
    """Of the four: the nearest word before it is compared, unless what is most so was not understood."""
    for piece in reversed(sentence[max(0, at - LONGEST_CLAUSE) : at]):
        if piece.concept:
            piece.comparison = piece.comparison or "most"
            return
        if piece.has(marks.MOST, marks.LEAST):
            return


def _rank(at: int, sentence: Sequence[Piece], lexicon: Lexicon) -> None:
    following = sentence[at + 1] if at + 1 < len(sentence) else None
    if (
        following
        and following.joined
        and following.concept
        and lexicon[following.concept].family == "verdict"
    ):
        following.comparison = following.comparison or "most"
