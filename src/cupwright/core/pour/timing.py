"""Timing: which acts there are with a bowl, and when a protocol wants them.

Source: steep 3 to 5 min and then break the crust, [SCAA-cupping-2009] and trade pages (3 to 5 min as a
whole from memory); first taste 8 to 10 min after the pour, trade pages that restate the protocol.
Pace of pouring, 4:00 for the break and 6:00 for the skim: common practice, no source.
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
    """Seconds. `pour_every_s` from one bowl to the next; all others from a bowl's own pour.

    `acts` are those that the table's protocol has; the times of others mean nothing. `pour_every_s` is the
    pace where nobody's hands were measured.
    """

    pour_every_s: int = 20
    break_at_s: int = 240
    break_earliest_s: int = 180
    break_latest_s: int = 300
    skim_at_s: int = 360
    taste_from_s: int = 480
    taste_to_s: int = 600
    acts: tuple[CueKind, ...] = tuple(CueKind)


STANDARD_TIMING = Timing()
