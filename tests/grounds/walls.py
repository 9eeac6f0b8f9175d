"""Invented walls, rough as masons leave them: a bow, a lean, and scatter, by a seed."""

from __future__ import annotations

import numpy as np
import shapely

from darby.measure.outline import polygon

from .asking import FOOT, INCH


def rough(width, height, seed, count=60, holes=(), scatter=0.06):
    """``count`` readings on a wall of so many feet, and its four corners; none in an opening."""
    random = np.random.default_rng(seed)
    u, v = random.random(count) * width, random.random(count) * height
    u[:4], v[:4] = [0, width, width, 0], [0, 0, height, height]
    a, b, c = random.normal(0, [0.4, 0.2, 0.2])
    out = a * np.sin(u / width * 3) + b * v / height + c * np.cos(v) * u / width + random.normal(0, scatter, count)
    points = np.column_stack([u, v]) * float(FOOT)
    kept = np.ones(count, dtype=bool)
    for hole in holes:
        kept &= ~shapely.intersects(polygon(hole.outline), shapely.points(points))
    return tuple(
        (float(p[0]), float(p[1]), float(o) * float(INCH)) for p, o in zip(points[kept], out[kept], strict=True)
    )
