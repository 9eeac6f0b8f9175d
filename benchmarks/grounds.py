"""Grounds of a wall with 500 readings, against the same programmes written out whole for scipy's linprog.

The peer is what one writes first: every reading and every window of the straightedge as a row from the start, solved
cold, and solved cold again for every high spot. It is given the bare wall at the crossings (the floors) and the levels
of the spots without their bump, which are part of the question; areas, families, rules and programmes are its own.
The walls are invented, with a fixed seed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from statistics import median
from time import perf_counter, process_time

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linprog

from benchmarks.table import Row, show
from darby.grounds import GroundsAsk, true_up
from darby.grounds.checks import checked
from darby.grounds.faces import lean_rate, plane
from darby.grounds.model import Grounds
from darby.grounds.truing import rules_of, spacing_of
from darby.grounds.wall import Wall
from darby.grounds.wander import floors, grid_of
from darby.measure.surface import Corner, Opening
from darby.rulebook import default

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]
"""Left, foot, right, head [m]."""

FOOT, INCH = 0.3048, 0.0254
LEAST = 3 / 8 * INCH
FINE = 16
"""Parts of a field in which the peer slides a straightedge."""


# --- the peer ---------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Given:
    """A rectangle with rectangles cut out, readings (n, 3), and the rules [m]."""

    wall: Box
    holes: tuple[Box, ...]
    readings: Array
    least: float
    lean: float
    rules: tuple[tuple[float, float], ...]
    us: Array
    vs: Array

    @property
    def area(self) -> float:
        return area(self.wall) - sum(area(h) for h in self.holes)

    @property
    def middle(self) -> tuple[float, float]:
        """Middle of the net wall, by moments of rectangles."""
        moments = [(area(self.wall), self.wall), *((-area(h), h) for h in self.holes)]
        u, v = (sum(a * (b[k] + b[k + 2]) / 2 for a, b in moments) / self.area for k in (0, 1))
        return u, v


def area(box: Box) -> float:
    return (box[2] - box[0]) * (box[3] - box[1])


def solve(cost: Array, rows: Array, low: Array, bounds: Sequence[tuple[float | None, float | None]]) -> Array:
    """Least cost @ x with rows @ x >= low, by scipy.

    Raises
    ------
    RuntimeError
        if there is none.
    """
    found = linprog(cost, A_ub=-rows, b_ub=-low, bounds=bounds, method="highs")
    if found.status != 0:
        raise RuntimeError(found.message)
    return np.asarray(found.x)


def peer_plane(given: Given, lean: float) -> tuple[float, Array]:
    """How far out the plane stands in the middle [m], and its c, a, b: out = c + a u + b v."""
    u, v = given.middle
    rows = np.column_stack([np.ones(len(given.readings)), given.readings[:, :2]])
    found = solve(np.array([1.0, u, v]), rows, given.readings[:, 2] + given.least, [(None, None)] * 2 + [(-lean, lean)])
    return float(found @ [1.0, u, v]), found


def peer_wander(given: Given, floor: Array) -> tuple[float, Array]:
    """How far out the face stands on the average [m], and its heights at the crossings (rows by columns)."""
    cost = hats_over(given) / given.area
    across = len(given.us)
    rows = [read_at(given, given.readings[:, :2])]
    lows = [given.readings[:, 2] + given.least]
    for length, gap in given.rules:
        flat = np.array(list(windows(given, length)))
        rows += [flat, -flat]
        lows += [np.full(len(flat), -gap)] * 2
    upright = np.zeros((across, len(floor)))
    for i in range(across):
        upright[i, i], upright[i, -across + i] = -1, 1
    room = np.full(across, -given.lean * (given.vs[-1] - given.vs[0]))
    rows += [upright, -upright]
    lows += [room, room]
    found = solve(cost, np.vstack(rows), np.concatenate(lows), [(f, None) for f in floor])
    return float(cost @ found), found.reshape(len(given.vs), across)


def hats_over(given: Given) -> Array:
    """What each crossing counts in the sum over the net wall: products of the integrals of two tents."""

    def over(box: Box) -> Array:
        return np.outer(tents(given.vs, box[1], box[3]), tents(given.us, box[0], box[2])).ravel()

    return over(given.wall) - sum((over(h) for h in given.holes), np.zeros(len(given.us) * len(given.vs)))


def tents(knots: Array, low: float, high: float) -> Array:
    """Integral of the tent on every knot from ``low`` to ``high``."""
    found = np.zeros(len(knots))
    for n in range(len(knots) - 1):
        a, b = max(low, knots[n]), min(high, knots[n + 1])
        if b > a:
            middle = ((a + b) / 2 - knots[n]) / (knots[n + 1] - knots[n])
            found[n] += (b - a) * (1 - middle)
            found[n + 1] += (b - a) * middle
    return found


def read_at(given: Given, points: Array) -> Array:
    """Rows that read the face at points: straight across and straight up in every field."""
    rows = np.zeros((len(points), len(given.us) * len(given.vs)))
    for n, (u, v) in enumerate(points):
        i = min(max(int(np.searchsorted(given.us, u, side="right")) - 1, 0), len(given.us) - 2)
        j = min(max(int(np.searchsorted(given.vs, v, side="right")) - 1, 0), len(given.vs) - 2)
        s = (u - given.us[i]) / (given.us[i + 1] - given.us[i])
        t = (v - given.vs[j]) / (given.vs[j + 1] - given.vs[j])
        for right, up, share in ((0, 0, (1 - s) * (1 - t)), (1, 0, s * (1 - t)), (0, 1, (1 - s) * t), (1, 1, s * t)):
            rows[n, (j + up) * len(given.us) + i + right] += share
    return rows


def lines(given: Given) -> Iterator[Array]:
    """Points of every line a straightedge is laid along: levels and plumb lines of crossings, both slants at halves.

    For walls whose fields all have some wall in them.
    """
    for v in given.vs:
        yield np.array([[u, v] for u in given.us])
    for u in given.us:
        yield np.array([[u, v] for v in given.vs])
    halves = [np.sort(np.concatenate([x, (x[1:] + x[:-1]) / 2])) for x in (given.us, given.vs)]
    for us in (halves[0], halves[0][::-1]):
        vs = halves[1]
        for first in range(-len(vs) + 2, len(us) - 1):
            points = [(us[first + n], vs[n]) for n in range(len(vs)) if 0 <= first + n < len(us)]
            if len(points) > 2:
                yield np.array(points)


def windows(given: Given, length: float) -> Iterator[Array]:
    """Rows that read what shows under a straightedge: over every knot, with both ends anywhere in steps or at knots."""
    for points in lines(given):
        knots = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
        reads = read_at(given, points)
        ends = np.unique(np.round(np.concatenate([np.arange(0, knots[-1], knots[1] / FINE), knots]), 12))
        ends = np.concatenate([ends, knots - length, knots + length])
        for n in range(1, len(knots) - 1):
            for p in ends[(ends >= -1e-12) & (ends < knots[n] - 1e-9)]:
                rs = [k for k in knots[n + 1 :] if k - p <= length + 1e-9 and p in knots]
                if knots[n] + 1e-9 < p + length <= knots[-1] + 1e-9:
                    rs.append(p + length)
                for r in rs:
                    t = (knots[n] - p) / (r - p)
                    yield reads[n] - (1 - t) * between(knots, reads, p) - t * between(knots, reads, r)


def between(knots: Array, reads: Array, at: float) -> Array:
    n = min(max(int(np.searchsorted(knots, at, side="right")) - 1, 0), len(knots) - 2)
    t = (at - knots[n]) / (knots[n + 1] - knots[n])
    return np.asarray((1 - t) * reads[n] + t * reads[n + 1])


def peer(given: Given, floor: Array, spots: Sequence[tuple[int, float]]) -> tuple[float, float, float, list[float]]:
    """The three faces, and the leaning one again with each of ``spots`` (which reading, how far out) brought down."""
    again = []
    for which, out in spots:
        lower = given.readings.copy()
        lower[which, 2] = out
        again.append(peer_plane(replace(given, readings=lower), given.lean)[0])
    return peer_plane(given, 0.0)[0], peer_plane(given, given.lean)[0], peer_wander(given, floor)[0], again


# --- one wall, both ways ------------------------------------------------------------------------------


def invented(count: int, seed: int, width: float = 30.0, height: float = 12.0) -> GroundsAsk:
    """A wall with a door and a window, a bow, a hollow and scatter."""
    random = np.random.default_rng(seed)
    holes = (corners(4, 0, 7, 7), corners(16, 3, 20, 7))
    rows = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    while len(rows) < count:
        u, v = random.random() * width, random.random() * height
        if not any(a <= u <= c and b <= v <= d for a, b, c, d in ((4, 0, 7, 7), (16, 3, 20, 7))):
            rows.append((u, v))
    u, v = np.array(rows).T
    out = 0.25 * np.sin(u / 9 + seed) - 0.5 * np.exp(-((u - 11) ** 2 + (v - 5) ** 2) / 9) - 0.01 * v
    out += random.normal(0, 0.05, count)
    readings = tuple((float(a * FOOT), float(b * FOOT), float(c * INCH)) for a, b, c in zip(u, v, out, strict=True))
    return GroundsAsk(
        default(), f"wall-{seed}", readings, corners(0, 0, width, height), LEAST,
        openings=tuple(Opening(f"hole-{n}", "", hole) for n, hole in enumerate(holes)), face="leaning",
    )  # fmt: skip


def corners(left: float, foot: float, right: float, head: float) -> tuple[Corner, ...]:
    places = ((left, foot), (right, foot), (right, head), (left, head))
    return tuple(
        Corner(str(n), Fraction(u) * Fraction(3048, 10_000), Fraction(v) * Fraction(3048, 10_000))
        for n, (u, v) in enumerate(places)
    )


def question(ask: GroundsAsk) -> tuple[Given, Array, list[tuple[int, float]], Grounds]:
    """The same question for the peer, and darby's answer."""
    answer = true_up(ask)[0]
    wall = Wall(checked(ask), ask.book.number("grounds.wild").number)
    grid = grid_of(wall, spacing_of(ask))
    leaning = plane(ask, wall, np.zeros((0, 3)), "leaning", lean_rate(ask))
    box = tuple(float(x) for x in wall.whole.bounds)
    holes = tuple(
        (float(o.outline[0].u), float(o.outline[0].v), float(o.outline[2].u), float(o.outline[2].v))
        for o in ask.openings
    )
    rules = tuple((float(r.length), float(r.gap)) for r in rules_of(ask))
    given = Given(box, holes, wall.readings, float(ask.least), lean_rate(ask), rules, grid.us, grid.vs)  # type: ignore[arg-type]
    place = {number: n for n, number in enumerate(wall.numbers)}
    spots = [(place[s.number], s.out - float(s.by)) for s in answer.spots]
    return given, floors(ask, wall, grid.nodes, leaning, wall.outs), spots, answer


