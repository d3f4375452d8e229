"""Blind codes: unique, seeded, silent, and of balanced first digits."""

import random
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.plan.blind_codes import FREE_CODES, draw_codes, is_telling
from cupwright.errors import Refused

ALL_CODES = [f"{number:03}" for number in range(1000)]

# What a digit becomes when the label is turned by half a turn; the others become no digit at all.
TURNED = {"0": "0", "1": "1", "6": "9", "8": "8", "9": "6"}


def upside_down(code: str) -> str | None:
    turned = [TURNED.get(digit) for digit in reversed(code)]
    return None if None in turned else "".join(digit for digit in turned if digit)


def says_something(code: str) -> bool:
    """The rule in words, worked out digit by digit and apart from the code under test."""
    first, second, third = map(int, code)
    return (
        upside_down(code) is not None
        or first == second == third
        or (second - first, third - second) in ((1, 1), (-1, -1))
        or code in ("000", "110", "112", "113", "115", "117", "119", "120", "122", "911", "999")
        or code in ("777", "666", "888", "313", "007", "013")
    )


def test_each_of_the_1000_codes_is_judged_by_the_rule():
    assert len(ALL_CODES) == len(set(ALL_CODES)) == 1000
    assert [code for code in ALL_CODES if is_telling(code) is not says_something(code)] == []


def test_of_the_1000_codes_those_are_drawn_that_say_nothing_and_do_not_begin_with_0():
    free = {code for code in ALL_CODES if int(code) >= 100 and not says_something(code)}

    assert set(FREE_CODES) == free
    assert len(FREE_CODES) == len(free)


@pytest.mark.parametrize("code", ["000", "007", "013"])
def test_codes_with_a_leading_zero_that_mean_something_are_telling(code: str):
    assert is_telling(code)


def test_no_free_code_reads_as_a_code_upside_down():
    assert [code for code in FREE_CODES if upside_down(code)] == []


def test_773_codes_are_free():
    """By hand: 900, less 4*5*5 turnable, 5 triples, 7 + 8 runs, 313 and six emergency numbers."""
    assert len(FREE_CODES) == 900 - 100 - 5 - 15 - 7


@given(count=st.integers(0, len(FREE_CODES)), seed=st.integers())
def test_codes_never_repeat_and_never_tell(count: int, seed: int):
    # when
    codes = draw_codes(count, rng=random.Random(seed))

    # then
    assert len(codes) == len(set(codes)) == count
    assert not any(is_telling(code) for code in codes)
    assert all(len(code) == 3 and "1" <= code[0] <= "9" for code in codes)


@given(seed=st.integers())
def test_codes_are_sorted_so_that_their_order_says_nothing(seed: int):
    codes = draw_codes(12, rng=random.Random(seed))

    assert list(codes) == sorted(codes)


@given(count=st.integers(0, 9 * 68), seed=st.integers())
def test_no_first_digit_comes_two_times_more_often_than_another(count: int, seed: int):
    """By hand: 1 begins the fewest free codes, 68: 100 less 25 turnable, 123 and six emergency numbers."""
    firsts = Counter(code[0] for code in draw_codes(count, rng=random.Random(seed)))

    times = [firsts[digit] for digit in "123456789"]
    assert max(times) - min(times) <= 1


def test_beyond_what_begins_with_a_digit_all_of_these_are_drawn():
    drawn = Counter(code[0] for code in draw_codes(700, rng=random.Random(3)))
    free = Counter(code[0] for code in FREE_CODES)

    assert drawn["1"] == free["1"]
    assert all(drawn[digit] in (free[digit], *range(81, 84)) for digit in free)


def test_the_same_seed_gives_the_same_codes_and_another_seed_others():
    assert draw_codes(8, rng=random.Random(5)) == draw_codes(8, rng=random.Random(5))
    assert draw_codes(8, rng=random.Random(5)) != draw_codes(8, rng=random.Random(6))


def test_every_free_code_can_be_drawn():
    assert draw_codes(len(FREE_CODES), rng=random.Random(0)) == FREE_CODES


@pytest.mark.parametrize("count", [-1, len(FREE_CODES) + 1])
def test_a_number_of_codes_that_cannot_be_drawn_is_refused_and_named(count: int):
    with pytest.raises(Refused, match=str(count)):
        draw_codes(count, rng=random.Random(0))
