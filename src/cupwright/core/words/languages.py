"""In which language a note is written, as far as the words show that English does not know."""

from collections.abc import Sequence

from cupwright.core.words.lexicon import ENGLISH, Lexicon
from cupwright.core.words.phrases import phrase_index

# A word that another language knows counts one, two if it is long; English is left from two on.
_LONG_WORD, _ENOUGH = 5, 2


def spoken(unknown: Sequence[str], lexicon: Lexicon, field: str = "") -> str:
    """The code of the language to read a note in, given its words that English does not know."""
    best, points = ENGLISH, _ENOUGH - 1
    for code in lexicon.others if unknown else ():
        other = phrase_index(lexicon, code, field)
        counted = sum(1 + (len(word) >= _LONG_WORD) for word in unknown if other.knows(word))
        if counted > points:
            best, points = code, counted
    return best
