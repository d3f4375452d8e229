"""Everything of one attribute: whatever the table, numbers or sentences, never a fault."""

import json
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.analyse.score_analysis import analyse_file, analyse_scores
from cupwright.core.analyse.score_file import ScoreFile
from cupwright.core.analyse.scores import Scores, counted_repeats, scores_of
from cupwright.core.report.score_report import score_report
from cupwright.errors import NotFound

AGREEMENT = {"icc1", "icc2", "icc3", "icc1k", "icc2k", "icc3k", "kendall_w", "alpha"}


def panel(coffees: int = 4, tasters: int = 3, repeats: int = 2, seed: int = 1) -> Scores:
    chance = np.random.default_rng(seed)
    values = chance.normal(0, 1, (coffees, 1, 1)) + chance.normal(0, 0.5, (coffees, tasters, repeats))
    return scores_of(np.round(6 + values, 2))


def test_the_data_have_the_promised_shape():
    data = analyse_scores("body", panel(), draws=200).as_data()

    assert set(data["components"]) == {"coffee", "taster", "coffee_taster", "residual"}
    assert isinstance(data["log_likelihood"], float)
    assert set(data["coffees"][0]) >= {"coffee", "estimate", "low", "high", "p_best"}
    assert set(data["pairs"][0]) == {"a", "b", "difference", "low", "high", "p_a_better"}
    assert set(data["agreement"]) == AGREEMENT
    assert set(data["agreement"]["icc2"]) == {"estimate", "low", "high"}
    assert [one["taster"] for one in data["tasters"]] == ["1", "2", "3"]


def test_an_attribute_without_a_score_is_null_throughout_with_a_sentence_each():
    data = analyse_scores("body", None).as_data()

    assert data["components"] is data["coffees"] is data["pairs"] is data["tasters"] is None
    assert set(data["agreement"].values()) == {None}
    assert set(data["silent"].values()) == {"There is not a single score."}


def test_probabilities_of_being_the_best_add_up_to_one():
    data = analyse_scores("body", panel()).as_data()

    assert sum(one["p_best"] for one in data["coffees"]) == pytest.approx(1)


def test_the_name_of_an_unknown_attribute_is_refused():
    file = ScoreFile("s.csv", {"body": panel()}, ("acidity",), {"body": 0, "acidity": 3}, ())

    with pytest.raises(NotFound, match="no attribute 'x'; it has body, acidity"):
        analyse_file(file, attributes=("x",))


def test_a_crowd_is_not_looked_at_one_by_one():
    found = analyse_scores("body", panel(tasters=8), most_tasters=7)

    assert found.tasters is None
    assert found.silent["tasters"] == "Up to 7 tasters are looked at one by one; here are 8."


rows = st.lists(
    st.tuples(
        st.integers(0, 3),  # coffee
        st.integers(0, 3),  # taster
        st.integers(0, 4),  # value, in halves
        st.integers(1, 4),  # position
        st.sampled_from([60.0, 55.0, 41.5, math.nan]),  # temperature
        st.integers(0, 1),  # table
    ),
    min_size=1,
    max_size=24,
)


@settings(max_examples=150, deadline=None)
@given(rows, st.booleans(), st.booleans(), st.booleans())
def test_any_table_gets_numbers_or_sentences_and_never_a_fault(rows, ordered, timed, seated):
    columns = [np.array(column) for column in zip(*rows, strict=True)]
    coffees, coffee = np.unique(columns[0], return_inverse=True)
    tasters, taster = np.unique(columns[1], return_inverse=True)
    tables, table = np.unique(columns[5], return_inverse=True)
    warm = timed and not np.isnan(columns[4]).all()
    scores = Scores(
        tuple(f"C{one}" for one in coffees),
        tuple(f"T{one}" for one in tasters),
        coffee,
        taster,
        columns[2] / 2,
        counted_repeats(coffee, taster),
        columns[3].astype(float) if ordered else None,
        columns[4] if warm else None,
        table if seated else None,
        tuple(f"S{one}" for one in tables) if seated else (),
    )

    found = analyse_file(ScoreFile("s.csv", {"x": scores}, (), {"x": 0}, ()), draws=200)

    data = json.loads(json.dumps(found.as_data(), allow_nan=False))["attributes"]["x"]
    for name in ("components", "coffees", "tasters"):
        assert data[name] is not None or data["silent"][name]
    for name in AGREEMENT:
        assert data["agreement"][name] is not None or data["silent"].get(name) or data["silent"]["icc"]
    for one in data["coffees"] or []:
        assert one["low"] <= one["estimate"] <= one["high"]
    assert score_report(found).title == "s.csv"


def test_a_crowd_with_holes_is_not_looked_at_one_by_one_sooner():
    table = np.random.default_rng(1).normal(80, 3, (3, 201))
    whole = analyse_scores("sweetness", scores_of(table), draws=100)
    table[0, 0] = np.nan
    holed = analyse_scores("sweetness", scores_of(table), draws=100)

    assert whole.tasters is not None
    assert holed.tasters is None
    assert "200 tasters" in holed.silent["tasters"]


def test_a_variance_or_likelihood_that_is_null_has_its_sentence():
    alone = analyse_scores("body", scores_of(np.array([[8.0, 7.0], [6.0, 6.5], [7.0, 5.0]]))).as_data()
    exact = analyse_scores("body", scores_of(np.array([[1.0, 2.0], [2.0, 3.0], [4.0, 5.0]]))).as_data()

    assert alone["components"]["coffee_taster"] is None
    assert "twice" in alone["silent"]["coffee_taster"]
    assert exact["components"]["residual"] == 0
    assert exact["log_likelihood"] is None
    assert "likelihood" in exact["silent"]["log_likelihood"]
