"""Mixing water: from what is at hand to a target, or into a published range.

Volumes add, and so does what they carry; pH does not (water_ph.py). What counts as near, and what is
preferred where many mixes do, is our choice: fewest ingredients, then fewest concentrates, then nearest to
the target (in a range: the parameter furthest from the table's target as near as can be), then least
concentrate. A mix on the very edge of a range would need less mineral, but a rounding of the scale would
push it out.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from cupwright.core.pour import mix_solving as solving
from cupwright.core.pour.concentrate import Concentrate, cautions_for, concentrate_complaints
from cupwright.core.pour.mix_bands import MIXED, Asked, range_bands, target_bands
from cupwright.core.pour.mix_solving import Floats, Wanted
from cupwright.core.pour.recipe import to_scale_step
from cupwright.core.pour.water import DEIONISED, Water, complaints
from cupwright.core.pour.water_ranges import Band, WaterRange, in_sentence
from cupwright.errors import Refused, TooLarge

# Misses of a target are weighed as shares of it, as if it were at least this; mg/L.
_LEAST_SCALE = 10.0

WATER_STEP_L = 0.001
MOST_INGREDIENTS = 8
LEAST_LITRES, MOST_LITRES = 0.01, 10_000.0
LEAST_STEP_G, MOST_STEP_G = 0.0001, 100.0

# Deviations by rounding from which it is said; share of the value, and mg/L.
_ROUNDING_SHARE, _ROUNDING_MG = 0.05, 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class MixWish:
    """What is at hand and what is wanted. `target` in the program's own units; it goes before `into`."""

    litres: float
    sources: tuple[Water, ...] = ()
    concentrates: tuple[Concentrate, ...] = ()
    deionised: bool = True
    target: Mapping[str, float] | None = None
    into: WaterRange | None = None
    scale_step_g: float = 0.1


@dataclass(frozen=True, slots=True)
class Part:
    """One ingredient of a mix: exactly, and as it is measured out. Grams only for a concentrate.

    `kind` is "water", "deionised" or "concentrate".
    """

    name: str
    kind: str
    litres: float
    grams: float | None
    measured_litres: float
    measured_grams: float | None


@dataclass(frozen=True, slots=True)
class Reached:
    """One wanted parameter: between which values, what the exact mix has, and how far outside that is.

    `measured` is what the mix has as it is measured out.
    """

    parameter: str
    low: float
    high: float
    aim: float
    value: float
    miss: float
    measured: float


