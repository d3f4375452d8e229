"""The worked example of docs/methods/serving_orders.md is what the program does."""

import doctest
from pathlib import Path

METHOD = Path(__file__).parents[2] / "docs" / "methods" / "serving_orders.md"


def test_the_example_comes_out_as_printed():
    """Every line of it; the numbers 28 and 49 are worked out by hand in the text beside them."""
    found = doctest.testfile(str(METHOD), module_relative=False)

    assert found.attempted >= 9
    assert found.failed == 0
