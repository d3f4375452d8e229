"""When in the life of a sip or a cup: at first, on the finish, as it cools."""

from collections.abc import Sequence

from cupwright.core.words import marks
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.pieces import LONGEST_CLAUSE, Piece, sentences
from cupwright.core.words.tokens import PAUSE

_STAGES = ((marks.COOLING, "cooling"), (marks.FIRST, "first"), (marks.FINISH, "finish"))


def place(line: Sequence[Piece], lexicon: Lexicon) -> None:
    """Give each concept its stage: "first", "finish", "cooling", or "" where the note does not say."""
    for sentence in sentences(line):
        _place_sentence(sentence)
    for piece in line:
        if piece.concept and lexicon[piece.concept].family == "finish":
            piece.stage = piece.stage if piece.stage == "cooling" else "finish"
        if piece.stage in ("cooling", "first") and not piece.against:
            piece.comparison = ""  # compared with itself at another time


def _place_sentence(sentence: Sequence[Piece]) -> None:
    stage, covered = "", False
    for at, piece in enumerate(sentence):
        if stage == "finish" and covered and piece.gap == PAUSE:
            stage = ""  # a finish is told in its clause
        named = _stage_of(at, sentence)
        if named:
            behind = _described(at, sentence) if named == "finish" else _clause_before(at, sentence)
            for other in behind:
                other.stage = named if named == "finish" else other.stage or named
            ended = behind and (named == "finish" or _ends_clause(at, sentence)) and not piece.concept
            stage, covered = "" if ended else named, False
        elif piece.turns:
            stage = ""
        if piece.concept and stage:
            piece.stage, covered = stage, True


def _stage_of(at: int, sentence: Sequence[Piece]) -> str:
    piece = sentence[at]
    if piece.has(marks.BECOMING):
        ahead = [other for other in sentence[at + 1 : at + 4] if other.concept][:1]
        return "cooling" if ahead and ahead[0].comparison else ""
    return next((stage for mark, stage in _STAGES if piece.has(mark)), "")


def _described(at: int, sentence: Sequence[Piece]) -> list[Piece]:
    """The words right before "finish": bitter, bitter and dry; or before "on the finish"."""
    found: list[Piece] = []
    for back in range(at - 1, max(-1, at - LONGEST_CLAUSE), -1):
        other = sentence[back]
        named_or_led = other.concept or (other.has(marks.AND) if found else other.marks)
        if not sentence[back + 1].linked or not named_or_led or (other.turns and not other.concept):
            break
        if other.concept:
            found.append(other)
    return found


def _clause_before(at: int, sentence: Sequence[Piece]) -> list[Piece]:
    """The words before a stage that ends its clause: sour and thin at first."""
    if not _ends_clause(at, sentence):
        return []
    found: list[Piece] = []
    for back in range(at - 1, max(-1, at - LONGEST_CLAUSE), -1):
        other = sentence[back]
        if not sentence[back + 1].linked or other.turns:
            break
        if other.concept:
            found.append(other)
    return found


def _ends_clause(at: int, sentence: Sequence[Piece]) -> bool:
    for piece in sentence[at + 1 : at + LONGEST_CLAUSE]:
        if not piece.linked or piece.turns or piece.has(marks.AND):
            return True
        if piece.concept or piece.unread:
            return False
    return True
