"""Kinship against an order of 120 pairs and 40 odd ones out, written by judgement before it was computed.

First run, before any look at the file: tau-b 0.808, all 40 right (docs/methods/kinship.md).
"""

import tomllib
from pathlib import Path

import pytest
from scipy.stats import kendalltau

from cupwright.core.words.kinship import kinship
from cupwright.core.words.lexicon import load_lexicon

LEXICON = load_lexicon()
JUDGED = tomllib.loads(Path(__file__).with_name("kin_pairs.toml").read_text("utf-8"))


def test_pairs_are_ordered_as_by_judgement():
    """Kendall's tau-b, because pairs of one tier are tied; the bound is 0.75."""
    nearness = [-pair["tier"] for pair in JUDGED["pair"]]
    computed = [kinship(*pair["words"], LEXICON) for pair in JUDGED["pair"]]

    assert len(computed) == 120
    assert kendalltau(nearness, computed).statistic >= 0.75


@pytest.mark.parametrize("triple", JUDGED["triple"], ids=lambda triple: "-".join(triple["words"]))
def test_the_odd_one_out_is_the_farthest(triple):
    odd = triple["odd"]
    first, second = (word for word in triple["words"] if word != odd)

    near = kinship(first, second, LEXICON)
    assert near > kinship(first, odd, LEXICON)
    assert near > kinship(second, odd, LEXICON)
