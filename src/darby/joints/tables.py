"""A field as arrays: for every rectangle between its lines whether it may be a panel, for every cut what it costs.

An array ``[a, i, b, j]`` speaks of the rectangle that begins at line i and is a cells wide, begins at level j and is b
cells high. Floats decide only what is clearly within a limit or clearly past it; ``at_most`` decides the rest exactly.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import floor
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray
from quicktions import Fraction

from darby.joints.allowed import Allowed
from darby.joints.field import Box, Field, Stretch
from darby.joints.plane import Number
from darby.measure.limits import SLACK
from darby.measure.units import unit

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

MM, CM = unit("mm").scale, unit("cm").scale
SQ_DM = CM  # a hundredth of a square metre
_HALF = Fraction(1, 2)


@dataclass(frozen=True)
class Cuts:
    """What a cut along one of the lines costs, ``[line, from, cells]``: between two of the lines across it.

    ``joint``: plaster on both sides, so a joint is made; ``off``: it meets no corner; ``into``: ends in an opening away
    from a corner; ``stops``: ends on another joint; ``length`` [cm].
    """

    joint: Ints
    off: Ints
    into: Ints
    stops: Ints
    length: Ints

    @cached_property
    def gaps(self) -> list[bool]:
        """By the number of cells it goes across: whether any cut needs no joint."""
        k = self.joint.shape[1]
        return [cells > 0 and not self.joint[1:-1, : k - cells, cells].all() for cells in range(k)]

    def part(self, first: int, last: int, begin: int, end: int) -> Cuts:
        """The cuts along lines ``first`` to ``last`` between two of the lines across them."""
        here = np.s_[first : last + 1, begin : end + 1, : end - begin + 1]
        return Cuts(self.joint[here], self.off[here], self.into[here], self.stops[here], self.length[here])


@dataclass(frozen=True)
class Tables:
    """All that the search reads of a window.

    ``fits``: may be a panel; ``plaster``: holds any; ``even``: squares of its sides [mm2]; ``area``: plaster [dm2].
    """

    n: int
    m: int
    fits: Bools
    plaster: Bools
    even: Ints
    area: Ints
    upright: Cuts
    level: Cuts


class Window(NamedTuple):
    """A rectangle between lines, by their numbers."""

    left: int
    right: int
    bottom: int
    top: int

    def within(self, other: Window) -> bool:
        """Whether it lies in the other one."""
        return (
            other.left <= self.left
            and self.right <= other.right
            and other.bottom <= self.bottom
            and self.top <= other.top
        )


def cuts(field: Field) -> tuple[Cuts, Cuts]:
    """The cuts along every upright and along every level."""
    return _cuts(field, field.uprights, field.vs), _cuts(field, field.levels, field.us)


def tables(field: Field, allowed: Allowed, window: Window, upright: Cuts, level: Cuts) -> Tables:
    """The tables of the part of a field within a window; ``upright`` and ``level`` are the field's ``cuts``."""
    i0, i1, j0, j1 = window
    boxes = [[field.boxes[i][j] for j in range(j0, j1)] for i in range(i0, i1)]
    area = _grown(_floats([column[j0:j1] for column in field.areas[i0:i1]], field.scale**2), np.add)
    wide, high = (_extent(boxes, side, field.scale) for side in (0, 1))
    plaster = area > 0
    wide[~plaster] = 0
    high[~plaster] = 0
    fits = _fits(field, allowed, window, area, wide, high)
    scale = float(MM)
    even = _rounded(wide / scale) ** 2 + _rounded(high / scale) ** 2
    size = np.maximum(_rounded(area / float(SQ_DM)), 1)
    return Tables(i1 - i0, j1 - j0, fits, plaster, even, size, upright.part(i0, i1, j0, j1), level.part(j0, j1, i0, i1))


def _rounded(x: Floats) -> Ints:
    """Half up; what lies a float's noise under a half counts as the half."""
    return np.floor(x + float(_HALF + SLACK)).astype(np.int64)


def _floats(cells: Sequence[Sequence[Number | float]], scale: int) -> Floats:
    return np.array([[float(x) for x in column] for column in cells], dtype=np.float64) / float(scale)


