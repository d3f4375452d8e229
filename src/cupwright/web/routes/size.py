"""Size: how many tasters, bowls and right answers, with the sentences of `cupwright size`."""

from typing import Annotated, Any

from fastapi import APIRouter, Path, Query

from cupwright.web.who import DeskOnly
from cupwright.web.wire import FAR_AHEAD_MS

router = APIRouter(prefix="/api/size", tags=["size"], dependencies=[DeskOnly])

Called = Annotated[str, Path(max_length=40)]
Number = Annotated[float, Query(allow_inf_nan=False)]
Whole = Annotated[int, Query(ge=-FAR_AHEAD_MS, le=FAR_AHEAD_MS)]

# The numerical libraries take longer to load than the whole rest of the server: each route imports its step.


@router.get("/difference")
def panel_for_difference(
    *,
    points: Number,
    taster_sd: Number | None = None,
    residual_sd: Number | None = None,
    most_bowls: Whole = 5,
    coffees: Whole = 2,
    tasters: Whole | None = None,
    bowls: Whole = 1,
    power: Number = 0.9,
    alpha: Number = 0.05,
) -> dict[str, Any]:
    """Tasters and bowls for a difference in points; with `tasters`, also what that panel can do."""
    from cupwright.steps import size as steps

    return steps.panel_for_difference(
        points,
        taster_sd=taster_sd,
        residual_sd=residual_sd,
        most_repeats=most_bowls,
        coffees=coffees,
        tasters=tasters,
        repeats=bowls,
        alpha=alpha,
        power=power,
    ).as_data


@router.get("/simulation")
def simulated_table(
    *,
    points: Number,
    tasters: Whole,
    coffees: Whole = 2,
    samples_each: Whole = 0,
    bowls: Whole = 1,
    taster_sd: Number | None = None,
    residual_sd: Number | None = None,
    step: Number = 0.0,
    lost: Number = 0.0,
    alpha: Number = 0.05,
    draws: Whole = 2000,
    seed: Whole = 1,
) -> dict[str, Any]:
    """How often drawn tables find a difference; the same seed draws the same."""
    from cupwright.steps import size as steps

    design = steps.design_of(
        taster_sd=taster_sd,
        residual_sd=residual_sd,
        points=points,
        tasters=tasters,
        coffees=coffees,
        samples_each=samples_each,
        repeats=bowls,
        step=step,
        lost=lost,
    )
    return steps.simulated_table(design, alpha=alpha, draws=draws, seed=seed).as_data


@router.get("/{method}")
def tasters_for_test(
    method: Called,
    *,
    discriminators: Number | None = None,
    dprime: Number | None = None,
    power: Number = 0.9,
    alpha: Number = 0.05,
) -> dict[str, Any]:
    """How many tasters a test of difference needs, from the share who can tell or from d'."""
    from cupwright.steps import size as steps

    return steps.tasters_for_test(
        steps.method_called(method), discriminators=discriminators, dprime=dprime, alpha=alpha, power=power
    ).as_data


@router.get("/{method}/counts")
def counts_for_test(
    method: Called,
    *,
    of: Whole,
    discriminators: Number | None = None,
    dprime: Number | None = None,
    power: Number = 0.9,
    alpha: Number = 0.05,
) -> dict[str, Any]:
    """How many right answers of so many show a difference, or likeness."""
    from cupwright.steps import size as steps

    return steps.counts_for_test(
        steps.method_called(method),
        of,
        discriminators=discriminators,
        dprime=dprime,
        alpha=alpha,
        power=power,
    ).as_data


@router.get("/{method}/result")
def result_of_test(method: Called, right: Whole, of: Whole, level: Number = 0.95) -> dict[str, Any]:
    """How sure a finished test is."""
    from cupwright.steps import size as steps

    return steps.result_of_test(steps.method_called(method), right, of, level=level).as_data
