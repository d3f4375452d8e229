"""The table's clock: when it was started, what was done with each bowl and when, and how hot it was.

Only time stamps are kept. What should happen next is computed from them
(run_sheet.py), so a reload or a sleeping tab cannot make it drift.
"""

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Clock:
    """`started_at` and the values of `pours` are milliseconds of the server's clock since 1970 (UTC).

    `pours` holds (bowl index in pouring order from 0, time) for bowls whose pour was marked by hand;
    the others are taken to follow the plan. `done` holds (kind of act, bowl, time) of the other acts that
    were marked ("aside": the bowl was set aside), `readings` (bowl, time, °C) of a thermometer.
    """

    started_at: int | None = None
    pours: tuple[tuple[int, int], ...] = ()
    done: tuple[tuple[str, int, int], ...] = ()
    readings: tuple[tuple[int, int, float], ...] = ()

    def poured(self, bowl: int, at: int) -> "Clock":
        """The clock with the real pour of one bowl; a later mark replaces an earlier one."""
        kept = tuple(mark for mark in self.pours if mark[0] != bowl)
        return replace(self, pours=tuple(sorted((*kept, (bowl, at)))))

    def marked(self, kind: str, bowl: int, at: int) -> "Clock":
        """The clock with an act that was done on a bowl; a later mark replaces an earlier one."""
        kept = tuple(mark for mark in self.done if mark[:2] != (kind, bowl))
        return replace(self, done=tuple(sorted((*kept, (kind, bowl, at)))))

    def unmarked(self, kind: str, bowl: int) -> "Clock":
        """The clock without the mark of an act on a bowl, or of its pour."""
        return replace(
            self,
            pours=tuple(mark for mark in self.pours if kind != "pour" or mark[0] != bowl),
            done=tuple(mark for mark in self.done if mark[:2] != (kind, bowl)),
        )

    def read(self, bowl: int, at: int, celsius: float) -> "Clock":
        """The clock with a reading; one of the same bowl at the same moment is replaced."""
        kept = tuple(one for one in self.readings if one[:2] != (bowl, at))
        return replace(self, readings=tuple(sorted((*kept, (bowl, at, celsius)))))

    def unread(self, bowl: int, at: int) -> "Clock":
        """The clock without the reading of a bowl at a moment."""
        return replace(self, readings=tuple(one for one in self.readings if one[:2] != (bowl, at)))
