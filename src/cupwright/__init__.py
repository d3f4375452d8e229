"""Cupwright: from a fair blind table to words and decisions that hold up.

Every statistic can be had from here (`from cupwright import icc`); docs/methods/ has a page for each. They
are loaded when asked for, so that `import cupwright` stays light.
"""

from importlib import import_module
from typing import Any

__version__ = "0.1.0"

_ROOM = "cupwright.core.analyse."
# name -> the module of core/analyse that holds it
_EXPORTS: dict[str, str] = {
    "Estimate": "estimate",
    "cumulative_link": "cumulative_link",
    "cumulative_link_mixed": "cumulative_link_mixed",
    "likelihood_ratio": "cumulative_link_mixed",
    "compare_coffees": "coffee_estimates",
    "across_tables": "across_tables",
    "tasters_across_tables": "across_tables",
    "coffee_course": "course_over_tables",
    "taster_course": "course_over_tables",
    "crossed_components": "components",
    "friedman": "friedman",
    "page_trend": "page",
    "durbin": "durbin",
    "bradley_terry": "bradley_terry",
    "plackett_luce": "plackett_luce",
    "skillings_mack": "skillings_mack",
    "cochran_q": "cochran",
    "mcnemar": "mcnemar",
    "holm": "holm",
    "penalty_lift": "penalty_lift",
    "words_that_hold": "words_hold",
    "word_differences": "word_differences",
    "split_words": "split_words",
    "taster_performance": "tasters",
    "taster_records": "taster_record",
    "pool_records": "taster_record",
    "mandel": "mandel",
    "one_cup_off": "one_cup_off",
    "cups_off": "one_cup_off",
    "cooling_trend": "as_it_cools",
    "word_as_it_cools": "words_as_they_cool",
    "words_as_they_cool": "words_as_they_cool",
    "icc": "icc",
    "icc_bootstrap": "icc_bootstrap",
    "icc_consistency": "agreement",
    "kendall_w": "kendall",
    "krippendorff_alpha": "krippendorff",
    "cohen_kappa": "kappa",
    "cross_count": "kappa",
    "category_counts": "kappa",
    "fleiss_kappa": "kappa",
    "randolph_kappa": "kappa",
    "decision_study": "decision_study",
    "spearman_brown": "decision_study",
    "which_to_quote": "which_to_quote",
    "Scores": "scores",
    "scores_of": "scores",
    "ScoreColumns": "overview",
    "overview": "overview",
    "map_regions": "regions",
    "correspondence_regions": "regions",
    "axes_beyond_chance": "axis_chance",
    "axis_words": "axis_words",
    "pca": "pca",
    "correspondence": "correspondence",
    "multiple_correspondence": "multiple_correspondence",
    "multiple_factor_analysis": "multiple_factor",
    "rv_coefficient": "rv",
    "rv_matrix": "rv",
    "statis": "statis",
    "procrustes": "procrustes",
    "generalised_procrustes": "procrustes",
}

__all__ = ["__version__", *_EXPORTS]  # noqa: PLE0604 # the names of the table above are strings


def __getattr__(name: str) -> Any:
    if name not in _EXPORTS:
        raise AttributeError(f"module 'cupwright' has no attribute '{name}'")
    return getattr(import_module(_ROOM + _EXPORTS[name]), name)


def __dir__() -> list[str]:
    return sorted(__all__)
