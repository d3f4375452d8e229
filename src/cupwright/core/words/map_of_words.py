"""A map of words: every concept a point in the plane, kin near each other, strangers far.

Only nearness means something: directions, axes and the place of the middle do not. Method:
docs/methods/kinship.md.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cupwright.core.words.kinship import kin_of
from cupwright.core.words.lexicon import Lexicon
from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]
# Twins would start on one point, where nothing can pull them apart.
_JITTER = 1e-3
# A hundredth of the usual care: the picture is the same, and whoever opens it waits a third of the time.
_GOOD_ENOUGH = 1e-5
_STEPS_OF_ONE = 100


@dataclass(frozen=True, slots=True, eq=False)
class Scaled:
    """Points of shape (n, n_dimensions), how far they are from the wanted distances, and the steps it took.

    `raw_stress` is the sum over pairs of (distance - wanted) squared; `stress` is [Kruskal1964]'s first, the
    root of that over the sum of squared distances: 0 for a perfect map.
    """

    points: Floats
    raw_stress: float
    stress: float
    steps: int


@dataclass(frozen=True, slots=True, eq=False)
class WordMap:
    """Where each concept lies. `points` has shape (n_concepts, 2), centred, the widest way across."""

    concepts: tuple[str, ...]
    points: Floats
    stress: float


def word_map(
    lexicon: Lexicon,
    concepts: Sequence[str] | None = None,
    *,
    seed: int = 0,
    tolerance: float = _GOOD_ENOUGH,
    most_steps: int = 500,
) -> WordMap:
    """The map of a lexicon, or of some of its concepts, laid out anew; for all of them see ready_map.py.

    Parameters
    ----------
    concepts : sequence of concept ids, optional
        At least three; all if left out.
    seed : int
        Moves the start by a thousandth of the widest distance, so that twins can part.
    tolerance, most_steps
        As for `smacof`.

    Raises
    ------
    KeyError
        If a concept is not in the lexicon.
    TooFewObservations
        If there are fewer than three concepts.

    Notes
    -----
    Error: `stress` says how much of the kinship the plane cannot show; some kin lie apart and some strangers
    close. Read distances off `kinship`, not off the map.
    """
    kin = kin_of(lexicon)
    chosen = tuple(lexicon.concepts) if concepts is None else tuple(concepts)
    if len(chosen) < 3:
        raise TooFewObservations("A map needs three words.", todo="Add words, or ask for their kinship.")
    rows = [kin.row[concept] for concept in chosen]
    apart = 1.0 - kin.kinship[np.ix_(rows, rows)]
    start = classical_scaling(apart)
    start = start + _JITTER * np.random.default_rng(seed).standard_normal(start.shape)
    scaled = smacof(apart, start, tolerance=tolerance, most_steps=most_steps)
    return WordMap(chosen, _turned(scaled.points), scaled.stress)


def classical_scaling(apart: Floats, *, dimensions: int = 2) -> Floats:
    """Points whose inner products fit the wanted distances best; exact where those are distances of a plane.

    Parameters
    ----------
    apart : float array, shape (n, n)
        Wanted distances: symmetric, 0 on the diagonal, finite, not negative.

    Returns
    -------
    float array, shape (n, dimensions)
        Columns by falling spread, centred. A column that nothing is left for is 0.

    Raises
    ------
    Refused
        If `apart` is not as said.

    Notes
    -----
    Source: [Torgerson1952].
    """
    _check(apart)
    squares = apart**2
    centred = squares - squares.mean(axis=0) - squares.mean(axis=1)[:, None] + squares.mean()
    values, vectors = np.linalg.eigh(-centred / 2)
    largest = np.argsort(values)[::-1][:dimensions]
    points: Floats = vectors[:, largest] * np.sqrt(np.maximum(values[largest], 0.0))
    return points


def smacof(apart: Floats, start: Floats, *, most_steps: int = 500, tolerance: float = 1e-7) -> Scaled:
    """Points whose distances fit the wanted ones, by steps that never make the fit worse.

    Parameters
    ----------
    apart : float array, shape (n, n)
        Wanted distances, as for `classical_scaling`.
    start : float array, shape (n, n_dimensions)
    most_steps : int
    tolerance : float
        It stops when a step betters the raw stress by less than this share of it.

    Raises
    ------
    Refused
        If `apart` is not as said, or `start` has another number of rows.

    Notes
    -----
    Error: it finds the best map near its start, which need not be the best of all.
    Source: [deLeeuw1977], the transform of [Guttman1968]; checked against a general library.
    """
    _check(apart)
    if start.shape[0] != len(apart):
        raise Refused(f"{len(apart)} words need as many points to start from, not {start.shape[0]}.")
    points, steps = start, 0
    stress = _raw_stress(apart, _distances(points))
    for _ in range(most_steps):
        points, before, steps = _guttman(apart, points), stress, steps + 1
        stress = _raw_stress(apart, _distances(points))
        if before - stress <= tolerance * before:
            break
    return Scaled(points, stress, _stress_1(stress, _distances(points)), steps)


def place_among(points: Floats, apart: Floats) -> Floats:
    """One more point among others that stay, by the same steps as theirs, from between its two nearest.

    Parameters
    ----------
    points : float array, shape (n, n_dimensions)
        n at least 2.
    apart : float array, shape (n,)
        Wanted distances of the new point to them.

    Returns
    -------
    float array, shape (n_dimensions,)

    Notes
    -----
    Error: the best place near its start. Source: [deLeeuw1977], with all points but one held.
    """
    place: Floats = points[np.argsort(apart, kind="stable")[:2]].mean(axis=0)
    # Not right on top of another: from there no way leads off.
    place = place + _JITTER
    for _ in range(_STEPS_OF_ONE):
        away = place - points
        distance = np.sqrt((away**2).sum(axis=1))[:, None]
        drawn = np.divide(away, distance, out=np.zeros_like(away), where=distance > 0)
        place = (points + apart[:, None] * drawn).mean(axis=0)
    return place


def stress_of(points: Floats, apart: Floats) -> float:
    """[Kruskal1964]'s first stress: points of shape (n, n_dimensions), wanted distances of shape (n, n)."""
    distances = _distances(points)
    return _stress_1(_raw_stress(apart, distances), distances)