def _grown(cells: Floats, join: Any) -> Floats:
    """From cells to rectangles: a strip of cells upward, then strips side by side."""
    n, m = cells.shape
    out = np.zeros((n + 1, n, m + 1, m))
    out[1, :, 1, :] = cells
    for b in range(2, m + 1):
        out[1, :, b, : m - b + 1] = join(out[1, :, b - 1, : m - b + 1], out[1, :, 1, b - 1 :])
    for a in range(2, n + 1):
        out[a, : n - a + 1] = join(out[a - 1, : n - a + 1], out[1, a - 1 :])
    return out


def _extent(boxes: Sequence[Sequence[Box | None]], side: int, scale: int) -> Floats:
    """Width (0) or height (1) of the plaster in every rectangle [m]."""

    def edge(at: int, empty: float) -> Floats:
        return _floats([[empty if box is None else box[at] for box in column] for column in boxes], scale)

    with np.errstate(invalid="ignore"):
        return _grown(edge(side + 2, -np.inf), np.maximum) - _grown(edge(side, np.inf), np.minimum)


def _fits(field: Field, allowed: Allowed, window: Window, area: Floats, wide: Floats, high: Floats) -> Bools:
    long, short = np.maximum(wide, high), np.minimum(wide, high)
    fits, sized = _within(area, float(allowed.area))
    by_side, near_side = _within(long, float(allowed.side))
    by_ratio, near_ratio = _within(long, short * float(allowed.ratio))
    fits &= by_side & by_ratio
    sided = near_side | near_ratio
    for a, i, b, j in np.argwhere((sized | sided) & fits & (area > 0)).tolist():
        left, bottom = window.left + i, window.bottom + j
        where = left, left + a, bottom, bottom + b
        size = field.area(*where) if sized[a, i, b, j] else Fraction(0)
        sides = field.sides(*where) if sided[a, i, b, j] else (Fraction(0), Fraction(0))
        fits[a, i, b, j] = not allowed.broken(size, *sides)
    fits |= area == 0
    return fits


def _within(value: Floats, limit: Floats | float) -> tuple[Bools, Bools]:
    """Clearly or just about within a limit; and so near to it that a float cannot tell."""
    slack = limit * float(SLACK)
    return value <= limit + slack, np.abs(value - limit) <= slack


def _cuts(field: Field, lines: Sequence[Sequence[Stretch]], across: Sequence[Number]) -> Cuts:
    """The cuts along each of ``lines``, whose stretches are cut by the lines ``across`` them."""
    count, k = len(lines), len(across)
    a_cm = float(CM * field.scale)
    length, some, passes = (np.zeros((count, k), dtype=np.int64) for _ in range(1 + 2))
    # ends that were met below each line across: low ends of stretches, then high ends
    corners, into = (np.zeros((2, count, k), dtype=np.int64) for _ in range(2))
    for x, stretches in enumerate(lines):
        for s in stretches:
            after, upto = bisect_right(across, s.low), bisect_left(across, s.high)
            passes[x, after:upto] = 1
            corners[0, x, after:] += s.corner[0]
            into[0, x, after:] += s.into[0]
            corners[1, x, bisect_left(across, s.high) :] += s.corner[1]
            into[1, x, bisect_left(across, s.high) :] += s.into[1]
            marks = [s.low, *across[after:upto], s.high]
            for y, (low, high) in enumerate(pairwise(marks), after - 1):
                some[x, y] = 1
                length[x, y] += floor(float(high - low) / a_cm + float(_HALF + SLACK))
    joint = (_between(some) > 0).astype(np.int64)
    met = _inside(corners[0]) + _inside(corners[1])
    ends = _inside(into[0]) + _inside(into[1])
    stops = np.zeros((count, k, k), dtype=np.int64)
    for cells in range(1, k):
        stops[:, : k - cells, cells] = passes[:, : k - cells] + passes[:, cells:]
    return Cuts(joint, joint * (met == 0), joint * ends, joint * stops, _between(length))


def _between(parts: Ints) -> Ints:
    """``[line, from, cells]``: the sum of the parts from one line across on."""
    return _inside(np.concatenate([np.zeros((len(parts), 1), dtype=np.int64), parts.cumsum(axis=1)[:, :-1]], axis=1))


def _inside(before: Ints) -> Ints:
    """``[line, from, cells]`` of what has been counted before each line across."""
    count, k = before.shape
    out = np.zeros((count, k, k), dtype=np.int64)
    for cells in range(1, k):
        out[:, : k - cells, cells] = before[:, cells:] - before[:, : k - cells]
    return out
