"""What is said of a table's cooling, the same for screen, command line and API: curve, rounds, readings."""

from dataclasses import dataclass

import numpy as np

from cupwright.core.plan.protocol import Protocol
from cupwright.core.plan.table import Plan, Table
from cupwright.core.pour.cooling_fit import Cooling
from cupwright.core.pour.cup_temperature import CupTemperatures, expected_of_plan
from cupwright.core.pour.vessel import vessel_of
from cupwright.core.pour.windows import Window, heat_caution, windows

SHOWN_MINUTES = 90


@dataclass(frozen=True, slots=True)
class Read:
    """One reading: bowl (from 0), its place and number there, minutes after its pour, °C, moment in ms."""

    bowl: int
    place: str
    number: int
    minutes: float
    celsius: float
    at: int


@dataclass(frozen=True, slots=True)
class CoolingReport:
    """How the bowls cool. `celsius`, `low` and `high` go with `minutes` after a bowl's own pour.

    `basis` says where the vessel's figures come from, `doubt` which readings do not go together ("" if all
    do), `caution` what to mind at the first taste.
    """

    vessel: str
    basis: str
    start_c: float
    room_c: float
    level: float
    minutes: tuple[float, ...]
    celsius: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    windows: tuple[Window, ...]
    readings: tuple[Read, ...]
    caution: str
    doubt: str


def cooling_of_table(table: Table) -> CoolingReport:
    """The cooling of a table, by its readings if there are any."""
    cups = CupTemperatures(table)
    places = table.bowls
    readings = tuple(
        Read(bowl, *places[bowl], (at - cups.poured[bowl]) / 60_000, celsius, at)
        for bowl, at, celsius in table.clock.readings
        if bowl in cups.poured
    )
    return _report(cups.cooling, table.plan, table.protocol, readings)


def cooling_of_plan(plan: Plan, protocol: Protocol) -> CoolingReport:
    """The cooling to expect of a plan."""
    return _report(expected_of_plan(plan, protocol), plan, protocol, ())


def _report(cooling: Cooling, plan: Plan, protocol: Protocol, readings: tuple[Read, ...]) -> CoolingReport:
    minutes = np.arange(SHOWN_MINUTES + 1.0)
    middle, low, high = (curve.tolist() for curve in cooling.band(minutes * 60))
    vessel = vessel_of(plan.vessel, plan.bowl_ml)
    rounds = windows(cooling, protocol.stages, taste_from_c=plan.taste_from_c)
    first = max((one.from_c for one in rounds), default=min(plan.taste_from_c, cooling.cup.start_c))
    return CoolingReport(
        vessel=vessel.name,
        basis=vessel.basis,
        start_c=cooling.cup.start_c,
        room_c=cooling.cup.room_c,
        level=cooling.level,
        minutes=tuple(minutes.tolist()),
        celsius=tuple(middle),
        low=tuple(low),
        high=tuple(high),
        windows=rounds,
        readings=readings,
        caution=heat_caution(cooling, first),
        doubt=_doubt(cooling),
    )


def _doubt(cooling: Cooling) -> str:
    if not cooling.is_doubtful:
        return ""
    if cooling.readings == 1:
        return (
            "The reading does not fit a bowl of this table; take it again, from the middle of a stirred bowl."
        )
    return "The readings do not go together; take the doubtful one out, or read again from a stirred bowl."
