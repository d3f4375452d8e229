"""Tests of difference: counts, sizes and distances against published tables, and against exact fractions.

Where a docstring says *computed*, the digits were worked out apart from the program, as exact fractions or by
quadrature to 25 digits; where it says *from memory*, the published table agrees as far as it is remembered.
"""

from fractions import Fraction
from math import comb

import numpy as np
import pytest
from scipy.stats import binom, binomtest
from statsmodels.stats.proportion import proportion_confint

from cupwright.core.plan.critical_counts import least_right, most_right_if_alike
from cupwright.core.plan.discrimination import (
    GUESSING,
    Method,
    dprime_of,
    share_from_discriminators,
    share_right,
)
from cupwright.core.plan.discrimination_size import effect_of, needed_tasters
from cupwright.core.plan.observed_count import observed_count

TRIANGLE, DUO_TRIO, TWO_AFC = Method.TRIANGLE, Method.DUO_TRIO, Method.TWO_AFC
THREE_AFC, PAIRED, TWO_OF_FIVE = Method.THREE_AFC, Method.PAIRED, Method.TWO_OF_FIVE

ALPHAS = (0.10, 0.05, 0.01, 0.001)

# n:count at 10 % / 5 % / 1 % / 0.1 %; "-" where not even n are enough
FAO_TRIANGLE = """
6:5/5/6/- 10:6/7/8/9 12:7/8/9/10 18:10/10/12/13 24:12/13/15/16 30:14/15/17/19 36:17/18/20/22 48:21/22/25/27
60:26/27/30/33 96:39/41/44/48
"""
ONE_THIRD = """
6:5/5/6/- 7:5/5/6/7 8:5/6/7/8 9:6/6/7/8 10:6/7/8/9 11:7/7/8/10 12:7/8/9/10 13:8/8/9/11 14:8/9/10/11
15:8/9/10/12 16:9/9/11/12 17:9/10/11/13 18:10/10/12/13 19:10/11/12/14 20:10/11/13/14 21:11/12/13/15
22:11/12/14/15 23:12/12/14/16 24:12/13/15/16 25:12/13/15/17 26:13/14/15/17 27:13/14/16/18 28:14/15/16/18
29:14/15/17/19 30:14/15/17/19 31:15/16/18/20 32:15/16/18/20 33:15/17/18/21 34:16/17/19/21 35:16/17/19/22
36:17/18/20/22 37:17/18/20/22 38:17/19/21/23 39:18/19/21/23 40:18/19/21/24 41:19/20/22/24 42:19/20/22/25
43:19/20/23/25 44:20/21/23/26 45:20/21/24/26 46:20/22/24/27 47:21/22/24/27 48:21/22/25/27 49:22/23/25/28
50:22/23/26/28 51:22/24/26/29 52:23/24/26/29 53:23/24/27/30 54:23/25/27/30 55:24/25/28/30 56:24/26/28/31
57:25/26/28/31 58:25/26/29/32 59:25/27/29/32 60:26/27/30/33
"""
ONE_HALF = """
6:6/6/-/- 7:6/7/7/- 8:7/7/8/- 9:7/8/9/- 10:8/9/10/10 11:9/9/10/11 12:9/10/11/12 13:10/10/12/13
14:10/11/12/13 15:11/12/13/14 16:12/12/14/15 17:12/13/14/16 18:13/13/15/16 19:13/14/15/17 20:14/15/16/18
21:14/15/17/18 22:15/16/17/19 23:16/16/18/20 24:16/17/19/20 25:17/18/19/21 26:17/18/20/22 27:18/19/20/22
28:18/19/21/23 29:19/20/22/24 30:20/20/22/24 31:20/21/23/25 32:21/22/24/26 33:21/22/24/26 34:22/23/25/27
35:22/23/25/27 36:23/24/26/28 37:23/24/27/29 38:24/25/27/29 39:24/26/28/30 40:25/26/28/31 41:26/27/29/31
42:26/27/29/32 43:27/28/30/32 44:27/28/31/33 45:28/29/31/34 46:28/30/32/34 47:29/30/32/35 48:29/31/33/36
49:30/31/34/36 50:31/32/34/37 51:31/32/35/37 52:32/33/35/38 53:32/33/36/39 54:33/34/36/39 55:33/35/37/40
56:34/35/38/40 57:34/36/38/41 58:35/36/39/42 59:35/37/39/42 60:36/37/40/43
"""
PAIRED_BOTH_WAYS = "10:9/9/10/- 20:15/15/17/18 30:20/21/23/25 40:26/27/29/31 50:32/33/35/37 60:37/39/41/44"


