"""The times of the usual protocol against what is printed of them."""

from cupwright.core.plan.protocol_file import builtin_protocol
from cupwright.core.pour.timing import STANDARD_TIMING

MINUTE = 60


def test_the_crust_is_broken_after_three_to_five_minutes():
    """[SCAA-cupping-2009] and trade pages: steep 3 to 5 min, then break (5 from memory)."""
    assert STANDARD_TIMING.break_earliest_s == 3 * MINUTE
    assert STANDARD_TIMING.break_latest_s == 5 * MINUTE
    assert 3 * MINUTE <= STANDARD_TIMING.break_at_s <= 4 * MINUTE


def test_the_first_taste_is_eight_to_ten_minutes_after_the_pour():
    """Two trade pages that restate the protocol: about 71 °C, 8 to 10 min after the pour."""
    assert (STANDARD_TIMING.taste_from_s, STANDARD_TIMING.taste_to_s) == (8 * MINUTE, 10 * MINUTE)


def test_the_protocol_that_comes_with_the_program_has_those_times():
    """The same sources, as they stand in protocols/cupping.toml."""
    assert builtin_protocol("cupping").timing == STANDARD_TIMING
