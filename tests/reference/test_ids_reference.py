"""Time-ordered ids against the standard that defines them."""

import random
import uuid

from cupwright.core.ids import time_ordered_id


class Fixed(random.Random):
    """Gives the random bits of the standard's example, in the order they are asked for."""

    def __init__(self, *numbers: int) -> None:
        super().__init__()
        self._numbers = list(numbers)

    def getrandbits(self, k: int) -> int:
        return self._numbers.pop(0)


def test_the_id_is_that_of_the_standards_example() -> None:
    """RFC 9562 (2024), appendix A.6, digits from memory: time, rand_a and rand_b give this id."""
    example = time_ordered_id(0x017F22E279B0, Fixed(0xCC3, 0x18C4DC0C0C07398F))

    assert example == "017f22e2-79b0-7cc3-98c4-dc0c0c07398f"
    assert uuid.UUID(example).variant == uuid.RFC_4122
    assert uuid.UUID(example).version == 7


def test_later_ids_sort_after_earlier_ones() -> None:
    """RFC 9562, section 6.11: ids of version 7 sort by time as text."""
    rng = random.Random(1)
    ids = [time_ordered_id(1_790_000_000_000 + step, rng) for step in range(1000)]

    assert ids == sorted(ids)
    assert len(set(ids)) == 1000
