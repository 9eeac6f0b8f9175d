"""Outlines with arcs as plain points, which way they face, and the strokes that fill a hatched area."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan, atan2, ceil, cos, hypot, pi, radians, sin
from random import Random
from zlib import crc32

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from darby.drawing.model import Point
from darby.measure import outline as outlines
from darby.measure.outline import CHORD_ERROR
from darby.measure.surface import Corner

SLIVER = 0.0005
"""What is smaller is not hatched [m2]."""
BLOCK = (0.4064, 0.2032)
"""Face of a usual block with its joint: 16 by 8 in., in metres."""


def points_of(outline: Sequence[Corner]) -> tuple[Point, ...]:
    """Corners as floats [m]."""
    return tuple((float(c.u), float(c.v)) for c in outline)


def bulges_of(outline: Sequence[Corner]) -> tuple[float, ...]:
    """Bulges of an outline; empty when every side is straight."""
    bulges = tuple(float(c.bulge) for c in outline)
    return bulges if any(bulges) else ()


@dataclass(frozen=True, slots=True)
class Arc:
    """Centre and radius [m], start angle and sweep [rad, counterclockwise positive]."""

    centre: Point
    radius: float
    start: float
    sweep: float


def arc(start: Point, end: Point, bulge: float) -> Arc:
    """The arc from ``start`` to ``end``; a positive bulge lies to the right of the chord (open DXF's rule)."""
    (x0, y0), (x1, y1) = start, end
    chord = hypot(x1 - x0, y1 - y0)
    sweep = 4 * atan(bulge)
    radius = abs(chord / (2 * sin(sweep / 2)))
    # the centre lies on the chord's perpendicular; the arc's height there is bulge * chord / 2
    away = chord * (1 - bulge * bulge) / (4 * bulge)
    mid, across = ((x0 + x1) / 2, (y0 + y1) / 2), ((y0 - y1) / chord, (x1 - x0) / chord)
    centre = (mid[0] + across[0] * away, mid[1] + across[1] * away)
    return Arc(centre, radius, atan2(y0 - centre[1], x0 - centre[0]), sweep)


def flat(points: Sequence[Point], bulges: Sequence[float], *, closed: bool, error: float = CHORD_ERROR) -> list[Point]:
    """Points with arcs flattened to chords no further than ``error`` [m] from them."""
    if not any(bulges):
        return list(points)
    out: list[Point] = []
    last = len(points) if closed else len(points) - 1
    for i in range(len(points)):
        out.append(points[i])
        if i >= last or not bulges[i]:
            continue
        turn = arc(points[i], points[(i + 1) % len(points)], bulges[i])
        # sagitta of one chord is r (1 - cos(a / 2)); a is kept small enough
        most = 2 * (2 * min(error, turn.radius) / turn.radius) ** 0.5
        for k in range(1, n := max(2, ceil(abs(turn.sweep) / most))):
            at = turn.start + turn.sweep * k / n
            out.append((turn.centre[0] + turn.radius * cos(at), turn.centre[1] + turn.radius * sin(at)))
    return out


def flat_outline(outline: Sequence[Corner]) -> list[Point]:
    """A closed outline of corners with its arcs flattened."""
    return [(float(u), float(v)) for u, v in outlines.flat(outline)]


def turns_left(points: Sequence[Point]) -> bool:
    """Whether a closed outline runs counterclockwise."""
    pairs = zip(points, [*points[1:], points[0]], strict=True)
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) > 0


def box(points: Iterable[Point]) -> tuple[float, float, float, float]:
    """Left, low, right, high."""
    us, vs = zip(*points, strict=True)
    return min(us), min(vs), max(us), max(vs)


def area_of(outline: Sequence[Point]) -> BaseGeometry:
    """A polygon that shapely can cut, mended if it touches itself."""
    return shapely.make_valid(Polygon(outline))


def pieces(area: BaseGeometry) -> list[tuple[tuple[Point, ...], tuple[tuple[Point, ...], ...]]]:
    """The polygons of ``area``: (outline, holes), slivers left out."""
    found = []
    for part in shapely.get_parts(area):
        if part.geom_type == "MultiPolygon" or part.geom_type == "GeometryCollection":
            found += pieces(part)
        elif part.geom_type == "Polygon" and part.area > SLIVER:
            holes = tuple(tuple((x, y) for x, y in ring.coords[:-1]) for ring in part.interiors)
            found.append((tuple((x, y) for x, y in part.exterior.coords[:-1]), holes))
    return found


