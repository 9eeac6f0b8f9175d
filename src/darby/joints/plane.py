"""The plaster's true shape, exactly: upright slabs within which no outline bends, each cut into pieces of one ground.

All numbers are whole multiples of 1/``scale`` metre, or Fractions of them where a slope meets an upright. An arc stands
as chords nowhere more than ``CHORD_ERROR`` from it, their ends set to the micrometre.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from math import lcm

from quicktions import Fraction

from darby.measure.outline import bends, flat_side, sides
from darby.measure.surface import Corner, Surface
from darby.measure.units import unit

Number = int | Fraction
Point = tuple[Number, Number]
Interval = tuple[Number, Number]

HOLE = -1
"""The ground of an opening."""

_FINE = unit("um").scale


@dataclass(frozen=True, slots=True)
class Piece:
    """One ground between two sides that do not cross: lower and upper side at the slab's left and right end."""

    ground: int
    low: Number
    low_right: Number
    top: Number
    top_right: Number

    @property
    def level(self) -> bool:
        """Whether both sides are level."""
        return self.low == self.low_right and self.top == self.top_right


@dataclass(frozen=True, slots=True)
class Slab:
    """What stands between two uprights, from the bottom up; nothing is said of what lies outside the wall."""

    left: Number
    right: Number
    pieces: tuple[Piece, ...]


@dataclass(frozen=True)
class Plane:
    """A surface as slabs. ``corners``: every point where a crack starts (a corner of an opening, an inside corner)."""

    scale: int
    slabs: tuple[Slab, ...]
    corners: dict[Point, str]
    """Point to the opening whose corner it is; "" for a corner of the outline or of a zone that points inward."""

    def scaled(self, scale: int) -> Plane:
        """The same in a finer measure; ``scale`` is a multiple of this one's."""
        by = scale // self.scale
        if by == 1:
            return self
        slabs = tuple(
            Slab(
                s.left * by,
                s.right * by,
                tuple(Piece(p.ground, p.low * by, p.low_right * by, p.top * by, p.top_right * by) for p in s.pieces),
            )
            for s in self.slabs
        )
        return Plane(scale, slabs, {(u * by, v * by): name for (u, v), name in self.corners.items()})

    @cached_property
    def _lefts(self) -> list[Number]:
        return [s.left for s in self.slabs]

    @cached_property
    def _rights(self) -> list[Number]:
        return [s.right for s in self.slabs]

    def within(self, left: Number, right: Number) -> Iterator[Slab]:
        """The slabs between two uprights, those at the ends cut off there."""
        first, last = bisect_right(self._rights, left), bisect_left(self._lefts, right)
        for slab in self.slabs[first:last]:
            yield cut(slab, max(slab.left, left), min(slab.right, right))

    def beside(self, u: Number) -> tuple[list[Piece], list[Piece]]:
        """The pieces just left and just right of an upright, each with its sides as they stand at it."""
        left: list[Piece] = []
        right: list[Piece] = []
        for slab in self.slabs[bisect_left(self._rights, u) : bisect_right(self._lefts, u)]:
            if slab.left < u:
                left = [at(slab, p, u) for p in slab.pieces]
            if slab.right > u:
                right = [at(slab, p, u) for p in slab.pieces]
        return left, right

    def upright(self, ground: int, u: Number) -> tuple[list[Interval], set[Number]]:
        """Where ``ground`` stands on both sides of an upright, and the levels where an opening begins or ends there."""
        left, right = self.beside(u)
        both = meet(
            [(p.low, p.top) for p in left if p.ground == ground], [(p.low, p.top) for p in right if p.ground == ground]
        )
        ends = {v for p in (*left, *right) if p.ground == HOLE for v in (p.low, p.top)}
        return both, ends

    def level(self, ground: int, v: Number) -> tuple[list[Interval], set[Number]]:
        """Where ``ground`` stands above and below a level, and where an opening begins or ends there."""
        found: list[Interval] = []
        ends: set[Number] = set()
        for slab in self.slabs:
            for piece in slab.pieces:
                if piece.ground != ground and piece.ground != HOLE:
                    continue
                span = _spanned(slab, piece, v)
                if span is None:
                    continue
                if piece.ground == HOLE:
                    ends.update(span)
                elif found and found[-1][1] == span[0]:
                    found[-1] = (found[-1][0], span[1])
                else:
                    found.append(span)
        return found, ends

    def extent(self, ground: int) -> tuple[Number, Number, Number, Number] | None:
        """Left, bottom, right, top of all that is of one ground; None where there is none of it."""
        boxes = [
            (s.left, min(p.low, p.low_right), s.right, max(p.top, p.top_right))
            for s in self.slabs
            for p in s.pieces
            if p.ground == ground
        ]
        if not boxes:
            return None
        lefts, lows, rights, tops = zip(*boxes, strict=True)
        return min(lefts), min(lows), max(rights), max(tops)


