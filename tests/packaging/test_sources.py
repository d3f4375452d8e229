"""Every source that is named by a key stands in docs/sources.md, and nothing stands there for nothing."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SOURCES = ROOT / "docs" / "sources.md"
# A key holds a digit (Wilson1927, RFC9562); type parameters such as list[Cell] do not. One key has none.
KEY = re.compile(r"\[([A-Z][A-Za-z]*-?(?:[A-Za-z]+-)?[A-Z]*\d[\dA-Za-z-]*|SCAA-standards)\]")
NAMED_WITHOUT_KEY = {"RFC9457", "Winer1971", "ProjectEuler345"}


def listed() -> list[str]:
    return re.findall(
        r"^\| ([A-Z][\w-]*\d[\w-]*|SCAA-standards) \|", SOURCES.read_text("utf-8"), re.MULTILINE
    )


def used() -> dict[str, Path]:
    places = [
        path
        for folder in ("src", "docs", "tests", "client/src", "bench")
        for ending in ("py", "md", "ts", "toml")
        for path in (ROOT / folder).rglob(f"*.{ending}")
        if path not in (SOURCES, Path(__file__))
    ]
    return {key: path for path in places for key in KEY.findall(path.read_text("utf-8"))}


def test_every_key_that_is_used_is_listed():
    missing = {key: str(path.relative_to(ROOT)) for key, path in used().items() if key not in listed()}

    assert used()
    assert missing == {}


def test_no_source_is_listed_twice_and_none_without_use():
    keys = listed()

    assert len(keys) == len(set(keys)) >= 30
    assert set(keys) - used().keys() - NAMED_WITHOUT_KEY == set()


@pytest.mark.parametrize(
    "line", [line for line in SOURCES.read_text("utf-8").splitlines() if line.startswith("| ")]
)
def test_every_source_says_how_it_was_had(line):
    cells = [cell.strip() for cell in line.strip("|").split("|")]

    assert len(cells) == 5
    assert cells[0] == "key" or re.match(r"(read|abstract|second-hand|memory)\b", cells[3])
    assert all(cells)
