"""A protocol: how a table is prepared and when it is tasted, as versioned data.

What a protocol leaves out is free: without a ratio any ratio is right, without a break nothing is broken.
Every number carries where it comes from. A new protocol is a new TOML file (core/plan/protocols/, or a
user's own); how to write one stands in docs/methods/protocols.md.
"""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from cupwright.core.pour.standard import RecipeStandard
from cupwright.core.pour.timing import CueKind, Timing


class Brewed(StrEnum):
    """Where the coffee is brewed."""

    BOWL = "bowl"  # water onto the grounds in the vessel that is tasted from
    APART = "apart"  # by any recipe; what is poured into the vessels is coffee


@dataclass(frozen=True, slots=True)
class Ratio:
    """`grams` of whole beans for `per_ml` of water; a dose for that much water may miss by `tolerance_g`."""

    grams: float
    per_ml: float
    tolerance_g: float
    source: str

    @property
    def exact(self) -> Fraction:
        """Grams a litre, exactly."""
        return exactly(self.grams) / exactly(self.per_ml) * 1000

    @property
    def grams_per_litre(self) -> float:
        """Grams a litre."""
        return float(self.exact)

    @property
    def tolerance(self) -> Fraction:
        """The tolerance as a share of the ratio, exactly."""
        return exactly(self.tolerance_g) / exactly(self.grams)


@dataclass(frozen=True, slots=True)
class Band:
    """From `low` to `high`; None where an end is open. The unit follows from what it is a band of."""

    low: float | None
    high: float | None
    source: str

    @property
    def closed(self) -> tuple[float, float] | None:
        """Both ends; None where one is open."""
        return None if self.low is None or self.high is None else (self.low, self.high)


@dataclass(frozen=True, slots=True)
class Bowls:
    """How many bowls of each sample there are at least."""

    least: int
    source: str


@dataclass(frozen=True, slots=True)
class Vessel:
    """Sizes of a bowl by one edition of a protocol, in millilitres."""

    edition: str
    low_ml: float
    high_ml: float
    source: str


@dataclass(frozen=True, slots=True)
class Pace:
    """Seconds from one pour to the next."""

    every_s: int
    source: str


@dataclass(frozen=True, slots=True)
class Crust:
    """When the crust is broken: seconds after the bowl's own pour."""

    at_s: int
    earliest_s: int
    latest_s: int
    source: str


@dataclass(frozen=True, slots=True)
class Skim:
    """When foam and floating grounds are taken off: seconds after the bowl's own pour."""

    at_s: int
    source: str


@dataclass(frozen=True, slots=True)
class FirstTaste:
    """When the first round is tasted (seconds after the bowl's own pour), and how hot the cup then is."""

    from_s: int
    to_s: int
    about_c: float | None
    source: str


@dataclass(frozen=True, slots=True)
class Stage:
    """One round as the cups cool, from `from_c` down to `to_c`; None where an end is open."""

    title: str
    from_c: float | None
    to_c: float | None
    source: str


@dataclass(frozen=True, slots=True)
class Session:
    """How long one flight takes from the first pour to the last taste."""

    minutes: float
    source: str


@dataclass(frozen=True, slots=True)
class Rule:
    """What a plan does not know and so cannot be held against: grind, roast colour, water. To be seen to."""

    what: str
    asks: str
    low: float | None
    high: float | None
    unit: str
    source: str

    @property
    def sentence(self) -> str:
        """What it asks, with its figures in front."""
        figures = in_words(self.low, self.high, self.unit)
        return f"{figures} {self.asks}" if figures else self.asks


@dataclass(frozen=True, slots=True)
class Protocol:
    """All it says. `water` is °C at the grounds, `rest` hours since the roast, `spoon` millilitres."""

    name: str
    version: int
    title: str
    about: str
    brewed: Brewed
    ratio: Ratio | None
    bowls: Bowls | None
    vessels: tuple[Vessel, ...]
    water: Band | None
    rest: Band | None
    spoon: Band | None
    pace: Pace
    crust: Crust | None
    skim: Skim | None
    taste: FirstTaste
    stages: tuple[Stage, ...]
    session: Session | None
    rules: tuple[Rule, ...]

    @property
    def acts(self) -> tuple[CueKind, ...]:
        """What is done with a bowl, in order."""
        there = {CueKind.BREAK: self.crust, CueKind.SKIM: self.skim}
        return tuple(kind for kind in CueKind if kind not in there or there[kind] is not None)

    @property
    def timing(self) -> Timing:
        """For the run sheet. Of an act that is not there the run sheet reads no times."""
        usual, crust = Timing(), self.crust
        return Timing(
            break_at_s=crust.at_s if crust else usual.break_at_s,
            break_earliest_s=crust.earliest_s if crust else usual.break_earliest_s,
            break_latest_s=crust.latest_s if crust else usual.break_latest_s,
            skim_at_s=self.skim.at_s if self.skim else usual.skim_at_s,
            taste_from_s=self.taste.from_s,
            taste_to_s=self.taste.to_s,
            acts=self.acts,
        )

    @property
    def standard(self) -> RecipeStandard:
        """What the recipe is held against; None where this protocol leaves a thing open."""
        ratio, vessels = self.ratio, self.vessels
        sizes = (min(one.low_ml for one in vessels), max(one.high_ml for one in vessels)) if vessels else None
        return RecipeStandard(
            name=f"the protocol '{self.name}'",
            grams_per_litre=ratio.grams_per_litre if ratio else None,
            tolerance_g=ratio.tolerance_g if ratio else None,
            tolerance_ml=ratio.per_ml if ratio else 150.0,
            pour_c=self.water.closed if self.water else None,
            bowl_ml=sizes,
        )


def exactly(number: float) -> Fraction:
    """The number as it is written: 0.1 is a tenth, which in binary it is not."""
    return Fraction(repr(number))


def in_words(low: float | None, high: float | None, unit: str) -> str:
    """A band in words, as "92.2 to 94.4 °C" or "at most 15 min"; empty where both ends are open."""
    if low is None and high is None:
        return ""
    if low is None or high is None:
        end = f"at most {high:g}" if high is not None else f"at least {low:g}"
        return f"{end} {unit}".rstrip()
    return f"{low:g} to {high:g} {unit}".rstrip()
