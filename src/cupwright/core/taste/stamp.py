"""Stamps: which of two notes for the same question is the newer, without trusting any clock.

A Lamport counter with the device's name as tie-break [Lamport1978].
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Stamp:
    """Ordered by counter, then device."""

    counter: int
    device: str


def next_stamp(seen: int, device: str) -> Stamp:
    """The stamp of a new note on a device that has seen counters up to `seen`."""
    return Stamp(seen + 1, device)
