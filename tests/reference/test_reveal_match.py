"""The pairing of two lists, against a published optimum."""

import numpy as np

from cupwright.core.reveal.match import best_pairing


def test_best_pairing_reaches_the_published_maximum():
    """Project Euler, problem 345, 5 x 5 example: the printed maximum is 3315 (digits from memory)."""
    worth = np.array(
        [
            [7, 53, 183, 439, 863],
            [497, 383, 563, 79, 973],
            [287, 63, 343, 169, 583],
            [627, 343, 773, 959, 943],
            [767, 473, 103, 699, 303],
        ]
    )

    pairs = best_pairing(worth)

    assert sum(worth[pair] for pair in pairs) == 3315
    assert sorted(column for _, column in pairs) == [0, 1, 2, 3, 4]
