"""The first taste of a table: a protocol's own time, put off where the plan wants the first cup cooler.

From the plan alone a protocol's own time is trusted for its own temperature (about 71 °C after 8 min); a
table that wants its cups cooler is called when a bowl is expected to be so. Once a thermometer was read, the
curve that was fitted to it says when, whatever the plan wants; but no bowl is called before the protocol's
time. A protocol that names no temperature is put off only where the plan wants less than usual.
"""

from functools import lru_cache
from math import ceil, isfinite
from typing import TYPE_CHECKING

from cupwright.core.plan.protocol import Protocol
from cupwright.core.plan.table import Plan

if TYPE_CHECKING:
    from cupwright.core.pour.cooling_fit import Cooling

USUAL_C = 71.0
# Nobody waits longer at a table; a bowl that never cools so far in a warm room is called for then, too.
MOST_PUT_OFF_S = 7200
_STEP_S = 30


@lru_cache(maxsize=128)
def put_off_s(plan: Plan, protocol: Protocol) -> int:
    """By how many seconds the first taste is later than the protocol's, in full half minutes.

    Returns
    -------
    int
        0 where the plan tastes as hot as the protocol, or hotter; at most two hours.

    Notes
    -----
    Error: that of the cooling to expect before any reading, some ± 5 min around 60 °C (cooling_fit.py).
    """
    about_c = protocol.taste.about_c
    if plan.taste_from_c >= (USUAL_C if about_c is None else about_c):
        return 0
    # It needs the numerical library, which takes longer to load than the rest of a run sheet.
    from cupwright.core.pour.cup_temperature import expected_of_plan

    return _waits(expected_of_plan(plan, protocol), plan, protocol)


@lru_cache(maxsize=128)
def put_off_by_readings_s(plan: Plan, protocol: Protocol, readings: tuple[tuple[float, float], ...]) -> int:
    """The same once bowls were read.

    Parameters
    ----------
    readings : tuple of (seconds after the bowl's own pour, °C)
        At least one, of any bowls of the table. Those that do not go together move nothing: a slip of the
        pen would call everybody at the wrong moment.

    Notes
    -----
    Error: that of the fitted curve (cooling_fit.py).
    """
    from cupwright.core.pour.cooling_fit import fitted
    from cupwright.core.pour.cup_temperature import expected_of_plan

    curve = fitted(expected_of_plan(plan, protocol), readings)
    return put_off_s(plan, protocol) if curve.is_doubtful else _waits(curve, plan, protocol)


def _waits(cooling: "Cooling", plan: Plan, protocol: Protocol) -> int:
    """From the protocol's first taste until a bowl is as cool as the plan wants it."""
    waits = cooling.reaches(plan.taste_from_c).minutes * 60 - protocol.taste.from_s
    if not isfinite(waits):
        return MOST_PUT_OFF_S
    return min(MOST_PUT_OFF_S, max(0, _STEP_S * ceil(waits / _STEP_S)))
