"""Records of one taster: pooled over tables, refused where they do not belong together."""

import numpy as np
import pytest

from cupwright.core.analyse.scores import scores_of
from cupwright.core.analyse.taster_record import pool_records, taster_records
from cupwright.errors import Refused, TooFewObservations


def record(table, shift=0.0, taster=0, attribute="Total"):
    rng = np.random.default_rng(table)
    values = rng.normal(80, 2, (5, 1, 1)) + rng.normal(0, 0.5, (5, 4, 2))
    values[:, 0] += shift
    return taster_records(scores_of(values), table=str(table), attribute=attribute)[taster]


def test_one_record_is_handed_on():
    one = record(1)

    pooled = pool_records([one])

    assert pooled.bias == one.performance.bias
    assert pooled.repeatability.found.estimate == pytest.approx(one.performance.repeatability.found.estimate)
    assert pooled.bias_shift is None


def test_more_tables_say_more():
    many = pool_records([record(n, -1.0) for n in range(8)])
    few = pool_records([record(n, -1.0) for n in range(3)])

    assert many.bias.found.low < -1 < many.bias.found.high < 0
    assert many.bias.found.high - many.bias.found.low < few.bias.found.high - few.bias.found.low
    assert many.tables == 8
    assert many.coffees == 40
    assert many.repeatability.freedom == 40


def test_a_level_that_moves_from_table_to_table_is_not_taken_for_certainty():
    steady = pool_records([record(n, -1.0) for n in range(6)])
    moving = pool_records([record(n, -1.0 + (-1) ** n) for n in range(6)])

    assert moving.bias_shift > 0.8 > steady.bias_shift
    assert moving.bias.found.high - moving.bias.found.low > 2 * (
        steady.bias.found.high - steady.bias.found.low
    )


def test_order_of_records_does_not_matter():
    records = [record(n) for n in range(4)]

    assert pool_records(records).bias.found.estimate == pytest.approx(
        pool_records(records[::-1]).bias.found.estimate, abs=1e-12
    )


def test_records_of_two_people_twice_one_table_and_none_are_refused():
    with pytest.raises(Refused, match="several tasters"):
        pool_records([record(1), record(2, taster=1)])
    with pytest.raises(Refused, match="twice"):
        pool_records([record(1), record(1)])
    with pytest.raises(TooFewObservations):
        pool_records([])
