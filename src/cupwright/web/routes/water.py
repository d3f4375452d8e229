"""Water: units and ranges for a form, an amount in every unit, waters judged and mixed. Nothing is kept."""

from typing import Annotated

from fastapi import APIRouter, Query

from cupwright.web.shown_water import MixShown, WaterAnswer, WaterKnown, WaterShown, water_known
from cupwright.web.who import DeskOnly
from cupwright.web.wire_water import MixIn

router = APIRouter(prefix="/api/water", tags=["pour"], dependencies=[DeskOnly])

Written = Annotated[str, Query(max_length=100)]


@router.get("/known")
def known() -> WaterKnown:
    """The parameters with their units, the salts, and the published ranges."""
    return water_known()


@router.get("/units")
def units(amount: Written) -> dict[str, float]:
    """A hardness or alkalinity such as "12 dH" in every unit."""
    from cupwright.core.pour.water_units import conversions, split_amount

    return conversions(*split_amount(amount, "hardness"))


@router.post("/mix")
def mix_water(body: MixIn) -> WaterAnswer:
    """The sources judged and, with a target or a range, what to mix for it."""
    from cupwright.core.pour.water_mix import mix
    from cupwright.core.pour.water_words import mix_as_data, water_as_data

    wish = body.wish()
    sources = [WaterShown.model_validate(water_as_data(source)) for source in wish.sources]
    if wish.target is None and wish.into is None:
        return WaterAnswer(sources=sources, mix=None)
    return WaterAnswer(sources=sources, mix=MixShown.model_validate(mix_as_data(mix(wish), wish)))
