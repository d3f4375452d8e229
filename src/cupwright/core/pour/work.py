"""Work: how much may be looked at, and what came of it."""

from dataclasses import dataclass

from cupwright.core.pour.task import ActTimes


@dataclass(slots=True)
class Work:
    """Situations that may still be looked at: a limit that strikes alike on every machine."""

    left: int

    def part(self, most: int) -> "Work":
        """A part of it, taken away from here; what is left of the part is to be given back."""
        taken = min(most, self.left)
        self.left -= taken
        return Work(taken)


@dataclass(frozen=True, slots=True)
class Outcome:
    """`settled`: either `times` were found, or there are none."""

    times: ActTimes | None
    settled: bool


NEVER = Outcome(None, settled=True)
UNKNOWN = Outcome(None, settled=False)
