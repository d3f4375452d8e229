"""Stamps."""

from cupwright.core.taste.stamp import Stamp, next_stamp


def test_a_stamp_is_greater_than_all_its_device_has_seen():
    assert next_stamp(41, "phone") == Stamp(42, "phone")


def test_stamps_are_ordered_by_counter_then_by_device_in_the_order_of_code_points():
    assert sorted([Stamp(2, "a"), Stamp(1, "b"), Stamp(1, "B"), Stamp(1, "9"), Stamp(10, "a")]) == [
        Stamp(1, "9"),
        Stamp(1, "B"),
        Stamp(1, "b"),
        Stamp(2, "a"),
        Stamp(10, "a"),
    ]
