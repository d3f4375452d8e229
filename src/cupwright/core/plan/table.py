"""A table: the coffees, bowls, seats and codes of one sitting.

Nothing in a `Table` says which coffee stands under which code: that is the `Key`
(core/reveal/seal.py), kept and loaded apart so that it cannot slip out by accident.
"""

from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum

from cupwright.core.flow import Step
from cupwright.core.pour.clock import Clock
from cupwright.core.taste.sheet import Sheet


class Blinding(StrEnum):
    """How the tasters are kept from knowing which cup is which."""

    CODES = "codes"  # a separate pourer; three-digit codes stand on the bowls
    SHUFFLE = "shuffle"  # alone: codes under the bowls, bowls shuffled, positions 1..n on the table
    OPEN = "open"  # not blind: imported notes, whose coffees were known by name


@dataclass(frozen=True, slots=True)
class Plan:
    """What the host asks for. Grams, millilitres; `coffees` are coffee ids."""

    name: str
    coffees: tuple[str, ...]
    tasters: tuple[str, ...] = ("Taster 1",)
    bowls_per_sample: int = 1
    bowl_ml: float = 200.0
    grams_per_litre: float = 55.0
    scale_step_g: float = 0.1
    kettle_c: float = 93.0
    spare_bowl: bool = False
    purge_g: float = 5.0
    blinding: Blinding = Blinding.CODES
    sheet: str = "open"
    seed: int = 0


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
    `placings` what stood where after a shuffle (place -> code), empty until the key is opened.
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

    @property
    def places(self) -> tuple[str, ...]:
        """What a taster can point at: codes, or positions "1".."n" after a shuffle."""
        if self.plan.blinding is Blinding.SHUFFLE:
            return tuple(str(position) for position in range(1, len(self.codes) + 1))
        return self.codes

    @property
    def bowls(self) -> tuple[tuple[str, int], ...]:
        """Every vessel in pouring order: (place, number within the place from 1)."""
        per_place = 1 if self.plan.blinding is Blinding.SHUFFLE else self.plan.bowls_per_sample
        return tuple((place, number) for place in self.places for number in range(1, per_place + 1))
