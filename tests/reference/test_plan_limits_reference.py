"""The limits of a table against published ones."""

from dataclasses import replace

import pytest

from cupwright.core.plan import limits as ours
from cupwright.core.plan.limits import Caution, limits
from cupwright.core.plan.protocol_file import builtin_protocol
from cupwright.core.plan.table import Plan
from cupwright.core.pour.caffeine import (
    A_DAY_MG,
    AT_ONCE_MG,
    PREGNANT_A_DAY_MG,
    SPOON_ML,
    brew_strength,
    caffeine_mg,
)
from cupwright.core.taste.sheet import Moment, Pass, Sheet
from cupwright.core.words.lexicon_checks import ALLERGENS

ROUNDS = (Moment.HOT, Moment.WARM, Moment.COOL)
SHEET = Sheet("s", 1, "S", tuple(Pass(moment, moment, "?", moment, ()) for moment in ROUNDS))
SIX_BY_FIVE = Plan(name="t", coffees=tuple("abcdef"), bowls_per_sample=5)


def about(plan: Plan, name: str) -> list[Caution]:
    return [one for one in limits(plan, SHEET, builtin_protocol("cupping")) if one.about == name]


def test_the_limits_of_caffeine_are_the_published_ones():
    """EFSA (2015): adults 200 mg at once and 400 mg a day; in pregnancy and breast-feeding 200 mg a day."""
    assert (AT_ONCE_MG, A_DAY_MG, PREGNANT_A_DAY_MG) == (200, 400, 200)


def test_an_immersion_brew_is_as_strong_as_measured():
    """Foods 2021, 10:1208, Table 1: 0.52 ± 0.06 g/L of 15 g in 250 mL (60 g/L)."""
    strength = brew_strength(60)

    assert strength.usual == pytest.approx(0.52)
    assert strength.usual - strength.low == pytest.approx(0.06)


def test_at_the_cupping_ratio_it_is_about_half_a_gram_a_litre_and_at_most_two_thirds():
    """Scaled from the same table to 55 g/L: about 0.48 g/L; ceiling 1.2 % of 55 g/L, 0.66 g/L."""
    strength = brew_strength(55)

    assert strength.usual == pytest.approx(0.48, abs=0.005)
    assert strength.high == pytest.approx(0.66)


@pytest.mark.parametrize(("spoon_ml", "low", "high"), [(4, 1.9, 2.0), (5, 2.3, 2.5)])
def test_a_spoon_holds_two_to_two_and_a_half_milligrams(spoon_ml: float, low: float, high: float):
    """4 to 5 mL (SCAA, "Cupping Standards") at 0.48 to 0.5 g/L: about 2 to 2.5 mg, by multiplication."""
    strength = brew_strength(55).usual

    assert low <= caffeine_mg(1, 1, spoon_ml=spoon_ml, strength=strength) <= high


def test_a_spoon_holds_at_most_three_and_a_third_milligrams():
    """5 mL at the ceiling of 0.66 g/L: 3.3 mg, by multiplication."""
    assert caffeine_mg(1, 1, spoon_ml=5, strength=brew_strength(55).high) == pytest.approx(3.3)


def test_the_worked_session_passes_the_single_dose_if_all_is_swallowed():
    """6 coffees, 5 cups, 3 rounds of 4.5 mL: 405 mL; at 0.5 g/L 202 mg, over EFSA's 200 at once."""
    assert 6 * 5 * 3 * SPOON_ML == 405
    assert caffeine_mg(30, 3) == pytest.approx(202, abs=1)
    assert caffeine_mg(30, 3) > AT_ONCE_MG


def test_the_worked_session_leaves_a_tenth_if_a_tenth_is_swallowed():
    """The same session at 10 % swallowed: about 20 mg."""
    assert caffeine_mg(30, 3, 0.1) == pytest.approx(20, abs=0.5)


def test_the_program_says_so_of_that_session():
    """The same 405 mL at 0.52 g/L * 55 / 60: 193 mg by hand, which may pass 200 mg; a tenth does not."""
    spat, swallowed = about(replace(SIX_BY_FIVE, swallowed=0.1), "caffeine")

    assert swallowed.size == pytest.approx(193, abs=0.5)
    assert swallowed.low < 202 < swallowed.high
    assert (swallowed.exceeded, spat.exceeded) == (True, False)
    assert spat.size == pytest.approx(20, abs=1)


def test_the_default_share_that_stays_lies_in_the_cautious_range():
    """No figure was found for what stays when one spits; 10 to 20 % is the cautious default, ours."""
    assert 0.10 <= Plan(name="t", coffees=("a",)).swallowed <= 0.20


def test_the_temperatures_of_the_first_taste_are_the_published_ones():
    """Brown & Diller (2008), Burns 34:648: optimum 57.8 °C (136 °F); IARC vol. 116: very hot above 65 °C."""
    assert pytest.approx((136 - 32) / 1.8, abs=0.05) == ours.COMFORTABLE_C
    assert ours.VERY_HOT_C == 65


def test_the_protocols_own_first_taste_lies_above_both():
    """Trade pages: about 71 °C; so the program cautions and lets a table start cooler."""
    (hot,) = about(SIX_BY_FIVE, "hot coffee")

    assert hot.exceeded
    assert about(replace(SIX_BY_FIVE, taste_from_c=57.8), "hot coffee") == []


def test_about_eight_samples_before_the_senses_tire():
    """Advice of a beer panel, a web page: about 8 a sitting; 5 to 8 coffees a table usual."""
    assert ours.SAMPLES_AT_A_SITTING == 8
    assert Plan(name="t", coffees=("a",)).flight == 8


def test_the_other_side_is_told_as_well():
    """Pereira et al. (2019), J. Texture Stud. 50:172: 7 graders, 144 samples, 3 days, no fatigue by shift."""
    assert "144 samples in three days" in about(SIX_BY_FIVE, "palate")[0].sentence


def test_there_are_fourteen_groups_of_allergens():
    """Regulation (EU) No 1169/2011, Annex II: fourteen groups; from memory."""
    assert len(ALLERGENS) == 14
    assert set(ours.REFERENCE_ALLERGENS) <= ALLERGENS
