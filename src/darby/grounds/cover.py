"""What the readings leave open: readings that their neighbours do not bear out, and wall that nobody measured near."""

from __future__ import annotations

from itertools import pairwise
from math import acos, pi

import numpy as np
import shapely

from darby.grounds.checks import THREE, Array
from darby.grounds.model import Coverage, GroundsAsk, Wild
from darby.grounds.wall import Wall, Whole, delaunay, scatter
from darby.measure.checks import SLIVER
from darby.measure.limits import SLACK, whole
from darby.measure.outline import CHORD_ERROR
from darby.measure.units import unit
from darby.working.model import Quantity, Working

IN, FT_IN, SQ_FT = unit("in"), unit("ft-in"), unit("sq ft")

Outline = tuple[tuple[float, float], ...]


def wild(ask: GroundsAsk, wall: Wall) -> tuple[Wild, ...]:
    """Readings far off what their neighbours say, farthest first.

    Off by more than ``grounds.wild`` robust deviations (median absolute deviation, scaled to a standard deviation) and
    by more than a base may be out of true (``thickness.base-plane``): a true wall has little scatter, and no reading on
    it is wild for a sixteenth. They are flagged, not left out: a wild reading is a slip, or a high spot.
    """
    times = ask.book.number("grounds.wild").number
    plane = ask.book.number("thickness.base-plane").number
    off = wall.readings[:, 2] - wall.expected
    spread = scatter(off - np.median(off))
    far = np.flatnonzero((np.abs(off) > times * spread) & (np.abs(off) > plane))
    order = sorted(far.tolist(), key=lambda n: (-abs(off[n]), n))
    return tuple(
        Wild(wall.numbers[n], float(wall.readings[n, 0]), float(wall.readings[n, 1]), Quantity(float(off[n]), IN),
             float(abs(off[n]) / spread) if spread > 0 else None)
        for n in order
    )  # fmt: skip


def coverage(wall: Wall, working: Working, key: str, edge: Quantity) -> Coverage:
    """The largest circle on the net wall that holds no reading, and what lies beyond half a straightedge of any.

    Two readings farther apart than the straightedge ``edge`` can hide a hollow that it would find: so a reading speaks
    for half of its length around it.
    """
    reach = working.step(f"{key}/reach", "edge / 2", "ft-in", "grounds.step.reach", edge=edge)
    places = wall.readings[:, :2]
    triangles = delaunay(places)
    (u, v), away = farthest(wall, places, triangles)
    left = beyond(wall, places, triangles, float(reach)) if away > float(reach) else []
    thin = working.found(f"{key}/thin", float(sum(p.area for p in left)), SQ_FT, "grounds.step.thin",
                         method="grounds.method.circles", proof=(), after=[reach.key])  # fmt: skip
    radius = working.found(f"{key}/empty-circle", away, FT_IN, "grounds.step.empty-circle",
                           method="grounds.method.circles", proof=())  # fmt: skip
    return Coverage(u, v, radius, reach, thin, outlines(left))


def farthest(wall: Wall, places: Array, triangles: Whole) -> tuple[tuple[float, float], float]:
    """The place on the net wall that is farthest from any reading, and how far: exact.

    Inside, the distance has its tops where three readings are equally far: middles of the circles round Delaunay
    triangles. Along an edge of the wall its square is that of the way along it, and the least of straight lines, one a
    reading: it has its tops at the ends and where the least line changes.
    """
    middles = _middles(places, triangles)
    inside = middles[shapely.contains_xy(wall.net, middles[:, 0], middles[:, 1])]
    found = [inside]
    for ring in shapely.get_rings(shapely.get_parts(wall.net)):
        corners = shapely.get_coordinates(ring)
        found += [_along(a, b, places) for a, b in pairwise(corners)]
    every = np.vstack(found)
    away = shapely.distance(shapely.points(every), shapely.multipoints(places))
    n = int(away.argmax())
    return (float(every[n, 0]), float(every[n, 1])), float(away[n])


def _middles(places: Array, triangles: Whole) -> Array:
    """Middles of the circles round triangles."""
    a, b, c = (places[triangles[:, n]] for n in range(THREE))
    turned = 2 * np.stack([b - a, c - a], axis=1)
    square = np.stack([((b - a) ** 2).sum(axis=1), ((c - a) ** 2).sum(axis=1)], axis=1)
    return np.asarray(a + np.linalg.solve(turned, square[:, :, None])[:, :, 0])


def _along(a: Array, b: Array, places: Array) -> Array:
    """Both ends of a side, and the places on it where the nearest reading changes."""
    length = float(np.hypot(*(b - a)))
    way = (b - a) / length
    # the square of the distance to a reading: t^2 + slope t + start
    slope, start = -2 * (places - a) @ way, ((places - a) ** 2).sum(axis=1)
    t, stops = 0.0, [0.0, length]
    now = int(np.lexsort((slope, start))[0])
    while True:
        steeper = np.flatnonzero(slope < slope[now])
        if not len(steeper):
            break
        meets = (start[steeper] - start[now]) / (slope[now] - slope[steeper])
        nearest = meets.min()
        if nearest >= length:
            break
        t = max(t, float(nearest))
        stops.append(t)
        there = steeper[meets <= nearest + float(SLACK)]
        now = int(there[slope[there].argmin()])
    return np.asarray(a + np.array(stops)[:, None] * way)


def beyond(wall: Wall, places: Array, triangles: Whole, reach: float) -> list[shapely.Polygon]:
    """What of the net wall lies farther than ``reach`` from any reading.

    A triangle whose circle is no larger is within reach of its corners: those are taken off first, in one piece.
    """
    middles = _middles(places, triangles)
    near = np.hypot(*(middles - places[triangles[:, 0]]).T) <= reach
    left = shapely.difference(wall.net, shapely.coverage_union_all(shapely.polygons(places[triangles[near]])))
    about = places[shapely.distance(shapely.points(places), left) <= reach]
    chords = whole(pi / 2 / (2 * acos(1 - CHORD_ERROR / reach)))
    left = shapely.difference(left, shapely.union_all(shapely.buffer(shapely.points(about), reach, quad_segs=chords)))
    return [p for p in shapely.get_parts(left) if p.area > SLIVER]


def outlines(shapes: list[shapely.Polygon]) -> tuple[Outline, ...]:
    """The outer outlines of polygons, without the closing point."""
    return tuple(tuple((float(u), float(v)) for u, v in points_of(shape)) for shape in shapes)


def points_of(shape: shapely.Polygon) -> Array:
    """Corners of a polygon's outer ring."""
    return np.asarray(shapely.get_coordinates(shape.exterior)[:-1])
