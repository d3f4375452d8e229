"""Limits: what a table asks of the people at it. Cautions with their size, never diagnoses.

Sources: caffeine [EFSA2015]; burns and comfort [BrownDiller2008], [IARC116]; groups of allergens [EU1169].
About eight samples before the senses tire: advice from beer panels, from a web page; exam tables have six;
against it stands [Pereira2019], whose seven trained graders showed no fatigue over 144 samples in three days.
"""

from dataclasses import dataclass

from cupwright.core.plan.deviation import amount, counted
from cupwright.core.plan.protocol import Brewed, Protocol
from cupwright.core.plan.table import Plan
from cupwright.core.pour.caffeine import (
    A_DAY_MG,
    AT_ONCE_MG,
    PREGNANT_A_DAY_MG,
    SPOON_ML,
    brew_strength,
    caffeine_mg,
)
from cupwright.core.pour.first_taste import put_off_s
from cupwright.core.taste.sheet import Moment, Sheet

SAMPLES_AT_A_SITTING = 8
SAMPLES_OF_A_TABLE = 12  # flights of wine have 10 to 12, from memory
LONG_MINUTES = 120.0
BREAK_MINUTES = 10.0
FLIGHT_MINUTES = 45.0
COMFORTABLE_C = 57.8
VERY_HOT_C = 65.0

# The groups that the references of our lexicon hold (a test compares), those first that hold most.
REFERENCE_ALLERGENS = (
    *("milk", "gluten", "tree nuts", "egg", "sulphites", "soya"),
    *("celery", "sesame", "mustard", "peanut"),
)

_TASTED = (Moment.HOT, Moment.WARM, Moment.COOL)


@dataclass(frozen=True, slots=True)
class Caution:
    """One thing to watch for.

    `size` in `unit`, expected between `low` and `high`, against `limit` (None where nobody has set one).
    """

    about: str
    sentence: str
    size: float
    low: float
    high: float
    limit: float | None
    unit: str
    source: str

    @property
    def exceeded(self) -> bool:
        """Whether it may lie above the limit."""
        return self.limit is not None and self.high > self.limit


@dataclass(frozen=True, slots=True)
class Sips:
    """What one taster takes: samples, bowls, rounds over them, and millilitres a spoon."""

    samples: int
    bowls: int
    rounds: int
    spoon_ml: float

    @property
    def spoons(self) -> int:
        """All spoons together."""
        return self.bowls * self.rounds


def tasting_rounds(sheet: Sheet) -> int:
    """How often a sheet sends a taster over the bowls with a spoon; at least once."""
    return max(1, sum(part.moment in _TASTED for part in sheet.passes))


def sips(plan: Plan, sheet: Sheet, protocol: Protocol) -> Sips:
    """What each taster takes if one spoon is taken from every bowl in every round."""
    samples = plan.samples_each or len(plan.samples)
    return Sips(samples, samples * plan.bowls_per_sample, tasting_rounds(sheet), _spoon_ml(protocol))


def _spoon_ml(protocol: Protocol) -> float:
    spoon = protocol.spoon
    ends = [end for end in (spoon.low, spoon.high) if end is not None] if spoon else []
    return sum(ends) / len(ends) if ends else SPOON_ML


def limits(plan: Plan, sheet: Sheet, protocol: Protocol) -> tuple[Caution, ...]:
    """Every caution of a table, in the order in which it is met.

    Notes
    -----
    Error: caffeine is an order of magnitude (core/pour/caffeine.py); the share that stays when one spits was
    found nowhere and is the plan's own; the time is a trade page's figure and little to rely on; the
    wait for a cooler first taste is that of the cooling to expect (core/pour/first_taste.py).
    """
    taken = sips(plan, sheet, protocol)
    return (
        _allergens(),
        *_hot(plan, protocol),
        _flight(plan, taken),
        *_all_samples(plan, taken),
        _time(plan, protocol, taken),
        _caffeine(plan, taken, plan.swallowed),
        *((_caffeine(plan, taken, 1.0),) if plan.swallowed < 1 else ()),
        _pregnancy(plan, taken),
    )


def _sure(about: str, sentence: str, size: float, limit: float | None, *, unit: str, source: str) -> Caution:
    """A caution whose size is no estimate."""
    return Caution(about, sentence, size, size, size, limit, unit, source)


def _allergens() -> Caution:
    sentence = (
        f"Reference samples for the words of the lexicon hold {len(REFERENCE_ALLERGENS)} of the 14 groups of "
        f"allergens that food law names ({', '.join(REFERENCE_ALLERGENS)}). Ask everybody before a jar is "
        "opened, label each jar, and keep the spoons apart. Flavoured coffees and a shared grinder can carry "
        "them too."
    )
    return _sure(
        "allergens",
        sentence,
        float(len(REFERENCE_ALLERGENS)),
        None,
        unit="groups",
        source="[EU1169], from memory",
    )


def _hot(plan: Plan, protocol: Protocol) -> tuple[Caution, ...]:
    celsius = plan.taste_from_c
    if celsius <= COMFORTABLE_C:
        return ()
    above = "above" if celsius > VERY_HOT_C else "not above"
    tool = "the cup" if protocol.brewed is Brewed.APART else "a spoon"
    sentence = (
        f"The first taste at {celsius:g} °C is {amount(celsius - COMFORTABLE_C)} °C hotter than the "
        f"{COMFORTABLE_C} °C at which a study weighs pleasure against scalds, and {above} the {VERY_HOT_C:g} "
        f"°C beyond which drinks count as very hot. Take little from {tool}, or begin when it is cooler."
    )
    source = "[BrownDiller2008], [IARC116]"
    return (_sure("hot coffee", sentence, celsius, VERY_HOT_C, unit="°C", source=source),)


