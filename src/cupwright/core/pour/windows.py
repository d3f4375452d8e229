"""Windows: when the bowls of a table are as warm as each round of its protocol wants them.

Source: the rounds are the protocol's. Hot drinks: 57.8 °C as the best between taste and scald, and 54 to 71
°C as served, [BrownDiller2008] and [AbrahamDiller2019]; above 65 °C a drink counts as very hot, [IARC116].
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import inf, isfinite

from cupwright.core.plan.protocol import Stage
from cupwright.core.pour.cooling_fit import Cooling, Minute

BEST_C = 57.8
VERY_HOT_C = 65.0


@dataclass(frozen=True, slots=True)
class Window:
    """One round: from `from_c` down to `to_c` (one temperature where both are equal), and when that is.

    `starts` and `ends` are minutes after a bowl's own pour; `ends` None where the round has no end.
    """

    title: str
    from_c: float
    to_c: float | None
    starts: Minute
    ends: Minute | None


def windows(cooling: Cooling, stages: Iterable[Stage], *, taste_from_c: float = inf) -> tuple[Window, ...]:
    """When a bowl is inside each round.

    Parameters
    ----------
    stages : iterable of Stage
        The rounds of the protocol, in its order.
    taste_from_c : float
        The hottest cup that anybody tastes. A round that begins hotter is moved down as a whole, so it spans
        as many kelvin as it did.

    Notes
    -----
    Error: that of the cooling curve; moments of different rounds lean the same way.
    """
    return tuple(_window(cooling, stage, taste_from_c) for stage in stages)


def heat_caution(cooling: Cooling, first_c: float) -> str:
    """What to mind at a first taste of `first_c` °C; "" where it is not hotter than research calls best."""
    if first_c <= BEST_C:
        return ""
    best = f"{BEST_C:g} °C at {_when(cooling, BEST_C)}"
    if first_c > VERY_HOT_C:
        why = f"the {VERY_HOT_C:g} °C from which a drink counts as very hot"
        when = f"{VERY_HOT_C:g} °C at {_when(cooling, VERY_HOT_C)} and {best}"
    else:
        why, when = f"the {BEST_C:g} °C that burns research calls best", best
    return (
        f"The first taste at about {first_c:g} °C lies above {why}. Take a small spoon and draw in air with "
        f"it, or start later: after its pour a bowl passes {when}."
    )


def in_minutes(moment: Minute) -> str:
    """A moment with its interval: "17 min (10 to 32)"."""
    if not isfinite(moment.minutes):
        return "not within six hours"
    later = f"{moment.high:.0f}" if isfinite(moment.high) else "over 360"
    return f"{moment.minutes:.0f} min ({moment.low:.0f} to {later})"


def _window(cooling: Cooling, stage: Stage, taste_from_c: float) -> Window:
    hottest = cooling.cup.start_c if stage.from_c is None else stage.from_c
    from_c = min(hottest, taste_from_c)
    to_c = None if stage.to_c is None else stage.to_c - (hottest - from_c)
    ends = None if to_c is None else cooling.reaches(to_c)
    return Window(stage.title, from_c, to_c, cooling.reaches(from_c), ends)


def _when(cooling: Cooling, celsius: float) -> str:
    return in_minutes(cooling.reaches(celsius))
