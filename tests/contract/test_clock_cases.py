"""The clock of the server, by the cases that the clock of the client is held to as well."""

import json
from pathlib import Path
from typing import Any

import pytest

from cupwright.core.pour.clock import Clock
from cupwright.core.pour.laid import Act, Flight, Schedule
from cupwright.core.pour.run_sheet import Cue, run_sheet, unkept
from cupwright.core.pour.timing import CueKind, Timing

CASES = json.loads(Path(__file__).with_name("clock_cases.json").read_text(encoding="utf-8"))


def named(case: dict[str, Any]) -> str:
    return case["name"]


def schedule_called(name: str) -> Schedule:
    data = CASES["schedules"][name]
    acts = tuple(Act(CueKind(kind), *numbers) for kind, *numbers in data["acts"])
    flights = tuple(Flight(*numbers) for numbers in data["flights"])
    return Schedule(acts, flights, data["people"], 0, (), Timing(**data["timing"]))


def sheet_of(case: dict[str, Any]) -> tuple[Cue, ...]:
    marks = case["clock"]
    clock = Clock(marks["started_at"], tuple(map(tuple, marks["pours"])), tuple(map(tuple, marks["done"])))
    return run_sheet(schedule_called(case["schedule"]), clock)


def as_data(cue: Cue) -> list[object]:
    moments = [cue.due, cue.earliest, cue.latest, cue.ends]
    return [cue.kind.value, cue.bowl, *moments, cue.person, cue.done]


@pytest.mark.parametrize("case", CASES["run_sheet"], ids=named)
def test_the_run_sheet_agrees_with_the_shared_cases(case: dict[str, Any]):
    cues = sheet_of(case)

    assert [as_data(cue) for cue in cues] == case["cues"]
    assert [[cue.kind.value, cue.bowl, cue.late_ms] for cue in unkept(cues)] == case["unkept"]
