"""The protocols against what is printed of the public cupping protocol and of competition practice."""

import pytest

from cupwright.core.plan.protocol import Band, Rule, Stage
from cupwright.core.plan.protocol_file import builtin_protocol

CUPPING = builtin_protocol("cupping")


def rule(what: str) -> Rule:
    return next(one for one in CUPPING.rules if one.what == what)


def stage(title: str) -> Stage:
    return next(one for one in CUPPING.stages if one.title == title)


def test_the_ratio_is_the_printed_one():
    """SCAA, "Cupping Standards" (web page): 8.25 g ± 0.25 g whole bean per 150 mL; 0.055 g/mL."""
    assert CUPPING.ratio is not None
    assert (CUPPING.ratio.grams, CUPPING.ratio.tolerance_g, CUPPING.ratio.per_ml) == (8.25, 0.25, 150)
    assert CUPPING.ratio.exact == 55


def test_the_tolerance_of_the_ratio_is_three_in_a_hundred():
    """The same page: 0.25 of 8.25 g is 3.03 %, ± 0.00167 g/mL, by division."""
    assert CUPPING.ratio is not None
    assert float(CUPPING.ratio.tolerance) * 100 == pytest.approx(3.03, abs=0.005)
    assert float(CUPPING.ratio.tolerance) * 0.055 == pytest.approx(0.00167, abs=0.000005)


def test_the_vessel_of_the_standards_page():
    """SCAA, "Cupping Standards": glass or ceramic, 207 to 266 mL (7 to 9 fl oz), top 76 to 89 mm."""
    page = CUPPING.vessels[0]

    assert (page.low_ml, page.high_ml) == (207, 266)
    assert (page.low_ml / 29.5735, page.high_ml / 29.5735) == (
        pytest.approx(7, abs=0.01),
        pytest.approx(9, abs=0.01),
    )
    assert (rule("Bowl").low, rule("Bowl").high, rule("Bowl").unit) == (76, 89, "mm")


def test_the_vessels_of_the_2009_protocol():
    """SCAA, "Protocols: Cupping Specialty Coffee" (2009): bowl of 175 to 225 mL, tumbler of 5 to 6 fl oz."""
    bowl, tumbler = CUPPING.vessels[1:]

    assert (bowl.low_ml, bowl.high_ml) == (175, 225)
    # 147.9 and 177.4 mL, rounded outward
    assert tumbler.low_ml <= 5 * 29.5735 <= tumbler.low_ml + 1
    assert tumbler.high_ml - 1 <= 6 * 29.5735 <= tumbler.high_ml


def test_five_cups_of_each_sample():
    """A trade page on the 2004 form, whose counted boxes assume five cups; the clause itself from memory."""
    assert CUPPING.bowls is not None
    assert CUPPING.bowls.least == 5


def test_the_water_is_the_printed_one():
    """SCAA, "Cupping Standards": 200 ± 2 °F, printed with 92.2 to 94.4 °C, at the grounds."""
    assert CUPPING.water is not None
    assert (CUPPING.water.low, CUPPING.water.high) == (92.2, 94.4)
    assert [(f - 32) / 1.8 for f in (198, 202)] == [
        pytest.approx(92.2, abs=0.05),
        pytest.approx(94.4, abs=0.05),
    ]


def test_the_rest_is_the_printed_one():
    """SCAA, "Cupping Standards": coffee is used 8 to 24 h after its roast."""
    assert CUPPING.rest is not None
    assert (CUPPING.rest.low, CUPPING.rest.high) == (8, 24)


def test_the_grind_is_the_printed_one():
    """SCAA, "Cupping Standards": 70 to 75 % by mass passes No. 20; its 850 µm is ASTM E11, from memory."""
    assert (rule("Grind").low, rule("Grind").high, rule("Grind").unit) == (70, 75, "%")
    assert "No. 20 sieve (850 µm)" in rule("Grind").asks


