"""Which correction holds on the server, by the cases that the client is held to as well."""

import json
from pathlib import Path
from typing import Any

import pytest

from cupwright.core.taste.correction import Correction, checked_correction, standing_corrections
from cupwright.core.taste.stamp import Stamp

CASES = json.loads(Path(__file__).with_name("correction_cases.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("turned", [False, True], ids=["as written", "turned around"])
@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_what_holds_agrees_with_the_shared_cases(case: dict[str, Any], turned: bool):
    said = [
        checked_correction(Correction(**{**one, "taster": "ada", "stamp": Stamp(**one["stamp"])}))
        for one in case["corrections"]
    ]

    held = standing_corrections(said[::-1] if turned else said)

    assert held == case["standing"]
