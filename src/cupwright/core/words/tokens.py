"""Cutting a note into words, each with its place in the text as it was written."""

import re
import unicodedata
from dataclasses import dataclass

# A word: letters and digits, held together by apostrophes, soft hyphens and combining marks.
_MARKS = "\u0300-\u036f\u00ad"
_WORD = re.compile(rf"[^\W_]+(?:[{_MARKS}'\u2019\u02bc]+[^\W_]+)*[{_MARKS}]*")
# Between two words of one phrase there may be only spaces and quotation marks, or one hyphen without spaces.
_JOINS = re.compile(r"[ \t\u00a0'\"\u2018\u2019\u201c\u201d]*|[-\u2010\u2011]")
_DROPPED = re.compile(f"[{_MARKS}]")


@dataclass(frozen=True, slots=True)
class Token:
    """A word as it stands: `text[start:end]`, folded in `word`; `joined` if no punctuation precedes it."""

    word: str
    start: int
    end: int
    joined: bool


def fold(word: str) -> str:
    """A word without case, accents, width or kind of apostrophe: what two spellings are compared by."""
    if word.isascii():
        return word.lower()
    flat = unicodedata.normalize("NFKD", word.replace("\u2019", "'").replace("\u02bc", "'"))
    return _DROPPED.sub("", flat).casefold()


def tokens(text: str) -> list[Token]:
    """The words of a text in order."""
    found: list[Token] = []
    before = 0
    for match in _WORD.finditer(text):
        start, end = match.span()
        joined = _JOINS.fullmatch(text, before, start) is not None
        found.append(Token(fold(match.group()), start, end, joined))
        before = end
    return found
