"""Season columns: names that are the same over tables are one, scales that differ are two."""

import numpy as np

from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.core.analyse.season_columns import TableScores, season_columns

ENDS = {"acidity": (0.0, 10.0)}


def scores(coffees: str, tasters: tuple[str, ...], first: float) -> Scores:
    points = first + np.arange(len(coffees) * len(tasters), dtype=float)
    return scores_of(points.reshape(len(coffees), -1), coffees=tuple(coffees), tasters=tasters)


def test_coffees_and_tasters_are_the_same_over_tables_whatever_the_case_of_letters():
    may = TableScores("May", "Sheet", {"acidity": scores("AB", ("Ada", "Bo"), 0)}, ENDS)
    june = TableScores("June", "Sheet", {"acidity": scores("BC", ("ada", "Cy"), 10)}, ENDS)

    found = season_columns([may, june])

    assert found.scores.coffees == ("A", "B", "C")
    assert found.scores.tasters == ("Ada", "Bo", "Cy")
    assert found.tables == ("May", "June")
    acidity = found.of("acidity")
    assert acidity is not None
    assert len(acidity) == 8
    assert acidity.tables == ("May", "June")
    assert acidity.value[acidity.table == 1].tolist() == [10, 11, 12, 13]


def test_one_name_with_other_ends_is_another_attribute():
    may = TableScores("May", "Short", {"acidity": scores("AB", ("Ada",), 0)}, ENDS)
    june = TableScores("June", "Long", {"acidity": scores("AB", ("Ada",), 0)}, {"acidity": (0.0, 100.0)})

    assert season_columns([may, june]).scores.attributes == ("acidity (Short)", "acidity (Long)")


def test_of_one_attribute_only_what_was_scored_for_it_is_there():
    may = TableScores("May", "Sheet", {"acidity": scores("AB", ("Ada",), 0)}, ENDS)
    june = TableScores("June", "Sheet", {"body": scores("CD", ("Bo",), 0)}, {})

    found = season_columns([may, june]).of("body")

    assert found is not None
    assert (found.coffees, found.tasters, found.tables) == (("C", "D"), ("Bo",), ("June",))


def test_a_coffee_that_stood_twice_at_a_table_has_a_repeat():
    twice = scores_of(np.array([[[1.0, 2.0]], [[3.0, 4.0]]]), coffees=("A", "B"), tasters=("Ada",))

    found = season_columns([TableScores("May", "Sheet", {"acidity": twice}, ENDS)]).of("acidity")

    assert found is not None
    assert found.repeat.tolist() == [0, 1, 0, 1]


def test_no_tables_are_no_scores():
    found = season_columns([])

    assert len(found.scores) == 0
    assert found.of("acidity") is None
