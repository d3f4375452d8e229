"""Blocks: everybody gets as many, all samples are linked, and known designs are reached."""

import random
from collections import Counter
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.plan.block_search import Together, block_bound, is_connected
from cupwright.core.plan.blocks import (
    draw_blocks,
    fewest_tasters,
    next_block,
    possible_designs,
    require_linked,
)
from cupwright.errors import Refused


def counts(blocks: list[set[int]]) -> tuple[Counter[int], Counter[tuple[int, int]]]:
    served = Counter(sample for block in blocks for sample in block)
    together = Counter(pair for block in blocks for pair in combinations(sorted(block), 2))
    return served, together


def linked_by_hand(t: int, blocks: list[set[int]]) -> bool:
    """Connectedness by joining names, apart from the code under test."""
    name = list(range(t))
    for block in blocks:
        old = {name[sample] for sample in block}
        name = [min(old) if one in old else one for one in name]
    return len(set(name)) == 1


@settings(max_examples=60, deadline=None)
@given(t=st.integers(3, 10), data=st.data(), seed=st.integers())
def test_everybody_gets_as_many_and_all_samples_are_linked(t: int, data: st.DataObject, seed: int):
    # given
    k = data.draw(st.integers(2, t - 1))
    tasters = data.draw(st.integers(fewest_tasters(t, k), fewest_tasters(t, k) + 12))

    # when
    blocks = draw_blocks(t, tasters, k, rng=random.Random(seed))

    # then
    assert [len(block) for block in blocks] == [k] * tasters
    assert set().union(*blocks) == set(range(t))
    assert linked_by_hand(t, blocks)
    served, _ = counts(blocks)
    assert max(served.values()) - min(served.values()) <= 2
    assert Together(t, blocks).cost >= block_bound(t, tasters, k)


@given(t=st.integers(2, 8), seed=st.integers())
def test_connectedness_is_judged_as_by_hand(t: int, seed: int):
    rng = random.Random(seed)
    blocks = [set(rng.sample(range(t), 2)) for _ in range(rng.randint(0, t))]

    assert is_connected(t, blocks) is linked_by_hand(t, blocks)


@pytest.mark.parametrize(("t", "k"), [(6, 2), (9, 3), (12, 4), (7, 3)])
def test_the_fewest_tasters_suffice_and_one_less_is_refused(t: int, k: int):
    fewest = fewest_tasters(t, k)

    assert linked_by_hand(t, draw_blocks(t, fewest, k, rng=random.Random(1)))
    with pytest.raises(Refused, match=f"of {t} samples each cannot link") as refusal:
        draw_blocks(t, fewest - 1, k, rng=random.Random(1))
    assert str(fewest) in refusal.value.todo


def test_a_single_taster_is_called_one():
    with pytest.raises(Refused, match=r"^1 taster with"):
        require_linked(5, 1, 2)


def test_two_whole_designs_are_balanced_and_the_rest_is_as_even_as_can_be():
    served, together = counts(draw_blocks(7, 14, 3, rng=random.Random(1)))
    assert set(served.values()) == {6}
    assert set(together.values()) == {2}

    more = draw_blocks(7, 16, 3, rng=random.Random(1))
    assert Together(7, more).cost == block_bound(7, 16, 3)


def test_where_arithmetic_forbids_a_balanced_design_the_most_even_is_found():
    # given 8 samples, 8 tasters of 4: together = 12/7 is no whole number
    assert possible_designs(8, 4, 8) == ()

    # when
    blocks = draw_blocks(8, 8, 4, rng=random.Random(1))

    # then everything is served four times, and pairs meet once or twice
    served, together = counts(blocks)
    assert set(served.values()) == {4}
    assert set(together.values()) == {1, 2}


def test_nobody_gets_a_block_where_nobody_sits():
    assert draw_blocks(9, 0, 3, rng=random.Random(1)) == []


def test_the_same_seed_gives_the_same_blocks():
    assert draw_blocks(9, 10, 4, rng=random.Random(1)) == draw_blocks(9, 10, 4, rng=random.Random(1))


def test_exchanges_keep_the_counts_right():
    # given
    rng = random.Random(4)
    blocks = draw_blocks(8, 9, 3, rng=rng)
    count = Together(8, blocks)

    # when
    for block in blocks:
        into = next(sample for sample in range(8) if sample not in block)
        count.exchange(block, min(block), into)

    # then
    anew = Together(8, blocks)
    assert (count.served, count.pairs, count.cost) == (anew.served, anew.pairs, anew.cost)


def test_the_next_block_takes_the_cheapest_of_all():
    """Against every block of 3 of 7 that could have been given."""
    blocks = draw_blocks(7, 6, 3, rng=random.Random(9))

    found = next_block(7, blocks, 3, rng=random.Random(1))

    least = min(Together(7, [*blocks, set(some)]).cost for some in combinations(range(7), 3))
    assert Together(7, [*blocks, found]).cost == least
