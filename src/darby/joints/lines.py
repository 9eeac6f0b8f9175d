"""The lines a joint may be laid on: corners, floor lines, even parts of the whole and of blank stretches, pins."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, product

from quicktions import Fraction

from darby.joints.allowed import Allowed
from darby.joints.model import Axis, Forbidden, Kind, Origin
from darby.joints.plane import Number, Plane
from darby.measure.limits import whole
from darby.measure.units import unit

AXES: tuple[Axis, Axis] = ("vertical", "horizontal")


@dataclass(frozen=True, slots=True)
class Line:
    """One line at ``at`` [m] from the left end, or up from the base. ``must``: a joint has to be on it."""

    axis: Axis
    at: Fraction
    origin: Origin
    must: bool = False
    kind: Kind = "control"


RANK: tuple[Origin, ...] = (
    "pinned", "through-wall", "framing", "floor line", "block joint", "corner", "outline", "even", "stretch",
)  # fmt: skip
"""Where one line comes from several, the first of these names it."""


def barred(line: Line, forbidden: Iterable[Forbidden]) -> bool:
    """Whether no joint may be laid there."""
    return any(f.axis == line.axis and f.at <= line.at <= (f.at if f.to is None else f.to) for f in forbidden)


def candidates(
    plane: Plane,
    ground: int,
    allowed: Allowed,
    outline: Iterable[tuple[Fraction, Fraction]],
    given: Sequence[Line],
    forbidden: Sequence[Forbidden],
) -> tuple[Line, ...]:
    """Every line within the plaster of one ground, each once, uprights first, from left to right and bottom to top.

    ``given``: musts, and lines that are offered (floor lines of solid walls, joints of the block behind).
    """
    box = plane.extent(ground)
    if box is None:
        return ()
    left, bottom, right, top = (metres(plane, x) for x in box)
    ends: Ends = {"vertical": (left, right), "horizontal": (bottom, top)}
    within = [line for line in given if ends[line.axis][0] < line.at < ends[line.axis][1]]
    found = [*within, *_corners(plane, ends), *_outline(outline, ends)]
    found = [line for line in found if line.must or not barred(line, forbidden)]
    found += _even(ends, [line for line in found if line.must], allowed)
    found += _blank(plane, ground, ends, found, allowed)
    return unique(line for line in found if line.must or not barred(line, forbidden))


def thinned(lines: Sequence[Line], most: int) -> tuple[Line, ...]:
    """As many of the lines as make no more than ``most`` rectangles between them.

    Left out is, one after another, the line that stands nearest to both its neighbours, of the axis that has more.
    """
    kept = {axis: [x for x in lines if x.axis == axis] for axis in AXES}

    def rectangles() -> int:
        n, m = (len(kept[axis]) + 1 for axis in AXES)
        return n * (n + 1) * m * (m + 1) // (2 * 2)

    while rectangles() > most:
        some = max(AXES, key=lambda axis: sum(not x.must for x in kept[axis]))
        row = kept[some]
        free = [k for k in range(len(row)) if not row[k].must]
        if not free:
            break
        del row[min(free, key=lambda k: _room(row, k))]
    return tuple(x for axis in AXES for x in kept[axis])


def _room(row: Sequence[Line], k: int) -> Fraction:
    """From one neighbour to the other; where there is but one, twice as far as it is."""
    beside = [abs(row[k].at - row[n].at) for n in (k - 1, k + 1) if 0 <= n < len(row)]
    return sum(beside, Fraction(0)) * 2 / max(len(beside), 1)


def unique(lines: Iterable[Line]) -> tuple[Line, ...]:
    """One line a place: a must before all, then by ``RANK``."""
    kept: dict[tuple[Axis, Fraction], Line] = {}
    for line in sorted(lines, key=lambda x: (not x.must, RANK.index(x.origin))):
        kept.setdefault((line.axis, line.at), line)
    return tuple(sorted(kept.values(), key=lambda x: (AXES.index(x.axis), x.at)))


def metres(plane: Plane, x: Number) -> Fraction:
    """A coordinate of the plane in metres."""
    return Fraction(x) / plane.scale


def clear_of(forbidden: Iterable[Forbidden], axis: Axis, begin: Fraction, end: Fraction) -> Iterator[Line]:
    """Lines between what is forbidden: half-way, and an inch clear of each side."""
    barred_there = sorted((f.at, f.at if f.to is None else f.to) for f in forbidden if f.axis == axis)
    last = begin
    for low, high in (*barred_there, (end, end)):
        if low > last:
            for at in {(last + low) / 2, last + _CLEAR, low - _CLEAR}:
                if max(last, begin) < at < min(low, end):
                    yield Line(axis, at, "even")
        last = max(last, high)


_CLEAR = unit("in").scale

Ends = dict[Axis, tuple[Fraction, Fraction]]


def _corners(plane: Plane, ends: Ends) -> Iterator[Line]:
    (left, right), (bottom, top) = ends["vertical"], ends["horizontal"]
    for (u, v), name in plane.corners.items():
        here: tuple[tuple[Axis, Fraction], ...] = (("vertical", metres(plane, u)), ("horizontal", metres(plane, v)))
        if left <= here[0][1] <= right and bottom <= here[1][1] <= top:
            for axis, at in here:
                if ends[axis][0] < at < ends[axis][1]:
                    yield Line(axis, at, "corner" if name else "outline")


def _outline(points: Iterable[tuple[Fraction, Fraction]], ends: Ends) -> Iterator[Line]:
    for point in points:
        for axis, at in zip(AXES, point, strict=True):
            if ends[axis][0] < at < ends[axis][1]:
                yield Line(axis, at, "outline")


def _even(ends: Ends, musts: Sequence[Line], allowed: Allowed) -> Iterator[Line]:
    """Even parts of every window between musts: as few as the limits ask for, and one more."""
    spans = {axis: list(pairwise(sorted({*ends[axis], *(m.at for m in musts if m.axis == axis)}))) for axis in AXES}
    for wide, high in product(spans["vertical"], spans["horizontal"]):
        for axis, span, across in (("vertical", wide, high), ("horizontal", high, wide)):
            for n in _numbers(span[1] - span[0], across[1] - across[0], allowed):
                yield from parted(axis, *span, n, "even")  # type: ignore[arg-type]


def _numbers(length: Fraction, across: Fraction, allowed: Allowed) -> set[int]:
    """In how many parts a length is worth parting, the strip being ``across`` wide or itself parted in few."""
    few = max(whole(across / allowed.side), 1)
    least = {allowed.parts(length, across / n) for n in (few, few + 1)} | {max(whole(length / allowed.side), 1)}
    return least | {n + 1 for n in least}


def parted(axis: Axis, begin: Fraction, end: Fraction, n: int, origin: Origin) -> Iterator[Line]:
    """The lines that part a span in ``n`` equal parts."""
    for k in range(1, n):
        yield Line(axis, begin + (end - begin) * k / n, origin)


def _blank(plane: Plane, ground: int, ends: Ends, found: Sequence[Line], allowed: Allowed) -> Iterator[Line]:
    """Even parts of every stretch between neighbouring lines that is too long for one panel of what stands there."""
    for axis in AXES:
        marks = sorted({*ends[axis], *(x.at for x in found if x.axis == axis and x.origin != "even")})
        for a, b in pairwise(marks):
            for across in _across(plane, ground, axis, a, b):
                few = max(whole(across / allowed.side), 1)
                yield from parted(axis, a, b, allowed.parts(b - a, across / few), "stretch")


def _across(plane: Plane, ground: int, axis: Axis, a: Fraction, b: Fraction) -> set[Fraction]:
    """How far the plaster goes the other way, half-way between two lines: each piece of a column, over and under
    openings; of a level band the longest, for nobody parts what stands between two windows."""
    middle = (a + b) / 2 * plane.scale
    spans, _ = plane.upright(ground, middle) if axis == "vertical" else plane.level(ground, middle)
    found = {metres(plane, high - low) for low, high in spans}
    return found if axis == "vertical" else {max(found)} if found else set()
