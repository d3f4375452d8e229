"""The map of words that is kept ready."""

from dataclasses import replace

import numpy as np
import pytest

from cupwright.core.words.extending import extended
from cupwright.core.words.kinship import kin_of, nearest_kin
from cupwright.core.words.lexicon import Lexicon, load_lexicon
from cupwright.core.words.map_of_words import place_among, smacof
from cupwright.core.words.own_words import OwnConcept
from cupwright.core.words.ready_map import builtin_map, fingerprint, ready_map

LEXICON = load_lexicon()


def apart(lexicon):
    return 1 - kin_of(lexicon).kinship


def test_the_kept_map_is_up_to_date():
    """If not, run docs/methods/lay_map.py and commit what it writes."""
    assert builtin_map().fingerprint == fingerprint(LEXICON)
    assert set(builtin_map().points) == set(LEXICON.concepts)


def test_the_kept_map_cannot_be_bettered_by_the_usual_steps():
    """Kinship may change by its program, too, unseen by the fingerprint: run docs/methods/lay_map.py."""
    kept = ready_map(LEXICON)

    further = smacof(apart(LEXICON), kept.points, most_steps=10)

    assert further.stress == pytest.approx(kept.stress, abs=2e-4)
    assert further.points == pytest.approx(kept.points, abs=0.01)


def test_the_fingerprint_changes_with_what_makes_kin_and_not_with_how_words_are_written():
    def with_quince(**changes):
        return Lexicon(
            {**LEXICON.concepts, "quince": replace(LEXICON["quince"], **changes)},
            LEXICON.families,
            LEXICON.language,
            LEXICON.others,
        )

    assert fingerprint(with_quince(parents=("citrus",))) != fingerprint(LEXICON)
    assert fingerprint(with_quince(synonyms=("quince", "zonk"))) == fingerprint(LEXICON)


def test_an_own_word_lies_by_its_kin_and_all_others_stay():
    mine = extended(LEXICON, [OwnConcept("quince_soda", "quince soda", ("quince",), ())])

    drawn = ready_map(mine)

    at = dict(zip(drawn.concepts, drawn.points, strict=True))
    kept = builtin_map().points
    assert all(tuple(at[concept]) == kept[concept] for concept in LEXICON.concepts)
    away = {concept: np.linalg.norm(at[concept] - at["quince_soda"]) for concept in LEXICON.concepts}
    assert away["quince"] < 0.15
    assert away["quince"] < away["ash"] / 3
    assert 0 < drawn.stress < 0.5


def test_a_word_taken_out_and_placed_again_comes_back_to_its_place():
    drawn, wanted = ready_map(LEXICON), apart(LEXICON)
    for concept in ("lemon", "smoke", "quince", "jasmine"):
        at = drawn.concepts.index(concept)
        others = np.arange(len(drawn.concepts)) != at

        again = place_among(drawn.points[others], wanted[at, others])

        assert again == pytest.approx(drawn.points[at], abs=0.02)


def test_own_words_of_one_kin_do_not_lie_on_one_point():
    own = [OwnConcept(f"quince_{at}", f"quince number {at}", ("quince",), ()) for at in range(3)]

    drawn = ready_map(extended(LEXICON, own))

    at = dict(zip(drawn.concepts, drawn.points, strict=True))
    assert np.linalg.norm(at["quince_0"] - at["quince_1"]) > 1e-3
    assert nearest_kin("quince_0", extended(LEXICON, own))[0][0] in at
