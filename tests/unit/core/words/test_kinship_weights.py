"""The fitted part of kinship."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.kinship_weights import KinshipWeights, builtin_kinship_weights, family_of
from cupwright.core.words.lexicon import load_lexicon


def test_weights_that_come_with_the_program_are_few_and_name_families_of_the_lexicon():
    weights = builtin_kinship_weights()

    assert all(0 <= weight < 1 for weight in (weights.graph, weights.facets, weights.co_use))
    assert weights.families <= load_lexicon().concepts.keys()
    assert {family for pair in weights.likeness for family in pair} <= weights.families
    assert len(weights.likeness) < 200


def test_likeness_counts_from_the_least_that_is_kept_and_a_family_is_as_like_itself_as_any_other():
    weights = KinshipWeights(0.5, 0.5, 0.5, frozenset(), {("nuts", "wood"): 0.75, ("oak", "wood"): 0.6})

    assert weights.alike("wood", "nuts") == pytest.approx(0.5)
    assert weights.alike("wood", "wood") == pytest.approx(0.5)
    assert weights.alike("oak", "oak") == pytest.approx(0.2)
    assert weights.alike("nuts", "oak") == 0
    assert weights.alike("tea", "tea") == 0


def test_the_family_of_a_concept_is_the_nearest_above_it():
    lexicon = small_lexicon()

    assert family_of("lemon", lexicon, frozenset({"fruit", "citrus"})) == "citrus"
    assert family_of("pear", lexicon, frozenset({"fruit", "citrus"})) == "fruit"
    assert family_of("thin", lexicon, frozenset({"fruit"})) == ""
