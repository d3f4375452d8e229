"""Wrong tries, counted for everybody together."""

import pytest

from cupwright.errors import NotFound, Refused, TooManyTries
from cupwright.web.limits import Tries


def wrong(tries: Tries, error: type[Exception] = NotFound) -> None:
    with pytest.raises(error), tries.counted(NotFound):
        raise error("no")


def test_the_eleventh_wrong_try_in_a_minute_is_not_even_looked_at(ticks):
    tries = Tries(ticks)
    for _ in range(10):
        wrong(tries)
    looked = []

    with pytest.raises(TooManyTries), tries.counted(NotFound):
        looked.append(1)

    assert not looked


def test_a_minute_later_it_is(ticks):
    tries = Tries(ticks)
    for _ in range(10):
        wrong(tries)

    ticks.seconds = 60.0

    with tries.counted(NotFound):
        pass


def test_the_window_slides(ticks):
    tries = Tries(ticks)
    for second in range(10):
        ticks.seconds = float(second)
        wrong(tries)

    ticks.seconds = 60.5  # only the first of them is a minute old
    wrong(tries)

    with pytest.raises(TooManyTries), tries.counted(NotFound):
        pass


def test_right_tries_and_other_refusals_do_not_count(ticks):
    tries = Tries(ticks)
    for _ in range(50):
        with tries.counted(NotFound):
            pass
        wrong(tries, Refused)

    with tries.counted(NotFound):
        pass
