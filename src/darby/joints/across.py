"""The whole of one ground's plaster: lines that run right across, and guillotine cuts in the pieces between them.

Chosen together, and exactly: every set of up to two level lines (beside those that must be) is tried; for each, the
best uprights are a shortest path from the left end to the right, whose steps are columns of pieces already answered.
A wall higher than one panel is given as many more as it needs, if the sets are not too many, and is looked at the other
way round as well: few uprights, any levels.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from math import comb

import numpy as np
from quicktions import Fraction

from darby.joints.allowed import Allowed
from darby.joints.cost import MOST, Aim, Cost, Weights, priced, total, weights
from darby.joints.field import Field
from darby.joints.guillotine import Cut, Search
from darby.joints.lines import AXES
from darby.joints.model import Axis
from darby.joints.tables import Cuts, Ints, Tables, Window, cuts, tables
from darby.measure.limits import whole as whole_number

AT_WILL = 2
"""Lines across of the one kind, beside those that must be; of the other kind as many as are best."""


@dataclass(frozen=True, slots=True)
class Parted:
    """The best there is. ``across``: cuts that are lines right across; ``cuts``: those within the pieces.

    Cuts that need no joint are left out. ``cost.past`` above nought: no layout over these lines holds the limits.
    """

    across: tuple[Cut, ...]
    cuts: tuple[Cut, ...]
    panels: tuple[Window, ...]
    cost: Cost
    rectangles: int
    choices: int


@dataclass(frozen=True)
class Ready:
    """A field with its tables: what does not depend on the aim. ``musts``: numbers of the lines that must be."""

    field: Field
    musts: dict[Axis, tuple[int, ...]]
    upright: Cuts
    level: Cuts
    windows: dict[Window, Tables]

    @property
    def uprights(self) -> tuple[int, ...]:
        """Uprights that must be."""
        return self.musts["vertical"]

    @property
    def levels(self) -> tuple[int, ...]:
        """Levels that must be."""
        return self.musts["horizontal"]

    @property
    def n(self) -> int:
        """Columns of cells."""
        return len(self.field.us) - 1

    @property
    def m(self) -> int:
        """Rows of cells."""
        return len(self.field.vs) - 1


def ready(field: Field, allowed: Allowed, uprights: Sequence[int], levels: Sequence[int]) -> Ready:
    """The tables of every window between lines that must be."""
    upright, level = cuts(field)
    n, m = len(field.us) - 1, len(field.vs) - 1
    found = {
        window: tables(field, allowed, window, upright, level)
        for columns in pairwise((0, *uprights, n))
        for rows in pairwise((0, *levels, m))
        for window in [Window(*columns, *rows)]
    }
    return Ready(field, {"vertical": tuple(uprights), "horizontal": tuple(levels)}, upright, level, found)


class Whole:
    """All layouts over the lines of a field: every piece is answered once, then asked for as often as one likes."""

    def __init__(self, r: Ready, side: Fraction) -> None:
        """``side``: the longest a panel may be [m]; tells how many lines the wall needs at least."""
        self.r = r
        self.side = side
        self.weights = weights(r.windows.values(), r.upright, r.level, "best")
        self.searches = {window: Search(t, self.weights) for window, t in r.windows.items()}
        self.paths = AXES if _Way(r, self.weights, {}, "vertical", side).least else AXES[:1]

    def best(self) -> Parted:
        """The best of all."""
        return self._best(self.weights, self._answers(), whole=False)

    def through(self, aim: Aim = "best") -> Parted:
        """The best of those whose every joint runs right across, and no piece of which lies apart."""
        w = weights(self.r.windows.values(), self.r.upright, self.r.level, aim)
        pieces = {}
        for at, search in self.searches.items():
            one, two = w.leaves(search.t)
            pieces[at] = np.where(search.apart, w.past * search.t.area, one), two
        return self._best(w, pieces, whole=True)

    def more(self, first: Parted) -> Parted:
        """The best of those with the same levels across as ``first``, and one more upright across."""
        extra = tuple(cut.at for cut in first.across if cut.axis == "horizontal")
        count = sum(cut.axis == "vertical" for cut in first.across) + 1
        way = _Way(self.r, self.weights, self._answers(), "vertical", self.side)
        return self._parted(_counted(way.strips(extra), way.lines, self.r, count), way.all(extra), whole=False)

    def _answers(self) -> Pieces:
        return {at: (s.one, s.two) for at, s in self.searches.items()}

    def _best(self, w: Weights, pieces: Pieces, *, whole: bool) -> Parted:
        """By paths from left to right; where that may not do for the height, by paths from the bottom up as well."""
        found = []
        for order, axis in enumerate(self.paths):
            way = _Way(self.r, w, pieces, axis, self.side)
            (one, two), extra, stops = way.best()
            found.append((one, two, order, (stops, way.all(extra))[:: 1 if axis == "vertical" else -1]))
        return self._parted(*min(found)[-1], whole=whole)

    def _parted(self, uprights: Sequence[int], levels: Sequence[int], *, whole: bool) -> Parted:
        """The layout of all pieces between lines across; both ends are among the lines."""
        r = self.r
        across: list[Cut] = []
        within: list[Cut] = []
        panels: list[Window] = []
        costs: list[Cost] = []
        ends: dict[Axis, int] = {"vertical": r.m, "horizontal": r.n}
        for axis, some, cuts_of in (("vertical", uprights, r.upright), ("horizontal", levels, r.level)):
            for at in some[1:-1]:
                if at not in r.musts[axis]:  # type: ignore[index]
                    costs.append(priced(cuts_of, at, 0, ends[axis], across=True))  # type: ignore[index]
                    across += [Cut(axis, at, 0, ends[axis])] if costs[-1].joints else []  # type: ignore[index, arg-type]
        for i0, i1 in pairwise(uprights):
            for j0, j1 in pairwise(levels):
                here = Window(i0, i1, j0, j1)
                window, search = next((w, s) for w, s in self.searches.items() if here.within(w))
                piece = _moved(here, -window.left, -window.bottom)
                for part, cost in search.whole(piece) if whole else search.layout(piece):
                    costs.append(cost)
                    if isinstance(part, Window):
                        panels.append(_moved(part, window.left, window.bottom))
                    elif cost.joints:
                        by, along = (window.left, window.bottom)[:: 1 if part.axis == "vertical" else -1]
                        cut = Cut(part.axis, part.at + by, part.begin + along, part.end + along)
                        (across if cut.begin == 0 and cut.end == ends[cut.axis] else within).append(cut)
        return Parted(
            tuple(sorted(across, key=_place)), tuple(sorted(within, key=_place)), tuple(sorted(panels)), total(costs),
            sum(s.rectangles for s in self.searches.values()), sum(s.choices for s in self.searches.values()),
        )  # fmt: skip


Pieces = dict[Window, tuple[Ints, Ints]]
"""What every rectangle of every window comes to."""


class _Way:
    """Paths along one axis: from upright to upright with level lines at will, or the other way round."""

    def __init__(self, r: Ready, w: Weights, pieces: Pieces, axis: Axis, side: Fraction) -> None:
        self.r = r
        self.pieces = pieces
        self.upright = axis == "vertical"
        self.n, self.m = (r.n, r.m) if self.upright else (r.m, r.n)
        path, will = (r.upright, r.level) if self.upright else (r.level, r.upright)
        self.must, self.will_must = (r.musts[a] for a in (AXES if self.upright else AXES[::-1]))
        self.lines = w.one(path, across=True)[:, 0, self.m].copy(), path.length[:, 0, self.m].copy()
        for i in self.must:
            self.lines[0][i] = self.lines[1][i] = 0
        self.at_will = w.one(will, across=True)[:, 0, self.n], will.length[:, 0, self.n]
        self.found: dict[tuple[int, int], tuple[Ints, Ints]] = {}
        marks = r.field.vs if self.upright else r.field.us
        strips = pairwise((0, *self.will_must, self.m))
        self.least = sum(whole_number(r.field.metres(marks[j1] - marks[j0]) / side) - 1 for j0, j1 in strips)

    def best(self) -> tuple[tuple[int, int], tuple[int, ...], list[int]]:
        """What the best comes to, its lines at will, and its path with both ends."""
        ways = list(self._sets())
        fixed = [tuple(sum(int(x[j]) for j in extra) for x in self.at_will) for extra in ways]
        strips = [self.strips(extra) for extra in ways]
        columns = [np.stack([x[k] for x in strips]) for k in (0, 1)]
        one, two = _paths(columns, self.lines, self.n)
        ends = [(int(one[s, -1]) + fixed[s][0], int(two[s, -1]) + fixed[s][1], s) for s in range(len(ways))]
        first, second, which = min(ends)
        return (first, second), ways[which], _back(strips[which], self.lines, one[which], two[which])

    def _sets(self) -> Iterator[tuple[int, ...]]:
        """Sets of lines at will, beside those that must be: two more than are needed, if these are not too many."""
        free = [j for j in range(1, self.m) if j not in self.will_must]
        for count in range(AT_WILL + self.least + 1):
            if count <= AT_WILL or comb(len(free), count) <= (self.n + self.m) ** 2:
                yield from combinations(free, count)

    def all(self, extra: Sequence[int]) -> list[int]:
        """These lines, those that must be, and both ends."""
        return sorted({0, self.m, *self.will_must, *extra})

    def strips(self, extra: Sequence[int]) -> list[Ints]:
        """All strips between these lines together, ``[cells, from]``: the first of the two numbers, and the second."""
        parts = [self._strip(*strip) for strip in pairwise(self.all(extra))]
        return [np.sum([part[k] for part in parts], axis=0) for k in (0, 1)]

    def _strip(self, low: int, high: int) -> tuple[Ints, Ints]:
        """What every piece of one strip comes to; past all bounds across a must."""
        if (low, high) not in self.found:
            shape = (self.n + 1, self.n)
            one, two = np.full(shape, _BARRED, dtype=np.int64), np.zeros(shape, dtype=np.int64)
            for window, numbers in self.pieces.items():
                i0, i1, j0, j1 = window if self.upright else window[2:] + window[:2]
                if not (j0 <= low and high <= j1):
                    continue
                wide = i1 - i0
                at = np.s_[:, :, high - low, low - j0] if self.upright else np.s_[high - low, low - j0]
                for whole, part in zip((one, two), numbers, strict=True):
                    whole[: wide + 1, i0:i1] = part[at]
                for a in range(1, wide + 1):  # what would reach past the window
                    one[a, i1 - a + 1 : i1] = _BARRED
            self.found[low, high] = one, two
        return self.found[low, high]


_BARRED = MOST >> 2 + 2 + 1
"""More than any layout; a column of so many strips is still a number."""


def _paths(columns: Sequence[Ints], lines: tuple[Ints, Ints], n: int) -> tuple[Ints, Ints]:
    """The best way from the left end to every upright, for every set of levels."""
    count = len(columns[0])
    one, two = (np.zeros((count, n + 1), dtype=np.int64) for _ in range(2))
    for end in range(1, n + 1):
        begin = np.arange(end)
        first = one[:, :end] + columns[0][:, end - begin, begin] + lines[0][:end]
        second = two[:, :end] + columns[1][:, end - begin, begin] + lines[1][:end]
        one[:, end] = first.min(axis=1)
        second[first != one[:, end, None]] = MOST
        two[:, end] = second.min(axis=1)
    return one, two


def _back(columns: Sequence[Ints], lines: tuple[Ints, Ints], one: Ints, two: Ints) -> list[int]:
    """The uprights of the best way, both ends with them; of ways alike the one with most, for a line across is one."""
    stops = [len(one) - 1]
    while stops[-1]:
        end = stops[-1]
        for begin in reversed(range(end)):
            parts = (
                best[begin] + column[end - begin, begin] + line[begin]
                for best, column, line in zip((one, two), columns, lines, strict=True)
            )
            if tuple(parts) == (one[end], two[end]):
                stops.append(begin)
                break
    return stops[::-1]


def _counted(columns: Sequence[Ints], lines: tuple[Ints, Ints], r: Ready, count: int) -> list[int]:
    """The best way over just ``count`` uprights that are joints and need not be."""
    one, two = ([x.tolist() for x in both] for both in (columns, lines))
    joint = [int(r.upright.joint[i, 0, r.m]) * (i not in r.uprights) for i in range(r.n + 1)]
    ways: dict[tuple[int, int], tuple[int, int, tuple[int, ...]]] = {(0, 0): (0, 0, (0,))}
    for end in range(1, r.n + 1):
        for begin in range(end):
            for c in range(count + 1):
                before = ways.get((begin, c))
                if before is None or one[0][end - begin][begin] >= _BARRED:
                    continue
                way = (
                    before[0] + one[0][end - begin][begin] + two[0][end],
                    before[1] + one[1][end - begin][begin] + two[1][end],
                    (*before[2], end),
                )
                at = end, c + (joint[end] if end < r.n else 0)
                if at[1] <= count and (at not in ways or way < ways[at]):
                    ways[at] = way
    return list(ways[r.n, count][2]) if (r.n, count) in ways else [0, *r.uprights, r.n]


def _moved(window: Window, right: int, up: int) -> Window:
    return Window(window.left + right, window.right + right, window.bottom + up, window.top + up)


def _place(cut: Cut) -> tuple[str, int, int]:
    return cut.axis, cut.at, cut.begin
