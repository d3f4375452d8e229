"""The clock of the server, by the cases that the clock of the client is held to as well."""

import json
from pathlib import Path
from typing import Any

import pytest

from cupwright.core.pour.clock import Clock
from cupwright.core.pour.run_sheet import Cue, Timing, run_sheet

CASES = json.loads(Path(__file__).with_name("clock_cases.json").read_text(encoding="utf-8"))


def named(case: dict[str, Any]) -> str:
    return case["name"]


def sheet_of(case: dict[str, Any]) -> tuple[Cue, ...]:
    clock = Clock(case["clock"]["started_at"], tuple((bowl, at) for bowl, at in case["clock"]["pours"]))
    return run_sheet(case["bowls"], clock, Timing(**case.get("timing", {})))


def as_data(cue: Cue) -> list[object]:
    return [cue.kind.value, cue.bowl, cue.due, cue.earliest, cue.latest]


@pytest.mark.parametrize("case", CASES["run_sheet"], ids=named)
def test_the_run_sheet_agrees_with_the_shared_cases(case: dict[str, Any]):
    assert [as_data(cue) for cue in sheet_of(case)] == case["cues"]
