"""Layout of joints on a wall with twelve openings, against an integer programme over the same lines for the same aim.

The peer is written out whole for HiGHS: a column for every way a rectangle between the lines may stay whole or be cut,
and for every step of a path of lines right across; a row for every rectangle, so that what is cut is cut again or left.
It is given the tables of costs and of what fits (they are the question), and a rectangle that fits is not offered cuts
that need a joint, which never helps. Plaster past a limit comes first, then four counts as one number, evenness,
length, each held while the next is sought.
Walls are invented, with a fixed seed.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import combinations, pairwise
from time import perf_counter, process_time

import highspy
import numpy as np

from benchmarks.table import Row, show
from darby.joints import lay_out
from darby.joints.across import Ready, Whole
from darby.joints.allowed import Allowed
from darby.joints.cost import Cost, priced
from darby.joints.lines import candidates, parted, unique
from darby.joints.on_lath import Site, laid
from darby.joints.plane import plane
from darby.joints.tables import Tables, Window
from darby.measure import opening, wall
from darby.measure.surface import Surface
from darby.measure.units import FT, IN

LIMITS = Allowed(144 * FT**2, 18 * FT, Fraction(5, 2))

# --- the peer ----------------------------------------------------------------------------------------

Node = tuple[object, ...]


@dataclass
class Programme:
    """Columns with what they come to, and rows that say: what a node is used for is what it is reached by."""

    costs: list[tuple[int, ...]] = field(default_factory=list)
    rows: dict[Node, list[tuple[int, int]]] = field(default_factory=dict)

    def column(self, cost: Cost, takes: Node, gives: Iterable[Node]) -> None:
        at = len(self.costs)
        self.costs.append(cost.values)
        self.rows.setdefault(takes, []).append((at, 1))
        for node in gives:
            self.rows.setdefault(node, []).append((at, -1))

    def solve(self) -> tuple[int, ...]:
        """Each number of the aim in turn, the earlier ones held."""
        h = highspy.Highs()
        h.silent()
        h.setOptionValue("mip_rel_gap", 0.0)
        count = len(self.costs)
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = count, len(self.rows)
        model.col_cost_ = np.zeros(count)
        model.col_lower_, model.col_upper_ = np.zeros(count), np.ones(count)
        sides = np.array([1.0 if node == ROOT else 0.0 for node in self.rows])
        model.row_lower_ = model.row_upper_ = sides
        starts = np.cumsum([0, *(len(row) for row in self.rows.values())])
        model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        model.a_matrix_.start_ = starts
        model.a_matrix_.index_ = np.array([at for row in self.rows.values() for at, _ in row], dtype=np.int32)
        model.a_matrix_.value_ = np.array([float(x) for row in self.rows.values() for _, x in row])
        model.integrality_ = [highspy.HighsVarType.kInteger] * count
        h.passModel(model)
        table = np.array(self.costs, dtype=np.float64)
        every = np.arange(count, dtype=np.int32)
        # the counts in one number, for none of them reaches forty here; then evenness; then length
        counted = table[:, 1:5] @ np.array([40.0**k for k in range(3, -1, -1)])
        for cost in (table[:, 0], counted, table[:, 5], table[:, 6]):
            h.changeColsCost(count, every, cost)
            h.run()
            if h.getModelStatus() != highspy.HighsModelStatus.kOptimal:
                raise RuntimeError(h.modelStatusToString(h.getModelStatus()))
            some = np.flatnonzero(cost).astype(np.int32)
            h.addRow(-highspy.kHighsInf, round(h.getInfo().objective_function_value) + 0.5, len(some), some, cost[some])
        taken = np.array(h.getSolution().col_value) > 0.5
        return tuple(int(x) for x in table[taken].sum(axis=0))


ROOT: Node = ("root",)


def integer_programme(r: Ready, sets: Sequence[tuple[int, ...]]) -> Programme:
    """The programme over the lines of a field, with these sets of level lines right across."""
    p = Programme()
    needed: set[Node] = set()
    for s, extra in enumerate(sets):
        rows = list(pairwise(sorted({0, r.m, *r.levels, *extra})))
        across = sum((priced(r.level, j, 0, r.n, across=True) for j in extra), Cost())
        p.column(across, ROOT, [("at", s, 0)])
        for i0 in range(r.n):
            for i1 in range(i0 + 1, r.n + 1):
                pieces = [Window(i0, i1, j0, j1) for j0, j1 in rows]
                if any(home(r, piece) is None for piece in pieces):
                    continue  # it would reach across a line that must be
                nodes: list[Node] = [("piece", *piece) for piece in pieces]
                free = i1 == r.n or i1 in r.uprights
                line = Cost() if free else priced(r.upright, i1, 0, r.m, across=True)
                if i1 < r.n:
                    nodes.append(("at", s, i1))
                p.column(line, ("at", s, i0), nodes)
                needed.update(("piece", *piece) for piece in pieces)
    left = list(needed)
    done = set(left)
    while left:
        node = left.pop()
        for cost, parts in options(r, Window(*node[1:])):  # type: ignore[arg-type]
            gives: list[Node] = [("piece", *part) for part in parts]
            p.column(cost, node, gives)
            fresh = [x for x in gives if x not in done]
            done.update(fresh)
            left += fresh
    return p


def home(r: Ready, piece: Window) -> Window | None:
    return next((w for w in r.windows if piece.within(w)), None)


def options(r: Ready, piece: Window) -> Iterator[tuple[Cost, tuple[Window, ...]]]:
    """What can be done with a rectangle: leave it, or cut it in two."""
    window = home(r, piece)
    assert window is not None
    t = r.windows[window]
    i0, i1, j0, j1 = piece
    at = i1 - i0, i0 - window.left, j1 - j0, j0 - window.bottom
    if not t.plaster[at]:
        yield Cost(), ()
        return
    cuts = [(priced(r.upright, i, j0, j1 - j0), Window(i0, i, j0, j1), Window(i, i1, j0, j1))
            for i in range(i0 + 1, i1)]  # fmt: skip
    cuts += [(priced(r.level, j, i0, i1 - i0), Window(i0, i1, j0, j), Window(i0, i1, j, j1))
             for j in range(j0 + 1, j1)]  # fmt: skip
    apart = any(not cost.joints and _plaster(t, window, a) and _plaster(t, window, b) for cost, a, b in cuts)
    if not apart:
        yield Cost(past=0 if t.fits[at] else int(t.area[at]), even=int(t.even[at])), ()
    for cost, a, b in cuts:
        if not cost.joints or not t.fits[at] or apart:
            yield cost, (a, b)


def _plaster(t: Tables, window: Window, piece: Window) -> bool:
    i0, i1, j0, j1 = piece
    return bool(t.plaster[i1 - i0, i0 - window.left, j1 - j0, j0 - window.bottom])


def sets_of(r: Ready, most: int = 2) -> list[tuple[int, ...]]:
    """Sets of level lines right across, as many as the room tries on a wall no higher than one panel."""
    free = [j for j in range(1, r.m) if j not in r.levels]
    return [extra for count in range(most + 1) for extra in combinations(free, count)]


# --- the walls ---------------------------------------------------------------------------------------


def twelve(seed: int, length: int, height: int, gable: int = 0) -> Surface:
    """A wall with twelve windows and doors."""
    dice = random.Random(seed)
    step = Fraction(length, 12)
    every = []
    for k in range(12):
        door = k % 4 == 0
        wide, high = (dice.choice((3, 4)) * FT, Fraction(20, 3) * FT) if door else (dice.choice((2, 3)) * FT, 4 * FT)
        at = step * k * FT + dice.randint(2, 8) * IN
        every.append(opening(f"o{k}", f"o{k}", wide, high, at, Fraction(0) if door else 3 * FT))
    return wall(f"wall-{seed}", "wall", length * FT, height * FT, gable=gable * FT, openings=every)


WALLS = ((1, 64, 9, 0, 4), (3, 60, 9, 5, 4))
"""Seed, length, height, gable [ft], and in how many even parts the peer's lines part it."""


