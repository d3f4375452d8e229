"""A table's scales as scores: places as repeats, turns, liking first, totals before all."""

import numpy as np
from tests.unit.core.analyse.tables import (
    NORTH,
    SOUTH,
    TWO_CODES,
    answers_of,
    note,
    small_table_answers,
    table_of,
)

from cupwright.core.analyse.table_scores import table_scores


def test_each_answered_scale_has_its_scores_with_liking_first():
    table = table_of(2, tuple(TWO_CODES))
    answers = answers_of(
        table,
        [note(1, "241", "flavour/weight", 30.0), note(1, "573", "verdict/liking", 60.0)],
        TWO_CODES,
    )

    found = table_scores(answers)

    assert list(found) == ["Liking", "Weight"]
    assert (found["Liking"].coffees, found["Liking"].tasters) == (("South Slope",), ("Taster 1",))
    assert found["Weight"].value.tolist() == [30]


def test_an_unanswered_sheet_has_no_scores():
    assert table_scores(answers_of(table_of(2, tuple(TWO_CODES)), [], TWO_CODES)) == {}


def test_places_of_one_coffee_are_repeats_in_the_order_of_the_tasters_own_turns():
    places = {"241": NORTH.id, "573": SOUTH.id, "860": NORTH.id}
    table = table_of(1, ("860", "573", "241"))
    answers = answers_of(
        table,
        [
            note(1, place, "verdict/liking", value)
            for place, value in zip(places, (50.0, 60.0, 70.0), strict=True)
        ],
        places,
    )

    liking = table_scores(answers)["Liking"]

    by_value = dict(zip(liking.value, zip(liking.repeat, liking.position, strict=True), strict=True))
    assert by_value == {50: (1, 3), 60: (0, 2), 70: (0, 1)}


def test_nobody_knows_the_temperature_at_a_table_whose_clock_never_ran():
    _, answers = small_table_answers()

    liking = table_scores(answers)["Liking"]

    assert liking.temperature is None
    assert liking.means.shape == (2, 3)
    assert np.isnan(liking.means[1, 2])