def cut(slab: Slab, left: Number, right: Number) -> Slab:
    """The part of a slab between two uprights within it."""
    if (left, right) == (slab.left, slab.right):
        return slab
    ends = [(at(slab, p, left), at(slab, p, right)) for p in slab.pieces]
    return Slab(left, right, tuple(Piece(a.ground, a.low, b.low, a.top, b.top) for a, b in ends))


def at(slab: Slab, piece: Piece, u: Number) -> Piece:
    """The piece as it stands at one upright of its slab."""
    if piece.level:
        return piece
    low = _between(slab.left, piece.low, slab.right, piece.low_right, u)
    top = _between(slab.left, piece.top, slab.right, piece.top_right, u)
    return Piece(piece.ground, low, low, top, top)


def meet(one: Sequence[Interval], other: Sequence[Interval]) -> list[Interval]:
    """What two rows of intervals have in common; neighbours that touch are joined."""
    found: list[Interval] = []
    for low, high in one:
        for begin, end in other:
            a, b = max(low, begin), min(high, end)
            if a < b:
                if found and found[-1][1] == a:
                    a = found.pop()[0]
                found.append((a, b))
    return found


def _spanned(slab: Slab, piece: Piece, v: Number) -> Interval | None:
    """From where to where a level runs within the piece, if it does."""
    if piece.level:
        return (slab.left, slab.right) if piece.low < v < piece.top else None
    left, right = slab.left, slab.right
    for near, far, sign in ((piece.low, piece.low_right, 1), (piece.top, piece.top_right, -1)):
        a, b = (v - near) * sign, (v - far) * sign  # above nought: within, as far as this side goes
        if a <= 0 and b <= 0:
            return None
        if a < 0 or b < 0:
            turn = slab.left + (slab.right - slab.left) * Fraction(a) / (a - b)
            left, right = (max(left, turn), right) if a < 0 else (left, min(right, turn))
    return (left, right) if left < right else None


# --- from a surface -----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Side:
    """A side that is not upright, from left to right, and the outline it belongs to."""

    of: int
    u: Number
    v: Number
    u_right: Number
    v_right: Number


def plane(surface: Surface, grounds: Sequence[int]) -> Plane:
    """The surface as slabs. ``grounds``: the ground of each of its zones, in their order, then of what no zone covers.

    The surface has passed ``measure.faults_of``: zones and openings lie within it and not over each other.
    """
    outlines = [surface.outline, *(o.outline for o in surface.openings)]
    zones = [(z.outline, g) for z, g in zip(surface.zones, grounds, strict=False) if z.outline is not None]
    rest = next((g for z, g in zip(surface.zones, grounds, strict=False) if z.outline is None), grounds[-1])
    rings = [_flat(outline) for outline in (*outlines, *(outline for outline, _ in zones))]
    scale = lcm(*(x.denominator for ring in rings for point in ring for x in point))
    whole = [[(int(u * scale), int(v * scale)) for u, v in ring] for ring in rings]
    reading = _Reading(len(surface.openings), [g for _, g in zones], rest)
    every = [side for n, ring in enumerate(whole) for side in _sides(n, ring)]
    uprights = {u for ring in whole for u, _ in ring} | set(_crossings(every))
    slabs = tuple(s for a, b in pairwise(sorted(uprights)) if (s := _slab(every, a, b, reading)).pieces)
    corners: dict[Point, str] = {}
    for ring in (whole[0], *whole[len(outlines) :]):
        corners.update(dict.fromkeys(_inward(ring, zone=ring is not whole[0]), ""))
    for opening in surface.openings:
        corners.update({(int(c.u * scale), int(c.v * scale)): opening.id for c in opening.outline})
    return Plane(scale, slabs, corners)


