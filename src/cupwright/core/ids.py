"""Ids that sort by the time they were made: rows that arrive together then lie together in the store."""

import random
import uuid

_VERSION, _VARIANT = 7, 0b10


def time_ordered_id(at_ms: int, rng: random.Random) -> str:
    """A UUID of version 7 in lower-case text.

    Parameters
    ----------
    at_ms : int
        Milliseconds since 1970, UTC.
    rng : Random
        Gives 74 bits; in life a source that cannot be foreseen.

    Notes
    -----
    Error: ids of one millisecond are in no order. Two are equal with a chance of 2**-74.
    Source: [RFC9562], section 5.7.
    """
    number = (at_ms & (1 << 48) - 1) << 80
    number |= _VERSION << 76 | rng.getrandbits(12) << 64
    number |= _VARIANT << 62 | rng.getrandbits(62)
    return str(uuid.UUID(int=number))