def _guttman(apart: Floats, points: Floats) -> Floats:
    distances = _distances(points)
    pull = np.divide(apart, distances, out=np.zeros_like(apart), where=distances > 0)
    transform = -pull
    transform[np.diag_indices(len(apart))] = pull.sum(axis=1)
    moved: Floats = transform @ points / len(apart)
    return moved


def _distances(points: Floats) -> Floats:
    squares = (points**2).sum(axis=1)
    between: Floats = np.sqrt(np.maximum(squares[:, None] + squares - 2 * points @ points.T, 0.0))
    np.fill_diagonal(between, 0.0)
    return between


def _raw_stress(apart: Floats, distances: Floats) -> float:
    return float(((apart - distances) ** 2).sum() / 2)


def _stress_1(raw: float, distances: Floats) -> float:
    total = float((distances**2).sum() / 2)
    return (raw / total) ** 0.5 if total > 0 else 0.0


def _turned(points: Floats) -> Floats:
    """The same map, centred, its widest way across, and never mirrored from one run to the next."""
    centred = points - points.mean(axis=0)
    _, _, ways = np.linalg.svd(centred, full_matrices=False)
    turned: Floats = centred @ ways.T
    farthest = np.abs(turned).argmax(axis=0)
    return turned * np.sign(turned[farthest, range(turned.shape[1])])


def _check(apart: Floats) -> None:
    square = apart.ndim == 2 and apart.shape[0] == apart.shape[1]
    if not square or not np.all(np.isfinite(apart)):
        raise Refused("Wanted distances must be a square table without gaps.")
    if np.any(apart < 0) or np.any(np.diag(apart) != 0) or not np.allclose(apart, apart.T, atol=1e-12):
        raise Refused(
            "Wanted distances must be the same both ways, not negative, and 0 from a word to itself."
        )
