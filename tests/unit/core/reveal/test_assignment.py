"""Coffees to codes by chance, and codes to places at the reveal."""

import random
from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest
from tests.unit.core.taste.builders import CODES, a_table

from cupwright.core.plan.table import Blinding, Seat, Table
from cupwright.core.plan.williams import williams
from cupwright.core.reveal.assignment import assign, identities
from cupwright.core.reveal.seal import seal
from cupwright.errors import Refused

COFFEES = ("coffee-a", "coffee-b", "coffee-c")
NONCE = "0f" * 32
KEY = seal(dict(zip(CODES, COFFEES, strict=True)), NONCE)
SHUFFLED = a_table(blinding=Blinding.SHUFFLE)


def test_with_a_pourer_each_coffee_gets_one_code():
    assigned = assign(a_table(), COFFEES, rng=random.Random(1))

    assert tuple(assigned) == CODES
    assert sorted(assigned.values()) == sorted(COFFEES)


def test_several_bowls_of_a_sample_share_its_code():
    assigned = assign(a_table(bowls=5), COFFEES, rng=random.Random(1))

    assert sorted(assigned.values()) == sorted(COFFEES)


def test_for_a_shuffle_each_coffee_gets_as_many_codes_as_bowls():
    codes = tuple(str(code) for code in range(201, 207))

    assigned = assign(a_table(blinding=Blinding.SHUFFLE, codes=codes, bowls=2), COFFEES, rng=random.Random(1))

    assert tuple(assigned) == codes
    assert Counter(assigned.values()) == {"coffee-a": 2, "coffee-b": 2, "coffee-c": 2}


def test_a_table_that_is_not_blind_pairs_as_they_come():
    for seed in range(20):
        assigned = assign(a_table(blinding=Blinding.OPEN), COFFEES, rng=random.Random(seed))
        assert assigned == dict(zip(CODES, COFFEES, strict=True))


def test_every_assignment_is_about_equally_likely():
    rng = random.Random(20260102)

    seen = Counter(tuple(assign(a_table(), COFFEES, rng=rng).values()) for _ in range(6000))

    # Six assignments of 1000 each; chi-squared with 5 degrees of freedom is under 20.5 in 999 of 1000 draws.
    assert len(seen) == 6
    assert sum((count - 1000) ** 2 / 1000 for count in seen.values()) < 20.5


@pytest.mark.parametrize("coffees", [(), COFFEES[:2], (*COFFEES, "coffee-d")])
def test_codes_that_do_not_suffice_exactly_are_refused(coffees: tuple[str, ...]):
    with pytest.raises(Refused, match="The table 'Morning' has 3 codes"):
        assign(a_table(), coffees, rng=random.Random(1))


def test_codes_on_the_bowls_say_what_stood_where():
    assert identities(a_table(), KEY, None) == KEY.coffee_of()
    assert identities(a_table(), KEY, {}) == KEY.coffee_of()


def test_placings_are_refused_where_nothing_was_shuffled():
    with pytest.raises(Refused, match="were not shuffled"):
        identities(a_table(), KEY, {"274": "274"})


def test_after_a_shuffle_the_labels_say_what_stood_where():
    placings = {"3": "274", "1": "836", "2": "591"}

    found = identities(SHUFFLED, KEY, placings)

    assert list(found.items()) == [("1", "coffee-c"), ("2", "coffee-b"), ("3", "coffee-a")]


@pytest.mark.parametrize(
    ("placings", "says"),
    [
        (None, "Position 1 has no code yet."),
        ({}, "Position 1 has no code yet."),
        ({"1": "274", "2": "591"}, "Position 3 has no code yet."),
        ({"1": "274", "2": "", "3": "591"}, "Position 2 has no code yet."),
        ({"1": "274", "2": "591", "3": "836", "4": "111"}, "There is no position '4'."),
        ({"one": "274"}, "There is no position 'one'. Positions run from 1 to 3."),
        (
            {"1": "274", "2": "638", "3": "591"},
            "There is no code '638' at this table, but position 2",
        ),
        ({"1": "274", "2": "591", "3": "274"}, "Positions 1 and 3 have the same code 274."),
    ],
)
def test_placings_that_do_not_pair_places_and_codes_are_refused(placings: dict[str, str] | None, says: str):
    with pytest.raises(Refused) as refusal:
        identities(SHUFFLED, KEY, placings)

    assert str(refusal.value).startswith(says)


# ---- hidden duplicates ---------------------------------------------------------------------------------

SIX = ("208", "274", "347", "459", "591", "836")
TWICE = (*COFFEES, "coffee-d", "coffee-e", "coffee-a")


def met_in_a_row(assigned: dict[str, str], orders: list[tuple[str, ...]]) -> int:
    return sum(assigned[a] == assigned[b] for order in orders for a, b in pairwise(order))


def table_of(orders: list[tuple[str, ...]], flight: int = 8) -> Table:
    table = a_table(codes=SIX)
    seats = tuple(Seat(f"s{number}", f"T{number}", order) for number, order in enumerate(orders))
    return replace(table, plan=replace(table.plan, flight=flight), seats=seats)


def test_a_hidden_duplicate_has_two_codes():
    assigned = assign(table_of([]), TWICE, rng=random.Random(1))

    assert tuple(assigned) == SIX
    assert Counter(assigned.values())["coffee-a"] == 2


def test_nobody_meets_a_duplicate_in_a_row_where_that_can_be_avoided():
    orders = [SIX, SIX[::-1], ("274", "208", "347", "591", "459", "836")]

    for seed in range(50):
        assigned = assign(table_of(orders), TWICE, rng=random.Random(seed))
        assert met_in_a_row(assigned, orders) == 0


def test_after_a_break_it_is_not_in_a_row():
    """Flights of three: 347 and 459 follow each other with a break between, so they may be alike."""
    pairs = set()
    for seed in range(300):
        assigned = assign(table_of([SIX], flight=3), TWICE, rng=random.Random(seed))
        pairs.add(tuple(code for code in SIX if assigned[code] == "coffee-a"))

    assert ("347", "459") in pairs
    assert ("208", "274") not in pairs
    assert len(pairs) == 15 - 4


def test_where_all_pairs_are_met_equally_often_all_are_equally_likely():
    # given a whole Williams square, in which each two codes are met in a row twice
    orders = [tuple(SIX[sample] for sample in row) for row in williams(6)]
    rng = random.Random(20260102)

    # when
    seen = Counter(
        tuple(
            code for code, coffee in assign(table_of(orders), TWICE, rng=rng).items() if coffee == "coffee-a"
        )
        for _ in range(1500)
    )

    # then 15 pairs of 100 each; chi-squared with 14 degrees of freedom is under 36.1 in 999 of 1000 draws
    assert len(seen) == 15
    assert sum((count - 100) ** 2 / 100 for count in seen.values()) < 36.1


def test_the_key_of_a_duplicate_opens_to_both_places():
    assigned = assign(table_of([SIX]), TWICE, rng=random.Random(1))

    opened = identities(table_of([SIX]), seal(assigned, NONCE), None)

    assert opened == assigned
    assert Counter(opened.values())["coffee-a"] == 2
