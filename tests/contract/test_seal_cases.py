"""The seal of the server, by the cases that the seal of the client is held to as well."""

import json
from pathlib import Path
from typing import Any

import pytest

from cupwright.core.reveal.seal import commitment, seal, sealed_text

CASES = json.loads(Path(__file__).with_name("seal_cases.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_text_and_commitment_agree_with_the_shared_cases(case: dict[str, Any]):
    key = seal(dict(case["pairs"]), case["nonce"])

    assert sealed_text(key) == case["text"]
    assert commitment(key) == case["commitment"]
