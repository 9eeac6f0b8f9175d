"""Outlines: area, length of sides, arcs made flat. Exact where every side is straight.

An arc is a ``bulge`` at the corner where it starts: tan(quarter of its angle), bending to the right of the way to
the next corner where positive (as in open DXF). Its area and length are in closed form; only drawing and cutting
use chords, and those are nowhere further from the arc than ``CHORD_ERROR``. shapely is loaded when it is needed:
nothing that only reads and writes lengths waits for it.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import asin, atan, ceil, cos, hypot, isqrt, sin, sqrt
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.measure.surface import Corner, Length

if TYPE_CHECKING:
    from shapely.geometry import Polygon

CHORD_ERROR = 0.0005
"""No chord is further than this from the arc that it stands for [m]."""

FLAT = 1e-6
"""A bulge below this is none: half a micron on a metre."""

Point = tuple[Fraction, Fraction]


def straight(outline: Sequence[Corner]) -> bool:
    """Whether every side is straight: then every area is exact."""
    return not any(bends(here, there) for here, there in sides(outline))


def bends(here: Corner, there: Corner) -> bool:
    """Whether the side is an arc: one flatter than a millionth of its chord is straight, and so is one of no length."""
    return abs(here.bulge) > FLAT and (here.u, here.v) != (there.u, there.v)


def area_of(outline: Sequence[Corner]) -> Fraction:
    """Area within an outline [m2], whichever way round it goes; exact where every side is straight."""
    return abs(signed_area(outline))


def signed_area(outline: Sequence[Corner]) -> Fraction:
    """Area within an outline [m2], positive where it goes round counter-clockwise."""
    twice = Fraction(0)
    arcs = 0.0
    for here, there in sides(outline):
        twice += here.u * there.v - there.u * here.v
        if bends(here, there):
            arcs += _segment(here, there)
    return twice / 2 + (Fraction(arcs) if arcs else 0)


def _segment(here: Corner, there: Corner) -> float:
    """Area between an arc and its chord: positive to the right of the chord."""
    angle = 4 * atan(here.bulge)
    radius = _radius(here, there)
    return radius * radius * (angle - sin(angle)) / 2


def _radius(here: Corner, there: Corner) -> float:
    chord = hypot(float(there.u - here.u), float(there.v - here.v))
    return chord * (1 + here.bulge**2) / (4 * abs(here.bulge))


def sides(outline: Sequence[Corner]) -> list[tuple[Corner, Corner]]:
    """Each corner with the next one, round to the first."""
    return list(zip(outline, (*outline[1:], *outline[:1]), strict=True))


def side_length(here: Corner, there: Corner) -> Length:
    """Length of one side [m]: exact where it is level, plumb or comes out even; else as near as a float."""
    if bends(here, there):
        return Fraction(_radius(here, there) * abs(4 * atan(here.bulge)))
    return distance((here.u, here.v), (there.u, there.v))


def distance(one: Point, other: Point) -> Length:
    """Straight from one point to the other [m]; exact where the root comes out even."""
    du, dv = abs(other[0] - one[0]), abs(other[1] - one[1])
    if not du or not dv:
        return du + dv
    square = du * du + dv * dv
    top, bottom = isqrt(square.numerator), isqrt(square.denominator)
    if top * top == square.numerator and bottom * bottom == square.denominator:
        return Fraction(top, bottom)
    return Fraction(hypot(float(du), float(dv)))


def perimeter_of(outline: Sequence[Corner]) -> Length:
    """All sides of an outline together [m]."""
    return sum((side_length(here, there) for here, there in sides(outline)), Fraction(0))


def flat_side(here: Corner, there: Corner, error: float = CHORD_ERROR) -> list[Point]:
    """Points from ``here`` up to, not including, ``there``: one for a straight side, an arc's chords' starts."""
    points: list[Point] = [(here.u, here.v)]
    if not bends(here, there):
        return points
    radius, angle = _radius(here, there), 4 * atan(here.bulge)
    step = 4 * asin(sqrt(min(error, radius) / (2 * radius)))  # a chord's middle lies radius * (1 - cos(step / 2)) off
    count = max(2, ceil(abs(angle) / step))
    du, dv = float(there.u - here.u), float(there.v - here.v)
    # the centre lies off the middle of the chord, to the left of the way for a positive bulge below 1
    off = (1 - here.bulge**2) / (4 * here.bulge)
    centre = (float(here.u) + du / 2 - dv * off, float(here.v) + dv / 2 + du * off)
    arm = (float(here.u) - centre[0], float(here.v) - centre[1])
    for n in range(1, count):
        c, s = cos(angle * n / count), sin(angle * n / count)
        points.append((Fraction(centre[0] + arm[0] * c - arm[1] * s), Fraction(centre[1] + arm[0] * s + arm[1] * c)))
    return points


def flat(outline: Sequence[Corner], error: float = CHORD_ERROR) -> tuple[Point, ...]:
    """The outline as points [m], its arcs as chords no further than ``error`` [m] from them."""
    return tuple(point for here, there in sides(outline) for point in flat_side(here, there, error))


def polygon(outline: Sequence[Corner], error: float = CHORD_ERROR) -> Polygon:
    """The outline as a shapely polygon, its arcs flat to ``error`` [m]. It may be invalid: see ``checks``."""
    from shapely.geometry import Polygon

    return Polygon([(float(u), float(v)) for u, v in flat(outline, error)])


# --- cutting -----------------------------------------------------------------------------------------


def area_in_both(one: Sequence[Corner], other: Sequence[Corner]) -> Fraction:
    """Area that two outlines have in common [m2].

    Exact where all sides are straight and one of the two is convex (every rectangle and gable is); in closed form
    where one lies within the other; else by shapely on chords, near enough for ``CHORD_ERROR``.
    """
    if straight(one) and straight(other):
        for subject, cutter in ((one, other), (other, one)):
            if _convex(cutter):
                return _area(_cut(flat(subject), flat(_anticlockwise(cutter))))
    a, b = polygon(one), polygon(other)
    common = a.intersection(b).area
    for outline, shape in ((one, a), (other, b)):
        if shape.area - common <= shape.area * 1e-9:
            return area_of(outline)
    return Fraction(common)


def _anticlockwise(outline: Sequence[Corner]) -> Sequence[Corner]:
    return outline if signed_area(outline) > 0 else tuple(reversed(outline))


def _convex(outline: Sequence[Corner]) -> bool:
    points = flat(outline)
    turns = {_turn(points[n - 2], points[n - 1], points[n]) for n in range(len(points))}
    return not {-1, 1} <= turns


def _turn(a: Point, b: Point, c: Point) -> int:
    cross = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    return (cross > 0) - (cross < 0)


def _cut(subject: Sequence[Point], cutter: Sequence[Point]) -> list[Point]:
    """What of ``subject`` lies within the convex, counter-clockwise ``cutter`` (Sutherland and Hodgman, 1974)."""
    left = list(subject)
    for a, b in zip(cutter, (*cutter[1:], cutter[0]), strict=True):
        if not left:
            break
        out: list[Point] = []
        for p, q in zip((left[-1], *left[:-1]), left, strict=True):
            side_p, side_q = _side(a, b, p), _side(a, b, q)
            if (side_p < 0 < side_q) or (side_q < 0 < side_p):
                t = side_p / (side_p - side_q)
                out.append((p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])))
            if side_q >= 0:
                out.append(q)
        left = out
    return left


def _side(a: Point, b: Point, p: Point) -> Fraction:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def _area(points: Sequence[Point]) -> Fraction:
    if len(points) < 3:
        return Fraction(0)
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return abs(sum((p[0] * q[1] - q[0] * p[1] for p, q in pairs), Fraction(0))) / 2
