"""Chance that is fair, against the chi-squared distribution of a general library."""

import random
from collections import Counter

from scipy.stats import chisquare

from cupwright.core.plan.blind_codes import FREE_CODES, draw_codes
from cupwright.core.plan.serving_order import random_orders


def test_every_serving_order_is_equally_likely():
    """scipy.stats.chisquare on the first seat's order of 4 places over 12,000 tables: 24 equal cells.

    The seed is fixed, so this passes or fails for good; a draw that favours an order by a third fails it.
    """
    rng = random.Random(20261125)
    counts = Counter(random_orders("abcd", 1, rng=rng)[0] for _ in range(12_000))

    assert len(counts) == 24
    assert chisquare(list(counts.values())).pvalue > 0.001


def test_every_free_code_is_equally_likely():
    """scipy.stats.chisquare on 20,000 tables of 6 codes: 778 equal cells."""
    rng = random.Random(20261125)
    counts = Counter(code for _ in range(20_000) for code in draw_codes(6, rng=rng))

    assert set(counts) == set(FREE_CODES)
    assert chisquare([counts[code] for code in FREE_CODES]).pvalue > 0.001