def apart(ask: GroundsAsk, given: Given, answer: Grounds, found: tuple[float, float, float, list[float]]) -> float:
    """The most by which the two answers differ: how far out each face stands, and what knocking each spot saves [m]."""
    wall_mean = Wall(checked(ask), ask.book.number("grounds.wild").number).mean
    off = [abs(float(face.mean) + wall_mean - out) for face, out in zip(answer.faces, found[:3], strict=True)]
    off += [
        abs(float(spot.knocked) / given.area - (found[1] - mean))
        for spot, mean in zip(answer.spots, found[3], strict=True)
    ]
    return max(off)


def main() -> None:
    """500 readings: milliseconds, and the ratio to linprog on the same answers."""
    asks = [invented(500, seed) for seed in range(5)]
    true_up(asks[0])
    ours, busy, theirs, off = [], [], [], 0.0
    for ask in asks:
        given, floor, spots, answer = question(ask)
        times = []
        for _ in range(3):
            start, work = perf_counter(), process_time()
            true_up(ask)
            times.append((perf_counter() - start, process_time() - work))
        ours.append(min(t for t, _ in times))
        busy.append(min(t for _, t in times))
        work = process_time()
        found = peer(given, floor, spots)
        theirs.append(process_time() - work)
        off = max(off, apart(ask, given, answer, found))
    show(
        "grounds, 500 readings, 30 x 12 ft with a door and a window: three faces, depths, high spots, hollows",
        [
            Row("whole answer, processor", median(busy) * 1000, "ms", most=150),
            Row("whole answer, by the clock", median(ours) * 1000, "ms"),
            Row("the peer's programmes alone, processor", median(theirs) * 1000, "ms"),
            Row("answers apart by", off / INCH * 1000, "thousandths of an inch", most=1),
        ],
    )
    print(f"  linprog takes {median(b / a for a, b in zip(busy, theirs, strict=True)):.0f} times as long")


if __name__ == "__main__":
    main()