def rows(table: str) -> list[tuple[int, tuple[str, ...]]]:
    cells = [cell.partition(":") for cell in table.split()]
    return [(int(n), tuple(counts.split("/"))) for n, _, counts in cells]


def counted(method: Method, n: int) -> tuple[str, ...]:
    least = [int(least_right(n, method, alpha)) for alpha in ALPHAS]
    return tuple(str(count) if count <= n else "-" for count in least)


@pytest.mark.parametrize(("n", "printed"), rows(FAO_TRIANGLE))
def test_triangle_counts_match_the_printed_table(n, printed):
    """FAO V7180E, appendix A: triangle test, minimum of correct answers (read)."""
    assert counted(TRIANGLE, n) == printed


@pytest.mark.parametrize(("n", "computed"), rows(ONE_THIRD))
@pytest.mark.parametrize("method", [TRIANGLE, THREE_AFC])
def test_counts_of_one_in_three_match_exact_fractions(n, computed, method):
    """Computed. ISO 4120, table A.1, is of this kind (its rows n = 6, 12, 18, 24, 30, 36, 60 from memory)."""
    assert counted(method, n) == computed


@pytest.mark.parametrize(("n", "computed"), rows(ONE_HALF))
@pytest.mark.parametrize("method", [DUO_TRIO, TWO_AFC])
def test_counts_of_one_in_two_match_exact_fractions(n, computed, method):
    """Computed. ISO 10399 (duo-trio) and ISO 5495 (paired, one-sided) are of this kind."""
    assert counted(method, n) == computed


@pytest.mark.parametrize(("n", "computed"), rows(PAIRED_BOTH_WAYS))
def test_counts_asked_both_ways_match_exact_fractions(n, computed):
    """Computed; ISO 5495, two-sided, is of this kind."""
    assert counted(PAIRED, n) == computed


@pytest.mark.parametrize(
    ("n", "alpha", "computed"),
    [
        *[(n, 0.05, x) for n, x in ((5, 3), (6, 3), (8, 3), (10, 4), (12, 4), (15, 5), (20, 5))],
        *[(n, 0.01, x) for n, x in ((10, 5), (15, 6), (20, 7))],
    ],
)
def test_counts_of_two_out_of_five_match_exact_fractions(n, alpha, computed):
    """Computed; guessing gives 1/10, since two of five can be picked in ten ways."""
    assert comb(5, 2) == 10
    assert int(least_right(n, TWO_OF_FIVE, alpha)) == computed


def test_a_panel_of_twenty_needs_eleven_right():
    """J. Soc. Cosmet. Chem. 22:214 (read): "20 panellists, 11 correct", p under one in twenty."""
    assert int(least_right(20, TRIANGLE, 0.05)) == 11


@pytest.mark.parametrize("method", list(Method))
def test_counts_match_fractions_worked_out_here(method):
    """The rule itself in exact arithmetic: the smallest x whose tail is at most alpha."""
    guessing = Fraction(GUESSING[method]).limit_denominator(10)
    sides = 2 if method is PAIRED else 1
    for n in range(1, 41):
        terms = [comb(n, x) * guessing**x * (1 - guessing) ** (n - x) for x in range(n + 1)]
        for alpha in (Fraction(1, 10), Fraction(1, 20), Fraction(1, 100), Fraction(1, 1000)):
            least = next(x for x in range(n + 2) if sides * sum(terms[x:]) <= alpha)
            assert int(least_right(n, method, float(alpha))) == least, (n, alpha)


