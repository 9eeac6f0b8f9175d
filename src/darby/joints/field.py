"""Plaster of one ground cut into cells by upright and level lines: areas, extents and joint lengths, all exact."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise
from typing import NamedTuple

import shapely
from quicktions import Fraction
from shapely.geometry.base import BaseGeometry

from darby.joints.plane import Interval, Number, Piece, Plane, Point, Slab


class Box(NamedTuple):
    """An upright rectangle."""

    left: Number
    bottom: Number
    right: Number
    top: Number


@dataclass(frozen=True, slots=True)
class Stretch:
    """Plaster on both sides of a line, from end to end: there a joint can be.

    ``corner``/``into``: whether its low and its high end meet a corner, or run into an opening away from one.
    ``names``: the openings whose corners they meet.
    """

    low: Number
    high: Number
    corner: tuple[bool, bool]
    into: tuple[bool, bool]
    names: tuple[str, str]


@dataclass(frozen=True)
class Field:
    """One ground of a plane in cells between lines ``us`` and ``vs``; the first and last are its own extent.

    ``areas[i][j]`` and ``boxes[i][j]`` of the plaster in cell i, j (None where there is none); ``uprights[i]`` and
    ``levels[j]``: the stretches of each line.
    """

    plane: Plane
    ground: int
    us: tuple[Number, ...]
    vs: tuple[Number, ...]
    areas: list[list[Number]]
    boxes: list[list[Box | None]]
    uprights: list[list[Stretch]]
    levels: list[list[Stretch]]

    @property
    def scale(self) -> int:
        """Parts of a metre that everything is counted in."""
        return self.plane.scale

    def area(self, i0: int, i1: int, j0: int, j1: int) -> Fraction:
        """Plaster between four lines [m2]."""
        s = self._sums
        return Fraction(s[i1][j1] - s[i0][j1] - s[i1][j0] + s[i0][j0]) / self.scale**2

    @cached_property
    def _sums(self) -> list[list[Number]]:
        """Plaster left of every upright and below every level."""
        sums: list[list[Number]] = [[0] * len(self.vs)]
        for column in self.areas:
            low = sums[-1]
            sums.append([a + b for a, b in zip(low, (0, *accumulate(column)), strict=True)])
        return sums

    def box(self, i0: int, i1: int, j0: int, j1: int) -> Box | None:
        """Its extent, in the field's own measure."""
        found = [box for column in self.boxes[i0:i1] for box in column[j0:j1] if box is not None]
        if not found:
            return None
        lefts, lows, rights, tops = zip(*found, strict=True)
        return Box(min(lefts), min(lows), max(rights), max(tops))

    def sides(self, i0: int, i1: int, j0: int, j1: int) -> tuple[Fraction, Fraction]:
        """Width and height of its extent [m]."""
        box = self.box(i0, i1, j0, j1)
        if box is None:
            return Fraction(0), Fraction(0)
        return self.metres(box.right - box.left), self.metres(box.top - box.bottom)

    def metres(self, x: Number) -> Fraction:
        """A coordinate in metres."""
        return Fraction(x) / self.scale

    @cached_property
    def shape(self) -> tuple[BaseGeometry, dict[float, Fraction]]:
        """The ground's plaster in floats [m], and the exact number of every coordinate in it."""
        known: dict[float, Fraction] = {}

        def near(x: Number) -> float:
            metres = self.metres(x)
            known[float(metres)] = metres
            return float(metres)

        for x in (*self.us, *self.vs):
            near(x)
        quads = []
        for column in pairwise(self.us):
            for slab in self.plane.within(*column):
                left, right = near(slab.left), near(slab.right)
                for p in slab.pieces:
                    if p.ground == self.ground:
                        low, top = (left, near(p.low)), (left, near(p.top))
                        quads.append((low, (right, near(p.low_right)), (right, near(p.top_right)), top, low))
        return shapely.union_all(shapely.polygons(quads)), known


