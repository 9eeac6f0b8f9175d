"""The wall that takes lath, cut by upright lines into slabs, exactly: where there is wall, how high, how much of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from quicktions import Fraction

from darby.lath.model import Outline, Point
from darby.measure.surface import Length

NOUGHT = Fraction(0)


class Rect(NamedTuple):
    """From left to right and from low to high [m]."""

    left: Length
    right: Length
    low: Length
    high: Length


_FINE = 2 ** (2 * 2 * 2 * 2 + 2 * 2)
"""Parts of a metre: points finer than a micron came out of floats (arcs made flat) and are taken to it."""


def _snapped(point: Point) -> Point:
    u, v = (x if x.denominator <= _FINE else Fraction(round(x * _FINE), _FINE) for x in point)
    return u, v


@dataclass(frozen=True, slots=True)
class Slab:
    """Wall between two upright lines: from ``low`` to ``high`` at the most, ``area`` of it [m2]."""

    left: Length
    right: Length
    low: Length
    high: Length
    area: Fraction
    spans: tuple[tuple[Length, Length], ...]
    """(low, high) of the wall in the middle of the slab, the lowest first."""


class _Edge:
    """A side of an outline that is not upright, from left to right."""

    __slots__ = ("hole", "left", "low", "right", "rise")

    def __init__(self, a: Point, b: Point, hole: int) -> None:
        a, b = sorted((a, b))
        self.left, self.right, self.low = a[0], b[0], a[1]
        self.rise = (b[1] - a[1]) / (b[0] - a[0])
        self.hole = hole

    def at(self, u: Length) -> Length:
        return self.low + self.rise * (u - self.left) if self.rise else self.low


class Face:
    """A zone less its openings. ``cuts`` are the upright lines through every corner and every crossing."""

    def __init__(self, outline: Outline, holes: Sequence[Outline]) -> None:
        outlines = [[_snapped(point) for point in points] for points in (outline, *holes)]
        self.edges = [
            _Edge(a, b, hole)
            for hole, points in enumerate(outlines)
            for a, b in zip(points, (*points[1:], points[0]), strict=True)
            if a[0] != b[0]
        ]
        us, vs = zip(*outlines[0], strict=True)
        self.box = Rect(min(us), max(us), min(vs), max(vs))
        corners = {u for points in outlines for u, _ in points}
        self.cuts = sorted(corners | set(self._crossings()))
        self._strips = [(a, b, tuple(self._wall((a + b) / 2))) for a, b in pairwise(self.cuts)]

    def _crossings(self) -> Iterator[Length]:
        """Where a side of a hole goes through another side."""
        sloped = [e for e in self.edges if e.hole]
        for n, one in enumerate(sloped):
            for other in (*sloped[n + 1 :], *(e for e in self.edges if not e.hole)):
                if one.rise != other.rise and one.left < other.right and other.left < one.right:
                    u = (other.at(NOUGHT) - one.at(NOUGHT)) / (one.rise - other.rise)
                    if max(one.left, other.left) < u < min(one.right, other.right):
                        yield u

    def slabs(self, window: Rect, only: Iterable[Rect] = ()) -> list[Slab]:
        """The wall within ``window`` (and within the rectangles of ``only``, if there are any), from left to right."""
        parts = tuple(only)
        levels = {window.low, window.high, *(v for part in parts for v in (part.low, part.high))}
        sides = {u for part in parts for u in (part.left, part.right)}
        found = []
        for start, end, wall in self._strips:
            left, right = max(start, window.left), min(end, window.right)
            if left >= right or not wall:
                continue
            lines = {left, right, *(u for u in sides if left < u < right)}
            for edge in {edge for pair in wall for edge in pair if edge.rise}:
                crossed = (edge.left + (v - edge.low) / edge.rise for v in levels)
                lines.update(u for u in crossed if left < u < right)
            found += [self._slab(a, b, window, parts, wall) for a, b in pairwise(sorted(lines))]
        return [slab for slab in found if slab is not None]

    def _slab(
        self, a: Length, b: Length, window: Rect, only: Sequence[Rect], wall: Iterable[tuple[_Edge, _Edge]]
    ) -> Slab | None:
        middle = (a + b) / 2
        allowed = [(window.low, window.high)]
        if only:
            beside = sorted((part.low, part.high) for part in only if part.left <= a and b <= part.right)
            allowed = [(max(window.low, x), min(window.high, y)) for x, y in _joined(beside)]
        spans: list[tuple[Length, Length]] = []
        lows, highs = [], []
        area = NOUGHT
        for under, over in wall:
            bottom_here, top_here = under.at(middle), over.at(middle)
            for x, y in allowed:
                bottom, top = max(bottom_here, x), min(top_here, y)
                if bottom < top:
                    spans.append((bottom, top))
                    lows.append(max(x, min(under.at(a), under.at(b))) if under.rise else bottom)
                    highs.append(min(y, max(over.at(a), over.at(b))) if over.rise else top)
                    area += (top - bottom) * (b - a)
        if not spans:
            return None
        return Slab(a, b, min(lows), max(highs), area, tuple(_joined(spans)))

    def _wall(self, u: Length) -> Iterator[tuple[_Edge, _Edge]]:
        """Pairs of sides with wall between them on the upright line at ``u``, which goes through no corner."""
        crossed = sorted((e for e in self.edges if e.left < u < e.right), key=lambda e: (e.at(u), e.hole))
        yield from self._pairs(crossed)

    def _pairs(self, crossed: Sequence[_Edge]) -> Iterator[tuple[_Edge, _Edge]]:
        """Sides that follow each other on the way up, where what lies between is wall."""
        inside, holes = False, set[int]()
        for edge, beyond in pairwise(crossed):
            if edge.hole:
                holes ^= {edge.hole}
            else:
                inside = not inside
            if inside and not holes:
                yield edge, beyond

    def jumps(self) -> list[Length]:
        """Where a side of the wall or of an opening stands upright: how much wall there is changes at once there."""
        ends = {end: wall for _, end, wall in self._strips}
        starts = {start: wall for start, _, wall in self._strips}
        return [u for u in self.cuts if _high(ends.get(u, ()), u) != _high(starts.get(u, ()), u)]

    def spans_at(self, u: Length) -> list[tuple[Length, Length]]:
        """(low, high) of the wall on the upright line at ``u``, just beside it on either side."""
        both: list[tuple[Length, Length]] = []
        for before in (True, False):
            edges = [e for e in self.edges if (e.left < u <= e.right if before else e.left <= u < e.right)]
            beside = u - 1 if before else u + 1
            edges.sort(key=lambda e: (e.at(u), e.at(beside)))
            both += [(a.at(u), b.at(u)) for a, b in self._pairs(edges) if a.at(u) < b.at(u)]
        return _joined(sorted(both))

    def area(self, window: Rect, only: Iterable[Rect] = ()) -> Fraction:
        """Wall within a rectangle [m2]."""
        return sum((slab.area for slab in self.slabs(window, only)), NOUGHT)


def _high(wall: Iterable[tuple[_Edge, _Edge]], u: Length) -> Length:
    return sum((over.at(u) - under.at(u) for under, over in wall), NOUGHT)


def _joined(spans: Sequence[tuple[Length, Length]]) -> list[tuple[Length, Length]]:
    """Spans that touch, as one."""
    joined: list[tuple[Length, Length]] = []
    for low, high in spans:
        if joined and joined[-1][1] >= low:
            joined[-1] = joined[-1][0], max(joined[-1][1], high)
        else:
            joined.append((low, high))
    return joined


def runs(slabs: Sequence[Slab]) -> list[list[Slab]]:
    """Slabs that touch, together."""
    together: list[list[Slab]] = []
    for slab in slabs:
        if together and together[-1][-1].right == slab.left:
            together[-1].append(slab)
        else:
            together.append([slab])
    return together
