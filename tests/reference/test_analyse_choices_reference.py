"""Paired choices and rankings, against printed fits and other libraries."""

from itertools import permutations

import choix
import numpy as np
import pandas as pd
import pytest
import statsmodels.api as sm
from scipy import optimize
from statsmodels.duration.hazard_regression import PHReg

from cupwright.core.analyse.bradley_terry import bradley_terry
from cupwright.core.analyse.plackett_luce import plackett_luce

JOURNALS = ("Biometrika", "CommStat", "JASA", "JRSSB")
# Cited (row) by citing (column), as printed in the vignette of R's BradleyTerry2, from Stigler (1994).
CITATIONS = np.array([[714, 730, 498, 221], [33, 425, 68, 17], [320, 813, 1072, 142], [284, 276, 325, 188]])
TEAMS = ("Milwaukee", "Detroit", "Toronto", "New York", "Boston", "Cleveland", "Baltimore")
# Agresti (2002), table 10.10: American League 1987, wins of the row over the column (from memory).
BASEBALL = np.array(
    [
        [0, 7, 9, 7, 7, 9, 11],
        [6, 0, 7, 5, 11, 9, 9],
        [4, 6, 0, 7, 7, 8, 12],
        [6, 8, 6, 0, 6, 7, 10],
        [6, 2, 6, 7, 0, 7, 12],
        [4, 4, 5, 6, 6, 0, 6],
        [2, 4, 1, 3, 1, 7, 0],
    ]
)
PLAYERS = ("Seles", "Graf", "Sabatini", "Navratilova", "Sanchez")
# Agresti (2002), exercise 10: women's tennis 1989-90 (from memory).
TENNIS = np.array([[0, 2, 1, 3, 2], [3, 0, 6, 3, 7], [0, 3, 0, 1, 3], [3, 0, 2, 0, 3], [0, 1, 2, 1, 0]])
# Croon (1989): 2,262 Germans put four political aims in order (from memory; the counts add up).
# fmt: off
AIMS = {
    "ABCD": 137, "ABDC": 29, "ACBD": 309, "ACDB": 255, "ADBC": 52, "ADCB": 93,
    "BACD": 48, "BADC": 23, "BCAD": 61, "BCDA": 55, "BDAC": 33, "BDCA": 59,
    "CABD": 330, "CADB": 294, "CBAD": 117, "CBDA": 69, "CDAB": 70, "CDBA": 34,
    "DABC": 21, "DACB": 30, "DBAC": 29, "DBCA": 52, "DCAB": 35, "DCBA": 27,
}
# fmt: on
WINS = np.array([[0, 5, 6, 9], [3, 0, 2, 4], [2, 4, 0, 6], [1, 2, 3, 0]], dtype=float)
TIES = np.array([[0, 2, 1, 3], [2, 0, 3, 1], [1, 3, 0, 2], [3, 1, 2, 0]], dtype=float)


def test_citations_have_the_printed_abilities_errors_and_deviance():
    """Turner & Firth (2012), vignette of R's BradleyTerry2: citations among four journals."""
    fit = bradley_terry(CITATIONS, coffees=JOURNALS)
    found = fit.against("Biometrika")

    assert found["CommStat"] == pytest.approx((-2.9490725, 0.102545), abs=1e-6)
    assert found["JASA"] == pytest.approx((-0.4795698, 0.060589), abs=1e-6)
    assert found["JRSSB"] == pytest.approx((0.2689541, 0.070830), abs=1e-6)
    assert fit.deviance == pytest.approx(4.2934, abs=5e-5)
    assert fit.deviance_freedom == 3


def test_citations_agree_with_choix():
    """choix 0.4 (MIT), ilsr_pairwise on the same citations."""
    pairs = [(i, j) for i in range(4) for j in range(4) if i != j for _ in range(int(CITATIONS[i, j]))]
    theirs = choix.ilsr_pairwise(4, pairs)

    fit = bradley_terry(CITATIONS)

    assert [one.estimate for one in fit.coffees] == pytest.approx(theirs - theirs.mean(), abs=1e-6)


def test_pork_has_the_worths_of_the_closed_condition():
    """Bradley & Terry (1952), Biometrika 39:324: pork roasts pooled; w_i = Σ n_ij p_i / (p_i + p_j)."""
    wins = np.array([[0, 3, 5], [7, 0, 5], [5, 5, 0]], dtype=float)

    worth = np.array([one.estimate for one in bradley_terry(wins).picked_first])

    assert worth == pytest.approx((0.24794, 0.42677, 0.32529), abs=5e-6)
    expected = (wins + wins.T) * worth[:, None] / (worth[:, None] + worth)
    assert expected.sum(axis=1) - np.diag(expected) == pytest.approx(wins.sum(axis=1), abs=1e-7)


