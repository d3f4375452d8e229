"""Names on a map: none over another, none far from its point without need."""

import numpy as np

from cupwright.core.analyse.map_labels import label_places

LONG, HIGH = 6.2 / 460, 14 / 460


def overlapping(places, names, span):
    boxes = [
        (place, (LONG * len(name) * span / 2, HIGH * span / 2))
        for place, name in zip(places, names, strict=True)
    ]
    return sum(
        np.all(np.abs(a - b) < 0.9 * (np.array(half_a) + np.array(half_b)))
        for index, (a, half_a) in enumerate(boxes)
        for b, half_b in boxes[:index]
    )


def test_crowded_names_do_not_lie_on_each_other():
    points = np.array([[0.0, 0.0], [0.05, 0.02], [0.02, -0.04], [0.5, 0.4]])
    names = ["421", "708", "orange or tangerine", "533"]

    assert overlapping(label_places(points, names, span=2.0), names, 2.0) == 0


def test_a_name_alone_stands_right_of_its_point_on_its_line():
    place = label_places(np.array([[0.3, 0.1]]), ["421"], span=2.0)[0]

    assert place[0] > 0.3
    assert place[1] == 0.1


def test_places_grow_with_the_unit_of_the_map():
    points = np.random.default_rng(3).normal(size=(8, 2))
    names = ["floral"] * 8

    small, large = label_places(points, names, span=5.0), label_places(10 * points, names, span=50.0)

    assert np.allclose(large, 10 * small)


def test_no_points_have_no_names():
    assert label_places(np.empty((0, 2)), [], span=1.0).shape == (0, 2)
