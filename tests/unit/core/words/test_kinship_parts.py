"""The parts of kinship, each a table over all concepts."""

import numpy as np
import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.kinship_parts import co_use_part, facets_part, graph_part, scales_part
from cupwright.core.words.kinship_weights import KinshipWeights
from cupwright.core.words.lexicon import load_lexicon

LEXICON = load_lexicon()
SMALL = small_lexicon()
AT = {concept: at for at, concept in enumerate(SMALL.concepts)}


@pytest.mark.parametrize("part", [graph_part, facets_part])
def test_every_part_is_symmetric_and_lies_between_0_and_1(part):
    table = part(LEXICON)

    assert table.shape == (len(LEXICON), len(LEXICON))
    assert np.allclose(table, table.T, atol=1e-12)
    assert table.min() >= 0
    assert table.max() <= 1 + 1e-12


def test_no_two_concepts_share_all_that_stands_above_them():
    graph = graph_part(LEXICON)

    assert np.diag(graph) == pytest.approx(np.ones(len(LEXICON)))
    assert graph[~np.eye(len(LEXICON), dtype=bool)].max() < 1


def test_co_use_is_that_of_the_families_two_concepts_belong_to():
    weights = KinshipWeights(0, 0, 1, frozenset({"citrus", "taste"}), {("citrus", "taste"): 0.9})

    table = co_use_part(SMALL, weights)

    assert table[AT["lemon"], AT["sweet"]] == table[AT["orange"], AT["acidity"]] == pytest.approx(0.8)
    assert table[AT["lemon"], AT["orange"]] == pytest.approx(0.8)
    assert table[AT["pear"], AT["sweet"]] == 0
    assert table[AT["pear"], AT["blueberry"]] == 0


def test_scales_are_only_for_words_on_one_scale():
    table = scales_part(SMALL)

    assert table[AT["thin"], AT["heavy"]] == 0
    assert table[AT["thin"], AT["thin"]] == pytest.approx(0.9)
    assert np.isnan(table[AT["thin"], AT["lemon"]])
    assert np.isnan(table[AT["lemon"], AT["orange"]])
