"""A plane by least squares through 25 scattered points: Montgomery and Runger, example 12.1 (wire bonds)."""

from __future__ import annotations

import numpy as np
import pytest

from darby.grounds.wall import plane_of
from tests.published import checked

X = [2, 8, 11, 10, 8, 4, 2, 2, 9, 8, 4, 11, 12, 2, 4, 4, 20, 1, 10, 15, 15, 16, 17, 6, 5]
Y = [50, 110, 120, 550, 295, 200, 375, 52, 100, 300, 412, 400, 500, 360, 205, 400, 600, 585, 540, 250, 290, 510, 590,
     100, 400]  # fmt: skip
Z = [9.95, 24.45, 31.75, 35.0, 25.02, 16.86, 14.38, 9.6, 24.35, 27.5, 17.08, 37.0, 41.95, 11.66, 21.65, 17.89, 69.0,
     10.3, 34.93, 46.59, 44.88, 54.12, 56.63, 22.13, 21.15]  # fmt: skip


@checked(
    "our arithmetic", "Montgomery and Runger, Applied Statistics and Probability for Engineers, example 12.1 (p. 482)"
)
def test_the_plane_of_25_points():
    # the companion that was read stores data and formula but no output: the fit is evaluated, rounded to five places
    rows = np.column_stack([X, Y, Z]).astype(float)
    assert plane_of(rows) == pytest.approx((2.26379, 2.74427, 0.01253), abs=1e-5)
