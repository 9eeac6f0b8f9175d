"""Five measured points of a plate: a question with data on a public engineering forum (2015)."""

from __future__ import annotations

import numpy as np
import pytest

from darby.grounds import set_grounds
from darby.grounds.wall import on_plane, plane_of
from tests.published import checked

SOURCE = "Eng-Tips forum, thread 393584 (2015): calculate flatness using a set of points"
POINTS = np.array([[11.5, 7.0, 1.1], [18.5, 6.9, 1.03], [4.5, 13.0, 1.02], [25.5, 30.0, 1.03], [11.5, 37.5, 1.02]])


@checked("our arithmetic", f"{SOURCE}: least squares plane of the five points")
def test_the_least_squares_plane():
    c, a, b = plane_of(POINTS)
    assert (a, b, c) == pytest.approx((0.0002816895, -0.0012548637, 1.0596636653), abs=1e-8)
    assert np.ptp(POINTS[:, 2] - on_plane(plane_of(POINTS), POINTS)) == pytest.approx(0.0720973132, abs=1e-8)


@checked("our arithmetic", f"{SOURCE}: plane on or above every point, least on the average")
def test_the_plane_above_every_point():
    """On a wall whose middle is the mean of the points, heights in tenths so that no lean is past the tolerance."""
    scale = 0.1
    u, v = POINTS[:, :2].mean(axis=0)
    walls = [(u - 14, v - 19), (u + 14, v - 19), (u + 14, v + 19), (u - 14, v + 19)]
    rows = [(x, y, z * scale) for x, y, z in POINTS]
    face = set_grounds(rows, walls, least=0.0).face("leaning")
    low, high = np.array(face.out)
    a, b = (low[1] - low[0]) / 28 / scale, (high[0] - low[0]) / 38 / scale
    assert (a, b) == pytest.approx((-0.0006908665, -0.0026229508), abs=1e-8)
    c = low[0] / scale - a * (u - 14) - b * (v - 19)
    assert c == pytest.approx(1.1263056206, abs=1e-7)
    gaps = a * POINTS[:, 0] + b * POINTS[:, 1] + c - POINTS[:, 2]
    assert gaps.mean() == pytest.approx(0.026904918, abs=1e-8)
    assert face.holds == (1, 4, 5)  # counted from 0 there: 0, 3, 4
