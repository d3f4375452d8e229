"""A mix in words: one sentence says what to pour together, the next whether that is what was wanted."""

from cupwright.core.pour.water_mix import Mix, Part, Reached
from cupwright.core.pour.water_ranges import in_sentence, number, unit_said


def mix_sentence(mixed: Mix) -> str:
    """As measured out: "For 4 L: 1.35 L of tap water, 2.6 L of deionised water and 12 g of concentrate B"."""
    parts = [_amount(part) for part in mixed.parts]
    together = parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"
    return f"For {litres(mixed.litres)}: {together}."


def _amount(part: Part) -> str:
    if part.measured_grams is None:
        return f"{litres(part.measured_litres)} of {part.name}"
    return f"{part.measured_grams:.10g} g of concentrate {part.name}"


def litres(volume: float) -> str:
    """Litres to the millilitre, small volumes in mL."""
    return f"{round(volume, 3):.10g} L" if volume >= 1 else f"{round(volume * 1000, 1):.10g} mL"


def reached_sentence(mixed: Mix) -> str:
    """Whether all that is wanted is met; if not, what misses, by how much and to which side."""
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
