"""McNemar's test: counts and refusals."""

import pytest

from cupwright.core.analyse.mcnemar import mcnemar
from cupwright.errors import Refused, TooFewObservations


def test_tasters_who_answer_alike_say_nothing():
    found = mcnemar([1, 1, 0], [1, 1, 0])

    assert (found.both, found.neither, found.p, found.mid_p, found.chi2) == (2, 1, 1.0, 1.0, None)


def test_five_who_differ_in_one_direction_do_not_reach_one_in_twenty_and_six_do():
    assert mcnemar([1] * 5, [0] * 5).p == pytest.approx(0.0625)
    assert mcnemar([1] * 6, [0] * 6).p == pytest.approx(0.03125)


def test_exchanged_coffees_have_one_p():
    first, second = [1, 1, 1, 0, 0, 1], [0, 0, 1, 1, 0, 0]

    assert mcnemar(first, second).p == mcnemar(second, first).p
    assert mcnemar(first, second).only_first == mcnemar(second, first).only_second


def test_the_mid_p_is_never_above_the_exact_one():
    for smaller in range(7):
        found = mcnemar([1] * smaller + [0] * 6, [0] * smaller + [1] * 6)

        assert found.mid_p <= found.p


@pytest.mark.parametrize(
    ("first", "second", "refusal"),
    [([1], [1, 0], Refused), ([], [], TooFewObservations), ([2], [1], Refused)],
)
def test_answers_that_do_not_pair_are_refused(first, second, refusal):
    with pytest.raises(refusal):
        mcnemar(first, second)


def test_the_mid_p_of_an_even_split_leaves_out_half_of_it_once():
    found = mcnemar([1, 0], [0, 1])

    assert (found.p, found.mid_p) == (1.0, pytest.approx(0.75))