def field(plane: Plane, ground: int, us: Sequence[Number], vs: Sequence[Number]) -> Field:
    """The cells of ``ground`` between the lines, all in the plane's measure."""
    columns = [_column(plane, ground, a, b, vs) for a, b in pairwise(us)]
    uprights = [_stretches(plane, *plane.upright(ground, u), (u, None)) for u in us]
    levels = [_stretches(plane, *plane.level(ground, v), (None, v)) for v in vs]
    return Field(
        plane, ground, tuple(us), tuple(vs), [areas for areas, _ in columns], [boxes for _, boxes in columns],
        uprights, levels,
    )  # fmt: skip


def _stretches(
    plane: Plane, both: Iterable[Interval], holes: set[Number], line: tuple[Number | None, Number | None]
) -> list[Stretch]:
    found = []
    for low, high in both:
        points: list[Point] = [(line[0], x) if line[0] is not None else (x, line[1] or 0) for x in (low, high)]
        names = [plane.corners.get(point) for point in points]
        corner = names[0] is not None, names[1] is not None
        into = low in holes and not corner[0], high in holes and not corner[1]
        found.append(Stretch(low, high, corner, into, (names[0] or "", names[1] or "")))
    return found


def _column(
    plane: Plane, ground: int, left: Number, right: Number, vs: Sequence[Number]
) -> tuple[list[Number], list[Box | None]]:
    """Area and extent of every cell between two uprights."""
    areas: list[Number] = [0] * (len(vs) - 1)
    boxes: list[Box | None] = [None] * (len(vs) - 1)
    for slab in plane.within(left, right):
        wide = slab.right - slab.left
        for piece in slab.pieces:
            if piece.ground != ground:
                continue
            low, top = min(piece.low, piece.low_right), max(piece.top, piece.top_right)
            flat, under = max(piece.low, piece.low_right), min(piece.top, piece.top_right)
            for j in range(max(bisect_right(vs, low) - 1, 0), len(vs) - 1):
                if vs[j] >= top:
                    break
                if piece.level or (flat <= vs[j] and vs[j + 1] <= under):
                    box = Box(slab.left, max(low, vs[j]), slab.right, min(top, vs[j + 1]))
                    areas[j] += wide * (box.top - box.bottom)
                else:
                    part = _sloping(slab, piece, vs[j], vs[j + 1])
                    if part is None:
                        continue
                    areas[j] += part[0]
                    box = part[1]
                had = boxes[j]
                boxes[j] = box if had is None else _joined(had, box)
    return areas, boxes


def _joined(a: Box, b: Box) -> Box:
    return Box(min(a.left, b.left), min(a.bottom, b.bottom), max(a.right, b.right), max(a.top, b.top))


def _sloping(slab: Slab, piece: Piece, bottom: Number, top: Number) -> tuple[Number, Box] | None:
    """Area and extent of a sloping piece between two levels."""
    ring: list[Point] = [
        (slab.left, piece.low), (slab.right, piece.low_right), (slab.right, piece.top_right), (slab.left, piece.top)
    ]  # fmt: skip
    for level, sign in ((bottom, 1), (top, -1)):
        ring = _kept(ring, level, sign)
        if not ring:
            return None
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))
    if not twice:
        return None
    us, vs = zip(*ring, strict=True)
    return Fraction(twice) / 2, Box(min(us), min(vs), max(us), max(vs))


def _kept(ring: Sequence[Point], level: Number, sign: int) -> list[Point]:
    """What of a ring lies above a level (below it for sign -1)."""
    out: list[Point] = []
    for p, q in zip((ring[-1], *ring[:-1]), ring, strict=True):
        a, b = (p[1] - level) * sign, (q[1] - level) * sign
        if (a < 0 < b) or (b < 0 < a):
            out.append((p[0] + (q[0] - p[0]) * Fraction(a) / (a - b), level))
        if b >= 0:
            out.append(q)
    return out
