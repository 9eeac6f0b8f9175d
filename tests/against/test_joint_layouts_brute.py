"""The layout search against every layout there is, on walls of a few feet drawn on squared paper.

Nothing is shared but the aim: plaster is a set of unit squares, joints are unit edges, and every choice of lines right
across with every way to cut the pieces between them is written out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.joints.allowed import Allowed
from darby.joints.lines import Line
from darby.joints.on_lath import Laid, Site, laid
from darby.joints.plane import plane
from darby.measure.units import FT
from tests.joints.asking import SQ_FT, ft, hole, plain

Rect = tuple[int, int, int, int]
"""Left, right, bottom, top [ft]."""
Vector = tuple[int, ...]


@dataclass(frozen=True)
class Paper:
    """A wall on squared paper."""

    wide: int
    high: int
    holes: tuple[Rect, ...]
    uprights: tuple[int, ...]
    levels: tuple[int, ...]
    area: int
    side: int
    ratio: Fraction

    def plaster(self, x: int, y: int) -> bool:
        inside = 0 <= x < self.wide and 0 <= y < self.high
        return inside and not any(a <= x < b and c <= y < d for a, b, c, d in self.holes)

    def hole_at(self, x: int, y: int) -> bool:
        return any(a <= x < b and c <= y < d for a, b, c, d in self.holes)

    def corner(self, x: int, y: int) -> bool:
        return any(x in (a, b) and y in (c, d) for a, b, c, d in self.holes)

    def squares(self, r: Rect) -> list[tuple[int, int]]:
        return [(x, y) for x in range(r[0], r[1]) for y in range(r[2], r[3]) if self.plaster(x, y)]

    def sides(self, r: Rect) -> tuple[int, int]:
        found = self.squares(r)
        xs, ys = [x for x, _ in found], [y for _, y in found]
        return max(xs) - min(xs) + 1, max(ys) - min(ys) + 1

    def fits(self, r: Rect) -> bool:
        w, h = self.sides(r)
        long, short = max(w, h), min(w, h)
        return len(self.squares(r)) <= self.area and long <= self.side and long <= self.ratio * short

    def both(self, upright: bool, at: int, k: int) -> bool:
        """Plaster on both sides of the unit edge k along a line."""
        if upright:
            return self.plaster(at - 1, k) and self.plaster(at, k)
        return self.plaster(k, at - 1) and self.plaster(k, at)

    def cut(self, upright: bool, at: int, begin: int, end: int, across: bool) -> Vector:
        """(off, into, joints, stops, length [ft]) of one cut."""
        edges = [k for k in range(begin, end) if self.both(upright, at, k)]
        if not edges:
            return 0, 0, 0, 0, 0
        met, into = False, 0
        for k in edges:
            for near, far in ((k, k - 1), (k + 1, k + 1)):
                if self.both(upright, at, far):
                    continue  # it goes on, in this cut or beyond it
                point = (at, near) if upright else (near, at)
                if self.corner(*point):
                    met = True
                elif self._beyond(upright, at, far):
                    into += 1
        stops = 0
        if not across:
            stops += edges[0] == begin and self.both(upright, at, begin - 1)
            stops += edges[-1] == end - 1 and self.both(upright, at, end)
        return int(not met), into, 1, stops, len(edges)

    def _beyond(self, upright: bool, at: int, k: int) -> bool:
        beside = ((at - 1, k), (at, k)) if upright else ((k, at - 1), (k, at))
        return any(self.hole_at(*square) for square in beside)

    def apart(self, r: Rect) -> bool:
        """Whether a line parts its plaster without a joint."""
        ways = [((r[0], x, r[2], r[3]), (x, r[1], r[2], r[3]), [self.both(True, x, y) for y in range(r[2], r[3])])
                for x in self.uprights if r[0] < x < r[1]]  # fmt: skip
        ways += [((r[0], r[1], r[2], y), (r[0], r[1], y, r[3]), [self.both(False, y, x) for x in range(r[0], r[1])])
                 for y in self.levels if r[2] < y < r[3]]  # fmt: skip
        return any(self.squares(a) and self.squares(b) and not any(joint) for a, b, joint in ways)

    # --- every layout: past, off, into, joints, stops, even, length --------------------------------------

    def panel(self, r: Rect) -> Vector:
        w, h = (int(s * 304.8 + 0.5) for s in self.sides(r))
        return 0 if self.fits(r) else self.size(r), 0, 0, 0, 0, w * w + h * h, 0

    def size(self, r: Rect) -> int:
        """Plaster [dm2], at least one."""
        return max(int(len(self.squares(r)) * 9.290304 + 0.5), 1)

    def guillotine(self, r: Rect) -> Iterator[Vector]:
        if not self.squares(r):
            yield (0,) * 7
            return
        if not self.apart(r):
            yield self.panel(r)
        ways = [(True, x, r[2], r[3], (r[0], x, r[2], r[3]), (x, r[1], r[2], r[3])) for x in self.uprights
                if r[0] < x < r[1]]  # fmt: skip
        ways += [(False, y, r[0], r[1], (r[0], r[1], r[2], y), (r[0], r[1], y, r[3])) for y in self.levels
                 if r[2] < y < r[3]]  # fmt: skip
        for upright, at, begin, end, one, other in ways:
            off, into, joints, stops, length = self.cut(upright, at, begin, end, across=False)
            others = pareto(self.guillotine(other))
            for a in pareto(self.guillotine(one)):
                for b in others:
                    yield added((0, off, into, joints, stops, 0, length), a, b)

    def everything(self, must: Sequence[int], *, whole: bool = False) -> Iterator[Vector]:
        """Lines right across, then cuts in the pieces; the level lines ``must`` cost nothing."""
        free = [y for y in self.levels if y not in must]
        for levels in (c for k in range(3) for c in combinations(free, k)):
            for uprights in (c for k in range(len(self.uprights) + 1) for c in combinations(self.uprights, k)):
                lines = [self.cut(False, y, 0, self.wide, across=True) for y in levels]
                lines += [self.cut(True, x, 0, self.high, across=True) for x in uprights]
                totals = [added(*((0, *c[:4], 0, c[4]) for c in lines))]
                for x0, x1 in pairwise((0, *uprights, self.wide)):
                    for y0, y1 in pairwise((0, *sorted((*levels, *must)), self.high)):
                        piece = (x0, x1, y0, y1)
                        if whole:
                            if not self.squares(piece):
                                continue
                            past, *rest = self.panel(piece)
                            ways = [(self.size(piece) if self.apart(piece) else past, *rest)]
                        else:
                            ways = pareto(self.guillotine(piece))
                        totals = pareto(added(t, way) for t in totals for way in ways)
                yield from totals


def added(*vectors: Vector) -> Vector:
    return tuple(map(sum, zip(*vectors, strict=True))) if vectors else (0,) * 7


def pareto(vectors: Iterator[Vector] | Sequence[Vector]) -> list[Vector]:
    """Those that some aim might prefer: nothing is thrown away but what is worse in every number, or the same."""
    kept: list[Vector] = []
    for v in sorted(set(vectors)):
        if not any(all(a <= b for a, b in zip(k, v, strict=True)) for k in kept):
            kept.append(v)
    return kept


def best_first(v: Vector) -> Vector:
    return v


def fewest_first(v: Vector) -> Vector:
    past, off, into, joints, *rest = v
    return (past, joints, off, into, *rest)


def site_of(p: Paper, must: Sequence[int] = ()) -> tuple[Site, list[Line]]:
    surface = plain(p.wide, p.high, *(hole(f"o{n}", a, c, b - a, d - c) for n, (a, b, c, d) in enumerate(p.holes)))
    allowed = Allowed(p.area * SQ_FT, p.side * FT, p.ratio)
    lines = [Line("vertical", ft(x), "even") for x in p.uprights]
    lines += [Line("horizontal", ft(y), "even", must=y in must) for y in p.levels]
    return Site(plane(surface, [0]), 0, (), allowed, (), (), 10**6), lines


def answered(p: Paper, must: Sequence[int] = ()) -> Laid:
    site, lines = site_of(p, must)
    return laid(site, lines)


def vector(found: Laid, cost: object) -> Vector:
    """As the brute counts: length in whole feet."""
    *rest, length = cost.values  # type: ignore[attr-defined]
    return (*rest, round(length / 30.48))


@st.composite
def papers(draw: st.DrawFn) -> tuple[Paper, tuple[int, ...]]:
    wide, high = draw(st.integers(4, 14)), draw(st.integers(3, 10))
    holes: list[Rect] = []
    for _ in range(draw(st.integers(0, 2))):
        a, c = draw(st.integers(0, wide - 1)), draw(st.integers(0, high - 1))
        b, d = draw(st.integers(a + 1, min(wide, a + 5))), draw(st.integers(c + 1, min(high, c + 6)))
        if all(b < e or a > f or d < g or c > h for e, f, g, h in holes) and (b - a, d - c) != (wide, high):
            holes.append((a, b, c, d))
    edges = [x for a, b, _, _ in holes for x in (a, b)], [y for _, _, c, d in holes for y in (c, d)]
    uprights = draw(st.sets(st.sampled_from(sorted({*range(1, wide), *edges[0]} - {0, wide})), max_size=3))
    levels = draw(st.sets(st.sampled_from(sorted({*range(1, high), *edges[1]} - {0, high})), max_size=2))
    area, side = draw(st.integers(6, 60)), draw(st.integers(3, 9))
    p = Paper(wide, high, tuple(holes), tuple(sorted(uprights)), tuple(sorted(levels)), area, side,
              draw(st.sampled_from((Fraction(3, 2), Fraction(5, 2)))))  # fmt: skip
    must = draw(st.sets(st.sampled_from(p.levels), max_size=1)) if p.levels else set()
    return p, tuple(must)


@settings(max_examples=40, deadline=None)
@given(papers())
def test_nothing_is_better_than_the_best(drawn: tuple[Paper, tuple[int, ...]]) -> None:
    p, must = drawn
    found = answered(p, must)
    assert vector(found, found.parted.cost) == min(p.everything(must), key=best_first)


@settings(max_examples=40, deadline=None)
@given(papers())
def test_nothing_lined_through_is_better(drawn: tuple[Paper, tuple[int, ...]]) -> None:
    p, must = drawn
    found = answered(p, must)
    assert found.whole is not None
    every = list(p.everything(must, whole=True))
    assert vector(found, found.whole.through().cost) == min(every, key=best_first)
    assert vector(found, found.whole.through("fewest").cost) == min(every, key=fewest_first)


WINDOW = Paper(12, 9, ((4, 7, 3, 7),), (4, 6, 7), (3, 7), 60, 9, Fraction(5, 2))


@pytest.mark.parametrize("p", [WINDOW, Paper(14, 8, ((0, 4, 0, 7),), (4, 9, 10), (7,), 60, 9, Fraction(5, 2))])
def test_the_paper_itself(p: Paper) -> None:
    # 12 x 9 ft with a window 3 x 4 ft; 14 x 8 ft with a door at its end: 96 and 84 sq ft of plaster
    assert len(p.squares((0, p.wide, 0, p.high))) == p.wide * p.high - sum((b - a) * (d - c) for a, b, c, d in p.holes)
    found = answered(p)
    assert found.ready.field.area(0, found.ready.n, 0, found.ready.m) == len(p.squares((0, p.wide, 0, p.high))) * SQ_FT
