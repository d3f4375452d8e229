"""`cupwright recipe`: how much, how hot and how it cools, without a table."""

import argparse
from typing import TYPE_CHECKING, Any

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.joint import Joint
from cupwright.cli.said import say, say_json, say_pairs, say_rows

if TYPE_CHECKING:
    from cupwright.core.plan.table import Plan
    from cupwright.core.pour.cooling_report import CoolingReport
    from cupwright.core.pour.recipe import Recipe

_CURVE_SHOWN = (0, 4, 8, 10, 15, 20, 30, 45, 60)


def add_to(commands: Commands) -> None:
    """Make the command known."""
    says = "Amounts for a table, metric and imperial, the boiling point there, and how the bowls cool."
    parser = command(commands, "recipe", recipe, says=says)
    parser.add_argument("--samples", metavar="N", type=int, default=1, help="samples on the table (1)")
    parser.add_argument("--bowls", metavar="N", type=int, default=1, help="bowls of each sample (1)")
    parser.add_argument("--bowl", metavar="VOLUME", default="200ml", help="water in a bowl: 200ml, 7floz")
    parser.add_argument("--ratio", metavar="RATIO", default="55g/L", help="coffee to water: 55g/L, 18:1")
    parser.add_argument(
        "--scale-step", metavar="WEIGHT", default="0.1g", help="the coffee scale's step: 0.1g"
    )
    parser.add_argument(
        "--water-step", metavar="VOLUME", default="1ml", help="the water's step: 1ml, 0.1floz"
    )
    parser.add_argument("--purge", metavar="WEIGHT", help="through the grinder before each sample (5g)")
    parser.add_argument("--kettle", metavar="TEMPERATURE", help="kettle: 95C, 203F (95C)")
    parser.add_argument(
        "--altitude",
        metavar="HEIGHT",
        default="0m",
        help="where the table stands: 1500m, 4900ft, -100m",
    )
    parser.add_argument("--room", metavar="TEMPERATURE", default="22C", help="the room: 22C, 72F")
    parser.add_argument(
        "--vessel", metavar="NAME", default="bowl", help="bowl, glass, cup, paper-cup or insulated"
    )
    parser.add_argument(
        "--taste-from", metavar="TEMPERATURE", default="71C", help="hottest cup tasted: 71C, 160F"
    )
    parser.add_argument("--protocol", metavar="NAME", default="cupping", help="cupping, home or brew")
    parser.add_argument("--brim", action="store_true", help="bowls are filled to the brim, over the grounds")
    with_json(parser)


def recipe(_joint: Joint, chosen: argparse.Namespace) -> None:
    """Read the quantities, compute, print."""
    from cupwright.core.plan.protocol_file import builtin_protocol
    from cupwright.core.pour.cooling_report import cooling_of_plan
    from cupwright.core.pour.quantities import volume_ml
    from cupwright.core.pour.recipe import recipe as computed

    plan, protocol = _plan(chosen), builtin_protocol(chosen.protocol)
    step = volume_ml(chosen.water_step, of="The step of the water")
    found = computed(plan, chosen.samples, standard=protocol.standard, water_step_ml=step)
    cooling = cooling_of_plan(plan, protocol)
    if chosen.json:
        say_json(_data(plan, found, cooling))
    else:
        _say_amounts(plan, found, brim=chosen.brim)
        _say_cooling(cooling)


def _plan(chosen: argparse.Namespace) -> "Plan":
    """A plan with as many unnamed coffees, checked like any other."""
    from cupwright.core.plan.planning import checked_plan
    from cupwright.core.plan.table import Plan
    from cupwright.core.pour.quantities import height_m, mass_g, ratio_g_per_l, temperature_c, volume_ml
    from cupwright.errors import Refused

    if chosen.samples < 1:
        raise Refused(f"A table of {chosen.samples} samples needs nothing.", todo="Give 1 sample or more.")
    altitude = height_m(chosen.altitude)
    usual = Plan(name="recipe", coffees=())
    kettle = usual.kettle_c
    if chosen.kettle is not None:
        kettle = temperature_c(chosen.kettle, of="The kettle temperature")
    purge = usual.purge_g if chosen.purge is None else mass_g(chosen.purge, of="The purge")
    return checked_plan(
        Plan(
            name="recipe",
            coffees=tuple(str(number) for number in range(chosen.samples)),
            bowls_per_sample=chosen.bowls,
            bowl_ml=volume_ml(chosen.bowl, of="The water in a bowl"),
            grams_per_litre=ratio_g_per_l(chosen.ratio),
            scale_step_g=mass_g(chosen.scale_step, of="The step of the scale"),
            kettle_c=kettle,
            purge_g=purge,
            altitude_m=altitude,
            room_c=temperature_c(chosen.room, of="The room"),
            vessel=chosen.vessel,
            taste_from_c=temperature_c(chosen.taste_from, of="The hottest cup tasted"),
            protocol=chosen.protocol,
        )
    )