def _flights(samples: int, plan: Plan) -> int:
    return -(-samples // plan.flight)


def _flight(plan: Plan, taken: Sips) -> Caution:
    largest = -(-taken.samples // _flights(taken.samples, plan))
    verdict = (
        f"more than the {SAMPLES_AT_A_SITTING} or so after which senses are said to tire: shorten the flight"
        if largest > SAMPLES_AT_A_SITTING
        else f"senses are said to tire after {SAMPLES_AT_A_SITTING} or so"
    )
    sentence = (
        f"{counted(largest, 'sample')} without a break, {counted(taken.spoons, 'spoon')} in all; {verdict}. "
        "Trained graders have shown no fatigue over 144 samples in three days."
    )
    source = "advice from beer panels, a web page; [Pereira2019], abstract"
    return _sure(
        "palate", sentence, float(largest), float(SAMPLES_AT_A_SITTING), unit="samples", source=source
    )


def _all_samples(plan: Plan, taken: Sips) -> tuple[Caution, ...]:
    breaks = _flights(taken.samples, plan) - 1
    if taken.samples <= SAMPLES_OF_A_TABLE and not breaks:
        return ()
    sentence = (
        f"{counted(taken.samples, 'sample')} for each taster, with {counted(breaks, 'break')}: at a break "
        f"walk away for {BREAK_MINUTES:g} min or more, drink water, and eat something plain."
    )
    size, limit = float(taken.samples), float(SAMPLES_OF_A_TABLE)
    return (_sure("palate", sentence, size, limit, unit="samples", source="common practice, no source"),)


def _time(plan: Plan, protocol: Protocol, taken: Sips) -> Caution:
    flights = _flights(taken.samples, plan)
    each = protocol.session.minutes if protocol.session else FLIGHT_MINUTES
    waits = put_off_s(plan, protocol) / 60
    minutes = flights * (each + waits) + (flights - 1) * BREAK_MINUTES
    rests = f" and {counted(flights - 1, 'break')} of {BREAK_MINUTES:g}" if flights > 1 else ""
    wait = f" (and {amount(waits)} min of waiting for {plan.taste_from_c:g} °C)" if waits else ""
    long = " That is long: sit, walk about and air the room in between." if minutes > LONG_MINUTES else ""
    sentence = (
        f"About {minutes:.0f} min at the table from the first pour: {counted(flights, 'flight')} of "
        f"{each:g} min{wait}{rests}.{long}"
    )
    source = f"{protocol.session.source if protocol.session else 'ours'}; the limit is ours"
    return _sure("time", sentence, minutes, LONG_MINUTES, unit="min", source=source)


def _milligrams(plan: Plan, taken: Sips, swallowed: float) -> tuple[float, float, float]:
    """The usual, least and most."""
    strength = brew_strength(plan.grams_per_litre)
    return (
        caffeine_mg(taken.bowls, taken.rounds, swallowed, spoon_ml=taken.spoon_ml, strength=strength.usual),
        caffeine_mg(taken.bowls, taken.rounds, swallowed, spoon_ml=taken.spoon_ml, strength=strength.low),
        caffeine_mg(taken.bowls, taken.rounds, swallowed, spoon_ml=taken.spoon_ml, strength=strength.high),
    )


def _caffeine(plan: Plan, taken: Sips, swallowed: float) -> Caution:
    size, low, high = _milligrams(plan, taken, swallowed)
    share = "all" if swallowed == 1 else f"{amount(swallowed * 100)} %"
    sentence = (
        f"Whoever swallows {share} of {counted(taken.spoons, 'spoon')} of {amount(taken.spoon_ml)} mL takes "
        f"in about {_mg(size)} mg of caffeine ({_mg(low)} to {_mg(high)}, more with robusta), "
        f"{_against(low, high)}."
    )
    source = "[EFSA2015], second-hand; [Foods2021-1208]"
    return Caution("caffeine", sentence, size, low, high, AT_ONCE_MG, "mg", source)


def _against(low: float, high: float) -> str:
    """Where it lies among what adults can take."""
    once, a_day = f"{AT_ONCE_MG:g} mg", f"{A_DAY_MG:g} mg"
    if high <= AT_ONCE_MG / 2:
        return f"less than the {once} at once that raise no concern for adults"
    if high <= AT_ONCE_MG:
        tables = int(A_DAY_MG / high)
        at_most = f"no more than {tables} such tables a day"
        return f"less than the {once} at once that raise no concern for adults; {at_most}"
    if high <= A_DAY_MG:
        more = "more" if low > AT_ONCE_MG else "perhaps more"
        return f"{more} than the {once} at once that raise no concern for adults, whose day is {a_day}: spit"
    more = "more" if low > A_DAY_MG else "perhaps more"
    return f"{more} than the {a_day} a day (and {once} at once) that raise no concern for adults: spit"


def _pregnancy(plan: Plan, taken: Sips) -> Caution:
    size, low, high = _milligrams(plan, taken, plan.swallowed)
    share = amount(high / PREGNANT_A_DAY_MG * 100, 0)
    sentence = (
        f"In pregnancy and while breast-feeding {PREGNANT_A_DAY_MG:g} mg of caffeine a day are the usual "
        f"limit, from all sources together; this table takes up to {share} % of it if "
        f"{amount(plan.swallowed * 100)} % is swallowed. Ask your own doctor or midwife, and so should "
        "whoever is sensitive to caffeine or takes medicine beside it."
    )
    about, source = "caffeine in pregnancy", "[EFSA2015], second-hand"
    return Caution(about, sentence, size, low, high, PREGNANT_A_DAY_MG, "mg", source)


def _mg(milligrams: float) -> str:
    return amount(milligrams, 0 if milligrams >= 10 else 1)