@pytest.mark.parametrize(
    ("right", "of", "p"), [(8, 12, 0.01876), (13, 24, 0.02844), (15, 30, 0.04348), (18, 36, 0.02835)]
)
def test_triangle_tails_match_exact_fractions(right, of, p):
    """Computed, five decimals."""
    assert observed_count(TRIANGLE, right, of).p_value == pytest.approx(p, abs=0.000005)


# similarity: rows by beta; columns pd = 10, 20, 30, 40, 50 %
SIMILAR = {
    (18, 0.001): ("0 1 2 3 5", "3 3 4 5 6"),
    (18, 0.01): ("2 3 4 5 6", "4 5 6 7 8"),
    (18, 0.05): ("3 4 5 6 8", "5 6 7 8 9"),
    (18, 0.10): ("4 5 6 7 8", "6 7 8 9 10"),
    (30, 0.05): ("7 9 11 13 15", "11 13 14 16 17"),
    (36, 0.05): ("9 11 13 16 18", "14 16 18 20 22"),
    (36, 0.10): ("10 12 14 17 19", "15 17 19 21 23"),
    (60, 0.05): ("17 21 25 29 33", "26 29 32 35 38"),
    (60, 0.10): ("18 22 26 30 34", "27 30 33 36 40"),
    (102, 0.05): ("32 38 45 52 59", "47 52 57 63 68"),
}


def most(method: Method, n: int, beta: float, discriminators: float) -> int | None:
    return most_right_if_alike(n, method, beta, share_from_discriminators(method, discriminators))


@pytest.mark.parametrize(("row", "computed"), SIMILAR.items())
def test_counts_for_likeness_match_exact_fractions(row, computed):
    """Computed; the block n = 18 equals ISO 4120, table A.2, as remembered."""
    n, beta = row
    for method, counts in zip((TRIANGLE, DUO_TRIO), computed, strict=True):
        found = [most(method, n, beta, pd / 100) for pd in (10, 20, 30, 40, 50)]
        assert found == [int(count) for count in counts.split()]


@pytest.mark.parametrize(
    ("n", "computed"),
    [(30, (9, 11, 13)), (36, (11, 13, 16)), (60, (21, 25, 29)), (66, (23, 28, 32)), (96, (36, 42, 49))],
)
def test_more_counts_for_likeness_match_exact_fractions(n, computed):
    """Computed, triangle, beta 5 %, pd 20, 30 and 40 %; ISO 4120, table A.2, is of this kind."""
    assert tuple(most(TRIANGLE, n, 0.05, pd) for pd in (0.2, 0.3, 0.4)) == computed


# n first / n for good at beta .20, .10, .05, .01, .001 (the last first only)
NEEDED = [
    (TRIANGLE, 0.5, 0.05, (16, 20, 23, 35, 48), (16, 22, 29, 39)),
    (TRIANGLE, 0.4, 0.05, (23, 30, 40, 57, 79), (25, 34, 42, 57)),
    (TRIANGLE, 0.3, 0.05, (40, 53, 66, 98, 136), (42, 57, 73, 102)),
    (TRIANGLE, 0.2, 0.05, (87, 117, 147, 213, 305), (94, 124, 154, 223)),
    (TRIANGLE, 0.5, 0.10, (12, 15, 20, 30, 43), (14, 19, 22, 32)),
    (TRIANGLE, 0.3, 0.10, (30, 43, 54, 81, 119), (32, 45, 58, 85)),
    (DUO_TRIO, 0.5, 0.05, (23, 33, 42, 58, 82), (28, 35, 44, 60)),
    (DUO_TRIO, 0.4, 0.05, (37, 53, 67, 93, 132), (42, 58, 69, 100)),
    (DUO_TRIO, 0.3, 0.05, (69, 93, 119, 173, 243), (76, 102, 126, 177)),
    (DUO_TRIO, 0.2, 0.05, (158, 213, 268, 392, 554), (169, 224, 281, 405)),
    (DUO_TRIO, 0.5, 0.10, (19, 26, 33, 48, 70), (21, 31, 35, 53)),
    (DUO_TRIO, 0.3, 0.10, (53, 72, 96, 145, 208), (57, 79, 100, 147)),
]