def ready_of(surface: Surface, parts: int | None = None) -> Ready:
    """The lines and tables of a wall: all that the room looks at, or its corners and so many even parts."""
    outline = tuple((c.u, c.v) for c in surface.outline)
    p = plane(surface, [0])
    lines = candidates(p, 0, LIMITS, outline, (), ())
    if parts is not None:
        length = max(u for u, _ in outline)
        even = (x for n in (parts, parts + 1) for x in parted("vertical", Fraction(0), length, n, "even"))
        lines = unique([*(x for x in lines if x.origin in ("corner", "outline")), *even])
    return laid(Site(p, 0, outline, LIMITS, (), (), 10**6), lines).ready


def main() -> None:
    rows: list[Row] = []
    for seed, length, height, gable, parts in WALLS:
        surface = twelve(seed, length, height, gable)
        what = f"{length} x {height} ft{f', gable {gable} ft' if gable else ''}"
        r = ready_of(surface)
        clock, processor = quickest(lambda s=surface: lay_out(s), 9)  # type: ignore[misc]
        rows.append(Row(f"{what}: {r.n - 1} uprights, {r.m - 1} levels, all layouts drawn and worked", clock, "ms",
                        f"{processor:.0f} ms of processor", 100))  # fmt: skip
        few = ready_of(surface, parts)
        ours = Whole(few, LIMITS.side).best().cost
        search, _ = quickest(lambda r=few: Whole(r, LIMITS.side).best(), 5)  # type: ignore[misc]
        programme = integer_programme(few, sets_of(few))
        start = perf_counter()
        found = programme.solve()
        peer = 1000 * (perf_counter() - start)
        if found != ours.values:
            raise RuntimeError(f"{what}: {found} is not {ours.values}")
        rows += [
            Row(f"{what}: {few.n - 1} uprights, {few.m - 1} levels, search", search, "ms"),
            Row(f"{what}: the same by HiGHS, same answer", peer, "ms", f"{len(programme.costs):,} columns"),
            Row(f"{what}: search over HiGHS", search / peer * 100, "%", f"{peer / search:,.0f} to 1", 100 / 20),
        ]
    show("Joints of a wall with twelve openings", rows)


def quickest(run: object, times: int) -> tuple[float, float]:
    """The shortest of several runs after one to warm up: by the clock and of processor [ms]."""
    run()  # type: ignore[operator]
    clock, processor = [], []
    for _ in range(times):
        start, begun = perf_counter(), process_time()
        run()  # type: ignore[operator]
        clock.append(1000 * (perf_counter() - start))
        processor.append(1000 * (process_time() - begun))
    return min(clock), min(processor)


if __name__ == "__main__":
    main()
