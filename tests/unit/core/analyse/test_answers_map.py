"""What a map is made of: points without liking, words of two tasters, mean colours."""

import numpy as np
import pytest
from tests.unit.core.analyse.tables import NORTH, SOUTH, answers_of, note, small_table_answers, table_of

from cupwright.core.analyse.answers_map import answers_map
from cupwright.core.analyse.map_answers import COLOURS, POINTS, WORDS, scores_map
from cupwright.core.analyse.scores import scores_of


def kinds(answers):
    return {kind.name: kind for kind in answers_map(answers).kinds}


def test_a_word_counts_from_two_tasters_on_and_holes_are_where_nobody_wrote():
    words = kinds(small_table_answers()[1])[WORDS]

    assert words.columns == ("lemon",)
    assert words.values[:, 0, 0].tolist() == [1.0, 1.0, 0.0]
    assert words.values[1, 1, 0] == 0.0


def test_liking_is_no_point_on_the_map_and_a_scale_speaks_by_its_ends():
    places = {"241": NORTH.id, "573": SOUTH.id}
    notes = [note(1, "241", "flavour/weight", 70.0), note(1, "573", "verdict/liking", 20.0)]
    points = kinds(answers_of(table_of(2, tuple(places)), notes, places))[POINTS]

    assert (points.columns, points.opposites) == (("heavy",), ("light",))
    assert points.values[0, 0, 0] == 70.0
    assert np.isnan(points.values[1]).all()


def test_a_tasters_colours_are_their_mean_in_oklab():
    colours = kinds(small_table_answers()[1])[COLOURS]

    assert colours.values[0, 0] == pytest.approx([0.9, -0.02, 0.15])
    assert np.isnan(colours.values[2]).all()


def test_scores_of_attributes_are_joined_by_the_names_of_coffees_and_tasters():
    acidity = scores_of(np.array([[1.0, 2.0], [3.0, 4.0]]), coffees=["421", "708"], tasters=["Ana", "Bo"])
    body = scores_of(np.array([[5.0], [6.0]]), coffees=["708", "533"], tasters=["Bo"])

    found = scores_map({"acidity": acidity, "body": body})

    assert found.coffees == ("421", "708", "533")
    assert found.tasters == ("Ana", "Bo")
    assert found.kinds[0].values[1, 1].tolist() == [4.0, 5.0]
    assert np.isnan(found.kinds[0].values[0, 2]).all()


def test_of_more_coffees_than_a_map_takes_only_the_names_are_kept():
    many = scores_map({"acidity": scores_of(np.ones((61, 2)))})

    assert len(many.coffees) == 61
    assert many.kinds == ()


def test_nobody_answered_anything():
    assert answers_map(answers_of(table_of(2, ("241",)), [], {"241": NORTH.id}, coffees=(NORTH,))).kinds == ()
