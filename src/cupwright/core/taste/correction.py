"""Corrections: what a taster says that some words of theirs mean, as append-only messages.

A correction speaks of words ("grippy"), not of one note, so that every later reading of that taster's notes
learns from it. The newest holds [Lamport1978]; one that takes an earlier one back is a newer one too. The
same rules run on the phone (client/src/local/corrections.ts); both are held to one file of cases.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from cupwright.core.plan.names import is_writable
from cupwright.core.taste.checking import check_message
from cupwright.core.taste.stamp import Stamp
from cupwright.core.words.own_words import NOT_THAT
from cupwright.core.words.tokens import tokens
from cupwright.errors import Refused

LONGEST_SURFACE = 200
_CONCEPT = re.compile(r"[a-z0-9_]{1,100}")


@dataclass(frozen=True, slots=True)
class Correction:
    """What words of one taster mean.

    `taster` is the folded name. `surface` are the words as written. `concept` is the id of a concept,
    NOT_THAT, or None where an earlier correction is taken back. `written_at` is the device's clock, for
    display alone.
    """

    id: str
    taster: str
    surface: str
    concept: str | None
    stamp: Stamp
    written_at: int

    @property
    def words(self) -> str:
        """What two corrections have in common when they speak of the same words."""
        return surface_words(self.surface)


def surface_words(surface: str) -> str:
    """The words of a text without case, accents and punctuation, one space between them."""
    return " ".join(token.word for token in tokens(surface))


def standing_corrections(corrections: Iterable[Correction]) -> dict[str, str]:
    """What holds for each of one taster's words: `words` -> id of a concept or NOT_THAT.

    Of two corrections of the same words the greater stamp holds; of equal stamps the greater id.
    """
    held: dict[str, Correction] = {}
    for correction in corrections:
        rival = held.get(correction.words)
        if rival is None or (rival.stamp, rival.id) < (correction.stamp, correction.id):
            held[correction.words] = correction
    return {words: one.concept for words, one in sorted(held.items()) if one.concept is not None}


def checked_correction(correction: Correction) -> Correction:
    """The correction itself, if it is well formed.

    Whether its concept exists is not asked: a phone may know a lexicon that is older or newer than ours, and
    a reading passes over a concept that it does not know.

    Raises
    ------
    Refused
        If the surface holds no word or is too long, or id, concept, stamp or time are malformed.
    """
    check_message(correction, called="correction")
    if len(correction.surface) > LONGEST_SURFACE:
        raise Refused(
            f"A correction speaks of {len(correction.surface)} characters.",
            todo=f"At most {LONGEST_SURFACE} can be corrected at once.",
        )
    if not is_writable(correction.surface):
        raise Refused(
            f"The correction {correction.id} holds a character that cannot be kept.", todo="Choose a word."
        )
    if not correction.words:
        raise Refused(f"The correction {correction.id} speaks of no word.", todo="Choose a word.")
    if correction.concept is not None and not _CONCEPT.fullmatch(correction.concept):
        raise Refused(
            f"The correction {correction.id} names no concept.", todo=f"Name its id, or '{NOT_THAT}'."
        )
    return correction
