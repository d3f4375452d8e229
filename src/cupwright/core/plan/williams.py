"""Williams squares: orders in which everything stands everywhere and follows everything else equally often.

Source: [Williams1949], read as retold on a page of stored mathematics for n = 6; n = 3, 4 and 5 by the same
rule. The first row goes to and fro (0, 1, n-1, 2, n-2, ...); each further row adds 1 modulo n.
"""


def williams(n: int) -> tuple[tuple[int, ...], ...]:
    """The rows of a Williams square of n things, numbered from 0.

    Parameters
    ----------
    n : int
        How many things, from 1.

    Returns
    -------
    tuple of tuple of int, shape (n, n) for an even n, (2n, n) for an odd one
        Everything stands in every position once (odd: twice), and every ordered pair of neighbours occurs
        once (odd: twice).

    Notes
    -----
    Error: none; the counts are exact. Carry-over from further back than one place is not balanced.
    Source: [Williams1949]. For an odd n no single square of this kind is balanced, so each row comes
    backwards as well.
    """
    first = _to_and_fro(n)
    square = tuple(tuple((thing + shift) % n for thing in first) for shift in range(n))
    return square if n % 2 == 0 else square + tuple(row[::-1] for row in square)


def _to_and_fro(n: int) -> list[int]:
    return [(place + 1) // 2 if place % 2 else (n - place // 2) % n for place in range(n)]