@dataclass(frozen=True, slots=True)
class Mix:
    """A mix: `feasible` if all that could be held is met; else it is the nearest that can be reached.

    `not_held` are parameters of a range that could not be held, as they are not known of a water.
    """

    litres: float
    feasible: bool
    parts: tuple[Part, ...]
    water: Water
    measured: Water
    reached: tuple[Reached, ...]
    not_held: tuple[str, ...]
    complaints: tuple[str, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Ingredient:
    name: str
    kind: str
    per_litre: Water
    made: Concentrate | None = None


def mix(wish: MixWish) -> Mix:
    """The mix for a wish.

    Returns
    -------
    Mix
        Its exact parts add to the litres, and what they carry adds to its water, both to 1e-9.

    Raises
    ------
    Refused
        For litres that are not above 0, nothing at hand, nothing wanted, a target that mixing cannot set or
        whose parameter is not known of a source, or two ingredients of one name.
    TooLarge
        For more than 8 ingredients.

    Notes
    -----
    Error: that of the analyses. Chalk that settles, and gas that comes and goes, are left out.
    Source: conservation of mass; [LawsonHanson1974] for least squares.
    """
    ingredients = _at_hand(wish)
    asked = _asked(wish, ingredients)
    bands = asked.bands
    wanted = _wanted(bands, by_target=wish.target is not None)
    content = np.array([[_content(one, band.parameter) for one in ingredients] for band in bands])
    shares = _best(content, wanted, ingredients, by_target=wish.target is not None)
    feasible = shares is not None
    if shares is None:
        shares = _nearest(content, wanted, by_target=wish.target is not None)
    used = [
        (one, float(share) * wish.litres) for one, share in zip(ingredients, shares, strict=True) if share > 0
    ]
    return _laid_out(wish, used, asked, feasible=feasible)


def _at_hand(wish: MixWish) -> tuple[_Ingredient, ...]:
    if not (math.isfinite(wish.litres) and LEAST_LITRES <= wish.litres <= MOST_LITRES):
        raise Refused(
            f"A mix cannot be {wish.litres:g} L.",
            todo=f"Give litres from {LEAST_LITRES:g} to {MOST_LITRES:g}.",
            about="litres",
        )
    if not (math.isfinite(wish.scale_step_g) and LEAST_STEP_G <= wish.scale_step_g <= MOST_STEP_G):
        raise Refused(
            f"A scale cannot have a step of {wish.scale_step_g:g} g.",
            todo="Give its smallest step, as 0.1.",
            about="scale_step_g",
        )
    found = [_Ingredient(water.name, "water", water) for water in wish.sources]
    if wish.deionised:
        found.append(_Ingredient(DEIONISED.name, "deionised", DEIONISED))
    found += [_Ingredient(made.name, "concentrate", made.per_ml, made) for made in wish.concentrates]
    if all(one.kind == "concentrate" for one in found):
        raise Refused("There is no water to mix.", todo="Give a source, or deionised water.", about="sources")
    if len(found) > MOST_INGREDIENTS:
        raise TooLarge(
            f"That are {len(found)} ingredients; at most {MOST_INGREDIENTS} are mixed.",
            todo="Leave some out.",
        )
    names = [one.name.casefold() for one in found]
    twice = next((one.name for one in found if names.count(one.name.casefold()) > 1), None)
    if twice is not None:
        raise Refused(
            f"Two ingredients are called {twice}.", todo="Give each a name of its own.", about="name"
        )
    return tuple(found)


def _content(one: _Ingredient, parameter: str) -> float:
    value = one.per_litre.of(parameter)
    if value is None:
        raise Refused(
            f"The {in_sentence(parameter)} of {one.name} is not known, so it cannot be mixed to a wanted "
            "one.",
            todo=f"Give it, or leave {parameter} out of the target.",
            about=parameter,
        )
    # A concentrate is described by the millilitre.
    return value * 1000 if one.kind == "concentrate" else value


def _asked(wish: MixWish, ingredients: tuple[_Ingredient, ...]) -> Asked:
    if wish.target is not None:
        return target_bands(wish.target)
    if wish.into is None:
        raise Refused(
            "Nothing is wanted of the mix.", todo="Give a target, or a published range.", about="target"
        )
    return range_bands(wish.into, tuple(one.per_litre for one in ingredients))


def _wanted(bands: tuple[Band, ...], *, by_target: bool) -> Wanted:
    scales = [max(band.aim, _LEAST_SCALE) if by_target else (band.high - band.low) / 2 for band in bands]
    lists = ([b.low for b in bands], [b.high for b in bands], [b.aim for b in bands], scales)
    return Wanted(*(np.array(values, dtype=float) for values in lists))


def _best(
    content: Floats, wanted: Wanted, ingredients: tuple[_Ingredient, ...], *, by_target: bool
) -> Floats | None:
    """Shares of the preferred mix that meets all, or None."""
    dear = np.array([one.kind == "concentrate" for one in ingredients], dtype=float)
    # Whether all together can is asked first, and spares the search where nothing can.
    everything = tuple(range(len(ingredients)))
    if _meeting(content, wanted, dear, everything, by_target=by_target) is None:
        return None
    for few in _fewest_first(dear):
        met = [_meeting(content, wanted, dear, some, by_target=by_target) for some in few]
        found = [shares for shares in met if shares is not None]
        if found:
            return min(found, key=lambda f: (round(_distance(content, wanted, f, by_target), 9), dear @ f))
    return None


def _fewest_first(dear: Floats) -> Iterator[list[tuple[int, ...]]]:
    """Choices of ingredients by their number, and of one number by how many concentrates they hold."""
    for size in range(1, len(dear) + 1):
        chosen = list(combinations(range(len(dear)), size))
        for strong in range(size + 1):
            yield [some for some in chosen if sum(dear[i] for i in some) == strong]


def _meeting(
    content: Floats, wanted: Wanted, dear: Floats, some: tuple[int, ...], *, by_target: bool
) -> Floats | None:
    part = content[:, some]
    found = (
        solving.nearest_to_point(part, wanted)
        if by_target
        else solving.inside(part, wanted, dear[list(some)])
    )
    if found is None:
        return None
    reached = part @ found
    if ((reached < wanted.low - 1e-6) | (reached > wanted.high + 1e-6)).any():
        return None
    shares = np.zeros(content.shape[1])
    shares[list(some)] = found
    return shares


def _distance(content: Floats, wanted: Wanted, shares: Floats, by_target: bool) -> float:
    steps = np.abs(content @ shares - wanted.aim) / wanted.scale
    return float(np.sqrt(np.sum(steps**2)) if by_target else steps.max())


def _nearest(content: Floats, wanted: Wanted, *, by_target: bool) -> Floats:
    if by_target:
        return solving.nearest_to_point(content, wanted)
    return solving.nearest_to_bounds(content, wanted)


def _laid_out(
    wish: MixWish,
    used: list[tuple[_Ingredient, float]],
    asked: Asked,
    *,
    feasible: bool,
) -> Mix:
    parts = tuple(_part(one, litres, wish.scale_step_g) for one, litres in used)
    water = _mixed([(one.per_litre, one.kind, litres) for one, litres in used])
    measured = _mixed(
        [(one.per_litre, one.kind, part.measured_litres) for (one, _), part in zip(used, parts, strict=True)]
    )
    reached = tuple(_reached(band, water, measured) for band in asked.bands)
    made = tuple(one.made for one, _ in used if one.made is not None)
    found = (
        *asked.notes,
        *(sentence for source in wish.sources for sentence in complaints(source)),
        *(sentence for one in made for sentence in concentrate_complaints(one)),
        *_chlorine(measured),
        *_rounding(wish, parts, reached),
    )
    return Mix(
        wish.litres, feasible, parts, water, measured, reached, asked.not_held, found, cautions_for(made)
    )


def _part(one: _Ingredient, litres: float, scale_step_g: float) -> Part:
    if one.made is None:
        return Part(one.name, one.kind, litres, None, to_scale_step(litres, WATER_STEP_L), None)
    g_per_litre = one.made.g_per_ml * 1000
    weighed = to_scale_step(litres * g_per_litre, scale_step_g)
    return Part(one.name, one.kind, litres, litres * g_per_litre, weighed / g_per_litre, weighed)


def _mixed(parts: list[tuple[Water, str, float]]) -> Water:
    """What volumes of waters carry together; a parameter that one of them does not say stays unknown."""
    litres = math.fsum(volume for _, _, volume in parts)
    values: dict[str, float] = {}
    for parameter in (*MIXED, "chlorine"):
        carried = [(water.of(parameter), kind, volume) for water, kind, volume in parts if volume > 0]
        if litres > 0 and all(value is not None for value, _, _ in carried):
            terms = (
                (value or 0.0) * (1000 if kind == "concentrate" else 1) * volume
                for value, kind, volume in carried
            )
            values[parameter] = math.fsum(terms) / litres
    return Water(name="the mix", **values)


def _reached(band: Band, water: Water, measured: Water) -> Reached:
    value, as_measured = water.of(band.parameter) or 0.0, measured.of(band.parameter) or 0.0
    miss = min(value - band.low, 0.0) + max(value - band.high, 0.0)
    shown = 0.0 if abs(miss) <= 1e-6 else miss
    return Reached(band.parameter, band.low, band.high, band.aim, value, shown, as_measured)


def _chlorine(water: Water) -> tuple[str, ...]:
    if not water.chlorine:
        return ()
    return (
        f"The mix holds {water.chlorine:.2g} mg/L of free chlorine, which mixing does not take out; pass "
        "the water "
        "through active carbon first.",
    )


def _rounding(wish: MixWish, parts: tuple[Part, ...], reached: tuple[Reached, ...]) -> tuple[str, ...]:
    found = [
        f"The scale's step of {wish.scale_step_g:g} g leaves {part.name} at {part.measured_grams:g} g "
        "instead of "
        f"{part.grams:.3g} g; use a finer scale or a weaker concentrate."
        for part in parts
        if part.grams is not None
        and part.measured_grams is not None
        and abs(part.measured_grams - part.grams) > _ROUNDING_SHARE * part.grams
    ]
    found += [
        f"Measured out, the mix has {one.measured:.3g} mg/L of {in_sentence(one.parameter)} instead of "
        f"{one.value:.3g}; make more at a time, or measure more finely."
        for one in reached
        if abs(one.measured - one.value) > max(_ROUNDING_SHARE * one.value, _ROUNDING_MG)
    ]
    return tuple(found)
