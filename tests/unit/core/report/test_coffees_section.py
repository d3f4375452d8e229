"""Coffees: the sentence first, in words that match the numbers."""

import numpy as np
import pytest

from cupwright.core.analyse.scores import scores_of
from cupwright.core.report.coffees_section import coffees_section
from cupwright.core.report.document import Caveat, Figure, Heading, Paragraph, TableBlock

COFFEES = ("421", "708", "355", "112")
RNG = np.random.default_rng(1)
NOISE = 0.5 * RNG.normal(size=(4, 6))


def section(means, noise=1.0, **options):
    table = np.array(means, dtype=float)[:, None] + noise * NOISE[: len(means)]
    return coffees_section(scores_of(table, coffees=COFFEES[: len(means)]), **options)


def sentence(blocks):
    assert isinstance(blocks[0], Heading)
    assert isinstance(blocks[1], Paragraph)
    return blocks[1].text


def test_the_best_coffee_and_the_one_that_is_not_told_from_it_are_named():
    said = sentence(section([9, 9.1, 3, 1]))

    assert "probably stands highest of the four (0." in said
    assert "421" in said
    assert "708" in said
    assert said.endswith("cannot be told apart for sure.")


def test_coffees_far_apart_are_all_told_apart():
    assert sentence(section([9, 6, 3, 0])).endswith(
        "Coffee 421 probably stands highest of the four (over 0.99); all can be told apart."
    )


def test_nothing_stands_out_where_nothing_does():
    said = sentence(section([5, 5, 5, 5], noise=3.0))

    assert "no two can be told apart for sure" in said


def test_two_coffees_are_compared_as_two():
    assert sentence(section([9, 1])).endswith(
        "stands highest of the two (over 0.99); the two can be told apart."
    )


def test_one_coffee_is_silence_with_its_reason():
    blocks = section([5])

    assert sentence(blocks).startswith("Too little to say which coffee stands highest.")
    assert len(blocks) == 2


def test_the_figure_has_its_numbers_in_words():
    (figure,) = (block for block in section([9, 6, 3, 0], attribute="Acidity") if isinstance(block, Figure))

    assert figure.rows[0]["label"] == "421"
    assert all(name in figure.alt for name in COFFEES)
    assert figure.name == "coffees-acidity"


def test_an_interval_past_the_end_of_the_scale_is_said_and_not_cut():
    blocks = section([9, 6, 3, 0], ends=(0.0, 9.0))

    assert any(
        isinstance(block, Caveat) and "past the end of the scale (0 to 9)" in block.text for block in blocks
    )
    (figure,) = (block for block in blocks if isinstance(block, Figure))
    assert max(row["high"] for row in figure.rows) > 9
    assert figure.domain is None


def test_one_taster_is_said_to_be_one():
    table = np.array([[[9.0, 8]], [[5, 6]], [[1, 2]]])

    blocks = coffees_section(scores_of(table, tasters=["Ada"]))

    assert any(isinstance(block, Caveat) and "what Ada finds" in block.text for block in blocks)
    assert not any(isinstance(block, TableBlock) and block.name == "components" for block in blocks)


def test_variances_taken_as_zero_are_said():
    contradicting = np.array([[1.0, 3], [2, 2], [3, 1]])

    blocks = coffees_section(scores_of(contradicting))

    assert any(isinstance(block, Caveat) and "taken as 0" in block.text for block in blocks)


@pytest.mark.parametrize("attribute", ["", "Flavour & finish"])
def test_names_are_letters_digits_and_hyphens(attribute):
    names = [block.name for block in section([9, 6, 3, 0], attribute=attribute) if hasattr(block, "name")]

    assert names
    assert all(letter.isalnum() or letter == "-" for name in names for letter in name)
