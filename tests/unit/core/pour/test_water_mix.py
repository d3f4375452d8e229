"""Mixes: what to pour together, and what cannot be reached."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.pour.concentrate import SALTS, concentrate
from cupwright.core.pour.mix_bands import MIXED
from cupwright.core.pour.water import analysis, read_analysis
from cupwright.core.pour.water_mix import MixWish, mix
from cupwright.core.pour.water_ranges import RANGES, Verdict, judged
from cupwright.errors import Refused, TooLarge

TAP = read_analysis("tap water", {"hardness": "12 °dH", "alkalinity": "8 °dKH"})
MAGNESIUM = concentrate("M", {"Epsom salt": 10})
CALCIUM = concentrate("C", {"calcium chloride dihydrate": 15})
BUFFER = concentrate("B", {"sodium bicarbonate": 16.8})
TARGET = {"hardness": 68.0, "alkalinity": 40.0}


def wish(**changed) -> MixWish:
    usual = {"litres": 4.0, "sources": (TAP,), "concentrates": (MAGNESIUM, BUFFER), "target": TARGET}
    return MixWish(**(usual | changed))


def names(mixed) -> list[str]:
    return [part.name for part in mixed.parts]


def test_a_target_within_reach_is_met_with_the_fewest_ingredients():
    mixed = mix(wish())

    assert mixed.feasible
    assert names(mixed) == ["tap water", "deionised water", "M"]
    assert mixed.water.hardness == pytest.approx(68, rel=0.01)
    assert mixed.water.alkalinity == pytest.approx(40, rel=0.01)


def test_from_deionised_water_alone_both_concentrates_are_needed_and_the_dose_is_that_by_hand():
    mixed = mix(wish(sources=()))

    # 68 mg/L as CaCO3 of magnesium is 68 / 100.0869 mmol/L of a salt of 246.47 g/mol: 0.16746 g/L of salt.
    dose = next(part for part in mixed.parts if part.name == "M")
    assert dose.grams * 10 / 1008.2 == pytest.approx(4 * 0.16746, rel=1e-4)
    assert names(mixed) == ["deionised water", "M", "B"]


def test_a_target_out_of_reach_gives_the_nearest_and_says_what_misses():
    mixed = mix(wish(concentrates=(), target={"hardness": 68.0, "alkalinity": 60.0}))

    assert not mixed.feasible
    hardness, alkalinity = mixed.reached
    assert hardness.miss > 0 > alkalinity.miss
    assert hardness.value == pytest.approx(75.995, abs=0.001)
    assert alkalinity.miss == pytest.approx(alkalinity.value - 59.4)


def test_without_deionised_water_a_hard_water_cannot_be_made_softer():
    mixed = mix(wish(deionised=False))

    assert not mixed.feasible
    assert names(mixed) == ["tap water"]


@pytest.mark.parametrize("key", RANGES)
def test_into_a_range_means_inside_every_band_that_is_known(key):
    mixed = mix(wish(sources=(), concentrates=(CALCIUM, BUFFER), target=None, into=RANGES[key]))

    verdicts = {one.band.parameter: one.verdict for one in judged(mixed.measured, RANGES[key])}
    assert mixed.feasible
    assert verdicts.pop("ph") is Verdict.UNKNOWN
    assert set(verdicts.values()) == {Verdict.INSIDE}


def test_into_a_range_fewest_ingredients_go_before_nearness():
    mixed = mix(wish(target=None, into=RANGES["newer"]))

    assert names(mixed) == ["tap water", "deionised water"]


def test_a_range_out_of_reach_says_so_and_names_the_parameter():
    mixed = mix(wish(sources=(), concentrates=(MAGNESIUM, BUFFER), target=None, into=RANGES["2009"]))

    assert not mixed.feasible
    assert [(one.parameter, one.miss) for one in mixed.reached if one.miss] == [("calcium", -17.0)]


def test_a_hardness_without_a_split_is_held_to_the_band_for_calcium_and_that_is_said():
    mixed = mix(wish(target=None, into=RANGES["2009"]))

    assert any("whole hardness was held to the band for calcium" in sentence for sentence in mixed.complaints)
    assert any("The TDS of tap water is not known" in sentence for sentence in mixed.complaints)
    assert {one.parameter for one in mixed.reached} == {"hardness", "alkalinity"}
    assert mixed.not_held == ("tds", "calcium", "sodium")


def test_a_range_of_which_nothing_is_known_is_refused():
    with pytest.raises(Refused, match="Nothing that the newer trade chart asks for is known"):
        mix(wish(sources=(analysis("tap", {"sodium": 10.0}),), target=None, into=RANGES["newer"]))


def test_a_target_goes_before_a_range():
    mixed = mix(wish(into=RANGES["newer"]))

    assert {one.parameter: one.aim for one in mixed.reached} == TARGET


def test_the_scales_step_changes_what_is_measured_out_and_the_error_shows():
    mixed = mix(wish(scale_step_g=1.0))

    part = mixed.parts[-1]
    assert part.measured_grams == 8.0
    assert part.grams == pytest.approx(7.945, abs=0.001)
    hardness = mixed.reached[0]
    assert hardness.measured - hardness.value == pytest.approx(0.055 * 4.0607 / 1.0082 / 4, abs=0.01)


def test_a_scale_too_coarse_is_complained_of():
    mixed = mix(wish(litres=0.5, scale_step_g=2.0))

    assert any("The scale's step of 2 g leaves M at 0 g" in sentence for sentence in mixed.complaints)


def test_chlorine_is_not_mixed_away():
    chlorinated = replace(TAP, chlorine=0.4)

    mixed = mix(wish(sources=(chlorinated,)))

    assert any("active carbon" in sentence for sentence in mixed.complaints)


def test_the_ph_of_a_mix_stays_unknown():
    assert mix(wish(sources=(replace(TAP, ph=7.4),))).water.ph is None


def test_what_one_used_water_does_not_say_the_mix_does_not_say_either():
    other = read_analysis("well", {"hardness": "1 °dH", "alkalinity": "1 °dKH", "sodium": "5 mg/L"})

    mixed = mix(wish(sources=(TAP, other), deionised=False, concentrates=()))

    assert mixed.water.sodium is None
    assert mixed.water.hardness is not None


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"litres": 0.0}, "A mix cannot be 0 L."),
        ({"litres": -1.0}, "A mix cannot be -1 L."),
        ({"litres": math.nan}, "A mix cannot be nan L."),
        ({"scale_step_g": 0.0}, "A scale cannot have a step of 0 g."),
        ({"scale_step_g": math.nan}, "A scale cannot have a step of nan g."),
        ({"target": None}, "Nothing is wanted of the mix."),
        ({"target": {}}, "The target names nothing."),
        ({"target": {"ph": 7.0}}, "pH cannot be set by mixing"),
        ({"target": {"chlorine": 0.0}}, "Free chlorine cannot be set by mixing"),
        ({"target": {"hardness": -5.0}}, "The target for total hardness cannot be -5."),
        ({"target": {"sodium": 10.0}}, "The sodium of tap water is not known"),
        ({"sources": (), "deionised": False}, "There is no water to mix."),
        ({"sources": (TAP, TAP)}, "Two ingredients are called tap water."),
    ],
)
def test_a_wish_that_cannot_be_is_refused_in_one_sentence(changed, sentence):
    with pytest.raises(Refused) as refusal:
        mix(wish(**changed))

    assert sentence in refusal.value.message
    assert refusal.value.todo


def test_more_ingredients_than_can_be_searched_are_refused():
    many = tuple(replace(TAP, name=f"tap {n}") for n in range(9))

    with pytest.raises(TooLarge):
        mix(wish(sources=many))


def test_two_mixes_of_the_same_wish_are_the_same():
    assert mix(wish()) == mix(wish())


WATERS = st.fixed_dictionaries(
    {
        parameter: st.floats(0, 400)
        for parameter in (
            "calcium",
            "magnesium",
            "alkalinity",
            "sodium",
            "potassium",
            "chloride",
            "sulphate",
            "tds",
        )
    }
    | {"nitrate": st.floats(0, 50)}
)
RECIPES = st.dictionaries(
    st.sampled_from([salt.name for salt in SALTS]), st.floats(0.1, 2), min_size=1, max_size=3
)


@settings(deadline=None, max_examples=60)
@given(
    litres=st.floats(0.05, 500),
    waters=st.lists(WATERS, min_size=1, max_size=2),
    recipes=st.lists(RECIPES, max_size=2),
    target=st.dictionaries(st.sampled_from(MIXED), st.floats(0, 300), min_size=1, max_size=4),
    into=st.sampled_from([None, *RANGES.values()]),
)
def test_every_mix_closes_its_balance_of_mass_and_volume(litres, waters, recipes, target, into):
    sources = tuple(analysis(f"w{number}", values) for number, values in enumerate(waters))
    made = tuple(concentrate(f"c{number}", salts) for number, salts in enumerate(recipes))

    mixed = mix(
        MixWish(litres=litres, sources=sources, concentrates=made, into=into, target=None if into else target)
    )

    carries = {source.name: (source, 1.0) for source in sources} | {
        one.name: (one.per_ml, 1000.0) for one in made
    }
    assert all(part.litres > 0 for part in mixed.parts)
    assert math.fsum(part.litres for part in mixed.parts) == pytest.approx(litres, rel=1e-9)
    for parameter in MIXED:
        carried = math.fsum(
            carries[part.name][0].of(parameter) * carries[part.name][1] * part.litres
            for part in mixed.parts
            if part.name in carries
        )
        assert mixed.water.of(parameter) * litres == pytest.approx(carried, rel=1e-9, abs=1e-9)
    # "Cannot" and "does" agree with what is shown.
    assert mixed.feasible == all(one.miss == 0 for one in mixed.reached)
