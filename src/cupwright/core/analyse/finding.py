"""Finding: an estimate with its interval, or why there is none."""

from dataclasses import dataclass
from typing import Any

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.tabular import Tabular


@dataclass(frozen=True, slots=True)
class Finding(Tabular):
    """What could be found out. `freedom` are the degrees of freedom behind it.

    `found` is None where the data are too few or too even; `why_not` is then a sentence, else "".
    """

    found: Estimate | None
    freedom: int
    why_not: str = ""

    def flat(self, name: str) -> dict[str, Any]:
        """The estimate and its ends under `name`, `name`_low and `name`_high."""
        found = self.found
        ends = (found.estimate, found.low, found.high) if found else (None, None, None)
        return dict(zip((name, f"{name}_low", f"{name}_high"), ends, strict=True))


def silent(why_not: str, freedom: int = 0) -> Finding:
    """Too little data to say; `why_not` is the sentence."""
    return Finding(None, freedom, why_not)
