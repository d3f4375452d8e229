"""Corrections: which one holds, and which are malformed."""

from dataclasses import replace

import pytest

from cupwright.core.taste.correction import (
    Correction,
    checked_correction,
    standing_corrections,
)
from cupwright.core.taste.stamp import Stamp
from cupwright.core.words.own_words import NOT_THAT
from cupwright.errors import Refused


def correction(number: int = 1, **changes: object) -> Correction:
    said = Correction(f"c-{number}", "ada", "grippy", "drying", Stamp(number, "phone-a"), 1_790_000_000_000)
    return replace(said, **changes)


def test_the_newest_correction_of_the_same_words_holds_however_they_were_typed():
    said = [correction(2, surface="Grippy!", concept="rough"), correction(1), correction(3, surface="pulpo")]

    assert standing_corrections(said) == {"grippy": "rough", "pulpo": "drying"}


def test_a_clock_that_is_wrong_changes_nothing():
    early, late = correction(2, written_at=1, concept="rough"), correction(1, written_at=2**52)

    assert standing_corrections([early, late]) == {"grippy": "rough"}


def test_not_that_stands_as_an_answer_and_a_correction_taken_back_does_not():
    said = [correction(1, surface="plum", concept=NOT_THAT), correction(2), correction(3, concept=None)]

    assert standing_corrections(said) == {"plum": NOT_THAT}


def test_of_equal_stamps_the_greater_id_holds_in_any_order():
    twins = [correction(id="c-1"), correction(id="c-2", concept="rough")]

    assert standing_corrections(twins) == standing_corrections(twins[::-1]) == {"grippy": "rough"}


@pytest.mark.parametrize(
    "changes",
    [
        {"id": ""},
        {"id": "a b"},
        {"stamp": Stamp(0, "phone-a")},
        {"stamp": Stamp(1, "phone/a")},
        {"written_at": -1},
        {"surface": ""},
        {"surface": "!?"},
        {"surface": "x" * 201},
        {"surface": "plum\x00"},
        {"surface": "plum\ud800"},
        {"concept": ""},
        {"concept": "Quince Soda"},
    ],
)
def test_a_malformed_correction_is_refused(changes):
    with pytest.raises(Refused):
        checked_correction(correction(**changes))


def test_a_concept_that_nobody_knows_yet_is_no_reason_to_refuse():
    said = correction(concept="quince_soda")

    assert checked_correction(said) is said
