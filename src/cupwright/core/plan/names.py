"""Names as people type them: tidied, never changed in substance, and compared without regard to case."""

import unicodedata

from cupwright.core.plan.coffee import LONGEST_NAME
from cupwright.errors import Refused

# Control characters cannot be printed; lone surrogates cannot even be written as UTF-8.
_UNPRINTABLE = {"Cc", "Cs"}
# These turn the direction of all that follows them on a line, so a name could read as another one.
_TURNING = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


def checked_name(name: str, *, of: str) -> str:
    """The name with runs of white space made one space, or a refusal.

    Parameters
    ----------
    of : str
        Whose name it is, as a sentence begins: "The table", "Taster 3".

    Raises
    ------
    Refused
        If the name is empty or shows nothing, is longer than `LONGEST_NAME` characters or holds an
        unprintable character.
    """
    tidy = unicodedata.normalize("NFC", " ".join(name.split()))
    if not folded(tidy):
        raise Refused(f"{of} has no name.", todo="Give it a name.")
    if len(tidy) > LONGEST_NAME:
        raise Refused(
            f"{of} has a name of {len(tidy)} characters; at most {LONGEST_NAME} fit.",
            todo="Shorten the name.",
        )
    if any(unicodedata.category(one) in _UNPRINTABLE or one in _TURNING for one in tidy):
        raise Refused(f"{of} has a name with a character that cannot be printed.", todo="Type the name anew.")
    return tidy


def folded(name: str) -> str:
    """What two spellings of one name have in common: "José", " JOSÉ " and its decomposed form are equal.

    Characters that show nothing (joiners, zero-width blanks) do not tell two names apart.
    """
    shown = "".join(one for one in name if unicodedata.category(one) != "Cf")
    return unicodedata.normalize("NFKC", " ".join(shown.split())).casefold()


def is_writable(text: str) -> bool:
    """Whether every store can keep the text: NUL and lone surrogates cannot be written as UTF-8 text."""
    return "\x00" not in text and not any(unicodedata.category(character) == "Cs" for character in text)
