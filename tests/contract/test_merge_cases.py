"""The merge of the server, by the cases that the merge of the client is held to as well."""

import json
from pathlib import Path
from typing import Any

import pytest

from cupwright.core.taste.merge import answers, merge, standing
from cupwright.core.taste.note import Note
from cupwright.core.taste.stamp import Stamp

CASES = json.loads(Path(__file__).with_name("merge_cases.json").read_text(encoding="utf-8"))["cases"]


def notes(case: dict[str, Any], side: str) -> list[Note]:
    return [
        Note(
            id=note["id"],
            seat="seat-1",
            place=note["place"],
            part=note["pass"],
            field=note["field"],
            value=note["value"],
            stamp=Stamp(**note["stamp"]),
            written_at=note["written_at"],
        )
        for note in case[side]
    ]


def asked(note: Note) -> str:
    return f"{note.place}/{note.part}/{note.field}"


@pytest.mark.parametrize("swapped", [False, True], ids=["a-with-b", "b-with-a"])
@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_merge_standing_and_answers_agree_with_the_shared_cases(case: dict[str, Any], swapped: bool):
    a, b = notes(case, "a"), notes(case, "b")

    merged = merge(b, a) if swapped else merge(a, b)

    assert [note.id for note in merged] == case["merged"]
    assert {asked(note): note.id for note in standing(merged).values()} == case["standing"]
    assert {asked(note) for note in answers(merged).values()} == set(case["answers"])
    assert {note.id: note.value for note in merged if note.id in case.get("bodies", {})} == case.get(
        "bodies", {}
    )


def test_kept_values_are_the_given_ones():
    for case in CASES:
        given = notes(case, "a") + notes(case, "b")
        assert all(note in given for note in merge(notes(case, "a"), notes(case, "b"))), case["name"]
