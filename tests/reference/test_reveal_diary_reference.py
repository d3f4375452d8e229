"""The diary's digests against the hash program of the operating system."""

import subprocess
from datetime import UTC, datetime, timedelta, timezone

from cupwright.core.reveal.diary import BEGINNING, digest

AT = datetime(2026, 11, 25, 9, 30, 0, 5, tzinfo=UTC)


def test_a_digest_is_what_sha256sum_says_of_the_bytes_that_are_documented() -> None:
    """FIPS 180-4 as implemented by sha256sum of GNU coreutils; the bytes as core/reveal/diary.py says."""
    line = f'["{BEGINNING}","t","sealed","2026-11-25T09:30:00.000005+00:00",{{"a":1,"é":[0.5,null]}}]'
    said = subprocess.run(["sha256sum"], input=line.encode(), capture_output=True, check=True).stdout

    found = digest(BEGINNING, "t", "sealed", AT, {"é": [0.5, None], "a": 1})

    assert found == said.decode().split()[0]


def test_the_zone_a_moment_is_written_in_changes_nothing() -> None:
    """ISO 8601: the same moment in another zone."""
    elsewhere = AT.astimezone(timezone(timedelta(hours=5, minutes=30)))

    assert digest(BEGINNING, "t", "k", elsewhere, {}) == digest(BEGINNING, "t", "k", AT, {})
