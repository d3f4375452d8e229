"""Crossed components, 40 coffees x 10 tasters x 2, full and with holes, against statsmodels' MixedLM."""

import time
import warnings

import numpy as np
import pandas as pd
import statsmodels.formula.api as smf
from parts.interleaved import interleaved

from cupwright import crossed_components
from cupwright.core.analyse.scores import Scores, scores_of


def figures(*, quick: bool) -> dict[str, float]:
    """Ratios (medians), after a check of the numbers."""
    rng = np.random.default_rng(5)
    full = _panel(rng, 40, 10, 2)
    holed = np.where(rng.random(full.shape) < 0.1, np.nan, full)
    turns = 2 if quick else 5
    found: dict[str, float] = {}
    for name, table, calls in (("balanced", full, 200), ("unbalanced", holed, 10)):
        scores = scores_of(table)
        _check(scores)
        compared = interleaved(
            lambda table=table: crossed_components(table),
            lambda scores=scores: _theirs(scores),
            turns=turns,
            calls=calls,
        )
        found |= compared.figures(f"components_{name}")
    return found | _large(rng)


def _large(rng: np.random.Generator) -> dict[str, float]:
    """Seconds for 10^5 scores of 500 coffees and 100 tasters with holes."""
    table = _panel(rng, 500, 100, 4)
    table[rng.random(table.shape) < 0.4] = np.nan
    scores = scores_of(table)
    began = time.perf_counter()
    crossed_components(scores)
    return {"components_large_scores": float(len(scores)), "components_large_s": time.perf_counter() - began}


def _panel(rng: np.random.Generator, coffees: int, tasters: int, repeats: int) -> np.ndarray:
    return (
        80
        + rng.normal(0, 1.5, (coffees, 1, 1))
        + rng.normal(0, 1.0, (1, tasters, 1))
        + rng.normal(0, 0.7, (coffees, tasters, 1))
        + rng.normal(0, 1.0, (coffees, tasters, repeats))
    )


def _theirs(scores: Scores) -> tuple[np.ndarray, float]:
    frame = pd.DataFrame(
        {
            "value": scores.value,
            "coffee": scores.coffee,
            "taster": scores.taster,
            "cell": scores.coffee * 1000 + scores.taster,
            "one": 1,
        }
    )
    parts = {"a": "0+C(coffee)", "b": "0+C(taster)", "c": "0+C(cell)"}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        fit = smf.mixedlm("value ~ 1", frame, groups="one", vc_formula=parts).fit(method="lbfgs")
    return np.array([*fit.vcomp, fit.scale]), float(fit.llf)


def _check(scores: Scores) -> None:
    """Our likelihood is theirs at their variances to 1e-6, and not below it at ours."""
    from cupwright.core.analyse.cell_sums import cell_sums
    from cupwright.core.analyse.reml import restricted

    variances, likelihood = _theirs(scores)
    ours = crossed_components(scores)
    at_theirs = restricted(cell_sums(scores), variances).log_likelihood
    if abs(at_theirs - likelihood) > 1e-6 * abs(likelihood):
        raise SystemExit(f"The likelihood at the same variances differs: {at_theirs} and {likelihood}.")
    if ours.log_likelihood is None or ours.log_likelihood < likelihood - 1e-6:
        raise SystemExit(f"Their top is higher: {likelihood} over {ours.log_likelihood}.")
