"""Cutting a note into words, each with its place in the text and what parts it from the word before.

The client cuts and folds alike (client/src/words/reading/tokens.ts). So only what both sides' libraries do in
the same way is used: Unicode's letters and numbers, its compatibility decomposition [UAX15], and lower case.
"""

import re
import unicodedata
from dataclasses import dataclass

# A word: letters and digits, held together by apostrophes, soft hyphens, combining marks; also &, w/ and w/o.
_MARKS = "\u0300-\u036f\u00ad"
_WORD = re.compile(rf"&|[wW]/[oO]?(?![^\W_])|[^\W_]+(?:[{_MARKS}'\u2019\u02bc]+[^\W_]+)*[{_MARKS}]*")
# Between two words of one phrase there may be only spaces and quotation marks, or one hyphen without spaces.
_JOINS = re.compile(r"[ \t\u00a0'\"\u2018\u2019\u201c\u201d]*|[-\u2010\u2011]")
_LINKS = re.compile(r"[ \t]*[/+][ \t]*")
_LEADS_ON = re.compile(r"[ \t]*[:=\u2013\u2014-]+[ \t]*")
_STOP = re.compile(r"[.!;\r\n\u2026\u3002]")
_QUESTION = re.compile(r"[?\uff1f\u061f]")
# An address of a page names no tastes, whatever words it is made of.
_ADDRESS = re.compile(r"(?:https?://|www\.)[^ \t\r\n]+", re.ASCII | re.IGNORECASE)
_DROPPED = re.compile(f"[{_MARKS}]")
_APOSTROPHES = re.compile("[\u2019\u02bc]")

# What stands between two words: nothing that parts them, a sign for and (/ +), a colon or dash, another
# pause, or the sentence's end.
JOINED, LINK, COLON, PAUSE, STOP = "", "/", ":", ",", "."


@dataclass(frozen=True, slots=True)
class Token:
    """A word as it stands: `text[start:end]`, folded in `word`.

    `gap` is what parts it from the word before (JOINED, LINK, COLON, PAUSE, STOP); `asked` if a question mark
    follows it.
    """

    word: str
    start: int
    end: int
    gap: str = JOINED
    asked: bool = False

    @property
    def joined(self) -> bool:
        """Whether no punctuation precedes it."""
        return self.gap == JOINED


def fold(word: str) -> str:
    """A word without case, accents, width or kind of apostrophe: what two spellings are compared by."""
    if word.isascii():
        return "and" if word == "&" else word.lower()
    flat = unicodedata.normalize("NFKD", _APOSTROPHES.sub("'", word))
    return _DROPPED.sub("", flat).lower().replace("ß", "ss")


def tokens(text: str) -> list[Token]:
    """The words of a text in order."""
    text = _without_addresses(text)
    spans = [match.span() for match in _WORD.finditer(text)]
    found: list[Token] = []
    between = text[: spans[0][0]] if spans else ""
    for at, (start, end) in enumerate(spans):
        following = text[end : spans[at + 1][0]] if at + 1 < len(spans) else text[end:]
        asked = following != " " and _QUESTION.search(following) is not None
        found.append(Token(fold(text[start:end]), start, end, _gap(between), asked))
        between = following
    return found


def _without_addresses(text: str) -> str:
    """The text with spaces for every address, so that places stay."""
    if "://" not in text and "www." not in text:
        return text
    return _ADDRESS.sub(lambda match: " " * len(match[0]), text)


def _gap(between: str) -> str:
    if between == " " or _JOINS.fullmatch(between):
        return JOINED
    if _LINKS.fullmatch(between):
        return LINK
    if _LEADS_ON.fullmatch(between):
        return COLON
    return STOP if _STOP.search(between) or _QUESTION.search(between) else PAUSE