def test_baseball_has_the_printed_fit():
    """Agresti (2002), 10.6.1 (digits from memory): 1.58 1.44 1.29 1.25 1.11 .68 0; G² 15.74 on 15."""
    fit = bradley_terry(BASEBALL, coffees=TEAMS)
    found = [value for value, _ in fit.against("Baltimore").values()]

    assert found == pytest.approx((1.58, 1.44, 1.29, 1.25, 1.11, 0.68, 0.0), abs=0.0051)
    assert fit.deviance == pytest.approx(15.74, abs=0.005)
    assert fit.deviance_freedom == 15


def test_tennis_has_the_printed_fit():
    """Agresti (2002), exercise of chapter 10 (digits from memory): 1.53 1.93 .73 1.09 0."""
    found = [value for value, _ in bradley_terry(TENNIS, coffees=PLAYERS).against("Sanchez").values()]

    assert found == pytest.approx((1.53, 1.93, 0.73, 1.09, 0.0), abs=0.0051)


def test_bradley_terry_is_a_binomial_regression():
    """statsmodels GLM, binomial: each pair's wins on two indicators; errors and deviance too."""
    first, second = np.triu_indices(7, 1)
    design = np.eye(7)[first] - np.eye(7)[second]
    wins = np.column_stack([BASEBALL[first, second], BASEBALL[second, first]])
    theirs = sm.GLM(wins, design[:, :-1], family=sm.families.Binomial()).fit(tol=1e-12)

    fit = bradley_terry(BASEBALL, coffees=TEAMS)
    found = np.array(list(fit.against("Baltimore").values()))[:-1]

    assert found[:, 0] == pytest.approx(theirs.params, abs=1e-7)
    assert found[:, 1] == pytest.approx(theirs.bse, abs=1e-6)
    assert fit.deviance == pytest.approx(theirs.deviance, abs=1e-8)


def test_davidson_is_a_log_linear_model():
    """Fienberg (1979), Biometrics 35:479 (from memory): ties are Poisson counts; statsmodels GLM, Poisson."""
    rows, counts = [], []
    pairs = list(zip(*np.triu_indices(4, 1), strict=True))
    for pair, (i, j) in enumerate(pairs):
        for worth, tie, count in (
            (np.eye(4)[i], 0.0, WINS[i, j]),
            (np.eye(4)[j], 0.0, WINS[j, i]),
            ((np.eye(4)[i] + np.eye(4)[j]) / 2, 1.0, TIES[i, j]),
        ):
            rows.append([*worth[:-1], tie, *np.eye(len(pairs))[pair]])
            counts.append(count)
    theirs = sm.GLM(np.array(counts), np.array(rows), family=sm.families.Poisson()).fit(tol=1e-12)

    fit = bradley_terry(WINS, ties=TIES)
    found = np.array(list(fit.against("4").values()))[:-1]

    assert found[:, 0] == pytest.approx(theirs.params[:3], abs=1e-7)
    assert found[:, 1] == pytest.approx(theirs.bse[:3], abs=1e-6)
    assert np.log(fit.ties[0][1]) == pytest.approx(theirs.params[3], abs=1e-7)
    assert fit.deviance == pytest.approx(theirs.deviance, abs=1e-7)


def test_rao_and_kupper_is_the_highest_point_of_their_likelihood():
    """Rao & Kupper (1967), JASA 62:194: their likelihood as printed, climbed by scipy without a gradient."""

    def minus(parameters: np.ndarray) -> float:
        x, theta = np.exp(np.append(parameters[:3], 0.0)), 1 + np.exp(parameters[3])
        below = x[:, None] + theta * x
        win = x[:, None] / below
        tie = (theta**2 - 1) * np.outer(x, x) / (below * below.T)
        upper = np.triu_indices(4, 1)
        return -float((WINS * np.log(win)).sum() + (TIES[upper] * np.log(tie[upper])).sum())

    theirs = optimize.minimize(
        minus,
        np.zeros(4),
        method="Nelder-Mead",
        options={"xatol": 1e-10, "fatol": 1e-12, "maxiter": 20_000, "maxfev": 20_000},
    )

    fit = bradley_terry(WINS, ties=TIES, tie_model="rao_kupper")

    assert [value for value, _ in fit.against("4").values()][:3] == pytest.approx(theirs.x[:3], abs=1e-6)
    assert fit.ties[0][1] == pytest.approx(1 + np.exp(theirs.x[3]), abs=1e-6)
    assert fit.log_likelihood == pytest.approx(-theirs.fun, abs=1e-9)


