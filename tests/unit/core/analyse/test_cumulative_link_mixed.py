import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.analyse.cumulative_link_mixed import cumulative_link_mixed, likelihood_ratio
from cupwright.core.analyse.scores import scores_of
from cupwright.errors import NoSpread, Refused, TooFewObservations

TABLE = np.array([[4, 5, 4, 3, 5], [2, 3, 3, 1, 4], [3, 3, 2, 2, 5], [1, 2, 3, 1, 3]], float)


def test_the_coffee_with_the_higher_answers_stands_higher():
    found = cumulative_link_mixed(TABLE)

    levels = {one.coffee: one for one in found.coffees}
    assert max(found.coffees, key=lambda one: one.estimate).coffee == "1"
    assert sum(one.estimate for one in found.coffees) == pytest.approx(0, abs=1e-9)
    assert all(one.low < one.estimate < one.high for one in found.coffees)
    assert levels["1"].p_best > 0.8
    assert len(found.pairs) == 6


def test_a_taster_who_answers_high_has_a_high_level():
    levels = {one.taster: one.estimate for one in cumulative_link_mixed(TABLE).tasters}

    assert max(levels, key=levels.__getitem__) == "5"
    assert min(levels, key=levels.__getitem__) == "4"


@given(st.permutations(range(4)), st.permutations(range(5)))
@settings(max_examples=8, deadline=None)
def test_the_order_of_coffees_and_tasters_does_not_count(coffees, tasters):
    plain = cumulative_link_mixed(TABLE, profile=False)

    found = cumulative_link_mixed(TABLE[np.ix_(coffees, tasters)], profile=False)

    assert found.log_likelihood == pytest.approx(plain.log_likelihood, abs=1e-7)
    assert [one.estimate for one in found.coffees] == pytest.approx(
        [plain.coffees[one].estimate for one in coffees], abs=2e-3
    )


def test_only_the_order_of_the_answers_counts():
    plain = cumulative_link_mixed(TABLE, profile=False)

    found = cumulative_link_mixed(TABLE**3 + 7, profile=False)

    assert [one.estimate for one in found.coffees] == [one.estimate for one in plain.coffees]


def test_a_score_that_is_missing_is_left_out():
    holed = TABLE.copy()
    holed[1, 2] = np.nan

    assert cumulative_link_mixed(holed, profile=False).observations == 19


def test_the_interval_of_the_spread_holds_it_and_is_left_out_if_not_wanted():
    with_it, without = cumulative_link_mixed(TABLE), cumulative_link_mixed(TABLE, profile=False)

    interval = with_it.taster_sd_interval
    assert interval is not None
    assert interval.low <= with_it.taster_sd <= interval.high
    assert without.taster_sd_interval is None
    assert without.rows()[-1] == {
        "term": "sd of tasters",
        "estimate": without.taster_sd,
        "low": None,
        "high": None,
    }


@pytest.mark.parametrize("link", ["logit", "probit"])
@pytest.mark.parametrize(
    "table",
    [
        [[9, 9, 9], [1, 1, 2], [3, 2, 3]],  # one coffee always on top
        [[5, 5, 5, 5], [1, 1, 1, 1]],  # two answers, two coffees
        [[1, 2, 3, 4]] * 4,  # every taster with an answer of their own
        [[2, 3], [1, 2], [3, 3]],  # two tasters
        [[1, 1], [1, 2]],  # one answer unlike the others
    ],
)
def test_what_the_answers_leave_without_an_end_is_finite_and_said_to_be_penalised(table, link):
    found = cumulative_link_mixed(np.array(table, float), link=link)

    assert found.penalised
    assert found.taster_sd < 15
    for one in found.coffees:
        assert -25 < one.low <= one.estimate <= one.high < 25
    assert np.isfinite(found.thresholds).all()


def test_tasters_who_all_answer_alike_have_no_spread():
    found = cumulative_link_mixed(np.array([[3, 3, 4, 3], [2, 2, 2, 1], [3, 4, 3, 3], [1, 2, 1, 2]], float))

    assert found.taster_sd == pytest.approx(0, abs=0.02)
    assert found.log_likelihood == pytest.approx(found.log_likelihood_without_tasters, abs=1e-3)


def test_one_answer_for_all_is_no_spread():
    with pytest.raises(NoSpread, match="All answers are the same"):
        cumulative_link_mixed(np.full((3, 4), 2.0))


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ([[1], [2], [3]], "One taster's answers"),
        ([[1, 2, 3, 1]], "one coffee alone"),
        ([[1, 2], [3, 4]], "cannot carry"),
    ],
)
def test_too_little_is_a_sentence(table, said):
    with pytest.raises(TooFewObservations, match=said):
        cumulative_link_mixed(np.array(table, float))


def test_a_further_term_stands_beside_the_coffees():
    scores = scores_of(TABLE)
    warmth = np.tile([0.0, 1.0, 0.0, 1.0, 1.0], 4) * (scores.coffee % 2) + scores.taster / 10

    found = cumulative_link_mixed(scores, terms=warmth, names=["warmth"], profile=False)

    assert [term.name for term in found.terms] == ["warmth"]
    assert found.terms[0].low < found.terms[0].estimate < found.terms[0].high


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"terms": np.zeros(3)}, "do not have 20 rows"),
        ({"terms": np.arange(20.0), "names": ["a", "b"]}, "1 terms have 2 names"),
        ({"link": "loglog"}, "no link 'loglog'"),
        ({"nodes": 0}, "0 nodes"),
    ],
)
def test_what_is_no_model_is_refused(more, said):
    with pytest.raises(Refused, match=said):
        cumulative_link_mixed(TABLE, **more)


def test_coffees_that_move_the_answers_have_a_likely_ratio():
    terms = np.repeat([1.0, 0.0, 0.0, -1.0], 5)
    scores = scores_of(TABLE)
    fuller = cumulative_link_mixed(
        scores, terms=np.column_stack([terms, scores.taster % 2]), coffees=False, profile=False
    )
    simpler = cumulative_link_mixed(scores, terms=scores.taster % 2, coffees=False, profile=False)

    found = likelihood_ratio(fuller, simpler)

    assert found.freedom == 1
    assert found.statistic > 3
    assert 0 < found.p < 0.05
    with pytest.raises(Refused, match="cannot be compared"):
        likelihood_ratio(simpler, fuller)
