"""Our straightening against OpenCV: its plane from marks, and its camera's bent pictures."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from darby import measure
from tests.measure.camera import camera, looking

SIZE = (4000, 3000)
WALL = np.array([[0, 0], [8, 0], [8, 4], [0, 4], [2.5, 1.2], [5.5, 2.9], [3.9, 0.4], [1.1, 3.3]], dtype=float)
INSIDE = np.array([[1.0, 0.5], [4.0, 2.0], [7.2, 3.6], [3.0, 3.1]])


def test_four_marks_give_opencv_s_plane():
    for seed in range(20):
        seen = camera(np.random.default_rng(seed), 8, 4)
        pixels = seen.picture(WALL[:4])
        plane, _ = cv2.findHomography(pixels, WALL[:4])
        # not bent pictures of the points: any pixels within the wall do
        within = seen.picture(INSIDE)
        theirs = cv2.perspectiveTransform(within[None], plane)[0]
        assert measure.straighten(pixels, WALL[:4], size=SIZE).to_wall(within) == pytest.approx(theirs, abs=1e-6)


def test_many_jogged_marks_lie_as_near_as_opencv_puts_them():
    """OpenCV's plane is least in pixels as ours is; ours may bend the lens as well, so it can only lie nearer."""
    for seed in range(20):
        draw = np.random.default_rng(seed)
        seen = camera(draw, 8, 4, lens=False)
        pixels = seen.picture(WALL) + draw.normal(0, 2, WALL.shape)
        plane, _ = cv2.findHomography(WALL, pixels)
        theirs = cv2.perspectiveTransform(WALL[None], plane)[0] - pixels
        straight = measure.straighten(pixels, WALL, size=SIZE, tape=0)
        assert np.square(straight.misses).sum() <= np.square(theirs).sum() * (1 + 1e-6)
        ours = straight.to_wall(pixels)
        assert np.abs(ours - WALL).max() < 0.03


@pytest.mark.parametrize("k1", [-0.05, 0.0, 0.05])
def test_walls_that_opencv_s_camera_bends_come_out_straight(k1):
    place, size = np.array([1.0, 1.6, 8.0]), np.array(SIZE)
    turn = looking(place, np.array([4.0, 2.0, 0.0]), 0.02)
    matrix = np.array([[3100, 0, size[0] / 2], [0, 3100, size[1] / 2], [0, 0, 1.0]])

    def picture(points):
        flat = np.column_stack([points, np.zeros(len(points))])
        bent = np.array([k1, 0.002, 0.0004, -0.0003])
        return cv2.projectPoints(flat, cv2.Rodrigues(turn)[0], -turn @ place, matrix, bent)[0][:, 0]

    straight = measure.straighten(picture(WALL), WALL, size=SIZE, rows="down", jog=0.05, tape=0)
    assert straight.to_wall(picture(INSIDE)) == pytest.approx(INSIDE, abs=0.002)
    assert max(straight.misses) < 0.5
    # without the lens the same marks are far off: the test can fail
    plane, _ = cv2.findHomography(picture(WALL[:4]), WALL[:4])
    flat = np.abs(cv2.perspectiveTransform(picture(INSIDE)[None], plane)[0] - INSIDE).max()
    assert (flat > 0.01) == (k1 != 0)


def test_our_test_camera_is_opencv_s():
    for seed in range(10):
        seen = camera(np.random.default_rng(seed), 8, 4)
        matrix = np.array([[seen.focal, 0, seen.middle[0]], [0, seen.focal, seen.middle[1]], [0, 0, 1.0]])
        flat = np.column_stack([INSIDE, np.zeros(len(INSIDE))])
        bent = np.array([seen.k1, seen.k2, seen.p1, seen.p2])
        theirs = cv2.projectPoints(flat, cv2.Rodrigues(seen.turn)[0], -seen.turn @ seen.place, matrix, bent)[0][:, 0]
        assert seen.picture(INSIDE) == pytest.approx(theirs, abs=1e-6)
