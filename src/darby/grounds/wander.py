"""A face that wanders: an unknown at every ground, straight between them, and never more under a straightedge than the
published rules allow.

**The family.** Grounds stand on a grid of levels and plumb lines, evenly spaced, no farther apart than is asked. Within
a field the face is straight along every level and every plumb line: what a rod leaves that is run level over two
screeds.

**The condition.** For three points p < q < r on a line with r - p no more than the straightedge, q lies no more than
the gap off the straight line from p to r, before it or behind it. Linear in the heights of the grounds. Along a level
between two rows of grounds the face is a mean of those two rows, and so is the gap: what holds along the rows holds
along every level; likewise for plumb lines. Both slants are held along lines through grounds and through the middles of
fields' sides, read at half fields.

All windows together are too many, so a programme is solved with a few, the windows that the solution breaks are added,
and so on until none is broken by more than a thirty-thousandth; then the face is drawn in toward the leaning plane
(which keeps every rule) by as much as is left. Every row is a rule, so nothing is lost by adding only the needed ones.

**Where the wall is not measured** the programme would let the face dive to the end of the rules. So at every ground
the face leaves the least over the wall as it is taken there, or what the leaning plane leaves if that is less. And from
foot to head no plumb line of grounds is farther out than the leaning plane may be. A plane keeps all of that: a
wandering face never takes more plaster than the leaning one.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import sqrt

import numpy as np
import shapely

from darby.grounds.checks import THREE, Array
from darby.grounds.faces import Grid, Placed, Set, Solver, bounds, made
from darby.grounds.model import GroundsAsk, Straightedge
from darby.grounds.straightedge import Line, Sag
from darby.grounds.wall import Flags, Wall
from darby.measure.limits import SLACK, whole

ROOM = sqrt(SLACK)
"""A rule broken by less than this part of its gap is kept: what is left is drawn in."""


@dataclass(frozen=True)
class Track:
    """A line on the face: where its knots are, and the rows that read them off the grounds (k, grounds)."""

    start: Array
    way: Array
    line: Line
    rows: Array

    def sag(self, heights: Array) -> Sag | None:
        """The worst triple along it."""
        return self.line.worst(self.rows @ heights)


def grid_of(wall: Wall, spacing: float) -> Grid:
    """Evenly spaced lines over the wall, no farther apart than ``spacing`` [m]."""
    u0, v0, u1, v1 = wall.whole.bounds
    us, vs = (np.linspace(a, b, whole((b - a) / spacing) + 1) for a, b in ((u0, u1), (v0, v1)))
    return Grid(us, vs)


def weights(grid: Grid, net: shapely.Geometry) -> tuple[Array, Flags]:
    """What each crossing's height counts in the sum over the net wall [m2], exactly; and which fields lie on it (rows
    of fields by columns).

    A field is bilinear: a whole one counts alike at its four corners. One that is cut is taken in triangles from its
    first corner, those beyond a bay taken off again; the mean of anything quadratic over a triangle is the mean at the
    middles of its sides.
    """
    low, high = np.meshgrid(grid.us[:-1], grid.vs[:-1]), np.meshgrid(grid.us[1:], grid.vs[1:])
    boxes = shapely.box(*(x.ravel() for x in (*low, *high)))
    shapely.prepare(net)
    inside = shapely.covers(net, boxes)
    parts = np.array(boxes)
    parts[~inside] = shapely.intersection(boxes[~inside], net)
    on = shapely.area(parts) > float(SLACK)
    fields = on.reshape(len(grid.vs) - 1, len(grid.us) - 1)
    full = np.where(inside, shapely.area(boxes), 0.0).reshape(fields.shape) / 2 / 2
    found = np.zeros((len(grid.vs), len(grid.us)))
    for up in (slice(0, -1), slice(1, None)):
        for right in (slice(0, -1), slice(1, None)):
            found[up, right] += full
    return found.ravel() + _cut(grid, parts[on & ~inside]), fields


def _cut(grid: Grid, parts: Array) -> Array:
    found = np.zeros(grid.size)
    for ring in shapely.get_rings(shapely.orient_polygons(shapely.get_parts(parts))):
        c = shapely.get_coordinates(ring)[:-1]
        if len(c) < THREE:
            continue
        b, d = c[1:-1], c[2:]
        a = np.broadcast_to(c[0], b.shape)
        area = ((b - a)[:, 0] * (d - a)[:, 1] - (b - a)[:, 1] * (d - a)[:, 0]) / 2
        for one, other in ((a, b), (b, d), (d, a)):
            found += area / THREE @ grid.rows((one + other) / 2)
    return found


# --- lines on which the straightedge is laid --------------------------------------------------------


@lru_cache
def _line(along: tuple[float, ...], length: float) -> Line:
    return Line(np.array(along), length)


def tracks(grid: Grid, fields: Flags, length: float) -> list[Track]:
    """Rows, columns and slants of the grid, each as far as it runs over fields that lie on the wall."""
    over = np.pad(fields, 1)
    along_row = over[:-1, 1:-1] | over[1:, 1:-1]  # a side of a field belongs to it and to its neighbour
    along_column = over[1:-1, :-1] | over[1:-1, 1:]
    found = []
    for row, sides in zip(grid.vs, along_row, strict=True):
        found += [np.array([[u, row] for u in grid.us[a : b + 1]]) for a, b in _runs(sides)]
    for column, sides in zip(grid.us, along_column.T, strict=True):
        found += [np.array([[column, v] for v in grid.vs[a : b + 1]]) for a, b in _runs(sides)]
    found += _slants(grid, fields)
    return [track for points in found if (track := _track(grid, points, length)) is not None]


def _runs(sides: Flags) -> list[tuple[int, int]]:
    """First and last crossing of every unbroken run of sides."""
    steps = np.flatnonzero(np.diff(np.concatenate([[0], sides.astype(int), [0]])))
    return [(int(a), int(b)) for a, b in zip(steps[::2], steps[1::2], strict=True)]


def _slants(grid: Grid, fields: Flags) -> list[Array]:
    """Points at half fields along both slants, through crossings and through the middles of sides."""
    us, vs = (np.interp(np.arange(2 * len(x) - 1) / 2, np.arange(len(x)), x) for x in (grid.us, grid.vs))
    fine = np.repeat(np.repeat(fields, 2, axis=0), 2, axis=1)
    rows, columns = fine.shape
    found = []
    for mirrored in (False, True):
        quarters = fine[:, ::-1] if mirrored else fine
        across = us[::-1] if mirrored else us
        for first in range(-rows + 1, columns):
            i0, j0 = max(first, 0), max(-first, 0)
            steps = np.array([quarters[j0 + n, i0 + n] for n in range(min(columns - i0, rows - j0))])
            for a, b in _runs(steps):
                found.append(np.array([[across[i0 + n], vs[j0 + n]] for n in range(a, b + 1)]))
    return found


def _track(grid: Grid, points: Array, length: float) -> Track | None:
    """None where no three knots lie in a row: there it is straight, or no straightedge fits."""
    if len(points) < THREE:
        return None
    way = points[-1] - points[0]
    reach = float(np.hypot(*way))
    along = np.linspace(0.0, reach, len(points))
    line = _line(tuple(along.tolist()), length)
    return Track(points[0], way / reach, line, grid.rows(points)) if len(line.p) else None


# --- the programme ----------------------------------------------------------------------------------


def wandering(ask: GroundsAsk, wall: Wall, fixed: Array, leaning: Set, lean: float, spacing: float,
              rules: tuple[Straightedge, ...]) -> Set:  # fmt: skip
    """The face with the least plaster that keeps every rule of flatness, and leans no more than ``lean`` from foot to
    head."""
    grid = grid_of(wall, spacing)
    share, fields = weights(grid, wall.net)
    nodes = grid.nodes
    floor = floors(ask, wall, nodes, leaning, wall.outs)
    read, flush = grid.rows(wall.readings[:, :2]), grid.rows(fixed[:, :2])
    beside = (share == 0) & ~read.any(axis=0) & ~flush.any(axis=0)  # off the wall: nothing depends on them
    solver = Solver.of(np.eye(grid.size), share / wall.area, floor, np.where(beside, floor, np.inf))
    solver.hold(read, bounds(ask, wall), flush, fixed[:, 2])
    _keep_upright(solver, grid, fields, lean)
    laid = [tracks(grid, fields, float(rule.length)) for rule in rules]
    held = [(float(rules[n].gap), laid[n]) for n in needed(rules)]

    def breaks(x: Array) -> bool:
        return _break(solver, held, x[:-2])

    found = solver.solve(ask.at, breaks)
    x: Array | None = found.x
    while solver.ties(found) and (x := solver.evened(found, wall.readings[:, 2], breaks)) is None:
        found = solver.solve(ask.at, breaks)  # evening out has found rules that it had not kept
        x = found.x
    face = made("wandering", grid, found, found.x if x is None else x, solver, wall)
    face.worth = face.worth + _floor_worth(wall, nodes, found.own[:-2])
    _draw_in(face, leaning, nodes, held)
    face.steep = steepest(face, fields)
    face.sags = tuple(_worst(face, lines) for lines in laid)
    return face


def _draw_in(face: Set, leaning: Set, nodes: Array, held: list[tuple[float, list[Track]]]) -> None:
    """What is left over a rule is drawn in toward the leaning plane, if that is as flush as the face is."""
    over = max((abs(s.off) / gap for gap, lines in held for t in lines if (s := t.sag(face.heights))), default=0.0)
    if over > 1 and leaning.misses <= face.misses:
        straight = leaning.at(nodes)
        face.heights = straight + (face.heights - straight) / over
        face.mean = leaning.mean + (face.mean - leaning.mean) / over


def _worst(face: Set, lines: list[Track]) -> Placed:
    """The worst triple of all lines; nothing at the lower left where no straightedge finds three points."""
    found = [(sag, track) for track in lines if (sag := track.sag(face.heights))]
    if not found:
        return Sag(0.0, 0.0, 0.0, 0.0), np.array([face.grid.us[0], face.grid.vs[0]]), np.zeros(2)
    sag, track = max(found, key=lambda pair: abs(pair[0].off))
    return sag, track.start, track.way


def needed(rules: tuple[Straightedge, ...]) -> list[int]:
    """Places of the rules that no other one holds already: a longer straightedge with no more under it."""
    return [
        n
        for n, rule in enumerate(rules)
        if not any(
            other.length >= rule.length and other.gap <= rule.gap and (other != rule or m < n)
            for m, other in enumerate(rules)
            if m != n
        )
    ]


def floors(ask: GroundsAsk, wall: Wall, nodes: Array, leaning: Set, outs: Array) -> Array:
    """The least height of every crossing: the least over the wall there, or the leaning plane if that is nearer.

    ``outs`` is how far the wall stands out at the points of ``wall.folded``.
    """
    return np.asarray(np.minimum(wall.at(nodes, outs) + float(ask.least), leaning.at(nodes)))


def _floor_worth(wall: Wall, nodes: Array, worth: Array) -> Array:
    """What the readings are worth through the floors of the crossings, which stand on the wall between them."""
    which, shares = wall.folded.weights(nodes)
    found = np.zeros(len(wall.folded.points))
    np.add.at(found, wall.folded.corners[which], np.maximum(worth, 0.0)[:, None] * np.maximum(shares, 0.0))
    read = len(wall.readings)
    np.add.at(found, wall.nearest, found[read:])
    return found[:read]


def columns(grid: Grid, fields: Flags) -> list[tuple[int, int, int]]:
    """Every plumb line of crossings that runs over the wall: its place, and the rows of its foot and its head."""
    over = np.pad(fields, 1)
    found = []
    for i in range(len(grid.us)):
        on = np.flatnonzero(over[:, i] | over[:, i + 1])
        if len(on):
            found.append((i, int(on[0]) - 1, int(on[-1])))
    return found


def steepest(face: Set, fields: Flags) -> float:
    """The most a plumb line of the face rises from foot to head, per metre, either way."""
    grid = face.grid
    heights = face.heights.reshape(len(grid.vs), len(grid.us))
    return max(
        (abs(heights[high, i] - heights[low, i]) / (grid.vs[high] - grid.vs[low]) for i, low, high in
         columns(grid, fields)), default=0.0,
    )  # fmt: skip


def _keep_upright(solver: Solver, grid: Grid, fields: Flags, lean: float) -> None:
    """From its foot to its head every plumb line of crossings rises no more than ``lean`` per metre, either way."""
    rows, room = [], []
    for i, low, high in columns(grid, fields):
        row = np.zeros(grid.size)
        row[high * len(grid.us) + i], row[low * len(grid.us) + i] = 1, -1
        rows.append(row)
        room.append(lean * (grid.vs[high] - grid.vs[low]))
    solver.add(np.array(rows), -np.array(room), np.array(room))


def _break(solver: Solver, laid: list[tuple[float, list[Track]]], heights: Array) -> bool:
    """Add the windows that the heights break, the worst under every knot; False if none is broken any more."""
    rows, gaps = [], []
    for gap, lines in laid:
        for track in lines:
            sag = track.sag(heights)
            if sag is None or abs(sag.off) <= gap * (1 + ROOM):
                continue
            line = track.line
            off = np.abs(line.triples @ (track.rows @ heights))
            for knot in np.unique(line.q[off > gap]):
                under = np.flatnonzero(line.q == knot)
                rows.append(line.triples[under[off[under].argmax()]] @ track.rows)
                gaps.append(gap)
            worst = line.rows(*(np.array([x]) for x in (sag.p, sag.q, sag.r)))[0]
            rows.append(worst @ track.rows)
            gaps.append(gap)
    if rows:
        limits = np.array(gaps)
        solver.add(np.array(rows), -limits, limits)
    return bool(rows)
