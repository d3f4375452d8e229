"""Diary: in order, and a line that was changed shows."""

from dataclasses import replace

import pytest
from tests.fakes.tools import Bench, bench
from tests.unit.steps.laying import tasting

from cupwright.errors import NotFound, SealBroken
from cupwright.steps.diary import diary


def with_diary() -> tuple[Bench, str]:
    on = bench()
    return on, tasting(on.tools).id


def test_a_diary_nobody_touched_can_be_read() -> None:
    on, table_id = with_diary()

    assert len(diary(on.tools, table_id)) == 3


@pytest.mark.parametrize("line", [0, 1, 2])
@pytest.mark.parametrize("change", [{"kind": "x"}, {"detail": {"n": 1}}, {"digest": "0" * 64}])
def test_a_line_that_was_changed_is_named(line: int, change: dict[str, object]) -> None:
    on, table_id = with_diary()
    events = on.tools.store.kept.events
    events[line] = replace(events[line], **change)

    with pytest.raises(SealBroken, match=f"Line {line + 1}"):
        diary(on.tools, table_id)


def test_lines_taken_out_or_exchanged_are_noticed() -> None:
    on, table_id = with_diary()
    events = on.tools.store.kept.events
    whole = list(events)

    for tampered in ([whole[0], whole[2]], whole[1:], [whole[1], whole[0], whole[2]]):
        events[:] = tampered
        with pytest.raises(SealBroken):
            diary(on.tools, table_id)


def test_a_table_that_is_not_there_has_no_diary() -> None:
    with pytest.raises(NotFound):
        diary(bench().tools, "none")
