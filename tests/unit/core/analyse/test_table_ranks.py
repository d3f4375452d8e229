"""Orders of places as scores."""

from dataclasses import replace

import numpy as np
from tests.unit.core.analyse.tables import NORTH, SHEET, SOUTH, answers_of, note, table_of

from cupwright.core.analyse.table_ranks import table_ranks
from cupwright.core.taste.sheet import WHOLE_TABLE, Field, Kind, Moment, Over, Pass

ORDER = Pass("order", "Order", "?", Moment.COOL, (Field("best", Kind.RANK, "Best first"),), over=Over.TABLE)
RANKED = replace(SHEET, passes=(*SHEET.passes, ORDER))
PLACES = {"241": NORTH.id, "573": SOUTH.id, "684": SOUTH.id}


def ranked(*orders):
    notes = [note(seat, WHOLE_TABLE, "order/best", order) for seat, order in enumerate(orders, start=1)]
    table = table_of(max(len(orders), 1), tuple(PLACES), sheet=RANKED)
    (found,) = table_ranks(answers_of(table, notes, PLACES))
    return found


def test_the_first_of_three_scores_two_and_a_coffee_has_a_score_for_each_place():
    found = ranked({"241": 1, "573": 2, "684": 3}, {"241": 3, "573": 1, "684": 1})

    assert found.label == "Best first"
    assert found.scores.tasters == ("Taster 1", "Taster 2")
    assert np.array_equal(found.scores.means, [[2.0, 0.0], [0.5, 2.0]])


def test_an_order_that_leaves_out_a_place_does_not_count():
    assert ranked({"241": 1, "573": 2, "684": 3}, {"241": 1}).scores.tasters == ("Taster 1",)


def test_without_an_order_there_are_no_scores():
    assert ranked().scores is None
