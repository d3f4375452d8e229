"""Evenness: how evenly a whole number is dealt out, and how evenly it could be at best."""

from collections.abc import Iterable


def squares(counts: Iterable[int]) -> int:
    """The sum of the squared counts: the smaller, the more evenly a fixed total is spread."""
    return sum(count * count for count in counts)


def least_squares(total: int, cells: int) -> int:
    """The least sum of squares of `cells` whole counts that add up to `total`.

    Proof: if two counts differ by 2 or more, taking one from the larger and giving it to the smaller lowers
    the sum of squares; so at the least all counts are q or q + 1, and their total says how many are which.
    """
    if cells == 0:
        return 0
    each, over = divmod(total, cells)
    return cells * each * each + over * (2 * each + 1)
