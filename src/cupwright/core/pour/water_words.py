"""A mix in words, and as data: what to pour together, whether that is what was wanted, where it lies."""

from typing import Any

from cupwright.core.plain import plain
from cupwright.core.pour.water import Water, complaints
from cupwright.core.pour.water_mix import Mix, MixWish, Part, Reached
from cupwright.core.pour.water_ph import ph_in_air
from cupwright.core.pour.water_ranges import RANGES, Judgement, in_sentence, judged, number, said, unit_said
from cupwright.core.pour.water_units import PARAMETERS


def mix_sentence(mixed: Mix) -> str:
    """As measured out: "For 4 L: 1.35 L of tap water, 2.6 L of deionised water and 12 g of concentrate B"."""
    return f"For {litres(mixed.litres)}: {_listed([_amount(part) for part in mixed.parts])}."


def _listed(things: list[str]) -> str:
    return things[0] if len(things) == 1 else f"{', '.join(things[:-1])} and {things[-1]}"


def _amount(part: Part) -> str:
    if part.measured_grams is None:
        return f"{litres(part.measured_litres)} of {part.name}"
    return f"{part.measured_grams:.10g} g of concentrate {part.name}"


def litres(volume: float) -> str:
    """Litres to the millilitre, small volumes in mL."""
    return f"{round(volume, 3):.10g} L" if volume >= 1 else f"{round(volume * 1000, 1):.10g} mL"


def reached_sentence(mixed: Mix) -> str:
    """Whether all that is wanted is met; if not, what misses, by how much and to which side."""
    if mixed.feasible and mixed.not_held:
        unknown = _listed([in_sentence(parameter) for parameter in mixed.not_held])
        return f"That meets what was asked as far as it is known; {unknown} could not be held."
    if mixed.feasible:
        return "That meets all that was asked."
    missing = [_missed(one) for one in mixed.reached if one.miss != 0]
    return f"What is at hand cannot be mixed to that; this is the nearest: {'; '.join(missing)}."


def _missed(one: Reached) -> str:
    side = "above" if one.miss > 0 else "below"
    return (
        f"{in_sentence(one.parameter)} {number(one.value)}{unit_said(one.parameter)}, "
        f"{number(abs(one.miss))} {side} {number(one.low)} to {number(one.high)}"
    )


def part_rows(mixed: Mix) -> list[tuple[str, str, str]]:
    """Ingredient, exactly how much, and how much that is on the scale or the measure."""
    return [
        (part.name, f"{part.litres:.6g} L", litres(part.measured_litres))
        if part.grams is None or part.measured_grams is None
        else (f"concentrate {part.name}", f"{part.grams:.6g} g", f"{part.measured_grams:.10g} g")
        for part in mixed.parts
    ]


def reached_rows(mixed: Mix) -> list[tuple[str, str, str, str]]:
    """Parameter, what is wanted, what the exact mix has, and as measured out, with that error."""
    return [
        (
            said(one.parameter) + unit_said(one.parameter).replace(" ", ", ", 1),
            f"{number(one.aim)} ({number(one.low)} to {number(one.high)})",
            f"{one.value:.4g}",
            f"{one.measured:.4g}" + (f" ({one.measured / one.value - 1:+.2%})" if one.value > 0 else ""),
        )
        for one in mixed.reached
    ]


def ph_sentence(water: Water) -> str:
    """What can be said of the pH of a mix, and what cannot."""
    fresh = "The pH of a fresh mix hangs on its carbon dioxide and cannot be computed; measure it."
    if water.alkalinity is None:
        return fresh
    return f"{fresh} Left in open air for hours it would come to about {ph_in_air(water.alkalinity):.1f}."


def water_as_data(water: Water) -> dict[str, Any]:
    """An analysis with its complaints and where it lies in each published range; for the API and --json."""
    return {
        "name": water.name,
        "analysis": {parameter: water.of(parameter) for parameter in PARAMETERS},
        "ranges": {key: [judgement_as_data(one) for one in judged(water, it)] for key, it in RANGES.items()},
        "complaints": list(complaints(water)),
    }


def judgement_as_data(judgement: Judgement) -> dict[str, Any]:
    """One line of a judgement, its band taken apart."""
    flat: dict[str, Any] = plain(judgement)
    band: dict[str, Any] = flat.pop("band")
    return band | flat


def mix_as_data(mixed: Mix, wish: MixWish) -> dict[str, Any]:
    """A mix with its sentences, parts and waters; nothing is rounded but what is measured out."""
    return {
        "sentence": mix_sentence(mixed),
        "reached_sentence": reached_sentence(mixed),
        "litres": mixed.litres,
        "feasible": mixed.feasible,
        "parts": plain(mixed.parts),
        "reached": plain(mixed.reached),
        "not_held": list(mixed.not_held),
        "exact": {parameter: mixed.water.of(parameter) for parameter in PARAMETERS},
        "mix": water_as_data(mixed.measured),
        "ph": ph_sentence(mixed.measured),
        "ph_in_air": None if mixed.water.alkalinity is None else ph_in_air(mixed.water.alkalinity),
        "sources": [water_as_data(source) for source in wish.sources],
        "complaints": list(mixed.complaints),
        "cautions": list(mixed.cautions),
    }
