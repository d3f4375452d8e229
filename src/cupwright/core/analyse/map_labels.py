"""Where the names on a map stand: beside their points, over no other name and no point.

Each name tries places around its point, near ones first, and takes the one that covers least; a few rounds
settle it. Sizes are those of the drawn picture, as shares of its width: a name is long and low.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

_WIDTH = 460  # of the picture, in points
_LETTER, _LINE, _MARK = 6.2, 14.0, 9.0
_ROUNDS = 6
_DIRECTIONS = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1))
_FARTHER = (1.0, 2.2, 3.8, 5.6)


def label_places(points: Floats, names: Sequence[str], *, span: float) -> Floats:
    """The centre of each name on the map.

    Parameters
    ----------
    points : float array, shape (n, 2)
    names : sequence of str
        Written beside the points, on one line each.
    span : float
        How much of the map's unit the picture is wide.

    Returns
    -------
    float array, shape (n, 2)
        In the unit of the map. Names of crowded points stand farther away.
    """
    if not len(points):
        return np.empty((0, 2))
    at = np.asarray(points, dtype=float) * (_WIDTH / span)
    sizes = np.array([(_LETTER * len(name), _LINE) for name in names])
    around = np.stack([_around(point, size) for point, size in zip(at, sizes, strict=True)])
    chosen = around[:, 0].copy()
    for turn in range(_ROUNDS):
        before = chosen.copy()
        for index in range(len(at)):
            others = np.arange(len(at)) < index if turn == 0 else np.arange(len(at)) != index
            chosen[index] = _best(around[index], sizes[index], chosen[others], sizes[others], at)
        if turn and np.array_equal(before, chosen):
            break
    return chosen * (span / _WIDTH)


def _around(point: Floats, size: Floats) -> Floats:
    """Places for one name, the preferred first, shape (n_places, 2)."""
    steps = [(far, way) for far in _FARTHER for way in _DIRECTIONS]
    shifts = [
        (
            way[0] * (size[0] / 2 + _MARK + (far - 1) * _LINE / 2),
            way[1] * (_LINE / 2 + 0.7 * _MARK * far) if not way[0] else way[1] * _LINE * 0.75 * far,
        )
        for far, way in steps
    ]
    return np.asarray(point + np.array(shifts))


def _best(places: Floats, size: Floats, others: Floats, sizes: Floats, marks: Floats) -> Floats:
    """The place that covers least; among equals the first."""
    covered = np.arange(len(places)) * 0.5
    covered += 4 * _overlap(places, size, others, sizes) if len(others) else 0.0
    covered += 2 * _overlap(places, size, marks, np.full((len(marks), 2), _MARK))
    return np.asarray(places[int(np.argmin(covered))])


def _overlap(places: Floats, size: Floats, others: Floats, sizes: Floats) -> Floats:
    """Area that a box of `size` at each place shares with the other boxes, summed."""
    reach = (size + sizes)[None, :, :] / 2
    apart = np.abs(places[:, None, :] - others[None, :, :])
    shared = np.minimum(np.clip(reach - apart, 0, None), np.minimum(size, sizes)[None, :, :])
    return np.asarray(shared.prod(axis=2).sum(axis=1))
