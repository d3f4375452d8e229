"""Blind codes: three random digits that say nothing and cannot be misread.

Three digits, drawn at random, different at one table: common practice in sensory work
(900 codes, 100 to 999; the custom is from memory, no source). Which codes are refused is a rule of this
project: each one either reads as a number upside down (a bowl or a label can be turned) or says
something to a taster. So is the balance of the first digits: what many bowls share at a glance could be
taken for a group.
"""

import random

from cupwright.errors import Refused

# These digits are still digits when turned by half a turn: 0 1 8 stay, 6 and 9 change places.
_TURNABLE = frozenset("01689")

# Emergency numbers of some country, and numbers held to be lucky or unlucky; all from memory.
_EMERGENCY = frozenset({"000", "110", "112", "113", "115", "117", "119", "120", "122", "911", "999"})
_LUCK = frozenset({"007", "013", "313", "666", "777", "888"})
_MARKED = _EMERGENCY | _LUCK

_UP, _DOWN = "0123456789", "9876543210"


def is_telling(code: str) -> bool:
    """Whether a three-digit code could be misread or could mean something to a taster.

    True for codes of the digits 0 1 6 8 9 only (they read as a number upside down), of one digit
    three times, of digits that follow each other up or down, and for well-known numbers.
    """
    return _reads_upside_down(code) or len(set(code)) == 1 or code in _UP or code in _DOWN or code in _MARKED


def _reads_upside_down(code: str) -> bool:
    return set(code) <= _TURNABLE


# None begins with 0: a list of numbers drops it.
FREE_CODES = tuple(code for code in map(str, range(100, 1000)) if not is_telling(code))
_BY_FIRST = tuple(tuple(code for code in FREE_CODES if code[0] == digit) for digit in "123456789")


def draw_codes(count: int, *, rng: random.Random) -> tuple[str, ...]:
    """Draw blind codes for one table, their first digits balanced.

    Parameters
    ----------
    count : int
        How many, from 0.
    rng : random.Random
        The same state gives the same codes.

    Returns
    -------
    tuple of str
        Three digits each, all different, sorted (so their order says nothing). No first digit comes two
        or more times more often than another, unless all codes that begin with that other are taken. Which
        digits come once more is drawn, and of one first digit every free code is equally likely.

    Raises
    ------
    Refused
        If `count` is negative or more than there are free codes (773).
    """
    if count < 0:
        raise Refused(f"A table cannot have {count} codes.", todo="Ask for 0 or more.")
    if count > len(FREE_CODES):
        raise Refused(
            f"A table cannot have {count} codes: there are {len(FREE_CODES)} three-digit codes to draw from.",
            todo="Split the coffees over several tables.",
        )
    drawn = [rng.sample(codes, times) for codes, times in zip(_BY_FIRST, _times(count, rng), strict=True)]
    return tuple(sorted(code for codes in drawn for code in codes))


def _times(count: int, rng: random.Random) -> list[int]:
    """How many codes of each first digit: one each in turn, of those that have any left."""
    times = [0] * len(_BY_FIRST)
    while (left := count - sum(times)) > 0:
        able = [digit for digit, codes in enumerate(_BY_FIRST) if times[digit] < len(codes)]
        for digit in rng.sample(able, min(len(able), left)):
            times[digit] += 1
    return times