@pytest.mark.parametrize(("method", "discriminators", "alpha", "first", "lasting"), NEEDED)
def test_needed_tasters_match_exact_fractions(method, discriminators, alpha, first, lasting):
    """Computed. The triangle's rows at 5 % are those of ISO 4120, table A.3, as weakly remembered."""
    effect = effect_of(method, discriminators=discriminators)
    sizes = [
        needed_tasters(method, effect, alpha=alpha, power=1 - beta)
        for beta in (0.20, 0.10, 0.05, 0.01, 0.001)
    ]

    assert tuple(size.first.tasters for size in sizes) == first
    assert tuple(size.lasting.tasters for size in sizes[:4]) == lasting


# share of right answers at d' = 0.5, 1, 1.5, 2, 3
SHARES = {
    TRIANGLE: (0.35583465, 0.41804667, 0.50645610, 0.60480693, 0.78142760),
    DUO_TRIO: (0.52234700, 0.58247544, 0.66346219, 0.74682025, 0.87645670),
    TWO_AFC: (0.63816320, 0.76024994, 0.85557782, 0.92135040, 0.98305257),
    THREE_AFC: (0.48259287, 0.63370205, 0.76581196, 0.86576718, 0.96879548),
}
DISTANCES = (0.5, 1, 1.5, 2, 3)


@pytest.mark.parametrize("method", SHARES)
def test_share_right_matches_quadrature_to_25_digits(method):
    """Computed, eight decimals."""
    assert [share_right(method, d) for d in DISTANCES] == pytest.approx(SHARES[method], abs=6e-9)


@pytest.mark.parametrize(
    ("method", "dprime", "printed"),
    [
        (TRIANGLE, 1, 0.418),
        (TRIANGLE, 2, 0.605),
        (DUO_TRIO, 1, 0.582),
        (THREE_AFC, 1, 0.634),
        (TWO_AFC, 1, 0.760),
    ],
)
def test_share_right_matches_the_published_tables(method, dprime, printed):
    """Ennis (1993), J. Sens. Stud. 8:353; Hacker & Ratcliff (1979), Percept. Psychophys. 26:168; memory."""
    assert share_right(method, dprime) == pytest.approx(printed, abs=0.0005)


@pytest.mark.parametrize(
    ("method", "share", "dprime"),
    [
        (THREE_AFC, 0.5, 0.55652),
        (THREE_AFC, 0.6, 0.88518),
        (THREE_AFC, 0.7, 1.23795),
        (THREE_AFC, 0.8, 1.65241),
        (THREE_AFC, 0.9, 2.23020),
        (TWO_AFC, 0.75, 0.95387),
        (TRIANGLE, 0.5, 1.466),
    ],
)
def test_distance_of_a_share_matches_the_tables(method, share, dprime):
    """Hacker & Ratcliff (1979) is of this kind (memory); the triangle's is computed."""
    assert dprime_of(method, share) == pytest.approx(dprime, abs=0.0003 if method is TRIANGLE else 6e-6)


@pytest.mark.parametrize(
    ("method", "right", "dprime", "error"),
    [
        (TRIANGLE, 30, 1.46626, 0.33856),
        (DUO_TRIO, 40, 1.51885, 0.35793),
        (TWO_AFC, 40, 0.60914, 0.23671),
        (THREE_AFC, 40, 1.11590, 0.21796),
    ],
)
def test_distance_and_its_error_from_counts(method, right, dprime, error):
    """Computed: estimate and delta-method standard error for so many right of 60."""
    observed = observed_count(method, right, 60)

    assert observed.dprime.estimate == pytest.approx(dprime, abs=6e-6)
    assert observed.dprime_error == pytest.approx(error, abs=6e-6)


