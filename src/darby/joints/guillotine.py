"""The best way to part a rectangle by cuts from edge to edge, over given lines: exact dynamic programming.

Every rectangle between the lines is answered once, small ones first: it stays whole, or the best of all cuts across it
parts it in two that are already answered. O(n^2 m^2 (n + m)), after Du, Pan and Shing (1986).

A rectangle whose plaster lies apart, with a line between that needs no joint, is not one panel.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.lib.stride_tricks import as_strided

from darby.joints.cost import MOST, Cost, Weights, priced
from darby.joints.model import Axis
from darby.joints.tables import Bools, Cuts, Ints, Tables, Window


@dataclass(frozen=True, slots=True)
class Cut:
    """A cut along line ``at`` from ``begin`` to ``end``, the numbers of the lines across it."""

    axis: Axis
    at: int
    begin: int
    end: int


Arrays = tuple[Ints, ...]


class Search:
    """Answers every rectangle of a window. ``one`` and ``two``: what its best layout comes to, ``[a, i, b, j]``;
    ``apart``: its plaster lies apart, with a line between that needs no joint.
    """

    def __init__(self, t: Tables, weights: Weights) -> None:
        self.t = t
        self.up, self.level = (_ready(cuts, weights) for cuts in (t.upright, t.level))
        self._up = tuple(_sliding(x, t.n) for x in self.up)
        self._level = tuple(_sliding(x, t.m) for x in self.level)
        self.leaf = weights.leaves(t)
        self.one, self.two = (x.copy() for x in self.leaf)
        self.apart = np.zeros(t.fits.shape, dtype=np.bool_)
        # the same by the line where a rectangle ends: its right one, [a, end, b, j]; its upper one, [a, i, b, end]
        wide, lefts, high, bottoms = t.fits.shape
        right, upper = (wide, lefts + 1, high, bottoms), (wide, lefts, high, bottoms + 1)
        self.right = tuple(np.zeros(right, dtype=np.int64) for _ in range(2))
        self.upper = tuple(np.zeros(upper, dtype=np.int64) for _ in range(2))
        self.plaster_right, self.plaster_upper = np.zeros(right, dtype=np.bool_), np.zeros(upper, dtype=np.bool_)
        for a in range(1, wide):
            self.plaster_right[a, a:] = t.plaster[a, : lefts + 1 - a]
        for b in range(1, high):
            self.plaster_upper[:, :, b, b:] = t.plaster[:, :, b, : bottoms + 1 - b]
        self.choices = 0
        for a in range(1, t.n + 1):
            self._answer(a)

    @property
    def rectangles(self) -> int:
        """How many there are."""
        n, m = self.t.n, self.t.m
        return n * (n + 1) * m * (m + 1) // (2 * 2)

    def _answer(self, a: int) -> None:
        """Every rectangle a cells wide: whole, or by the best upright cut, or by the best level one."""
        n = self.t.n - a + 1
        past = [not self.t.fits[a, :n, b, : self.t.m - b + 1].all() for b in range(self.t.m + 1)]
        some = [b for b in range(1, self.t.m + 1) if past[b] or self.t.upright.gaps[b]] if a > 1 else []
        uprights = self._uprights(a, n, some[0], some[-1] + 1) if some else None
        for b in range(1, self.t.m + 1):
            m = self.t.m - b + 1
            here = np.s_[a, :n, b, :m]
            found = []
            if uprights and some[0] <= b <= some[-1]:
                found.append(tuple(x[:, b - some[0], :m] for x in uprights if x is not None))
            if b > 1 and (past[b] or self.t.level.gaps[a]):
                found.append(tuple(x for x in self._levels(a, b, n, m) if x is not None))
            if found:
                one, two = self.one[here], self.two[here]
                parted = [x for _, _, *rest in found for x in rest]
                if parted:
                    apart = np.logical_or.reduce(parted)
                    self.apart[here] = apart
                    one = np.where(apart, MOST, one)
                for other, other2, *_ in found:
                    less = (other < one) | ((other == one) & (other2 < two))
                    one, two = np.where(less, other, one), np.where(less, other2, two)
                self.one[here], self.two[here] = one, two
            for x, upper in zip((self.one, self.two), self.upper, strict=True):
                upper[a, :n, b, b : b + m] = x[here]
        for x, right in zip((self.one, self.two), self.right, strict=True):
            right[a, a : a + n] = x[a, :n]

    def _uprights(self, a: int, n: int, low: int, high: int) -> tuple[Ints, Ints, Bools | None]:
        """The best upright cut of every rectangle a cells wide and from ``low`` to below ``high`` cells high."""
        near, far = np.s_[1:a, :n, low:high], np.s_[a - 1 : 0 : -1, a : a + n, low:high]
        cost = tuple(x[: a - 1, :n, low:high] for x in self._up)
        first, second = (self.one[near], self.two[near]), tuple(x[far] for x in self.right)
        plaster = self.t.plaster[near], self.plaster_right[far]
        return self._least(first, second, cost, plaster, gaps=any(self.t.upright.gaps[low:high]))

    def _levels(self, a: int, b: int, n: int, m: int) -> tuple[Ints, Ints, Bools | None]:
        """The best level cut of every rectangle a cells wide and b high."""
        near, far = np.s_[a, :n, 1:b, :m], np.s_[a, :n, b - 1 : 0 : -1, b : b + m]

        def turned(*arrays: Any) -> tuple[Any, ...]:
            return tuple(x.transpose(1, 0, 2) for x in arrays)

        cost = tuple(x[: b - 1, :m, a, :n].transpose(0, 2, 1) for x in self._level)
        first, second = turned(self.one[near], self.two[near]), turned(*(x[far] for x in self.upper))
        plaster = turned(self.t.plaster[near], self.plaster_upper[far])
        return self._least(first, second, cost, plaster, gaps=self.t.level.gaps[a])

    def _least(
        self, near: Arrays, far: Arrays, cost: Arrays, plaster: tuple[Bools, Bools], *, gaps: bool
    ) -> tuple[Ints, Ints, Bools | None]:
        """The best of several cuts; and, where any of them needs no joint (``gaps``), whether plaster lies apart."""
        self.choices += cost[0].size
        one = near[0] + far[0]
        one += cost[0]
        least = np.minimum.reduce(one)
        two = near[1] + far[1]
        two += cost[1]
        two[one != least] = MOST
        apart = None
        if gaps:
            free = cost[0] == 0
            free &= plaster[0]
            free &= plaster[1]
            apart = np.logical_or.reduce(free)
        return least, np.minimum.reduce(two), apart

    def layout(self, rectangle: Window) -> Iterator[tuple[Cut | Window, Cost]]:
        """The cuts and the panels of a rectangle's best layout, each with what it comes to."""
        t, left = self.t, [rectangle]
        while left:
            i0, i1, j0, j1 = left.pop()
            a, b = i1 - i0, j1 - j0
            if not t.plaster[a, i0, b, j0]:
                continue
            cut = self._choice(i0, i1, j0, j1)
            if cut is None:
                yield Window(i0, i1, j0, j1), self._panel((a, i0, b, j0), past=not t.fits[a, i0, b, j0])
            elif cut.axis == "vertical":
                yield cut, priced(t.upright, cut.at, j0, b)
                left += [Window(cut.at, i1, j0, j1), Window(i0, cut.at, j0, j1)]
            else:
                yield cut, priced(t.level, cut.at, i0, a)
                left += [Window(i0, i1, cut.at, j1), Window(i0, i1, j0, cut.at)]

    def whole(self, rectangle: Window) -> Iterator[tuple[Cut | Window, Cost]]:
        """A rectangle as one panel, if it holds any plaster."""
        i0, i1, j0, j1 = rectangle
        at = i1 - i0, i0, j1 - j0, j0
        if self.t.plaster[at]:
            yield rectangle, self._panel(at, past=self.apart[at] or not self.t.fits[at])

    def _panel(self, at: tuple[int, int, int, int], *, past: bool) -> Cost:
        return Cost(past=int(self.t.area[at]) if past else 0, even=int(self.t.even[at]))

    def _choice(self, i0: int, i1: int, j0: int, j1: int) -> Cut | None:
        """The cut that its answer comes from: of those alike the first, whole before uprights before levels."""
        a, b = i1 - i0, j1 - j0
        uprights = [(Cut("vertical", i, j0, j1), (i - i0, i0, b, j0), (i1 - i, i, b, j0), (i, b, j0))
                    for i in range(i0 + 1, i1)]  # fmt: skip
        levels = [(Cut("horizontal", j, i0, i1), (a, i0, j - j0, j0), (a, i0, j1 - j, j), (j, a, i0))
                  for j in range(j0 + 1, j1)]  # fmt: skip
        one, two, plaster = self.one, self.two, self.t.plaster
        ways: list[tuple[int, int, Cut | None]] = []
        apart = False
        for cuts, (cost, cost2) in ((uprights, self.up), (levels, self.level)):
            for cut, near, far, at in cuts:
                apart |= not cost[at] and bool(plaster[near] and plaster[far])
                ways.append((int(one[near] + one[far] + cost[at]), int(two[near] + two[far] + cost2[at]), cut))
        if not apart:
            ways.insert(0, (int(self.leaf[0][a, i0, b, j0]), int(self.leaf[1][a, i0, b, j0]), None))
        return min(ways, key=lambda way: way[:2])[2]


def _ready(cuts: Cuts, weights: Weights) -> Arrays:
    """``[line, cells, from]``, so that what is looked at together lies together."""
    both = (x.swapaxes(1, 2)[:, :, :-1] for x in (weights.one(cuts), cuts.length))
    return tuple(np.ascontiguousarray(x) for x in both)


def _sliding(x: Ints, places: int) -> Ints:
    """``[k, i, ...]``: what stands at line i + k + 1; nought past the last."""
    long = np.concatenate([x, np.zeros((places, *x.shape[1:]), dtype=x.dtype)])
    return as_strided(long[1:], (places, places, *x.shape[1:]), (x.strides[0], *x.strides), writeable=False)
