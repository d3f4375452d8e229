"""Six correlations, their bootstrap and alpha, against the general-purpose libraries for each."""

import krippendorff
import numpy as np
import pandas as pd
import pingouin
from parts.interleaved import interleaved

from cupwright.core.analyse.icc import FORMS, icc
from cupwright.core.analyse.icc_bootstrap import icc_bootstrap, icc_draws
from cupwright.core.analyse.krippendorff import krippendorff_alpha
from cupwright.core.analyse.resamples import resample_weights

DRAWS = 2000
# A loop over the library is timed on so many resamples and multiplied up: all 2,000 would take half a minute.
TIMED = 10


def figures(*, quick: bool) -> dict[str, float]:
    """Seconds and ratios, on 200 coffees by 8 tasters, and alpha on 500 by 20 with hundredths of a point."""
    table = _scores(200, 8)
    pingouin.options["round.column.CI95"] = None
    return _six(table, quick) | _bootstrap(table, quick) | _alpha(quick)


def _six(table: np.ndarray, quick: bool) -> dict[str, float]:
    frame = _long(table)
    theirs = _general(frame)
    ours = icc(table)
    for form, estimate, ends in zip(FORMS, theirs["ICC"], theirs["CI95"], strict=True):
        assert abs(ours[form].estimate - estimate) < 1e-6
        assert np.abs(np.array([ours[form].low, ours[form].high]) - ends).max() < 1e-6
    turns = 7 if quick else 31
    compared = interleaved(lambda: icc(table), lambda: _general(frame), turns=turns, calls=20)
    return compared.figures("six_icc_200x8")


def _bootstrap(table: np.ndarray, quick: bool) -> dict[str, float]:
    weights = resample_weights(len(table), 3, np.random.default_rng(1)).astype(int)
    drawn = icc_draws(table, "icc2", draws=3, rng=np.random.default_rng(1))
    for counts, ours in zip(weights, drawn, strict=True):
        assert abs(ours - _general(_long(np.repeat(table, counts, axis=0)))["ICC"][1]) < 1e-6
    rng = np.random.default_rng(2)
    frames = [_long(table[rng.integers(len(table), size=len(table))]) for _ in range(TIMED)]
    compared = interleaved(
        lambda: icc_bootstrap(table, "icc2", draws=DRAWS),
        lambda: [_general(frame) for frame in frames],
        turns=5 if quick else 11,
    ).figures("icc_bootstrap_2000")
    for figure in ("theirs", "ratio", "low", "high"):
        compared[f"icc_bootstrap_2000_{figure}"] *= DRAWS / TIMED
    return compared | {"icc_bootstrap_2000_timed": float(TIMED)}


def _alpha(quick: bool) -> dict[str, float]:
    rng = np.random.default_rng(2004)
    scores = np.round(80 + rng.normal(0, 0.6, size=(500, 1)) + rng.normal(0, 0.8, size=(500, 20)), 2)

    def theirs() -> float:
        return float(krippendorff.alpha(scores.T, level_of_measurement="interval"))

    def ours() -> float:
        return krippendorff_alpha(scores, draws=0).estimate

    assert abs(ours() - theirs()) < 1e-6
    return interleaved(ours, theirs, turns=3 if quick else 7, calls=20).figures("alpha_interval_500x20")


def _general(frame: pd.DataFrame) -> pd.DataFrame:
    return pingouin.intraclass_corr(frame, "coffee", "taster", "score")


def _long(table: np.ndarray) -> pd.DataFrame:
    wide = pd.DataFrame(table).rename_axis("coffee").reset_index()
    return wide.melt("coffee", var_name="taster", value_name="score")


def _scores(coffees: int, tasters: int) -> np.ndarray:
    rng = np.random.default_rng(1979)
    levels = rng.normal(size=(1, tasters))
    return rng.normal(size=(coffees, 1)) + levels + rng.normal(size=(coffees, tasters))