def test_dry_grounds_are_smelled_within_a_quarter_of_an_hour():
    """Two trade pages that restate the protocol: fragrance within 15 min of grinding."""
    assert (rule("Smelling the dry grounds").high, rule("Smelling the dry grounds").unit) == (15, "min")


def test_water_comes_within_a_quarter_of_an_hour_or_half_an_hour_if_covered():
    """From memory: at most 15 min after grinding, else covered and within 30 min."""
    assert rule("Pouring").high == 15
    assert "covered, at most 30 min" in rule("Pouring").asks


def test_the_roast_time_is_the_printed_one():
    """SCAA (2009) and "Cupping Standards": 8 to 12 min, air cooled, without water."""
    assert (rule("Roast time").low, rule("Roast time").high, rule("Roast time").unit) == (8, 12, "min")


def test_the_roast_colour_is_the_printed_one():
    """SCAA, "Cupping Standards": ground 63.0 ± 1.0 on the gourmet scale, 48.0 on the commercial one."""
    assert (rule("Roast colour").low, rule("Roast colour").high) == (62, 64)
    assert "48" in rule("Roast colour").asks


def test_the_colour_is_measured_half_an_hour_to_four_hours_after_the_roast():
    """SCAA, "Cupping Standards": 30 min to 4 h after the roast, on coffee at room temperature."""
    assert (rule("Measuring the colour").low, rule("Measuring the colour").high) == (0.5, 4)


def test_the_minerals_are_those_of_the_2009_protocol():
    """From memory: ideal 125 to 175 mg/L, not less than 100 nor more than 250, not distilled or softened."""
    asked = rule("Minerals in the water")

    assert (asked.low, asked.high, asked.unit) == (125, 175, "mg/L")
    assert "100 or over 250" in asked.asks


def test_the_crust_steeps_three_to_five_minutes():
    """Trade pages (3 or 4 min), read; 3 to 5 min as a whole from memory."""
    assert CUPPING.crust is not None
    assert (CUPPING.crust.earliest_s, CUPPING.crust.latest_s) == (3 * 60, 5 * 60)
    assert CUPPING.timing.break_at_s == 4 * 60


def test_the_first_taste_comes_after_eight_to_ten_minutes_near_71_degrees():
    """Two trade pages that restate the protocol: about 71 °C (160 °F), 8 to 10 min after the pour."""
    assert (CUPPING.taste.from_s, CUPPING.taste.to_s) == (8 * 60, 10 * 60)
    assert CUPPING.taste.about_c == pytest.approx((160 - 32) / 1.8, abs=0.2)


def test_the_rounds_come_at_the_printed_temperatures():
    """The same pages: 71 to 60 °C (160 to 140 °F), below 37 to 38 °C (100 °F); 21 °C (70 °F) from memory."""
    second, third = stage("Acidity, body, balance"), stage("Sweetness, uniformity, clean cup")

    assert (second.from_c, second.to_c) == (71, 60)
    assert third.from_c == pytest.approx((100 - 32) / 1.8, abs=0.25)
    assert third.to_c == pytest.approx((70 - 32) / 1.8, abs=0.2)


def test_the_spoon_is_the_printed_one():
    """SCAA, "Cupping Standards": 4 to 5 mL, of metal that does not react."""
    assert Band(4, 5, CUPPING.spoon.source if CUPPING.spoon else "") == CUPPING.spoon


def test_a_sitting_takes_about_three_quarters_of_an_hour():
    """One trade page: about 45 min from the set-up of a sample to done; low confidence."""
    assert CUPPING.session is not None
    assert CUPPING.session.minutes == 45


def test_brews_are_tasted_near_70_and_40_degrees_and_the_rooms_own():
    """Competition practice, from memory: the same cup near 70, 40 and the room's temperature."""
    hot, warm, cool = builtin_protocol("brew").stages

    assert hot.to_c is not None
    assert hot.from_c is not None
    assert hot.to_c <= 70 <= hot.from_c
    assert warm.to_c is not None
    assert warm.from_c is not None
    assert warm.to_c <= 40 <= warm.from_c
    assert cool.to_c == 21
