"""The wire, inward: waters, concentrates and what is wanted of their mix."""

from typing import Annotated

from pydantic import Field

from cupwright.core.pour.concentrate import concentrate
from cupwright.core.pour.water import Water, analysis, parameter_called
from cupwright.core.pour.water_mix import MixWish
from cupwright.core.pour.water_ranges import range_called
from cupwright.core.pour.water_units import to_own_unit
from cupwright.errors import Refused
from cupwright.web.wire import Amount, Name, Wire

_MOST = 50


class AmountIn(Wire):
    """A number and its unit; only a pH may be without."""

    value: Amount
    unit: Name = ""


Amounts = Annotated[dict[Name, AmountIn], Field(max_length=_MOST)]


class WaterIn(Wire):
    """A water at hand: amounts by parameter."""

    name: Name
    analysis: Amounts

    def water(self) -> Water:
        """The core's value. Raises Refused as it does."""
        return analysis(_named(self.name), in_own_units(self.analysis))


class ConcentrateIn(Wire):
    """A recipe: grams of each salt in one litre of deionised water."""

    name: Name
    grams_per_litre: Annotated[dict[Name, Amount], Field(max_length=_MOST)]


class MixIn(Wire):
    """What is at hand and wanted; without target and range the sources are only judged."""

    sources: Annotated[list[WaterIn], Field(max_length=_MOST, default_factory=list)]
    concentrates: Annotated[list[ConcentrateIn], Field(max_length=_MOST, default_factory=list)]
    deionised: bool = True
    target: Amounts | None = None
    range: Name | None = None
    litres: Amount = 1.0
    scale_step_g: Amount = 0.1

    def wish(self) -> MixWish:
        """The core's value. Raises Refused as it does."""
        return MixWish(
            litres=self.litres,
            sources=tuple(source.water() for source in self.sources),
            concentrates=tuple(
                concentrate(_named(recipe.name), recipe.grams_per_litre) for recipe in self.concentrates
            ),
            deionised=self.deionised,
            target=None if self.target is None else in_own_units(self.target),
            into=None if self.range is None else range_called(self.range),
            scale_step_g=self.scale_step_g,
        )


def _named(name: str) -> str:
    if not name.strip():
        raise Refused("A water or concentrate has no name.", todo="Give it one.", about="name")
    return name.strip()


def in_own_units(amounts: dict[str, AmountIn]) -> dict[str, float]:
    """Parameter to value in the program's own unit. Raises Refused for a unit that does not fit."""
    found: dict[str, float] = {}
    for written, amount in amounts.items():
        parameter = parameter_called(written)
        if parameter in found:
            raise Refused(f"'{parameter}' is given twice.", todo="Leave one out.", about=parameter)
        found[parameter] = to_own_unit(amount.value, amount.unit, parameter)
    return found
