"""Seven points to be held by a line: Dasgupta, Papadimitriou and Vazirani, Algorithms (2006), exercise 7.8."""

from __future__ import annotations

import numpy as np
import pytest

from darby.grounds import set_grounds
from darby.grounds.wall import plane_of
from tests.published import checked

SOURCE = "Dasgupta, Papadimitriou, Vazirani, Algorithms (2006), exercise 7.8"
POINTS = [(1, 3), (2, 5), (3, 7), (5, 11), (7, 14), (8, 15), (10, 19)]


@checked("our arithmetic", f"{SOURCE}: least squares line of the printed points")
def test_the_least_squares_line():
    rows = np.array([(x, v, y) for v in (0, 1) for x, y in POINTS], dtype=float)
    c, a, b = plane_of(rows)
    assert (a, c) == pytest.approx((1.7414529915, 1.6153846154), abs=1e-9)
    assert b == pytest.approx(0, abs=1e-12)


@checked("our arithmetic", f"{SOURCE}: line on or above every printed point, least on the average")
def test_the_line_above_every_point():
    middle = sum(x for x, _ in POINTS) / len(POINTS)
    left, right = middle - 5, middle + 5
    rows = [(x, v, y / 100) for v in (0, 1) for x, y in POINTS]
    face = set_grounds(rows, [(left, 0), (right, 0), (right, 1), (left, 1)], least=0.0).face("plumb")
    low, high = (100 * x for x in face.out[0])
    slope = (high - low) / 10
    assert slope == pytest.approx(1.6, abs=1e-7)
    assert low - slope * left == pytest.approx(3.0, abs=1e-6)
    assert np.mean([low + slope * (x - left) - y for x, y in POINTS]) == pytest.approx(0.6571428571, abs=1e-7)
