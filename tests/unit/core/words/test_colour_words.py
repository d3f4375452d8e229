"""Which families of words go with which colours."""

import random

import pytest

from cupwright.core.words.colour import OKLab
from cupwright.core.words.colour_consensus import mean_colour
from cupwright.core.words.colour_words import ColouredCup, colours_of_families
from cupwright.core.words.lexicon import load_lexicon
from cupwright.errors import TooFewObservations

LEXICON = load_lexicon()
DARK, PALE = OKLab(0.3, 0.03, 0.04), OKLab(0.8, 0.05, 0.12)


def cup(taster, colour, *concepts):
    return ColouredCup(taster, colour, frozenset(concepts))


def near(rng, colour, step=0.05):
    return OKLab(*(part + rng.gauss(0, step) for part in (colour.l, colour.a, colour.b)))


def linked(tasters=12):
    """Dark colours with smoke, pale ones with fruit."""
    rng = random.Random(3)
    return [
        one
        for at in range(tasters)
        for one in (
            cup(f"t{at}", near(rng, DARK), "smoke", "body"),
            cup(f"t{at}", near(rng, PALE), "lemon"),
            cup(f"t{at}", near(rng, PALE), "peach", "body"),
        )
    ]


def test_a_family_that_goes_with_dark_colours_is_found_darker():
    found = {one.family: one for one in colours_of_families(linked(), LEXICON)}

    hearth, fruit = found["hearth"], found["fruit"]
    assert (hearth.cups, hearth.tasters) == (12, 12)
    assert hearth.lighter.sure
    assert hearth.lighter.estimate == pytest.approx(-0.5, abs=0.05)
    assert hearth.lighter.low < hearth.lighter.estimate < hearth.lighter.high < 0
    assert fruit.lighter.low > 0
    assert hearth.difference > 20


def test_means_are_those_of_the_cups():
    cups = linked()
    found = {one.family: one for one in colours_of_families(cups, LEXICON)}

    assert found["hearth"].colour.l == pytest.approx(
        mean_colour([one.colour for one in cups if "smoke" in one.concepts]).l
    )
    assert found["hearth"].elsewhere.b == pytest.approx(
        mean_colour([one.colour for one in cups if "smoke" not in one.concepts]).b
    )


def test_without_a_link_intervals_leave_out_nothing_more_often_than_they_say():
    """60 runs without any link: at level 0.95 about 3 of them may look sure; up to 10 pass."""
    rng = random.Random(9)
    sure = 0
    for seed in range(60):
        cups = [
            cup(f"t{at}", near(rng, PALE, 0.15), *(["lemon"] if rng.random() < 0.5 else []))
            for at in range(20)
            for _ in range(4)
        ]
        sure += colours_of_families(cups, LEXICON, seed=seed)[0].lighter.sure

    assert sure <= 10


def test_many_cups_of_one_taster_do_not_count_as_many_tasters():
    cups = [
        *[cup("loud", DARK, "smoke") for _ in range(50)],
        *[cup(f"t{at}", PALE, "lemon") for at in range(6)],
    ]

    assert {one.family for one in colours_of_families(cups, LEXICON)} == {"fruit"}


def test_the_same_seed_gives_the_same_answer():
    assert colours_of_families(linked(), LEXICON, seed=4) == colours_of_families(linked(), LEXICON, seed=4)


def test_fewer_than_five_tasters_are_too_few():
    with pytest.raises(TooFewObservations, match="4 tasters"):
        colours_of_families(linked(4), LEXICON)
