"""The first taste of a table: a protocol's own time, put off where the plan wants the first cup cooler.

The protocol's time belongs to its own temperature (about 71 °C after 8 min). What is added is how much longer
a bowl of this table is expected to take down to the plan's; so a table that wants 57.8 °C is not called to
taste at 71 °C. A protocol that names no temperature is put off only where the plan wants less than usual.
"""

from functools import lru_cache
from math import ceil, isfinite

from cupwright.core.plan.protocol import Protocol
from cupwright.core.plan.table import Plan

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
    Error: that of the cooling to expect before any reading, some ± 5 min around 60 °C (cooling_fit.py);
    readings do not move it. The cooling of the pour page says when a bowl really gets there.
    """
    about_c, wish_c = protocol.taste.about_c, plan.taste_from_c
    if wish_c >= (USUAL_C if about_c is None else about_c):
        return 0
    # It needs the numerical library, which takes longer to load than the rest of a run sheet.
    from cupwright.core.pour.cup_temperature import expected_of_plan

    cooling = expected_of_plan(plan, protocol)
    begins = protocol.taste.from_s if about_c is None else cooling.reaches(about_c).minutes * 60
    waits = cooling.reaches(wish_c).minutes * 60 - begins
    if not isfinite(waits):
        return MOST_PUT_OFF_S
    return min(MOST_PUT_OFF_S, max(0, _STEP_S * ceil(waits / _STEP_S)))
