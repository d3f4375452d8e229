"""`cupwright water`: what a water is, and what to mix for the one that is wanted."""

import argparse
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.joint import Joint
from cupwright.cli.said import read_text, say, say_json, say_rows

if TYPE_CHECKING:
    from cupwright.core.pour.concentrate import Concentrate
    from cupwright.core.pour.water import Water
    from cupwright.core.pour.water_file import WaterFile
    from cupwright.core.pour.water_mix import Mix, MixWish
    from cupwright.core.pour.water_ranges import Judgement

_LARGEST = 1_000_000


def add_to(commands: Commands) -> None:
    """Make the command known."""
    says = "Mix water to a target or into a published range, or see where a water lies."
    parser = command(commands, "water", water, says=says)
    parser.add_argument(
        "file", metavar="FILE.toml", nargs="?", type=Path, help="waters, recipes and the target"
    )
    parser.add_argument(
        "--source",
        metavar="WATER",
        action="append",
        default=[],
        help='a water at hand, as in "tap water: hardness=12dH,alkalinity=8dKH"',
    )
    parser.add_argument(
        "--target",
        metavar="WATER",
        help='what is wanted, as in "hardness=68mg/L CaCO3,alkalinity=40mg/L CaCO3"',
    )
    parser.add_argument("--range", metavar="RANGE", help="a published range to mix into: 2009 or newer")
    parser.add_argument(
        "--concentrate",
        metavar="RECIPE",
        action="append",
        default=[],
        help='a file with recipes, or one as in "B: sodium bicarbonate 16.8 g/L"',
    )
    parser.add_argument("--litres", metavar="N", type=float, help="how much to mix")
    parser.add_argument("--scale-step", metavar="G", type=float, help="the scale's step in grams (0.1)")
    parser.add_argument("--no-deionised", action="store_true", help="there is no deionised water at hand")
    parser.add_argument("--units", metavar="AMOUNT", help='only show an amount in every unit, as "12 dH"')
    with_json(parser)


def water(_joint: Joint, chosen: argparse.Namespace) -> None:
    """Units alone, the waters against the published ranges, or a mix."""
    if chosen.units is not None:
        _units(chosen)
        return
    given = _given(chosen)
    wish = _wish(given, chosen)
    if wish is None:
        _only_judged(given.sources, as_data=chosen.json)
    else:
        _mixed(wish, as_data=chosen.json)


def _units(chosen: argparse.Namespace) -> None:
    from cupwright.core.pour.water_units import conversions, split_amount

    found = conversions(*split_amount(chosen.units, "hardness"))
    if chosen.json:
        say_json({"units": found})
    else:
        say_rows(("unit", "amount"), [(unit, f"{value:.4g}") for unit, value in found.items()])
        say("mg/L of an ion as if that ion were all of it.")


def _given(chosen: argparse.Namespace) -> "WaterFile":
    """The file with what the flags add to it or say instead."""
    from cupwright.core.pour import water_file as reading
    from cupwright.core.pour.water_ranges import range_called

    given = reading.WaterFile()
    if chosen.file is not None:
        given = reading.read_water_file(read_text(chosen.file, largest=_LARGEST), chosen.file.name)
    first = len(given.sources) + 1
    lines = [reading.read_source_line(line, number) for number, line in enumerate(chosen.source, start=first)]
    recipes = [made for written in chosen.concentrate for made in _recipes(written)]
    flags = {
        "litres": chosen.litres,
        "scale_step_g": chosen.scale_step,
        "deionised": False if chosen.no_deionised else None,
        "target": None
        if chosen.target is None
        else reading.read_target(reading.amounts_in_line(chosen.target)),
        "into": None if chosen.range is None else range_called(chosen.range),
    }
    said: dict[str, Any] = {key: value for key, value in flags.items() if value is not None}
    return replace(
        given, sources=(*given.sources, *lines), concentrates=(*given.concentrates, *recipes), **said
    )


def _recipes(written: str) -> "tuple[Concentrate, ...]":
    from cupwright.core.pour.water_file import read_concentrate_line, read_water_file
    from cupwright.errors import Refused

    path = Path(written)
    if not written.endswith(".toml") and not path.is_file():
        return (read_concentrate_line(written),)
    found = read_water_file(read_text(path, largest=_LARGEST), path.name).concentrates
    if not found:
        raise Refused(f"There is no concentrate in {path.name}.", todo="Add a [[concentrate]] to it.")
    return found


def _wish(given: "WaterFile", chosen: argparse.Namespace) -> "MixWish | None":
    """What to mix; None where nothing is wanted but to see where the sources lie."""
    from cupwright.core.pour.water_mix import MixWish
    from cupwright.errors import Refused

    if given.target is None and given.into is None:
        if not given.sources:
            chosen.wrong_use("give a water with --source or in a file; --help shows how")
        if given.litres is not None:
            raise Refused("Nothing is wanted of the mix.", todo="Give --target or --range.")
        return None
    if given.litres is None:
        raise Refused("How much to mix is not said.", todo="Give --litres, as in --litres 4.")
    return MixWish(
        litres=given.litres,
        sources=given.sources,
        concentrates=given.concentrates,
        deionised=given.deionised is not False,
        target=given.target,
        into=given.into,
        scale_step_g=0.1 if given.scale_step_g is None else given.scale_step_g,
    )


def _only_judged(sources: "tuple[Water, ...]", *, as_data: bool) -> None:
    from cupwright.core.pour.water_words import water_as_data

    if as_data:
        say_json({"sources": [water_as_data(source) for source in sources]})
        return
    for number, source in enumerate(sources):
        if number:
            say("")
        _say_water(source)


def _say_water(source: "Water") -> None:
    from cupwright.core.pour.water import complaints
    from cupwright.core.pour.water_ranges import RANGES, judged, number, said, unit_said

    say(f"{source.name}:")
    known = [(said(key), f"{number(source.of(key) or 0.0)}{unit_said(key)}") for key in source.known]
    say_rows(("parameter", "amount"), known)
    for against in RANGES.values():
        say("")
        say(f"Against {against.title}:")
        _say_judged(judged(source, against))
    for complaint in complaints(source):
        say(f"! {complaint}")


def _say_judged(found: "tuple[Judgement, ...]") -> None:
    for judgement in found:
        say(f"  {judgement.words}")


def _mixed(wish: "MixWish", *, as_data: bool) -> None:
    from cupwright.core.pour.water_mix import mix
    from cupwright.core.pour.water_words import mix_as_data

    mixed = mix(wish)
    if as_data:
        say_json(mix_as_data(mixed, wish))
    else:
        _say_mix(mixed, wish)


def _say_mix(mixed: "Mix", wish: "MixWish") -> None:
    from cupwright.core.pour import water_words as words
    from cupwright.core.pour.water_ranges import judged

    say(words.mix_sentence(mixed))
    say(words.reached_sentence(mixed))
    say("")
    say_rows(("ingredient", "exactly", "to measure out"), words.part_rows(mixed))
    say("")
    say_rows(("parameter", "wanted", "reached", "as measured out"), words.reached_rows(mixed))
    if wish.into is not None:
        say("")
        say(f"As measured out, against {wish.into.title}:")
        _say_judged(judged(mixed.measured, wish.into))
    say("")
    say(words.ph_sentence(mixed.measured))
    for complaint in mixed.complaints:
        say(f"! {complaint}")
    for caution in mixed.cautions:
        say(f"Caution: {caution}")
