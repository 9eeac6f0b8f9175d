"""A camera of our own for photographs of walls: a pinhole with Brown and Conrady's lens, written without the code."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np


@dataclass
class Camera:
    focal: float  # [px]
    middle: np.ndarray  # (2,) [px]
    k1: float
    k2: float
    p1: float
    p2: float
    turn: np.ndarray  # (3, 3): wall axes to camera axes, which look along z, y down
    place: np.ndarray  # (3,) [m], wall axes: u, v, out of the wall

    def picture(self, wall: np.ndarray) -> np.ndarray:
        """Points of the wall (n, 2) [m] to pixels (n, 2)."""
        points = np.column_stack([wall, np.zeros(len(wall))]) - self.place
        pixels = []
        for point in points:
            x, y, z = self.turn @ point
            assert z > 0
            x, y = x / z, y / z
            r2 = x**2 + y**2
            swell = 1 + self.k1 * r2 + self.k2 * r2**2
            bent = (
                x * swell + 2 * self.p1 * x * y + self.p2 * (r2 + 2 * x**2),
                y * swell + self.p1 * (r2 + 2 * y**2) + 2 * self.p2 * x * y,
            )
            pixels.append(self.middle + self.focal * np.array(bent))
        return np.array(pixels)


def looking(place: np.ndarray, towards: np.ndarray, roll: float) -> np.ndarray:
    """The camera's axes (rows) in those of the wall, for one at ``place`` that looks ``towards`` and leans by roll."""
    ahead = towards - place
    ahead = ahead / np.linalg.norm(ahead)
    right = np.cross(ahead, [0.0, 1.0, 0.0])
    right = right / np.linalg.norm(right)
    down = np.cross(ahead, right)
    across = np.cos(roll) * right + np.sin(roll) * down
    return np.array([across, np.cross(ahead, across), ahead])


def camera(draw: np.random.Generator, wide: float, high: float, *, lens: bool = True, off: float = 45.0) -> Camera:
    """A phone in a hand, up to ``off`` degrees to the side, far enough away that the wall fills most of the picture."""
    size = np.array([4000.0, 3000.0])
    focal = size[0] * draw.uniform(0.72, 0.85)
    side, up = np.radians(draw.uniform(-off, off)), np.radians(draw.uniform(-15, 15))
    out = np.array([np.sin(side) * np.cos(up), np.sin(up), np.cos(side) * np.cos(up)])
    centre = np.array([wide / 2, high / 2, 0.0])
    bend = draw.uniform(-1, 1, 4) * [0.05, 0.01, 0.001, 0.001] if lens else np.zeros(4)
    middle = size / 2 + draw.uniform(-1, 1, 2) * 0.01 * size
    aim = centre + np.append(draw.uniform(-0.05, 0.05, 2) * [wide, high], 0.0)
    roll = np.radians(draw.uniform(-4, 4))
    corners = np.array([[0, 0], [wide, 0], [wide, high], [0, high]])
    away = wide / 2
    while True:  # step back until the whole wall is in the picture
        place = centre + away * out
        made = Camera(focal, middle, *bend, looking(place, aim, roll), place)
        # by the straight rays: far out of the picture a bent ray can fold back into it
        straight = Camera(focal, middle, 0, 0, 0, 0, made.turn, place)
        if place[2] > 0.3 * wide and all(
            ((c := s.picture(corners)) > 0).all() and (c < size).all() for s in (straight, made)
        ):
            return made
        away *= 1.05
