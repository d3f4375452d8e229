"""The table's clock: when it was started and when each bowl was really poured.

Only time stamps are kept. What should happen next is computed from them
(run_sheet.py), so a reload or a sleeping tab cannot make it drift.
"""

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Clock:
    """`started_at` and the values of `pours` are milliseconds of the server's clock since 1970 (UTC).

    `pours` holds (bowl index in pouring order from 0, time) for bowls whose pour was marked by hand;
    the others are taken to follow the plan.
    """

    started_at: int | None = None
    pours: tuple[tuple[int, int], ...] = ()

    def poured(self, bowl: int, at: int) -> "Clock":
        """The clock with the real pour of one bowl; a later mark replaces an earlier one."""
        kept = tuple(mark for mark in self.pours if mark[0] != bowl)
        return replace(self, pours=tuple(sorted((*kept, (bowl, at)))))
