"""Overview and running sums: equal to all at once, whatever the order or the pieces."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.analyse import running_sums
from cupwright.core.analyse.overview import ScoreColumns, overview
from cupwright.core.analyse.running_sums import folded, joined, no_scores
from cupwright.errors import Refused, TooFewObservations

SCORES = st.lists(
    st.tuples(st.integers(0, 3), st.integers(0, 2), st.integers(0, 1), st.floats(0, 100, width=32)),
    min_size=1,
    max_size=60,
)


def columns_of(rows: list[tuple[int, int, int, float]]) -> ScoreColumns:
    coffee, taster, attribute, value = zip(*rows, strict=True)
    indices = (np.array(one, dtype=np.int32) for one in (coffee, taster, attribute))
    return ScoreColumns(tuple("ABCD"), tuple("xyz"), ("acidity", "body"), *indices, np.array(value))


@given(SCORES, st.integers(0, 60))
def test_scores_folded_in_two_goes_are_the_scores_folded_at_once(rows, cut):
    group, value = np.array([row[0] for row in rows]), np.array([row[3] for row in rows])

    whole = folded(no_scores(4), group, value)
    twice = folded(folded(no_scores(4), group[:cut], value[:cut]), group[cut:], value[cut:])

    assert (whole.count == twice.count).all()
    assert twice.mean == pytest.approx(whole.mean, abs=1e-9)
    assert twice.squares == pytest.approx(whole.squares, abs=1e-6)


@given(SCORES)
def test_running_sums_are_what_numpy_says_of_each_group(rows):
    group, value = np.array([row[0] for row in rows]), np.array([row[3] for row in rows])

    sums = folded(no_scores(4), group, value)

    for number in range(4):
        own = value[group == number]
        assert sums.count[number] == len(own)
        if len(own):
            assert sums.means[number] == pytest.approx(own.mean(), abs=1e-9)
        else:
            assert np.isnan(sums.means[number])
        if len(own) > 1:
            assert sums.spreads[number] == pytest.approx(own.std(ddof=1), abs=1e-6)
        else:
            assert np.isnan(sums.spreads[number])


def test_scores_far_from_zero_keep_their_digits():
    value = 1e9 + np.array([1.0, 2.0, 3.0])
    first, second = (folded(no_scores(1), np.zeros(len(v), dtype=int), v) for v in (value[:1], value[1:]))

    assert joined(first, second).spreads[0] == pytest.approx(1.0, abs=1e-9)


@settings(max_examples=40)
@given(SCORES, st.randoms())
def test_the_order_of_scores_does_not_matter(rows, random):
    shuffled = random.sample(rows, len(rows))

    straight, mixed = overview(columns_of(rows)), overview(columns_of(shuffled))

    assert mixed.coffee_means() == pytest.approx(straight.coffee_means(), nan_ok=True, abs=1e-9)
    assert mixed.biases() == pytest.approx(straight.biases(), nan_ok=True, abs=1e-9)


def test_a_taster_who_scores_high_has_a_habit_and_no_scatter():
    rows = [(coffee, taster, 0, 80.0 + coffee + 2.0 * taster) for coffee in range(4) for taster in range(3)]

    found = overview(columns_of(rows))

    assert found.coffee_means()[:, 0] == pytest.approx([82.0, 83.0, 84.0, 85.0])
    assert found.biases()[:, 0] == pytest.approx([-2.0, 0.0, 2.0])
    assert found.scatters()[:, 0] == pytest.approx([0.0, 0.0, 0.0], abs=1e-9)
    assert np.isnan(found.coffee_means()[:, 1]).all()
    assert found.rows()[0] == {
        "coffee": "A",
        "attribute": "acidity",
        "scores": 3,
        "mean": pytest.approx(82.0),
        "spread": pytest.approx(2.0),
    }


def test_chunks_do_not_show(monkeypatch):
    rng = np.random.default_rng(3)
    rows = [(int(c), int(t), 0, float(v)) for c, t, v in rng.integers(0, 3, (50, 3))]
    whole = overview(columns_of(rows))

    monkeypatch.setattr(running_sums, "CHUNK", 7)
    pieces = overview(columns_of(rows))

    assert pieces.coffee_means() == pytest.approx(whole.coffee_means(), nan_ok=True)
    assert pieces.scatters() == pytest.approx(whole.scatters(), nan_ok=True)


def test_no_score_and_an_infinite_score_are_refused():
    empty = ScoreColumns(
        ("A",), ("x",), ("body",), *(np.array([], dtype=int) for _ in range(3)), np.array([])
    )

    with pytest.raises(TooFewObservations):
        overview(empty)
    with pytest.raises(Refused):
        overview(columns_of([(0, 0, 0, float("inf"))]))
