"""Size: how many tasters, bowls and right answers; nothing is kept. Each answer carries its sentences."""

from dataclasses import dataclass
from typing import Any

from cupwright.core.plain import plain
from cupwright.core.plan.discrimination import Method
from cupwright.core.plan.discrimination_size import effect_of, needed_tasters, trial
from cupwright.core.plan.observed_count import observed_count
from cupwright.core.plan.panel_size import (
    ASSUMED_SPREAD,
    Spread,
    difference_power,
    needed_panels,
    panel_reach,
)
from cupwright.core.plan.simulated_size import Design, simulated_power
from cupwright.core.plan.size_in_words import (
    needed_in_words,
    observed_in_words,
    panels_in_words,
    simulated_in_words,
    trial_in_words,
)
from cupwright.errors import Refused


@dataclass(frozen=True, slots=True)
class SizeAnswer:
    """The sentences that come first, and every number behind them as plain data."""

    sentences: tuple[str, ...]
    numbers: dict[str, Any]

    @property
    def as_data(self) -> dict[str, Any]:
        """One object for API and command line."""
        return {"sentences": list(self.sentences), **self.numbers}


def method_called(name: str) -> Method:
    """The method of that name. Raises Refused."""
    try:
        return Method(name)
    except ValueError:
        raise Refused(
            f"There is no test called '{name}'.", todo=f"Name one of {', '.join(Method)}.", about="method"
        ) from None


def tasters_for_test(
    method: Method,
    *,
    discriminators: float | None = None,
    dprime: float | None = None,
    alpha: float = 0.05,
    power: float = 0.9,
) -> SizeAnswer:
    """How many tasters a test needs: the first number, and the one from which it holds for good."""
    effect = effect_of(method, discriminators=discriminators, dprime=dprime)
    needed = needed_tasters(method, effect, alpha=alpha, power=power)
    return SizeAnswer(needed_in_words(needed), plain(needed))


def counts_for_test(
    method: Method,
    of: int,
    *,
    discriminators: float | None = None,
    dprime: float | None = None,
    alpha: float = 0.05,
    power: float = 0.9,
) -> SizeAnswer:
    """What a test with a given number of tasters can tell; a difference may be named, and need not be."""
    named = discriminators is not None or dprime is not None
    effect = effect_of(method, discriminators=discriminators, dprime=dprime) if named else None
    found = trial(method, of, effect, alpha=alpha, power=power)
    return SizeAnswer(
        trial_in_words(method, found, effect),
        {"method": method.value, "effect": plain(effect), **plain(found)},
    )


def result_of_test(method: Method, right: int, of: int, *, level: float = 0.95) -> SizeAnswer:
    """How sure a finished test is."""
    observed = observed_count(method, right, of, level=level)
    return SizeAnswer(observed_in_words(observed), plain(observed))


def panel_for_difference(
    points: float,
    *,
    taster_sd: float | None = None,
    residual_sd: float | None = None,
    most_repeats: int = 5,
    coffees: int = 2,
    tasters: int | None = None,
    repeats: int = 1,
    alpha: float = 0.05,
    power: float = 0.9,
) -> SizeAnswer:
    """Tasters and bowls for a difference in points; with `tasters`, also what that panel can do."""
    spread = _spread(taster_sd, residual_sd)
    needed = needed_panels(
        points, spread, most_repeats=most_repeats, coffees=coffees, alpha=alpha, power=power
    )
    reach = (
        None
        if tasters is None
        else panel_reach(points, tasters, spread, repeats=repeats, coffees=coffees, alpha=alpha, power=power)
    )
    assumed = taster_sd is None or residual_sd is None
    return SizeAnswer(
        panels_in_words(needed, reach, assumed=assumed),
        {**plain(needed), "assumed_spread": assumed, "reach": plain(reach)},
    )


def simulated_table(design: Design, *, alpha: float = 0.05, draws: int = 4000, seed: int = 1) -> SizeAnswer:
    """How often drawn tables find a difference, beside what the formula says of a full one."""
    simulated = simulated_power(design, alpha=alpha, draws=draws, seed=seed)
    full = difference_power(
        design.points,
        design.tasters,
        design.spread,
        repeats=design.repeats,
        coffees=design.coffees,
        alpha=alpha,
    )
    return SizeAnswer(simulated_in_words(simulated, full), {**plain(simulated), "full_table": full})


def design_of(*, taster_sd: float | None, residual_sd: float | None, **fields: Any) -> Design:
    """A table to be drawn; spreads that are not given are the assumed ones."""
    return Design(spread=_spread(taster_sd, residual_sd), **fields)


def _spread(taster_sd: float | None, residual_sd: float | None) -> Spread:
    return Spread(
        ASSUMED_SPREAD.taster_coffee if taster_sd is None else taster_sd,
        ASSUMED_SPREAD.residual if residual_sd is None else residual_sd,
    )