# first / for good at power .80 and .90; alpha 5 % one-sided; d' = 0.5, 1, 1.5, 2, 3
NEEDED_BY_DISTANCE = {
    TRIANGLE: "2756/2825,3826/3901 202/220,283/301 53/57,71/78 23/23,30/34 7/9,11/11",
    DUO_TRIO: "3107/3160,4295/4350 228/241,319/334 60/65,80/87 26/28,35/37 11/11,13/16",
    TWO_AFC: "82/89,113/122 23/26,30/33 13/13,16/16 8/8,11/11 5/5,5/8",
    THREE_AFC: "71/78,95/102 16/22,23/29 9/9,11/13 5/5,7/7 3/3,3/5",
}


@pytest.mark.parametrize("method", NEEDED_BY_DISTANCE)
def test_needed_tasters_by_distance_match_exact_sums(method):
    """Computed."""
    for dprime, cell in zip(DISTANCES, NEEDED_BY_DISTANCE[method].split(), strict=True):
        effect = effect_of(method, dprime=dprime)
        sizes = [needed_tasters(method, effect, power=power) for power in (0.80, 0.90)]
        assert ",".join(f"{one.first.tasters}/{one.lasting.tasters}" for one in sizes) == cell


# against draws and general libraries


@pytest.mark.parametrize("dprime", [0.5, 1.0, 2.0, 3.0])
def test_two_out_of_five_matches_draws(dprime):
    """A million tasters drawn, each making the split of five with the least squares inside its two groups."""
    seen = np.random.default_rng(20261125).normal(size=(1_000_000, 5))
    seen[:, :2] += dprime
    pairs = [(a, b) for a in range(5) for b in range(a + 1, 5)]
    apart = [
        np.abs(seen[:, p].mean(axis=1) - np.delete(seen, p, axis=1).mean(axis=1)) for p in map(list, pairs)
    ]

    right = np.mean(np.argmax(apart, axis=0) == pairs.index((0, 1)))

    assert share_right(TWO_OF_FIVE, dprime) == pytest.approx(right, abs=4 * 0.0005)


@pytest.mark.parametrize("dprime", [0.4, 1.3, 2.6])
def test_triangle_and_duo_trio_match_draws(dprime):
    """A million tasters drawn, who call the cup odd, or like, that lies so."""
    rng = np.random.default_rng(11)
    a, b, other = rng.normal(size=(3, 1_000_000))
    other += dprime

    odd = (abs(a - b) < abs(a - other)) & (abs(a - b) < abs(b - other))
    assert share_right(TRIANGLE, dprime) == pytest.approx(odd.mean(), abs=0.002)
    assert share_right(DUO_TRIO, dprime) == pytest.approx(np.mean(abs(a - b) < abs(a - other)), abs=0.002)


def test_p_value_and_interval_match_scipy_and_statsmodels():
    """scipy.stats.binomtest; statsmodels proportion_confint(method="beta")."""
    for right in range(26):
        one, two = observed_count(TRIANGLE, right, 25, level=0.9), observed_count(PAIRED, right, 25)

        assert one.p_value == pytest.approx(binomtest(right, 25, 1 / 3, alternative="greater").pvalue)
        assert two.p_value == pytest.approx(binomtest(right, 25, 1 / 2).pvalue)
        low, high = proportion_confint(right, 25, alpha=0.1, method="beta")
        assert (one.share.low, one.share.high) == pytest.approx((low, high), abs=1e-12)


def test_power_matches_scipy():
    """scipy.stats.binom, on either side for the question asked both ways."""
    size = needed_tasters(PAIRED, effect_of(PAIRED, dprime=1), power=0.8).first
    n, least, share = size.tasters, size.least_right, effect_of(PAIRED, dprime=1).share

    assert size.power == pytest.approx(binom.sf(least - 1, n, share) + binom.cdf(n - least, n, share))
