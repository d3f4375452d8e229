"""The tree of refusals and how they read."""

import inspect
import re

import pytest

from cupwright import errors
from cupwright.errors import BadFile, CupwrightError, Place, Refused

CLASSES = [c for _, c in inspect.getmembers(errors, inspect.isclass) if issubclass(c, CupwrightError)]


def test_a_refusal_reads_as_where_what_and_what_to_do():
    refusal = BadFile("This is no number.", todo="Write 1.5.", where=Place("coffees.csv", 3, "grams"))

    assert str(refusal) == "coffees.csv, line 3, column grams: This is no number. Write 1.5."
    assert refusal.sentence() == str(refusal)
    assert (refusal.message, refusal.todo) == ("This is no number.", "Write 1.5.")


@pytest.mark.parametrize(
    ("place", "reads"),
    [
        (None, "What."),
        (Place(), "What."),
        (Place("a.toml"), "a.toml: What."),
        (Place("a.toml", 2), "a.toml, line 2: What."),
        (Place("", 2, 7), "line 2, column 7: What."),
    ],
)
def test_only_what_is_known_of_the_place_is_said(place: Place | None, reads: str):
    assert str(Refused("What.", where=place)) == reads


def test_the_drawn_tree_is_the_real_one():
    drawn = re.findall(r"[├└]── (\w+)", errors.__doc__ or "")

    assert sorted(drawn) == sorted(c.__name__ for c in CLASSES if c is not CupwrightError)


def test_the_drawn_depth_is_the_real_one():
    for line in (errors.__doc__ or "").splitlines():
        if found := re.search(r"^(\s*(?:│\s+)?)[├└]── (\w+)", line):
            parent = Refused if "│" in found[1] else CupwrightError
            assert getattr(errors, found[2]).__base__ is parent, found[2]


def test_every_class_says_what_it_is_for():
    assert all(inspect.getdoc(c) for c in CLASSES)
