"""The map of words, against the scaling of a general library."""

import numpy as np
import pytest
from sklearn.manifold import smacof as library_smacof

from cupwright.core.words.kinship import kinship_matrix
from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.map_of_words import classical_scaling, smacof, word_map

APART = 1 - kinship_matrix(load_lexicon())
SOME = APART[::5, ::5]


def test_from_one_start_the_same_steps_lead_to_the_same_stress():
    """Oracle: scikit-learn, sklearn.manifold.smacof; its raw stress counts each pair once, as ours does."""
    start = np.random.default_rng(3).normal(size=(len(SOME), 2))

    _, theirs = library_smacof(
        SOME, metric=True, n_components=2, init=start, n_init=1, max_iter=40, eps=0, normalized_stress=False
    )
    ours = smacof(SOME, start, most_steps=40, tolerance=0)

    assert ours.raw_stress == pytest.approx(theirs, rel=1e-6)


def test_the_map_of_the_lexicon_is_no_worse_than_the_best_of_the_librarys_random_starts():
    """Oracle: scikit-learn, four random starts, its default number of steps; stress-1 as it normalises it."""
    drawn = word_map(load_lexicon())

    _, theirs = library_smacof(
        APART, metric=True, n_components=2, n_init=4, max_iter=300, random_state=0, normalized_stress=True
    )

    assert drawn.stress <= theirs * 1.01


def test_classical_scaling_leaves_the_strain_that_the_eigenvalues_say():
    """Torgerson (1952): the strain left is the sum of squares of the eigenvalues not used; oracle: numpy."""
    points = classical_scaling(SOME)
    middle = np.eye(len(SOME)) - 1 / len(SOME)
    wanted = -middle @ SOME**2 @ middle / 2

    left = np.sort(np.linalg.eigvalsh(wanted))[:-2]
    assert np.sum((wanted - points @ points.T) ** 2) == pytest.approx(np.sum(left**2), rel=1e-9)