def _say_amounts(plan: "Plan", found: "Recipe", *, brim: bool) -> None:
    from cupwright.core.pour.boiling import kettle_in_words
    from cupwright.core.pour.units import fahrenheit, feet, fluid_ounces, ounces

    def weight(grams: float) -> str:
        return f"{grams:g} g ({ounces(grams):.3g} oz)"

    def water(millilitres: float) -> str:
        return f"{millilitres:.0f} mL ({fluid_ounces(millilitres):.1f} fl oz)"

    def heat(celsius: float) -> str:
        return f"{celsius:.1f} °C ({fahrenheit(celsius):.1f} °F)"

    place, ratio = found.boiling, found.grams_per_litre
    pairs = {
        "Dose": f"{weight(found.dose_g)} a bowl; "
        f"{found.low_g:.2f} to {found.high_g:.2f} g is within tolerance",
        "Ratio": f"{ratio:.1f} g/L, 1 g to {1000 / ratio:.1f} mL; "
        f"the scales leave {found.ratio_low:.1f} to {found.ratio_high:.1f} g/L open",
        "Bowls": f"{found.bowls} of {water(found.bowl_ml)}",
        "By weight": f"{found.bowl_water_g:.1f} g of water as hot as it is poured; {found.bowl_ml:.4g} g on "
        f"a scale instead would make {found.by_weight_grams_per_litre:.1f} g/L",
        "Coffee": f"{weight(found.total_coffee_g)} in all, "
        f"{plan.purge_g:g} g of each sample through the grinder",
        "Water": f"{water(found.water_to_heat_ml)} to heat, {water(found.water_poured_ml)} to pour",
        "Kettle": f"{kettle_in_words(place)}; "
        f"{place.pour_low_c:.0f} to {place.pour_high_c:.0f} °C at the grounds",
        "Boiling": f"{heat(place.boils_c)} at {plan.altitude_m:.0f} m ({feet(plan.altitude_m):.0f} ft)",
    }
    if brim:
        pairs["Brim"] = (
            f"{found.brim.displaced_ml:.1f} mL less water goes in: {found.brim.grams_per_litre:.1f} g/L "
            f"({found.brim.ratio_low:.1f} to {found.brim.ratio_high:.1f}); "
            f"{found.brim.dose_g:.1f} g would keep the ratio"
        )
    say_pairs(pairs)
    for warning in found.warnings:
        say(f"\nNote: {warning}")


def _say_cooling(cooling: "CoolingReport") -> None:
    from cupwright.core.pour.windows import in_minutes

    say(f"\nCooling, {cooling.vessel} in a room of {cooling.room_c:.3g} °C, from each bowl's own pour:")
    rows = [
        (
            f"{minute}",
            f"{cooling.celsius[minute]:.0f}",
            f"{cooling.low[minute]:.0f}",
            f"{cooling.high[minute]:.0f}",
        )
        for minute in _CURVE_SHOWN
    ]
    say_rows(("min", "°C", f"{100 * cooling.level:g} % from", "to"), rows)
    say("")
    for window in cooling.windows:
        start = in_minutes(window.starts)
        end = (
            "" if window.ends is None or window.ends == window.starts else f" until {in_minutes(window.ends)}"
        )
        say(f"{window.title}: about {window.from_c:.0f} °C at {start}{end}")
    if cooling.caution:
        say(f"\nCaution: {cooling.caution}")
    say("Scalding water: a stable kettle, pour close to the bowl, and nobody leans over it.")


def _data(plan: "Plan", found: "Recipe", cooling: "CoolingReport") -> dict[str, Any]:
    """The figures in metric units, and those that are poured and weighed in imperial ones too."""
    from cupwright.core.plain import plain
    from cupwright.core.pour.units import fahrenheit, feet, fluid_ounces, ounces

    imperial = {
        "dose_oz": ounces(found.dose_g),
        "bowl_floz": fluid_ounces(found.bowl_ml),
        "total_coffee_oz": ounces(found.total_coffee_g),
        "water_poured_floz": fluid_ounces(found.water_poured_ml),
        "water_to_heat_floz": fluid_ounces(found.water_to_heat_ml),
        "kettle_f": found.kettle_f,
        "boils_f": fahrenheit(found.boiling.boils_c),
        "altitude_ft": feet(plan.altitude_m),
    }
    return {"recipe": plain(found), "imperial": imperial, "cooling": plain(cooling)}
