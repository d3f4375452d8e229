"""Timing: which acts there are with a bowl, and when a protocol wants them.

Source: steep 3 to 5 min and then break the crust, [SCAA-cupping-2009] and trade pages (3 to 5 min as a
whole from memory); first taste 8 to 10 min after the pour, trade pages that restate the protocol.
4:00 for the break and 6:00 for the skim: common practice, no source.
"""

from dataclasses import dataclass
from enum import StrEnum


class CueKind(StrEnum):
    """What is to be done with a bowl; in the order that decides when two are due at one moment."""

    POUR = "pour"
    BREAK = "break"
    SKIM = "skim"
    TASTE = "taste"


@dataclass(frozen=True, slots=True)
class Timing:
    """Seconds from a bowl's own pour.

    `acts` are those that the table's protocol has; the times of others mean nothing. `put_off_s` is how much
    later than the protocol's the first taste is, where a plan wants it cooler or what was read says so
    (first_taste.py); hands keep the protocol's own times all the same.
    """

    break_at_s: int = 240
    break_earliest_s: int = 180
    break_latest_s: int = 300
    skim_at_s: int = 360
    taste_from_s: int = 480
    taste_to_s: int = 600
    acts: tuple[CueKind, ...] = tuple(CueKind)
    put_off_s: int = 0

    @property
    def first_taste_s(self) -> tuple[int, int]:
        """From when to when the first taste of a bowl is."""
        return self.taste_from_s + self.put_off_s, self.taste_to_s + self.put_off_s


STANDARD_TIMING = Timing()
