"""The worked examples of the methods handbook are executed as they stand.

Independence lies in the pages: each example names the published numbers that it reaches.
"""

import doctest
from pathlib import Path

import pytest

PAGES = sorted((Path(__file__).parents[2] / "docs" / "methods").glob("*.md"))
WITH_EXAMPLES = [page for page in PAGES if ">>>" in page.read_text("utf-8")]


@pytest.mark.parametrize("page", WITH_EXAMPLES, ids=lambda page: page.stem)
def test_the_worked_example_of_a_page_gives_what_the_page_prints(page: Path):
    flags = doctest.NORMALIZE_WHITESPACE | doctest.ELLIPSIS

    failed, tried = doctest.testfile(str(page), module_relative=False, optionflags=flags, encoding="utf-8")

    assert tried > 0
    assert failed == 0
