"""Deviations: where a plan leaves its protocol, by how much, and what the protocol allows.

What a plan cannot know is said as unknown, never taken for granted. Amounts are compared as they are written,
in fractions: a dose that lies on the edge of its tolerance is within it.
"""

from collections.abc import Sequence
from datetime import datetime
from fractions import Fraction

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.deviation import Deviation, amount, apart, counted
from cupwright.core.plan.protocol import Brewed, Protocol, Rule, exactly, in_words
from cupwright.core.plan.rest import rest_deviations
from cupwright.core.plan.table import Plan
from cupwright.core.pour.boiling import at_grounds_in_words, boiling, off_at_grounds
from cupwright.core.pour.order_of_work import in_grams
from cupwright.core.pour.recipe import dose_g, to_scale_step
from cupwright.core.taste.sheet import Moment, Sheet


def deviations(
    plan: Plan,
    protocol: Protocol,
    *,
    coffees: Sequence[Coffee] = (),
    sheet: Sheet | None = None,
    at: datetime | None = None,
) -> tuple[Deviation, ...]:
    """Every deviation beyond its tolerance, then what the plan cannot know.

    Parameters
    ----------
    coffees : sequence of Coffee
        Those whose rest is looked at.
    sheet : Sheet, optional
        Whether it asks for a moment that the protocol does not have.
    at : datetime, optional
        When the table is tasted, in its own time zone; without it no rest is known.

    Notes
    -----
    Error: water loses 1 to 3 K on its way to the grounds; what may be within its band counts as within.
    Source: the protocol's own, carried by each deviation.
    """
    found = (
        _ratio(plan, protocol),
        _bowls(plan, protocol),
        _vessel(plan, protocol),
        _water(plan, protocol),
        _first_taste(plan, protocol),
        _break_asked(sheet, protocol),
        *rest_deviations(protocol.rest, coffees, at),
    )
    there = [deviation for deviation in found if deviation is not None]
    known = [deviation for deviation in there if deviation.known]
    unknown = [deviation for deviation in there if not deviation.known]
    return (*known, *unknown, *(_to_see_to(rule) for rule in protocol.rules))


def _ratio(plan: Plan, protocol: Protocol) -> Deviation | None:
    """What the scale shows, in the water of a bowl, against the protocol's ratio."""
    ratio = protocol.ratio
    if ratio is None or protocol.brewed is Brewed.APART:
        return None
    dose = to_scale_step(dose_g(plan.bowl_ml, plan.grams_per_litre), plan.scale_step_g)
    per_litre = exactly(dose) * 1000 / exactly(plan.bowl_ml)
    off = per_litre / ratio.exact - 1
    if abs(off) <= ratio.tolerance:
        return None
    size, tolerance = apart(abs(off) * 100, ratio.tolerance * 100)
    sentence = (
        f"{in_grams(dose, plan.scale_step_g)} in {plan.bowl_ml:g} mL is {amount(per_litre)} g/L, {size} % "
        f"{'under' if off < 0 else 'over'} {amount(ratio.exact)} g/L; the tolerance is {tolerance} %."
    )
    return Deviation("Ratio", sentence, float(off * 100), float(ratio.tolerance * 100), "%", ratio.source)


def _bowls(plan: Plan, protocol: Protocol) -> Deviation | None:
    asked = protocol.bowls
    if asked is None or plan.bowls_per_sample >= asked.least:
        return None
    fewer = asked.least - plan.bowls_per_sample
    sentence = (
        f"{counted(plan.bowls_per_sample, 'bowl')} of each sample, {fewer} fewer than the {asked.least} "
        "asked for: an uneven lot or one bad bean shows less."
    )
    return Deviation("Bowls", sentence, float(-fewer), 0.0, "bowls", asked.source)


def _vessel(plan: Plan, protocol: Protocol) -> Deviation | None:
    if not protocol.vessels:
        return None
    size = exactly(plan.bowl_ml)
    off = {vessel: _outside(size, vessel.low_ml, vessel.high_ml) for vessel in protocol.vessels}
    nearest = min(off, key=lambda vessel: abs(off[vessel]))
    if not off[nearest]:
        return None
    asked = " or ".join(f"{one.low_ml:g} to {one.high_ml:g} mL ({one.edition})" for one in protocol.vessels)
    edge = nearest.low_ml if off[nearest] < 0 else nearest.high_ml
    sentence = (
        f"A bowl of {plan.bowl_ml:g} mL is {amount(abs(off[nearest]))} mL {_side(off[nearest])} {edge:g} mL; "
        f"asked for are {asked}. It cools at another pace, so the times may not suit it."
    )
    return Deviation("Size of the bowl", sentence, float(off[nearest]), 0.0, "mL", nearest.source)


def _water(plan: Plan, protocol: Protocol) -> Deviation | None:
    band = protocol.water
    if band is None or protocol.brewed is Brewed.APART:
        return None
    place = boiling(plan.kettle_c, altitude_m=plan.altitude_m)
    reached = plan.kettle_c if place.reaches else place.reached_c
    off = Fraction(off_at_grounds(reached, band.low, band.high))
    if not off:
        return None
    edge = band.low if off < 0 else band.high
    start = (
        f"The kettle at {plan.kettle_c:g} °C"
        if place.reaches
        else f"At {plan.altitude_m:g} m water boils at {reached:.1f} °C and"
    )
    sentence = (
        f"{start} gives {at_grounds_in_words(reached)}, {amount(abs(off))} °C {_side(off)} {edge:g} °C; "
        f"asked for there is {in_words(band.low, band.high, '°C')}. Compare this table only with tables "
        "poured as hot."
    )
    return Deviation("Water", sentence, float(off), 0.0, "°C", band.source)


def _first_taste(plan: Plan, protocol: Protocol) -> Deviation | None:
    about = protocol.taste.about_c
    if about is None or plan.taste_from_c == about:
        return None
    off = exactly(plan.taste_from_c) - exactly(about)
    after = "kinder to the mouth, and another look at the coffee" if off < 0 else "hotter than it asks for"
    sentence = (
        f"The first taste begins at {plan.taste_from_c:g} °C, {amount(abs(off))} °C {_side(off)} the "
        f"{about:g} °C or so of the protocol: {after}."
    )
    return Deviation("First taste", sentence, float(off), None, "°C", protocol.taste.source)


def _break_asked(sheet: Sheet | None, protocol: Protocol) -> Deviation | None:
    if sheet is None or protocol.crust is not None:
        return None
    asked = [part.title for part in sheet.passes if part.moment is Moment.BREAK]
    if not asked:
        return None
    sentence = (
        f"The sheet asks for '{asked[0]}' at the break, and this protocol has no break: smell the cup "
        "instead."
    )
    return Deviation("Break", sentence, float(len(asked)), 0.0, "passes", f"protocol '{protocol.name}'")


def _to_see_to(rule: Rule) -> Deviation:
    return Deviation(rule.what, f"{rule.what}: {rule.sentence}", None, None, rule.unit, rule.source)


def _outside(value: Fraction, low: float | None, high: float | None) -> Fraction:
    """How far a value lies below (negative) or above a band; 0 within."""
    if low is not None and value < exactly(low):
        return value - exactly(low)
    if high is not None and value > exactly(high):
        return value - exactly(high)
    return Fraction(0)


def _side(off: Fraction) -> str:
    return "under" if off < 0 else "over"
