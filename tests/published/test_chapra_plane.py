"""A plane by least squares: Chapra and Canale, Numerical Methods for Engineers, example 17.6."""

from __future__ import annotations

import numpy as np
import pytest

from darby.grounds import set_grounds
from darby.grounds.wall import plane_of
from tests.published import checked

SOURCE = "Chapra and Canale, Numerical Methods for Engineers, example 17.6 (p. 475): z = 5 + 4 x - 3 y"
POINTS = [(0, 0, 5), (2, 1, 10), (2.5, 2, 9), (1, 3, 0), (4, 6, 3), (7, 2, 27)]


@checked("worked elsewhere", SOURCE)
def test_the_plane_of_six_points():
    assert plane_of(np.array(POINTS, dtype=float)) == pytest.approx((5, 4, -3), abs=1e-9)


@checked("our arithmetic", f"{SOURCE}: points of one plane, taken as readings in hundredths of a percent")
def test_readings_that_lie_on_one_plane_have_their_least_all_over():
    # the slope is brought within the tolerance of a base; all readings lie on the plane, so all touch
    rows = [(x, y, z / 10_000) for x, y, z in POINTS]
    found = set_grounds(rows, [(0, 0), (7, 0), (7, 6), (0, 6)], least=0.01).face("leaning")
    assert found.holds == (1, 2, 3, 4, 5, 6)
    assert float(found.volume) == pytest.approx(42 * 0.01, abs=1e-7)
    assert found.out[0][0] == pytest.approx(5 / 10_000 + 0.01, abs=1e-8)
