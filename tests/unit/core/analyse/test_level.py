"""Level: between 0 and 1, both left out."""

import pytest

from cupwright.core.analyse.level import checked_level
from cupwright.errors import Refused


def test_a_level_comes_back_as_it_is():
    assert checked_level(0.9) == 0.9


@pytest.mark.parametrize("level", [0, 1, -0.5, 95, float("nan")])
def test_anything_else_is_refused_with_what_to_do(level):
    with pytest.raises(Refused) as complaint:
        checked_level(level)

    assert "0.95" in complaint.value.todo
