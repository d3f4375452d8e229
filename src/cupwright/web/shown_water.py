"""The wire, outward: waters judged, a mix, and which units, salts and ranges there are."""

from cupwright.core.pour.concentrate import SALTS
from cupwright.core.pour.water_ranges import RANGES, said
from cupwright.core.pour.water_units import UNITS
from cupwright.web.shape import Shown

# Of each parameter, mg/L or mg/L as CaCO3; null is not known.
Analysis = dict[str, float | None]


class JudgementShown(Shown):
    """One parameter against its band; `low_value` and `high_value` differ where a split is not known."""

    parameter: str
    low: float
    high: float
    target: float | None
    published: bool
    low_value: float | None
    high_value: float | None
    verdict: str
    distance: float | None
    from_target: float | None
    words: str


class WaterShown(Shown):
    """An analysis, where it lies in each published range, and what cannot be true of it."""

    name: str
    analysis: Analysis
    ranges: dict[str, list[JudgementShown]]
    complaints: list[str]


class PartShown(Shown):
    """An ingredient of a mix: `kind` is water, deionised or concentrate; grams only of a concentrate."""

    name: str
    kind: str
    litres: float
    grams: float | None
    measured_litres: float
    measured_grams: float | None


class ReachedShown(Shown):
    """A wanted parameter: bounds and aim, what the exact mix has, its miss, what is measured out."""

    parameter: str
    low: float
    high: float
    aim: float
    value: float
    miss: float
    measured: float


class MixShown(Shown):
    """A mix; where it is not feasible, the nearest that can be reached."""

    sentence: str
    reached_sentence: str
    litres: float
    feasible: bool
    parts: list[PartShown]
    reached: list[ReachedShown]
    not_held: list[str]
    exact: Analysis
    mix: WaterShown
    ph: str
    ph_in_air: float | None
    complaints: list[str]
    cautions: list[str]


class WaterAnswer(Shown):
    """The sources as they were understood, and the mix if one was wanted."""

    sources: list[WaterShown]
    mix: MixShown | None


class ParameterShown(Shown):
    """A parameter of an analysis, its name for a screen, and its units, the program's own first."""

    parameter: str
    label: str
    units: list[str]


class SaltShown(Shown):
    """A salt for concentrates, and how many grams of it a litre dissolves."""

    name: str
    formula: str
    soluble_g: float


class RangeShown(Shown):
    """A published range by its key."""

    key: str
    title: str
    source: str


class WaterKnown(Shown):
    """What a form about water can offer."""

    parameters: list[ParameterShown]
    salts: list[SaltShown]
    ranges: list[RangeShown]


def water_known() -> WaterKnown:
    """All units, salts and ranges."""
    return WaterKnown(
        parameters=[
            ParameterShown(parameter=key, label=said(key), units=[unit.name for unit in units])
            for key, units in UNITS.items()
        ],
        salts=[SaltShown(name=s.name, formula=s.formula, soluble_g=s.soluble_g) for s in SALTS],
        ranges=[RangeShown(key=r.key, title=r.title, source=r.source) for r in RANGES.values()],
    )
