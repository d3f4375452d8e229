"""A writer killed at random points: what it called safe is there afterwards."""

from pathlib import Path

from tests.contract.crash import crash

CYCLES = 20


def test_no_acknowledged_note_is_lost_when_the_writer_is_killed(tmp_path: Path) -> None:
    tally = crash(tmp_path / "data", CYCLES, seed=1)

    assert tally.acknowledged > CYCLES
    assert (tally.lost, tally.torn, tally.corrupt) == (0, 0, 0)


def test_the_check_catches_a_writer_that_acknowledges_too_early(tmp_path: Path) -> None:
    tally = crash(tmp_path / "data", CYCLES, seed=2, early=True)

    assert tally.lost > 0
