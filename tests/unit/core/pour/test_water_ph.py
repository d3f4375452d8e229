"""The pH at which water rests in air."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.pour.water_ph import ph_in_air
from cupwright.errors import Refused


@given(alkalinity=st.floats(0, 500), more=st.floats(1, 100))
def test_more_alkalinity_rests_at_a_higher_ph(alkalinity, more):
    assert ph_in_air(alkalinity + more) > ph_in_air(alkalinity)


@given(alkalinity=st.floats(0, 500))
def test_more_carbon_dioxide_rests_at_a_lower_ph(alkalinity):
    assert ph_in_air(alkalinity, co2_atm=1e-3) < ph_in_air(alkalinity)


@pytest.mark.parametrize("alkalinity", [float("nan"), -1.0])
def test_an_alkalinity_that_cannot_be_is_refused(alkalinity):
    with pytest.raises(Refused, match="An alkalinity cannot be"):
        ph_in_air(alkalinity)