def roomiest(area: BaseGeometry) -> tuple[Point, float]:
    """Centre and radius of about the largest circle inside ``area``: where lettering has most room."""
    line = shapely.maximum_inscribed_circle(area)
    (x, y), _ = line.coords
    return (x, y), line.length


Segment = tuple[Point, Point]


def lines_in(area: Polygon, pitch: float, angle: float, origin: Point = (0.0, 0.0)) -> list[Segment]:
    """Parallel lines ``pitch`` apart at ``angle`` degrees, one of them through ``origin``, cut to ``area``."""
    along = (cos(radians(angle)), sin(radians(angle)))
    across = (-along[1], along[0])
    left, low, right, high = area.bounds
    corners = [(x - origin[0], y - origin[1]) for x in (left, right) for y in (low, high)]
    s0, s1 = _span(x * along[0] + y * along[1] for x, y in corners)
    t0, t1 = _span(x * across[0] + y * across[1] for x, y in corners)
    rows = [k * pitch for k in range(ceil(t0 / pitch), int(t1 // pitch) + 1)]
    whole = [
        tuple((origin[0] + s * along[0] + t * across[0], origin[1] + s * along[1] + t * across[1])
              for s in (s0 - pitch, s1 + pitch))
        for t in rows
    ]  # fmt: skip
    return _cut(whole, area)


def courses_in(area: Polygon, block: tuple[float, float], origin: Point) -> list[Segment]:
    """Running bond from ``origin``, the lower left: every other course shifted half a block, cut to ``area``."""
    long, tall = block
    left, low, right, high = area.bounds
    first, last = int((low - origin[1]) // tall), ceil((high - origin[1]) / tall)
    lines = []
    for course in range(first, last + 1):
        v = origin[1] + course * tall
        lines.append(((left, v), (right, v)))
        start = origin[0] + (course % 2) * long / 2
        for k in range(ceil((left - start) / long), int((right - start) // long) + 1):
            lines.append(((start + k * long, v), (start + k * long, v + tall)))
    return _cut(lines, area)


def scattered_in(area: Polygon, pitch: float, seed: str) -> list[tuple[Point, float, float]]:
    """Scattered points inside ``area``, about one to ``pitch`` square: (point, two chances 0..1); never otherwise."""
    chance = Random(crc32(seed.encode()))
    left, low, right, high = area.bounds
    spots = []
    for row in range(ceil((high - low) / pitch)):
        for column in range(ceil((right - left) / pitch)):
            at = (left + (column + chance.random()) * pitch, low + (row + chance.random()) * pitch)
            spots.append((at, chance.random(), chance.random()))
    if not spots:
        return []
    inner = area.buffer(-pitch / 4)
    inside = shapely.contains_xy(inner, [s[0][0] for s in spots], [s[0][1] for s in spots])
    return [spot for spot, within in zip(spots, inside, strict=True) if within]


def turned(point: Point, angle: float) -> Point:
    """A direction or offset turned counterclockwise by ``angle`` degrees."""
    c, s = cos(angle * pi / 180), sin(angle * pi / 180)
    return point[0] * c - point[1] * s, point[0] * s + point[1] * c


def _span(values: Iterable[float]) -> tuple[float, float]:
    kept = list(values)
    return min(kept), max(kept)


def _cut(lines: Sequence[Sequence[Point]], area: Polygon) -> list[Segment]:
    """What of straight ``lines`` lies in ``area``, line by line: together they would be broken at every crossing."""
    if not lines:
        return []
    whole = shapely.linestrings([tuple(line) for line in lines])
    shapely.prepare(area)
    inside = shapely.covers(area, whole)
    near = ~inside & shapely.intersects(area, whole)
    cut = whole.copy()
    cut[near] = shapely.intersection(area, whole[near])
    segments: list[Segment] = []
    for part in shapely.get_parts(cut[inside | near]):
        if part.geom_type == "LineString":
            segments += list(pairwise((x, y) for x, y in part.coords))
    return segments
