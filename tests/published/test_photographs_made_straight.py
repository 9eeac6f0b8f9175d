"""Four-point perspective as others print it: matrices, mapped points, and a facade's own corners."""

from __future__ import annotations

import numpy as np
import pytest

from darby import measure
from tests.published import checked

LOUTHAN = "perspective-transform, printed results in its manual (github.com/jlouthan/perspective-transform, README)"
TILE = "scikit-image tutorials, tile rectification exercise (solution), 2017: printed matrix"
FACADE = "scikit-image, test data of its geometric transforms (test_geometric.py): a facade 4900 by 5800 mm"
QUARTER = "mexopencv, unit test of the four-point perspective transform (TestGetPerspectiveTransform.m), 2014"


def mapped(matrix, points):
    lifted = np.column_stack([points, np.ones(len(points))]) @ np.array(matrix, dtype=float).reshape(3, 3).T
    return lifted[:, :2] / lifted[:, 2:]


@checked("worked elsewhere", f"{LOUTHAN}: the matrix and the mapped point")
def test_louthan():
    straight = measure.straighten(
        [[158, 64], [494, 69], [495, 404], [158, 404]], [[100, 500], [152, 564], [148, 604], [100, 560]]
    )
    # the manual's program rounds its coefficients to ten places: it prints 117.275211258, 530.920241088
    assert straight.to_wall([[250, 120]])[0] == pytest.approx([117.275211258, 530.920241088], abs=1e-5)
    printed = [0.3869749384, 0.0426817448, 59.2427947969, 0.9589610618, 0.4562821238, 434.864429934,
               0.0012901794, 0.0004268174, 1.0]  # fmt: skip
    inside = [[200, 100], [300, 350], [450, 200]]
    assert straight.to_wall(inside) == pytest.approx(mapped(printed, inside), abs=2e-5)


@checked("worked elsewhere", TILE)
def test_tile():
    straight = measure.straighten(
        [[129, 72], [302, 76], [90, 185], [326, 193]], [[0, 0], [400, 0], [0, 400], [400, 400]]
    )
    printed = [3.04026872, 1.04929628, -467.743998, -0.144134582, 6.23382067, -430.241727,
               2.63620673e-05, 0.00417694527, 1.0]  # fmt: skip
    inside = [[200, 120], [150, 80], [300, 180]]
    assert straight.to_wall(inside) == pytest.approx(mapped(printed, inside), abs=1e-4)


@checked("worked elsewhere", FACADE)
def test_facade():
    corners, wall = (
        [[-12.3705, -10.5075], [-10.7865, 15.4305], [8.6985, 10.8675], [11.4975, -9.5715]],
        [[0, 0], [0, 5800], [4900, 5800], [4900, 0]],
    )
    assert measure.straighten(corners, wall).to_wall(corners) == pytest.approx(np.array(wall), abs=1e-6)


@checked("worked elsewhere", QUARTER)
def test_quarter_turn():
    straight = measure.straighten([[0, 1], [1, 1], [1, 0], [0.25, 0.25]], [[1, 1], [1, 0], [0, 0], [0.25, 0.75]])
    inside = [[0.5, 0.5], [0.75, 0.6], [0.4, 0.9]]
    assert straight.to_wall(inside) == pytest.approx(mapped([0, 1, 0, -1, 0, 1, 0, 0, 1], inside), abs=1e-10)
