"""The map of a table: all kinds together, levels out, silence where the panel is small."""

import numpy as np
import pytest

from cupwright.core.analyse.map_answers import POINTS, WORDS, AnswerKind, MapAnswers
from cupwright.core.analyse.table_map import table_map
from cupwright.errors import NoSpread, Refused, TooFewObservations

RNG = np.random.default_rng(21)
TRUE = np.array([[0.0, 0], [0.2, 0.1], [5, 1], [-4, 3]])
LOADINGS = np.array([[1.0, -1, 0.5], [0.3, 0.2, 1]])
POINTED = TRUE @ LOADINGS + 0.6 * RNG.normal(size=(6, 4, 3)) + RNG.normal(size=(6, 1, 3))
SAID = (RNG.random((6, 4, 4)) < 1 / (1 + np.exp(-TRUE @ RNG.normal(size=(2, 4))))).astype(float)
COFFEES = ("421", "708", "533", "915")


def kind(name, values, *, scaled=True):
    columns = tuple(f"{name} {one}" for one in range(values.shape[2]))
    return AnswerKind(name, columns, ("",) * len(columns), values, scaled)


def asked(*kinds, coffees=COFFEES):
    return MapAnswers(coffees, tuple(f"Taster {one}" for one in range(len(kinds[0].values))), kinds)


def test_regions_stand_around_the_places_of_the_map():
    found = table_map(asked(kind(POINTS, POINTED), kind(WORDS, SAID, scaled=False)))

    assert found.beyond_chance
    assert found.regions is not None
    assert found.regions.centres == pytest.approx(found.factor.points[:, :2])
    assert found.kinds == (POINTS, WORDS)


def test_tasters_levels_and_units_of_scales_change_nothing():
    moved = POINTED * [1, 10, 100] + 50 * RNG.normal(size=(6, 1, 3))

    assert table_map(asked(kind(POINTS, moved))).factor.points == pytest.approx(
        table_map(asked(kind(POINTS, POINTED))).factor.points
    )


def test_coffees_in_another_order_keep_their_places():
    order = [2, 0, 3, 1]
    moved = table_map(asked(kind(POINTS, POINTED[:, order]), coffees=tuple(COFFEES[one] for one in order)))

    assert moved.factor.points == pytest.approx(table_map(asked(kind(POINTS, POINTED))).factor.points[order])


def test_three_tasters_get_a_map_without_regions_and_the_reason():
    found = table_map(asked(kind(POINTS, POINTED[:3])))

    assert found.regions is None
    assert "4 tasters" in found.why_no_regions


def test_who_left_something_out_is_left_out_while_four_remain():
    holed = POINTED.copy()
    holed[0, 2, 1] = np.nan

    found = table_map(asked(kind(POINTS, holed)))

    assert found.complete
    assert found.tasters == tuple(f"Taster {one}" for one in range(1, 6))


def test_with_holes_in_a_small_panel_all_are_used_and_holes_lie_on_the_additive_fit():
    additive = np.add.outer([0.0, 3.0, -2.0], TRUE @ LOADINGS[:, :1])
    holed = additive.copy()
    holed[1, 2, 0] = np.nan
    holed[2, 0, 0] = np.nan

    found = table_map(asked(kind(POINTS, holed)))

    assert not found.complete
    assert found.factor.points == pytest.approx(table_map(asked(kind(POINTS, additive))).factor.points)


def test_coffees_that_differ_by_chance_alone_get_no_regions_and_silent_axes():
    found = table_map(asked(kind(POINTS, RNG.normal(size=(6, 4, 3)))))

    assert not found.beyond_chance
    assert found.regions is None
    assert [words.text for words in found.words] == ["", ""]


def test_a_column_in_which_a_coffee_has_no_answer_is_left_out():
    holed = POINTED.copy()
    holed[:, 1, 2] = np.nan

    found = table_map(asked(kind(POINTS, holed)))

    assert found.left_out == ("points 2",)
    assert found.columns == ("points 0", "points 1")


def test_a_scale_with_two_ends_speaks_at_both():
    one = AnswerKind(POINTS, ("heavy",), ("light",), POINTED[:, :, :1], scaled=True)

    assert table_map(asked(one)).words[0].text == "from light to heavy"


def test_tables_without_a_map_are_refused():
    with pytest.raises(TooFewObservations, match="3 coffees; here are 2"):
        table_map(asked(kind(POINTS, POINTED[:, :2]), coffees=COFFEES[:2]))
    with pytest.raises(NoSpread, match="tells any two coffees apart"):
        table_map(asked(kind(POINTS, np.ones((6, 4, 2)))))
    with pytest.raises(TooFewObservations, match="No kind of answer"):
        table_map(asked(kind(POINTS, np.full((6, 4, 2), np.nan))))
    with pytest.raises(Refused, match="61 coffees is read by nobody"):
        table_map(asked(kind(POINTS, np.ones((2, 61, 1))), coffees=tuple(map(str, range(61)))))
