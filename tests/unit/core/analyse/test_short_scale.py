import numpy as np
import pytest

from cupwright.core.analyse.scores import scores_of
from cupwright.core.analyse.short_scale import coffees_by_order, is_short
from cupwright.errors import TooLarge

TABLE = np.array([[4, 5, 4], [2, 3, 3], [3, 3, 2]], float)


def test_few_whole_steps_are_a_short_scale():
    assert is_short(scores_of(TABLE))
    assert is_short(scores_of(TABLE + 78))


@pytest.mark.parametrize(
    "table",
    [TABLE / 4, TABLE * 5, TABLE[:, :1], TABLE[:1]],
    ids=["quarters", "wide", "one taster", "one coffee"],
)
def test_quarter_steps_wide_ranges_and_single_tasters_or_coffees_are_not(table):
    assert not is_short(scores_of(table))


def test_no_scores_are_no_scale():
    assert not is_short(None)


def test_more_coffees_than_a_report_waits_for_are_refused():
    with pytest.raises(TooLarge, match="up to 20 coffees and 1,000 scores"):
        coffees_by_order(scores_of(np.tile(TABLE, (7, 1))))
