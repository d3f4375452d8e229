"""Reading a note: the same on the server and in the client (client/src/words/reading/reading.test.ts).

Where a case says nothing of a word's degree, comparison, certainty and the like, they are the plain ones.
Positions count code points.
"""

import json
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pytest

from cupwright.core.words.corrections import corrections
from cupwright.core.words.extending import extended
from cupwright.core.words.lexicon import Lexicon, load_lexicon
from cupwright.core.words.own_words import Addition, OwnConcept, OwnForm
from cupwright.core.words.reading import read_note

CASES = json.loads((Path(__file__).parent / "reading_cases.json").read_text(encoding="utf-8"))
PLAIN = {
    "certainty": 1,
    "negated": False,
    "degree": "plain",
    "comparison": "",
    "against": "",
    "hedged": False,
    "stage": "",
}


def lexicon_of(case: dict[str, Any]) -> Lexicon:
    additions: list[Addition] = []
    for own in case.get("own", []):
        if own["label"]:
            parents, forms = tuple(own["parents"]), tuple(own["forms"])
            additions.append(OwnConcept(own["concept"], own["label"], parents, forms))
        else:
            additions += [OwnForm(own["concept"], form) for form in own["forms"]]
    return extended(load_lexicon(), additions)


def test_there_are_cases_of_everything_that_a_reading_tells():
    words = [word for case in CASES for word in case["words"]]

    assert len(CASES) >= 150
    assert all(any(key in word for word in words) for key in PLAIN)
    assert any(case["unread"] for case in CASES)
    assert all(any(key in case for case in CASES) for key in ("field", "corrections", "own"))


@pytest.mark.parametrize("case", CASES, ids=lambda case: repr(case["note"][:40]))
def test_a_note_is_read_as_the_case_says(case):
    lexicon = lexicon_of(case)
    said = corrections(case.get("corrections", {}), lexicon)

    reading = read_note(case["note"], lexicon, field=case.get("field", ""), corrections=said)

    read = [{key: value for key, value in asdict(word).items() if key != "label"} for word in reading.words]
    assert read == [{**PLAIN, **word} for word in case["words"]]
    assert [[span.start, span.end] for span in reading.unread] == case["unread"]