def _flat(outline: Sequence[Corner]) -> list[tuple[Fraction, Fraction]]:
    points: list[tuple[Fraction, Fraction]] = []
    for here, there in sides(outline):
        first, *chords = flat_side(here, there) if bends(here, there) else [(here.u, here.v)]
        points.append(first)
        points += [(round(u / _FINE) * _FINE, round(v / _FINE) * _FINE) for u, v in chords]
    return points


def _inward(ring: Sequence[Point], *, zone: bool) -> Iterator[Point]:
    """Corners that point into plaster: of the wall where it turns inward; of a zone every one, for its neighbour."""
    turns = [_turn(ring[n - 2], ring[n - 1], ring[n]) for n in range(len(ring))]
    twice = sum((a[0] - b[0]) * (a[1] + b[1]) for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))
    for n, turn in enumerate(turns):
        if turn and (zone or turn != (1 if twice > 0 else -1)):
            yield ring[n - 1]


def _turn(a: Point, b: Point, c: Point) -> int:
    cross = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    return (cross > 0) - (cross < 0)


def _sides(of: int, ring: Sequence[tuple[int, int]]) -> Iterator[_Side]:
    for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
        if a[0] < b[0]:
            yield _Side(of, *a, *b)
        elif a[0] > b[0]:
            yield _Side(of, *b, *a)


def _crossings(every: Sequence[_Side]) -> Iterator[Number]:
    """Where a slope crosses a side of another outline."""
    for s in every:
        if s.v == s.v_right:
            continue
        low, high = min(s.v, s.v_right), max(s.v, s.v_right)
        for t in every:
            if t.of == s.of or t.u >= s.u_right or t.u_right <= s.u:
                continue
            if min(t.v, t.v_right) > high or max(t.v, t.v_right) < low:
                continue
            left, right = max(s.u, t.u), min(s.u_right, t.u_right)
            near, far = _height(s, left) - _height(t, left), _height(s, right) - _height(t, right)
            if near and far and (near < 0) != (far < 0):
                yield left + (right - left) * Fraction(near) / (near - far)


def _height(side: _Side, u: Number) -> Number:
    return _between(side.u, side.v, side.u_right, side.v_right, u)


def _between(u: Number, v: Number, u_right: Number, v_right: Number, here: Number) -> Number:
    if v == v_right or here == u:
        return v
    if here == u_right:
        return v_right
    found = v + Fraction((v_right - v) * (here - u)) / (u_right - u)
    return found.numerator if found.denominator == 1 else found


class _Reading:
    """Which ground a point stands on, by the outlines it lies in: the wall, then openings, then zones."""

    def __init__(self, openings: int, zones: Sequence[int], rest: int) -> None:
        self.openings = openings
        self.zones = zones
        self.rest = rest

    def ground(self, within: set[int]) -> int | None:
        if 0 not in within:
            return None
        if any(n <= self.openings for n in within if n):
            return HOLE
        return min(((n, self.zones[n - self.openings - 1]) for n in within if n), default=(0, self.rest))[1]


def _slab(every: Iterable[_Side], left: Number, right: Number, reading: _Reading) -> Slab:
    across = [(_height(s, left), _height(s, right), s.of) for s in every if s.u <= left and s.u_right >= right]
    across.sort(key=lambda side: (side[0] + side[1], side[0]))
    within: set[int] = set()
    pieces: list[Piece] = []
    for n, (low, low_right, of) in enumerate(across[:-1]):
        within ^= {of}
        top, top_right, _ = across[n + 1]
        if (low, low_right) == (top, top_right):
            continue
        ground = reading.ground(within)
        if ground is None:
            continue
        last = pieces[-1] if pieces else None
        if last is not None and last.ground == ground and (last.top, last.top_right) == (low, low_right):
            pieces[-1] = replace(last, top=top, top_right=top_right)
        else:
            pieces.append(Piece(ground, low, low_right, top, top_right))
    return Slab(left, right, tuple(pieces))
