"""A protocol in words: all it asks, each with its source; and what a plan takes over from it."""

from dataclasses import dataclass

from cupwright.core.plan.deviation import amount, counted
from cupwright.core.plan.protocol import Protocol, Stage, in_words
from cupwright.core.plan.rest import window_in_words
from cupwright.core.pour.boiling import POUR_LOSS_K


@dataclass(frozen=True, slots=True)
class Ask:
    """One thing that a protocol asks for, and where that comes from."""

    what: str
    asks: str
    source: str


def asks(protocol: Protocol) -> tuple[Ask, ...]:
    """All that a protocol asks, in the order of the work."""
    return (*_of_the_bowl(protocol), *_of_the_clock(protocol), *_of_the_taste(protocol), *_rules(protocol))


def suggested(protocol: Protocol) -> dict[str, float]:
    """Field of a plan -> value that keeps to the protocol; nothing for what it leaves open."""
    found: dict[str, float] = {}
    if protocol.ratio:
        found["grams_per_litre"] = protocol.ratio.grams_per_litre
    if protocol.bowls:
        found["bowls_per_sample"] = protocol.bowls.least
    if protocol.water and protocol.water.closed:
        # The band is meant at the grounds; a kettle is set in whole degrees.
        found["kettle_c"] = float(round((sum(protocol.water.closed) + sum(POUR_LOSS_K)) / 2))
    if protocol.taste.about_c is not None:
        found["taste_from_c"] = protocol.taste.about_c
    return found


def _of_the_bowl(protocol: Protocol) -> tuple[Ask, ...]:
    ratio, bowls, water, rest = protocol.ratio, protocol.bowls, protocol.water, protocol.rest
    found: list[Ask] = []
    if ratio:
        asked = (
            f"{ratio.grams:g} g for {ratio.per_ml:g} mL, give or take {ratio.tolerance_g:g} g: "
            f"{amount(ratio.exact)} g/L, {amount(ratio.tolerance * 100)} %"
        )
        found.append(Ask("Ratio", asked, ratio.source))
    if bowls:
        found.append(Ask("Bowls", f"at least {bowls.least} of each sample", bowls.source))
    for vessel in protocol.vessels:
        sizes = f"{in_words(vessel.low_ml, vessel.high_ml, 'mL')} ({vessel.edition})"
        found.append(Ask("Size of the bowl", sizes, vessel.source))
    if water:
        found.append(Ask("Water", f"{in_words(water.low, water.high, '°C')} at the grounds", water.source))
    if rest:
        found.append(Ask("Rest", f"{window_in_words(rest)} since the roast", rest.source))
    return tuple(found)


def _of_the_clock(protocol: Protocol) -> tuple[Ask, ...]:
    pace, crust, skim = protocol.pace, protocol.crust, protocol.skim
    found = [Ask("Pace", f"{pace.every_s} s from one pour to the next", pace.source)]
    if crust:
        window = f"{_clock(crust.earliest_s)} to {_clock(crust.latest_s)}"
        found.append(Ask("Break", f"{_clock(crust.at_s)} after the bowl's own pour, {window}", crust.source))
    if skim:
        found.append(Ask("Skim", f"{_clock(skim.at_s)} after the bowl's own pour", skim.source))
    return tuple(found)


def _of_the_taste(protocol: Protocol) -> tuple[Ask, ...]:
    taste, spoon, session = protocol.taste, protocol.spoon, protocol.session
    near = f", near {taste.about_c:g} °C" if taste.about_c is not None else ""
    times = f"{_clock(taste.from_s)} to {_clock(taste.to_s)} after the bowl's own pour{near}"
    found = [Ask("First taste", times, taste.source)]
    found += [Ask(stage.title, _cooling(stage), stage.source) for stage in protocol.stages]
    if spoon:
        found.append(Ask("Spoon", in_words(spoon.low, spoon.high, "mL"), spoon.source))
    if session:
        found.append(Ask("Time", f"{counted(round(session.minutes), 'minute')} a flight", session.source))
    return tuple(found)


def _cooling(stage: Stage) -> str:
    if stage.from_c is None and stage.to_c is None:
        return "at any temperature"
    if stage.from_c == stage.to_c:
        return f"near {stage.from_c:g} °C"
    if stage.from_c is None or stage.to_c is None:
        return f"below {stage.from_c:g} °C" if stage.from_c is not None else f"down to {stage.to_c:g} °C"
    return f"from {stage.from_c:g} down to {stage.to_c:g} °C"


def _rules(protocol: Protocol) -> tuple[Ask, ...]:
    return tuple(Ask(rule.what, rule.sentence.rstrip("."), rule.source) for rule in protocol.rules)


def _clock(seconds: int) -> str:
    return f"{seconds // 60}:{seconds % 60:02d}"