def _aims() -> tuple[np.ndarray, np.ndarray]:
    places = np.array([[order.index(aim) + 1.0 for aim in "ABCD"] for order in AIMS])
    return places, np.array(list(AIMS.values()), dtype=float)


def test_political_aims_agree_with_choix():
    """Croon (1989), data from memory (2,262 answers); choix 0.4, ilsr_rankings."""
    places, counts = _aims()
    orders = [
        list(row.argsort()) for row, count in zip(places, counts, strict=True) for _ in range(int(count))
    ]
    theirs = choix.ilsr_rankings(4, orders)

    fit = plackett_luce(places, counts=counts)

    assert len(orders) == 2262
    assert [one.estimate for one in fit.coffees] == pytest.approx(theirs - theirs.mean(), abs=1e-6)


def test_rankings_are_survival_in_strata():
    """Allison & Christakis (1994): a ranking is a stratum of Cox's model; statsmodels PHReg, errors too."""
    rng = np.random.default_rng(1994)
    places = (rng.gumbel(size=(25, 5)) + np.arange(5) / 3).argsort(axis=1).argsort(axis=1) + 1.0
    long = pd.DataFrame(places).stack().rename_axis(["ranking", "coffee"]).rename("place").reset_index()
    indicators = (long["coffee"].to_numpy()[:, None] == np.arange(4)).astype(float)
    theirs = PHReg(long["place"], indicators, status=np.ones(len(long)), strata=long["ranking"]).fit(
        disp=False, tol=1e-10
    )

    fit = plackett_luce(places)
    found = np.array(list(fit.against("5").values()))[:-1]

    assert found[:, 0] == pytest.approx(theirs.params, abs=1e-5)
    assert found[:, 1] == pytest.approx(theirs.bse, abs=1e-5)
    assert fit.log_likelihood == pytest.approx(theirs.llf, abs=1e-8)


def test_partial_rankings_agree_with_choix():
    """choix 0.4, opt_rankings on flights of three of six: only who was in the flight is compared."""
    rng = np.random.default_rng(3)
    places, orders = np.full((40, 6), np.nan), []
    for row in places:
        flight = rng.permutation(6)[:3]
        order = flight[np.argsort(-(rng.gumbel(size=3) + flight / 4))]
        row[order] = (1, 2, 3)
        orders.append(list(order))
    theirs = choix.opt_rankings(6, orders, method="Newton-CG", tol=1e-12)

    fit = plackett_luce(places)

    assert [one.estimate for one in fit.coffees] == pytest.approx(theirs - theirs.mean(), abs=1e-5)


def test_chances_of_all_orders_add_up_to_one():
    """Plackett (1975), Appl. Statist. 24:193: the chances of all 24 orders of four, counted out."""
    places, counts = _aims()
    worth = np.array([one.estimate for one in plackett_luce(places, counts=counts).picked_first])

    chances = {}
    for order in permutations(range(4)):
        left, chance = list(order), 1.0
        for one in order:
            chance *= worth[one] / worth[left].sum()
            left.remove(one)
        chances[order] = chance
    observed = float(
        sum(n * np.log(chances[tuple(row.argsort())]) for row, n in zip(places, counts, strict=True))
    )

    assert sum(chances.values()) == pytest.approx(1.0, abs=1e-12)
    assert plackett_luce(places, counts=counts).log_likelihood == pytest.approx(observed, abs=1e-7)


def test_rankings_of_two_are_paired_choices_with_and_without_ties():
    """Luce (1959); Turner and others (2020), 2.2: for two at a time the models are one."""
    rows = []
    for i, j in zip(*np.triu_indices(4, 1), strict=True):
        for places, times in (((1, 2), WINS[i, j]), ((2, 1), WINS[j, i]), ((1, 1), TIES[i, j])):
            row = np.full(4, np.nan)
            row[[i, j]] = places
            rows += [row] * int(times)
    without = [row for row in rows if np.nanmin(row) != np.nanmax(row)]

    assert plackett_luce(without).log_likelihood == pytest.approx(
        bradley_terry(WINS).log_likelihood, abs=1e-9
    )
    assert [one.estimate for one in plackett_luce(without).coffees] == pytest.approx(
        [one.estimate for one in bradley_terry(WINS).coffees], abs=1e-7
    )
