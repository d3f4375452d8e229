"""Chance that is fair, against the chi-squared distribution of a general library."""

import random
from collections import Counter

from scipy.stats import chisquare

from cupwright.core.plan.blind_codes import FREE_CODES, draw_codes
from cupwright.core.plan.serving_order import serving_orders


def test_every_serving_order_is_equally_likely():
    """scipy.stats.chisquare on the first seat's order of 4 places over 12,000 tables: 24 equal cells.

    The seed is fixed, so this passes or fails for good; a draw that favours an order by a third fails it.
    """
    rng = random.Random(20261125)
    counts = Counter(serving_orders(["abcd"], 1, rng=rng)[0] for _ in range(12_000))

    assert len(counts) == 24
    assert chisquare(list(counts.values())).pvalue > 0.001


def test_every_serving_order_of_a_later_seat_is_equally_likely():
    """scipy.stats.chisquare on the sixth of seven seats, which fills no whole square: 24 equal cells."""
    rng = random.Random(20261125)
    counts = Counter(serving_orders(["abcd"], 7, rng=rng)[5] for _ in range(12_000))

    assert len(counts) == 24
    assert chisquare(list(counts.values())).pvalue > 0.001


def test_every_free_code_of_one_first_digit_is_equally_likely():
    """scipy.stats.chisquare on 20,000 tables of 6 codes, digit by digit: 73 to 97 equal cells."""
    rng = random.Random(20261125)
    counts = Counter(code for _ in range(20_000) for code in draw_codes(6, rng=rng))

    assert set(counts) == set(FREE_CODES)
    for digit in "123456789":
        cells = [counts[code] for code in FREE_CODES if code[0] == digit]
        assert chisquare(cells).pvalue > 0.001


def test_every_first_digit_is_equally_likely_to_come_once_more():
    """scipy.stats.chisquare on which digit comes twice among 10 codes, over 9,000 tables: 9 equal cells."""
    rng = random.Random(20261125)
    twice = Counter(
        Counter(code[0] for code in draw_codes(10, rng=rng)).most_common(1)[0][0] for _ in range(9_000)
    )

    assert chisquare([twice[digit] for digit in "123456789"]).pvalue > 0.001
