"""The standard: the numbers against which a recipe is held. A protocol brings its own."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class RecipeStandard:
    """Grams, millilitres, degrees Celsius; None where a standard leaves a thing open: no warning then.

    A dose may miss by `tolerance_g` for every `tolerance_ml` of water. `pour_c` is the range at the grounds,
    `bowl_ml` that of the vessels. `water_allowance` is the share of water on top of what goes into the bowls.

    Source of the defaults: [SCAA-standards], 8.25 g ± 0.25 g for 150 mL, to be scaled by 0.055 g/mL; water
    at 200 ± 2 °F, printed with 92.2 to 94.4 °C. The two editions disagree on the vessel: 5 to 6 fl oz or 175
    to 225 mL in one [SCAA-cupping-2009], 207 to 266 mL in the other. What stays in the kettle, steams away,
    warms and rinses spoons: common practice, no source.
    """

    name: str = "the cupping standard"
    grams_per_litre: float | None = 55.0
    tolerance_g: float | None = 0.25
    tolerance_ml: float = 150.0
    pour_c: tuple[float, float] | None = (92.2, 94.4)
    bowl_ml: tuple[float, float] | None = (147.0, 266.0)
    water_allowance: float = 0.15


CUPPING_STANDARD = RecipeStandard()
