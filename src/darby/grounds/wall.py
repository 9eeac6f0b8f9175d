"""The bare wall between its readings: folded flat from reading to reading, and past the outermost ones carried on.

Nobody knows what the wall does between two readings. It is taken as straight: Delaunay triangles over the readings,
each a flat piece. Where four readings stand in a square both folds are as good; the hollow one is taken, so that the
plaster is not short. Past the outermost readings the wall goes on as the plane through all of it does, as far off that
plane as the nearest reading is.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from math import sqrt
from statistics import NormalDist, median

import numpy as np
import shapely
from numpy.typing import NDArray

from darby.grounds.checks import Array, Checked
from darby.measure.limits import SLACK
from darby.measure.writing import HAIR

Whole = NDArray[np.intp]
Flags = NDArray[np.bool_]

SIGMAS = NormalDist().inv_cdf((1 + 1 / 2) / 2)
"""Half of normal scatter lies within so many standard deviations."""


def plane_of(points: Array) -> Array:
    """Least squares plane out = c + a u + b v through (n, 3) points: (c, a, b).

    Source: normal equations; checked against printed fits in tests/published.
    """
    middle = points[:, :2].mean(axis=0)
    across = np.column_stack([np.ones(len(points)), points[:, :2] - middle])
    c, a, b = np.linalg.lstsq(across, points[:, 2], rcond=None)[0]
    return np.array([c - a * middle[0] - b * middle[1], a, b])


def on_plane(plane: Array, points: Array) -> Array:
    """How far the plane stands out at (n, 2) points [m]."""
    c, a, b = plane
    return np.asarray(c + a * points[:, 0] + b * points[:, 1])


def scatter(values: Array) -> float:
    """Median of the absolute values, as the standard deviation of normal scatter that it stands for."""
    return float(np.median(np.abs(values))) / SIGMAS


@dataclass(frozen=True)
class Triangles:
    """Points (n, 2) folded into triangles (m, 3)."""

    points: Array
    corners: Whole

    @cached_property
    def _turned(self) -> tuple[Array, Array]:
        """Of each triangle the matrix from a place to weights of its second and third corner, and what comes off."""
        a, b, c = (self.points[self.corners[:, n]] for n in range(len(self.corners[0])))
        turned = np.linalg.inv(np.stack([b - a, c - a], axis=2))
        return turned, (turned @ a[:, :, None])[:, :, 0]

    def weights(self, points: Array) -> tuple[Whole, Array]:
        """For each of (k, 2) points the triangle that holds it, and the weights of its corners (k, 3)."""
        turned, off = self._turned
        pair = (points @ turned.reshape(-1, 2).T).reshape(len(points), -1, 2) - off
        least = np.minimum(np.minimum(pair[:, :, 0], pair[:, :, 1]), 1 - pair[:, :, 0] - pair[:, :, 1])
        best = least.argmax(axis=1)
        return best, self.weights_in(points, best)

    def weights_in(self, points: Array, which: Whole) -> Array:
        """Weights (k, 3) of the corners of the triangles ``which`` at (k, 2) points."""
        turned, off = self._turned
        pair = (turned[which] @ points[:, :, None])[:, :, 0] - off[which]
        return np.concatenate([1 - pair.sum(axis=1, keepdims=True), pair], axis=1)

    def at(self, points: Array, values: Array) -> Array:
        """Values given at the corners, read off at (k, 2) points."""
        if not len(points):
            return np.zeros(0)
        which, weights = self.weights(points)
        return np.asarray((values[self.corners[which]] * weights).sum(axis=1))

    def neighbours(self) -> dict[int, list[int]]:
        """Point to the points it shares a triangle with."""
        found: dict[int, set[int]] = defaultdict(set)
        for trio in self.corners.tolist():
            for one in trio:
                found[one].update(trio)
        return {one: sorted(several - {one}) for one, several in found.items()}


def delaunay(points: Array) -> Whole:
    """Delaunay triangles (m, 3) over (n, 2) points."""
    made = shapely.get_parts(shapely.delaunay_triangles(shapely.multipoints(points)))
    made = made[shapely.area(made) > float(SLACK)]  # three points in a line make no triangle
    index = {(u, v): n for n, (u, v) in reversed(list(enumerate(points.tolist())))}
    flat = [index[u, v] for u, v in shapely.get_coordinates(made).tolist()]
    return np.array(flat, dtype=np.intp).reshape(len(made), -1)[:, :-1]


def triangulated(points: Array, heights: Array) -> Triangles:
    """Delaunay triangles over (n, 2) points; a square is folded so that it is hollow."""
    return Triangles(points, np.array(_hollow(points, heights, delaunay(points).tolist()), dtype=np.intp))


def _hollow(points: Array, heights: Array, corners: list[list[int]]) -> list[list[int]]:
    """Turn the diagonal of every square whose other fold lies farther back."""
    sides: dict[tuple[int, int], list[int]] = defaultdict(list)
    for n, (a, b, c) in enumerate(corners):
        for one, other in ((a, b), (b, c), (c, a)):
            sides[min(one, other), max(one, other)].append(n)
    inner = [(side, two) for side, two in sides.items() if len(two) == 2]
    if not inner:
        return corners
    ends = np.array([side for side, _ in inner])
    far = np.array([[sum(corners[n]) - sum(side) for n in two] for side, two in inner])
    tie = _on_one_circle(points[ends[:, 0]], points[ends[:, 1]], points[far[:, 0]], points[far[:, 1]])
    back = _fold(points, heights, far, ends) < _fold(points, heights, ends, far) - float(SLACK) * float(HAIR)
    turned: set[int] = set()
    for n in np.flatnonzero(tie & back).tolist():
        side, two = inner[n]
        if turned.isdisjoint(two):
            turned.update(two)
            a, b = far[n].tolist()
            for which, end in zip(two, side, strict=True):
                corners[which] = [a, b, end]
    return corners


def _on_one_circle(a: Array, b: Array, c: Array, d: Array) -> Flags:
    """Whether four points lie on one circle, c and d on either side of ab: the angles over ab add up to half a turn."""
    ca, cb, da, db = a - c, b - c, a - d, b - d
    cosines = (ca * cb).sum(axis=1) * np.abs(_cross(da, db)) + (da * db).sum(axis=1) * np.abs(_cross(ca, cb))
    size = np.prod([np.hypot(*x.T) for x in (ca, cb, da, db)], axis=0)
    return np.asarray(np.abs(cosines) <= size * float(SLACK))


def _cross(a: Array, b: Array) -> Array:
    return np.asarray(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])


def _fold(points: Array, heights: Array, along: Whole, across: Whole) -> Array:
    """Height of the fold ``along`` where the line ``across`` meets it."""
    p, q = points[along[:, 0]], points[along[:, 1]]
    r, s = points[across[:, 0]], points[across[:, 1]]
    t = _cross(r - p, s - r) / _cross(q - p, s - r)
    return np.asarray(heights[along[:, 0]] * (1 - t) + heights[along[:, 1]] * t)


@dataclass(frozen=True)
class Piece:
    """What of the triangles lies on the net wall: each piece, the triangle it is of, whether it is all of it, its area
    and middle."""

    shapes: NDArray[np.object_]
    of: Whole
    full: Flags
    area: Array
    middle: Array


class Wall:
    """The bare wall: readings (n, 3) with their numbers, the whole wall and the net wall.

    Attributes
    ----------
    plane
        (c, a, b) of the plane through the readings, without those far off it.
    folded
        triangles over readings and, after them, corners of the hull of the outline.
    outs
        how far the wall stands out at their points: read, or carried on.
    """

    def __init__(self, given: Checked, times: float) -> None:
        readings, whole, net = given.readings, given.whole, given.net
        self.times = times
        self.readings, self.numbers, self.whole, self.net = readings, given.numbers, whole, net
        self.area = float(net.area)
        self.middle = np.array([net.centroid.x, net.centroid.y])
        self.plane = _robust(readings, times)
        hull = shapely.get_coordinates(shapely.convex_hull(whole))[:-1]
        apart = shapely.distance(shapely.points(hull), shapely.multipoints(readings[:, :2])) > float(HAIR)
        self.added = hull[apart]
        self.nearest = self._nearest(self.added)
        self.outs = self.heights(readings[:, 2])
        self.folded = triangulated(np.vstack([readings[:, :2], self.added]), self.outs)

    def _nearest(self, points: Array) -> Whole:
        """The reading nearest to each of (k, 2) points; of several as near the one that lies farthest back."""
        square = ((points[:, None, :] - self.readings[None, :, :2]) ** 2).sum(axis=2)
        off = self.readings[:, 2] - on_plane(self.plane, self.readings)
        alike = square <= square.min(axis=1, keepdims=True) * (1 + float(SLACK)) + float(SLACK)
        return np.asarray(np.where(alike, off, np.inf).argmin(axis=1), dtype=np.intp)

    def heights(self, read: Array) -> Array:
        """The wall at the points of ``folded`` if the readings were ``read``."""
        return np.concatenate([read, self._carried(self.added, self.nearest, read)])

    def _carried(self, points: Array, nearest: Whole, read: Array) -> Array:
        """The wall carried on to points past the readings."""
        off = read - on_plane(self.plane, self.readings)
        return np.asarray(on_plane(self.plane, points) + off[nearest])

    def at(self, points: Array, outs: Array | None = None) -> Array:
        """How far the wall stands out at (k, 2) points [m]; ``outs`` at the points of ``folded``, if not as read."""
        outs = self.outs if outs is None else outs
        which, weights = self.folded.weights(points)
        found = (outs[self.folded.corners[which]] * weights).sum(axis=1)
        past = np.flatnonzero(weights.min(axis=1) < -sqrt(SLACK))
        if len(past):
            found[past] = self._carried(points[past], self._nearest(points[past]), outs[: len(self.readings)])
        return np.asarray(found)

    @cached_property
    def pieces(self) -> Piece:
        """The net wall in pieces of triangles."""
        shapes = shapely.polygons(self.folded.points[self.folded.corners])
        shapely.prepare(self.net)
        inside = shapely.covers(self.net, shapes)
        cut = shapely.intersection(shapes[~inside], self.net)
        of = np.concatenate([np.flatnonzero(inside), np.flatnonzero(~inside)])
        shapes = np.concatenate([shapes[inside], cut])
        area = shapely.area(shapes)
        kept = area > 0
        middle = shapely.get_coordinates(shapely.centroid(shapes[kept]))
        full = np.arange(len(of)) < np.count_nonzero(inside)
        return Piece(shapes[kept], of[kept], full[kept], area[kept], middle)

    @cached_property
    def shares(self) -> Array:
        """What area of the net wall each point of ``folded`` stands for [m2]; together the net wall."""
        found = np.zeros(len(self.folded.points))
        weights = self.folded.weights_in(self.pieces.middle, self.pieces.of)
        np.add.at(found, self.folded.corners[self.pieces.of], weights * self.pieces.area[:, None])
        return found

    @cached_property
    def expected(self) -> Array:
        """What its neighbours say of each reading: the trend of the wall, and the median of how far off it they stand
        [m]."""
        level = _trend(self.readings, self.times)
        off = (self.readings[:, 2] - level).tolist()
        middle = list(off)
        for n, several in self.folded.neighbours().items():
            near = [off[m] for m in several if m < len(off)]
            if n < len(off) and near:
                middle[n] = median(near)
        return np.asarray(level + np.array(middle))

    @property
    def mean(self) -> float:
        """How far the bare wall stands out on the average [m]."""
        return float(self.shares @ self.outs / self.shares.sum())


def _robust(readings: Array, times: float) -> Array:
    """Least squares plane without readings farther off it than ``times`` their scatter (and a hair)."""
    kept = _kept(readings, times, lambda some: on_plane(plane_of(some), readings))
    return plane_of(readings[kept])


def _trend(readings: Array, times: float) -> Array:
    """What the wall does on the whole, at every reading: a plane that may bow and twist (least squares of second
    degree, without readings far off it) where there are readings enough, else the plane."""
    places = _spread(readings) / np.abs(_spread(readings)).max()
    u, v = places.T
    terms = np.column_stack([np.ones(len(u)), u, v, u * u, u * v, v * v])
    if len(readings) < 2 * terms.shape[1] or np.linalg.matrix_rank(terms) < terms.shape[1]:
        return on_plane(_robust(readings, times), readings)
    number = {tuple(row): n for n, row in enumerate(readings.tolist())}

    def fit(some: Array) -> Array:
        which = [number[tuple(row)] for row in some.tolist()]
        return np.asarray(terms @ np.linalg.lstsq(terms[which], some[:, 2], rcond=None)[0])

    return fit(readings[_kept(readings, times, fit)])


def _kept(readings: Array, times: float, fit: Callable[[Array], Array]) -> Flags:
    """Readings that are no farther off what is fitted to them than ``times`` their scatter (and a hair)."""
    kept = np.ones(len(readings), dtype=bool)
    while True:
        off = np.abs(readings[:, 2] - fit(readings[kept]))
        within = off <= max(times * scatter(off), float(HAIR))
        if not (kept & ~within).any() or np.linalg.matrix_rank(_spread(readings[kept & within])) < 2:
            return kept
        kept &= within


def _spread(points: Array) -> Array:
    return np.asarray(points[:, :2] - points[:, :2].mean(axis=0)) if len(points) else np.zeros((1, 2))
