"""A note: one taster's one answer, as an append-only message.

A correction is a newer note for the same question; a deletion is a newer note with the value None.
"""

from dataclasses import dataclass

from cupwright.core.taste.stamp import Stamp

# How devices are called at which paper sheets are typed in; client/src/local/kept_notes.ts has it too.
FROM_PAPER = "paper-"

Value = str | float | list[int] | list[float] | list[str] | dict[str, float] | None


@dataclass(frozen=True, slots=True)
class Note:
    """One answer. `id` is made on the device (time-ordered UUID); `value` is kept exactly as given.

    Value by kind of field: words, text, choice, points: str. line: number. colour: {"l","a","b"} in
    OKLab. ticks, cups: cup numbers from 1. faults: cup number -> 0, 2 or 4; ticks that try all: 0 or 1. tags:
    list of str. rank: place -> number in the order. odd: a place. None: the answer was taken back.
    `place` is "table" where a pass asks once for the whole table.
    `written_at` is the table's time in ms since 1970, as well as the device knew it: for display and for how
    warm the cup was, never for order. `tasted_at` leaves out those that were typed in later.
    """

    id: str
    seat: str
    place: str
    part: str  # the pass of the sheet
    field: str
    value: Value
    stamp: Stamp
    written_at: int

    @property
    def tasted_at(self) -> int | None:
        """When it was written beside the cup, in ms since 1970; None if it was typed in from paper."""
        return None if self.stamp.device.startswith(FROM_PAPER) else self.written_at

    @property
    def question(self) -> tuple[str, str, str, str]:
        """What this note answers; the note with the greatest stamp holds."""
        return (self.seat, self.place, self.part, self.field)
