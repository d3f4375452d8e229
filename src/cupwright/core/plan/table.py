"""A table: the coffees, bowls, seats and codes of one sitting.

Nothing in a `Table` says which coffee stands under which code: that is the `Key`
(core/reveal/seal.py), kept and loaded apart so that it cannot slip out by accident.
"""

from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum
from itertools import pairwise

from cupwright.core.flow import Step
from cupwright.core.plan.protocol import Protocol
from cupwright.core.plan.protocol_file import builtin_protocol
from cupwright.core.pour.clock import Clock
from cupwright.core.taste.sheet import Sheet


class Blinding(StrEnum):
    """How the tasters are kept from knowing which cup is which."""

    CODES = "codes"  # a separate pourer; three-digit codes stand on the bowls
    SHUFFLE = "shuffle"  # alone: codes under the bowls, bowls shuffled, positions 1..n on the table
    OPEN = "open"  # not blind: imported notes, whose coffees were known by name


@dataclass(frozen=True, slots=True)
class Plan:
    """What the host asks for. Grams, millilitres, degrees Celsius, metres, seconds; coffees are ids.

    `duplicates` stand under a second code as well, unknown to the tasters, so that it shows who finds the
    same coffee again. `flight` is the most samples tasted without a break, `samples_each` how many each
    taster gets (0: all). `pourers` pairs of hands pour, break and skim, each act taking its seconds a bowl.
    `taste_from_c` is how hot the cup may be at the first taste, `swallowed` the share that is not spat out.
    """

    name: str
    coffees: tuple[str, ...]
    tasters: tuple[str, ...] = ("Taster 1",)
    bowls_per_sample: int = 1
    bowl_ml: float = 200.0
    grams_per_litre: float = 55.0
    scale_step_g: float = 0.1
    kettle_c: float = 95.0
    spare_bowl: bool = False
    purge_g: float = 5.0
    blinding: Blinding = Blinding.CODES
    sheet: str = "open"
    seed: int = 0
    protocol: str = "cupping"
    duplicates: tuple[str, ...] = ()
    flight: int = 8
    samples_each: int = 0
    pourers: int = 1
    pour_s: float = 15.0
    break_s: float = 10.0
    skim_s: float = 15.0
    vessel: str = "bowl"
    altitude_m: float = 0.0
    room_c: float = 22.0
    taste_from_c: float = 71.0
    swallowed: float = 0.15

    @property
    def samples(self) -> tuple[str, ...]:
        """The coffee of every sample: each coffee once, then the hidden duplicates."""
        return self.coffees + self.duplicates


@dataclass(frozen=True, slots=True)
class Seat:
    """One taster at one table, and the order in which that taster meets the places."""

    id: str
    name: str
    order: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """One sitting. `codes` are sorted, so their order says nothing about the coffees.

    `commitment` is the seal's hex digest once sealed, `join_code` what tasters type to sit down,
    `placings` what stood where after a shuffle (place -> code), empty until the key is opened. `protocol`
    is the one that the plan names, as it stood when the table was laid.
    """

    id: str
    plan: Plan
    sheet: Sheet
    created: datetime
    step: Step = Step.PLAN
    codes: tuple[str, ...] = ()
    seats: tuple[Seat, ...] = ()
    commitment: str = ""
    join_code: str = ""
    clock: Clock = field(default_factory=Clock)
    placings: tuple[tuple[str, str], ...] = ()
    protocol: Protocol = field(default_factory=lambda: builtin_protocol("cupping"))

    @property
    def places(self) -> tuple[str, ...]:
        """What a taster can point at: codes, or positions "1".."n" after a shuffle."""
        if self.plan.blinding is Blinding.SHUFFLE:
            return tuple(str(position) for position in range(1, len(self.codes) + 1))
        return self.codes

    @property
    def flights(self) -> tuple[tuple[str, ...], ...]:
        """The places in as few flights of nearly equal size as the plan allows, in order."""
        places = self.places
        count = -(-len(places) // self.plan.flight)
        ends = [len(places) * number // count for number in range(count + 1)] if count else []
        return tuple(places[start:end] for start, end in pairwise(ends))

    @property
    def bowls(self) -> tuple[tuple[str, int], ...]:
        """Every vessel in pouring order: (place, number within the place from 1)."""
        per_place = 1 if self.plan.blinding is Blinding.SHUFFLE else self.plan.bowls_per_sample
        return tuple((place, number) for place in self.places for number in range(1, per_place + 1))
