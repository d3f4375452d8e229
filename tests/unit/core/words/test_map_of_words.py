"""The map of words."""

import numpy as np
import pytest

from cupwright.core.words.kinship import kinship_matrix
from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.map_of_words import classical_scaling, smacof, word_map
from cupwright.errors import Refused, TooFewObservations

LEXICON = load_lexicon()
FRUITS = ["lemon", "lime", "orange", "strawberry", "raspberry", "smoke", "ash", "burnt"]


def distances(points):
    return np.linalg.norm(points[:, None] - points[None, :], axis=2)


def test_distances_of_a_plane_are_found_again_exactly():
    points = np.random.default_rng(1).normal(size=(12, 2))

    found = classical_scaling(distances(points))

    assert distances(found) == pytest.approx(distances(points), abs=1e-9)
    scaled = smacof(distances(points), found)
    assert scaled.stress == pytest.approx(0, abs=1e-9)
    assert scaled.points == pytest.approx(found, abs=1e-9)


def test_a_step_never_makes_the_fit_worse():
    rng = np.random.default_rng(2)
    wanted = rng.random((15, 15))
    wanted = (wanted + wanted.T) * (1 - np.eye(15))
    start = rng.normal(size=(15, 2))

    stresses = [smacof(wanted, start, most_steps=steps).raw_stress for steps in (1, 2, 3, 5, 10, 50)]

    assert stresses == sorted(stresses, reverse=True)
    assert stresses[-1] < stresses[0]


def test_kin_lie_near_and_strangers_far():
    drawn = word_map(LEXICON, FRUITS)
    at = dict(zip(drawn.concepts, drawn.points, strict=True))

    assert np.linalg.norm(at["lemon"] - at["lime"]) < np.linalg.norm(at["lemon"] - at["strawberry"])
    assert np.linalg.norm(at["lemon"] - at["strawberry"]) < np.linalg.norm(at["lemon"] - at["ash"])


def test_the_whole_map_keeps_the_order_of_kinship_on_the_whole():
    drawn = word_map(LEXICON)
    upper = np.triu_indices(len(LEXICON), 1)

    assert drawn.points.shape == (len(LEXICON), 2)
    together = np.corrcoef(distances(drawn.points)[upper], 1 - kinship_matrix(LEXICON)[upper])[0, 1]
    assert together > 0.4
    assert 0 < drawn.stress < 0.5


def test_the_same_seed_draws_the_same_map_and_another_one_hardly_differs():
    first, again, other = (word_map(LEXICON, FRUITS, seed=seed) for seed in (0, 0, 1))

    assert np.array_equal(first.points, again.points)
    assert other.points == pytest.approx(first.points, abs=0.05)
    assert first.points.mean(axis=0) == pytest.approx([0, 0], abs=1e-12)


def test_twins_part_from_one_start():
    wanted = np.array([[0.0, 0.5, 1.0], [0.5, 0.0, 1.0], [1.0, 1.0, 0.0]])

    scaled = smacof(wanted, np.array([[0.0, 0.0], [0.0, 0.01], [1.0, 0.0]]))

    assert distances(scaled.points) == pytest.approx(wanted, abs=0.01)


@pytest.mark.parametrize(
    "wanted",
    [
        np.ones((2, 3)),
        np.array([[0.0, np.nan], [np.nan, 0.0]]),
        np.array([[0.0, 1.0], [2.0, 0.0]]),
        -np.ones((2, 2)),
    ],
)
def test_what_is_no_table_of_distances_is_refused(wanted):
    with pytest.raises(Refused, match="Wanted distances"):
        classical_scaling(wanted)


def test_too_few_points_to_start_from_and_too_few_words_are_refused():
    with pytest.raises(Refused, match="3 words need as many points"):
        smacof(np.ones((3, 3)) - np.eye(3), np.zeros((2, 2)))
    with pytest.raises(TooFewObservations):
        word_map(LEXICON, ["lemon", "lime"])
