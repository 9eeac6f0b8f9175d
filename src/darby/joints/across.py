"""The whole of one ground's plaster: lines that run right across, and guillotine cuts in the pieces between them.

Chosen together, and exactly: every set of up to two level lines (beside those that must be) is tried; for each, the
best uprights are a shortest path from the left end to the right, whose steps are columns of pieces already answered.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

import numpy as np

from darby.joints.allowed import Allowed
from darby.joints.cost import MOST, Aim, Cost, Weights, priced, total, weights
from darby.joints.field import Field
from darby.joints.guillotine import Cut, Search
from darby.joints.tables import Cuts, Ints, Tables, Window, cuts, tables


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
    uprights: tuple[int, ...]
    levels: tuple[int, ...]
    upright: Cuts
    level: Cuts
    windows: dict[Window, Tables]

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
    return Ready(field, tuple(uprights), tuple(levels), upright, level, found)


class Whole:
    """All layouts over the lines of a field: every piece is answered once, then asked for as often as one likes."""

    def __init__(self, r: Ready) -> None:
        self.r = r
        self.weights = weights(r.windows.values(), r.upright, r.level, "best")
        self.searches = {window: Search(t, self.weights) for window, t in r.windows.items()}

    def best(self) -> Parted:
        """The best of all."""
        w = self.weights
        return self._best(w, _Rows(self.r, {at: (s.one, s.two) for at, s in self.searches.items()}))

    def through(self, aim: Aim = "best") -> Parted:
        """The best of those whose every joint runs right across, and no piece of which lies apart."""
        w = weights(self.r.windows.values(), self.r.upright, self.r.level, aim)
        pieces = {}
        for at, search in self.searches.items():
            one, two = w.leaves(search.t)
            pieces[at] = np.where(search.apart, w.past, one), two
        return self._best(w, _Rows(self.r, pieces), whole=True)

    def more(self, first: Parted) -> Parted:
        """The best of those with the same levels across as ``first``, and one more upright across."""
        extra = tuple(cut.at for cut in first.across if cut.axis == "horizontal")
        count = sum(cut.axis == "vertical" for cut in first.across) + 1
        rows = _Rows(self.r, {at: (s.one, s.two) for at, s in self.searches.items()})
        columns = [rows.together(_all(self.r, extra), k) for k in (0, 1)]
        return self._parted(extra, _counted(columns, self._lines(self.weights), self.r, count), whole=False)

    def _lines(self, w: Weights) -> tuple[Ints, Ints]:
        """What every upright comes to that runs right across; nothing where it has to be."""
        r = self.r
        lines = w.one(r.upright, across=True)[:, 0, r.m].copy(), r.upright.length[:, 0, r.m].copy()
        for i in r.uprights:
            lines[0][i] = lines[1][i] = 0
        return lines

    def _best(self, w: Weights, rows: _Rows, *, whole: bool = False) -> Parted:
        r = self.r
        ways = list(_ways(r))
        levels = w.one(r.level, across=True)[:, 0, r.n], r.level.length[:, 0, r.n]
        fixed = [tuple(sum(int(x[j]) for j in extra) for x in levels) for extra in ways]
        columns = [np.stack([rows.together(_all(r, extra), k) for extra in ways]) for k in (0, 1)]
        lines = self._lines(w)
        one, two = _paths(columns, lines, r.n)
        # of those alike the one with most levels, and below the one with most uprights: a line right across is one
        every = [(int(one[s, -1]) + fixed[s][0], int(two[s, -1]) + fixed[s][1], -s) for s in range(len(ways))]
        which = -min(every)[-1]
        stops = _back([x[which] for x in columns], lines, one[which], two[which])
        return self._parted(ways[which], stops, whole=whole)

    def _parted(self, extra: tuple[int, ...], stops: Sequence[int], *, whole: bool) -> Parted:
        r = self.r
        across, within, panels, costs = [], [], [], []
        for i in set(stops[1:-1]) - set(r.uprights):
            across.append((Cut("vertical", i, 0, r.m), priced(r.upright, i, 0, r.m, across=True)))
        for j in extra:
            across.append((Cut("horizontal", j, 0, r.n), priced(r.level, j, 0, r.n, across=True)))
        for i0, i1 in pairwise(stops):
            for j0, j1 in pairwise(_all(r, extra)):
                here = Window(i0, i1, j0, j1)
                window, search = next((w, s) for w, s in self.searches.items() if here.within(w))
                piece = _moved(here, -window.left, -window.bottom)
                for part, cost in search.whole(piece) if whole else search.layout(piece):
                    costs.append(cost)
                    if isinstance(part, Window):
                        panels.append(_moved(part, window.left, window.bottom))
                    elif cost.joints:
                        by, along = (window.left, window.bottom)[:: 1 if part.axis == "vertical" else -1]
                        within.append(Cut(part.axis, part.at + by, part.begin + along, part.end + along))
        costs += [cost for _, cost in across]
        lines = tuple(cut for cut, cost in across if cost.joints)
        return Parted(
            tuple(sorted(lines, key=_place)), tuple(sorted(within, key=_place)), tuple(sorted(panels)), total(costs),
            sum(s.rectangles for s in self.searches.values()), sum(s.choices for s in self.searches.values()),
        )  # fmt: skip


def _ways(r: Ready) -> Iterator[tuple[int, ...]]:
    """Every set of up to two levels beside those that must be."""
    free = [j for j in range(1, r.m) if j not in r.levels]
    for count in range(2 + 1):
        yield from combinations(free, count)


def _all(r: Ready, extra: Sequence[int]) -> list[int]:
    return sorted({0, r.m, *r.levels, *extra})


class _Rows:
    """What every piece of one row comes to, ``[a, i]`` over all columns; past all bounds across a must."""

    def __init__(self, r: Ready, pieces: dict[Window, tuple[Ints, Ints]]) -> None:
        self.r = r
        self.pieces = pieces
        self.found: dict[tuple[int, int], tuple[Ints, Ints]] = {}

    def of(self, row: tuple[int, int]) -> tuple[Ints, Ints]:
        if row not in self.found:
            n, (low, high) = self.r.n, row
            shape = (n + 1, n)
            one, two = np.full(shape, _BARRED, dtype=np.int64), np.zeros(shape, dtype=np.int64)
            for (i0, i1, j0, j1), (first, second) in self.pieces.items():
                if j0 <= low and high <= j1:
                    wide = i1 - i0
                    here = np.s_[: wide + 1, i0:i1]
                    one[here] = first[:, :, high - low, low - j0]
                    two[here] = second[:, :, high - low, low - j0]
                    for a in range(1, wide + 1):  # what would reach past the window
                        one[a, i1 - a + 1 : i1] = _BARRED
            self.found[row] = one, two
        return self.found[row]

    def together(self, levels: Sequence[int], k: int) -> Ints:
        """All rows between the levels: the first of the two numbers, or the second."""
        rows: Ints = np.sum([self.of(row)[k] for row in pairwise(levels)], axis=0)
        return rows


_BARRED = MOST >> 2 + 2 + 1
"""More than any layout; a column of so many rows is still a number."""


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
    """The uprights of the best way, both ends with them."""
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
