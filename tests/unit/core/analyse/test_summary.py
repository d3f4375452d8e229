"""The analysis as a whole: every scale answered or refused in a sentence."""

import pytest
from tests.unit.core.analyse.tables import TWO_CODES, answers_of, small_table_answers, table_of

from cupwright.core.analyse.summary import analyse


def test_a_small_table_is_analysed_in_all_parts():
    _, answers = small_table_answers()

    analysis = analyse(answers)

    assert [[word.label for word in words] for words in analysis.words] == [
        ["lemon", "fruit", "orange"],
        ["cocoa"],
    ]
    assert analysis.wrote == (3, 2)
    assert analysis.liking.means[0].mean.estimate == pytest.approx((80 + 71 + 90) / 3)
    assert (analysis.liking.agreement.tasters, analysis.liking.agreement.dropped) == (2, 1)
    assert (analysis.coverage.written, analysis.coverage.unread) == (5, 1)


def test_an_unanswered_scale_says_why_it_has_no_agreement():
    _, answers = small_table_answers()

    weight = next(s for s in analyse(answers).scales if s.scale.field.id == "weight")

    assert weight.agreement is None
    assert "needs 2 coffees and 2 tasters" in weight.why_not


def test_an_empty_table_can_be_analysed():
    analysis = analyse(answers_of(table_of(0, tuple(TWO_CODES)), [], TWO_CODES))

    assert analysis.words == ((), ())
    assert analysis.contrasts.looks == 0
    assert analysis.coverage.asked == 0
