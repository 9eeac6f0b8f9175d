"""The three families a finished face is chosen from, and the programme that finds the one with the least plaster.

Plaster is the room between the face and the bare wall over the net wall. The bare wall does not depend on the face, so
the least plaster is the face that stands out least on the average over the net wall: openings left out, every square
foot weighed alike, wherever the readings lie. That average is linear in the unknowns, and so is every condition:

    face - reading >= least     at every reading
    face = fixed                at every fixed point

A plane has three unknowns: how far it stands out in the middle of the net wall, its rise across the wall and its rise
up the wall. Dead plumb: no rise up the wall, and it may turn in plan as the wall does. Leaning: the rise up the wall
keeps within the tolerance of a base. A wandering face has an unknown at every ground (``wander``).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from darby.grounds.checks import Array, refuse
from darby.grounds.model import FaceName, GroundsAsk
from darby.grounds.solving import Programme, Solved, Unsolvable
from darby.grounds.straightedge import Sag
from darby.grounds.wall import Wall, Whole
from darby.measure.limits import SLACK
from darby.measure.writing import HAIR


@dataclass(frozen=True)
class Grid:
    """Lines over the wall, and a face as its heights where they cross (rows by columns): straight along each line, and
    between them along every level and every plumb line, as a rod leaves it that is run over two screeds."""

    us: Array
    vs: Array

    @property
    def size(self) -> int:
        """Crossings."""
        return len(self.us) * len(self.vs)

    @property
    def nodes(self) -> Array:
        """Places of the crossings (size, 2), row by row from the foot up."""
        return np.column_stack([np.tile(self.us, len(self.vs)), np.repeat(self.vs, len(self.us))])

    def rows(self, points: Array) -> Array:
        """Rows (n, size) that read the face at points (n, 2) off the heights at the crossings."""
        found = np.zeros((len(points), self.size))
        i, s = _field(self.us, points[:, 0])
        j, t = _field(self.vs, points[:, 1])
        every = np.arange(len(points))
        for right, share in ((0, 1 - s), (1, s)):
            for up, part in ((0, 1 - t), (1, t)):
                found[every, (j + up) * len(self.us) + i + right] += share * part
        return found


def _field(lines: Array, places: Array) -> tuple[Whole, Array]:
    """Which field a place is in, and how far across it."""
    n = np.clip(np.searchsorted(lines, places, side="right") - 1, 0, len(lines) - 2)
    return n, (places - lines[n]) / (lines[n + 1] - lines[n])


Breaks = Callable[[Array], bool]
"""Adds the rules that unknowns break, and says whether there were any."""


@dataclass
class Solver:
    """The programme of one face, kept so that it can be solved again with a reading lower or left out.

    ``basis`` turns unknowns into heights at the crossings. After the face's own unknowns come two more: how far what is
    fixed may be missed, and how thick the plaster is at its thickest reading (asked for only where faces tie).
    """

    programme: Programme
    basis: Array
    cost: Array
    low: Array
    high: Array
    readings: range = field(default_factory=lambda: range(0))
    rows: Array = field(default_factory=lambda: np.zeros((0, 0)))
    lows: Array = field(default_factory=lambda: np.zeros(0))
    thickness: range = field(default_factory=lambda: range(0))
    fixed: tuple[range, range] = field(default_factory=lambda: (range(0), range(0)))
    missed: float = 0.0

    @classmethod
    def of(cls, basis: Array, cost: Array, low: Array, high: Array) -> Solver:
        """A programme over the unknowns and the two more: nothing is missed, to begin with."""
        cost, low, high = np.append(cost, [0.0, 0.0]), np.append(low, [0.0, 0.0]), np.append(high, [0.0, np.inf])
        basis = np.column_stack([basis, np.zeros((len(basis), 2))])
        return cls(Programme(cost, low, high), basis, cost, low, high)

    def add(self, rows: Array, low: Array, high: Array, *, missed: float = 0.0, thickest: float = 0.0) -> range:
        """Rows over the face's own unknowns, and the parts the other two have in them; their numbers."""
        more = np.tile([missed, thickest], (len(rows), 1))
        return self.programme.add(np.column_stack([rows, more]), low, high)

    def hold(self, readings: Array, lows: Array, fixed: Array, flush: Array) -> None:
        """Every reading has its least; what is fixed is missed by no more than that unknown, either way."""
        self.rows, self.lows = readings, lows
        self.readings = self.add(readings, lows, np.full(len(lows), np.inf))
        open_ = np.full(len(flush), np.inf)
        self.fixed = (self.add(fixed, flush, open_, missed=1.0), self.add(fixed, -open_, flush, missed=-1.0))

    def solve(self, at: str, breaks: Breaks | None = None) -> Solved:
        """The least mean, flush with what is fixed, or as nearly as can be: then ``missed`` says by how much [m].

        ``breaks`` adds rules that unknowns break, and says whether it did; it is asked until it does not. With rules
        to be added, what is missed is allowed a hair more than it must be.

        Raises
        ------
        Unreadable
            "grounds.one-side" if nothing holds the face in.
        """
        try:
            return self._by_rules(breaks)
        except Unsolvable as why:
            if why.open:
                raise refuse("grounds.one-side", at, str(len(self.lows)), "u, v") from None
        self._miss(np.inf)
        self.programme.weigh(_only(len(self.cost), -2))
        self.missed = self._by_rules(breaks).cost
        self._miss(self.missed + float(SLACK if breaks is None else HAIR))
        self.programme.weigh(self.cost)
        return self._by_rules(breaks)

    def _by_rules(self, breaks: Breaks | None) -> Solved:
        found = self.programme.solve()
        while breaks is not None and breaks(found.x):
            found = self.programme.solve()
        return found

    def _miss(self, most: float) -> None:
        self.high[-2] = most
        self.programme.bound_columns(self.low, self.high)

    def ties(self, found: Solved) -> bool:
        """Whether other unknowns may cost as little: fewer bounds are worth anything than there are free unknowns."""
        worth = np.concatenate([found.worth, found.own[:-2]])
        return bool(np.count_nonzero(np.abs(worth) > float(SLACK)) < np.count_nonzero((self.high > self.low)[:-2]))

    def evened(self, found: Solved, readings: Array, breaks: Callable[[Array], bool] = lambda _: False) -> Array | None:
        """Of all faces that take as little plaster as the one found, the one whose thickest reading is thinnest.

        Without it a face over one high spot could be turned on it like a gate, at no cost. ``readings`` is how far the
        wall stands out at them. None where the rules that ``breaks`` added leave no face that takes so little. The
        programme is left with rows that hold nothing.
        """
        if not self.thickness:
            free = np.full(len(readings), np.inf)
            self.thickness = self.add(self.rows, -free, readings, thickest=-1.0)
        (row,) = self.add(self.cost[None, :-2], np.array([-np.inf]), np.array([found.cost + float(SLACK)]))
        self.programme.weigh(_only(len(self.cost), -1))
        try:
            even = self._by_rules(breaks).x
        except Unsolvable:
            return None
        finally:
            self.programme.weigh(self.cost)
            self.programme.bound_row(row, -np.inf, np.inf)
        return even

    def again(self, reading: int, low: float, floor: Array | None = None) -> float:
        """The least mean if one reading asked for no more than ``low`` (and the unknowns might go down to ``floor``).

        The programme is left as it was.
        """
        row = self.readings[reading]
        self.programme.bound_row(row, low, np.inf)
        if floor is not None:
            self.programme.bound_columns(np.append(floor, self.low[-2:]), self.high)
        try:
            return self.programme.solve().cost
        finally:
            self.programme.bound_row(row, float(self.lows[reading]), np.inf)
            if floor is not None:
                self.programme.bound_columns(self.low, self.high)


Placed = tuple[Sag, Array, Array]
"""The worst triple of a line, where the line starts, and its way (a unit vector)."""


def _only(count: int, place: int) -> Array:
    cost = np.zeros(count)
    cost[place] = 1.0
    return cost


@dataclass
class Set:
    """A face that was found: heights at the crossings of its grid, and what holds it.

    ``worth`` of every reading: how much less the face would stand out on the average [m] for a metre off that reading;
    ``fixed_worth`` of the fixed points likewise. ``misses`` what is fixed by so much [m] (0 = flush). ``cost`` is the
    mean as the solver left it. ``steep`` is the most a plumb line of it rises from foot to head, per metre; ``sags``
    the worst triple under each straightedge, in the order of the rules (none for a plane).
    """

    name: FaceName
    grid: Grid
    heights: Array
    mean: float
    cost: float
    worth: Array
    fixed_worth: Array
    misses: float
    solver: Solver
    steep: float = 0.0
    sags: tuple[Placed, ...] = ()

    def at(self, points: Array) -> Array:
        """How far the face stands out at points (n, 2) [m]."""
        return np.asarray(self.grid.rows(points) @ self.heights)


def made(name: FaceName, grid: Grid, found: Solved, x: Array, solver: Solver, wall: Wall) -> Set:
    """The face of the unknowns ``x``, brought out by the last billionth that the solver left, so that every reading has
    its least. ``found`` says what its rows are worth."""
    heights = solver.basis @ x
    mean = float(solver.cost @ x)
    short = float(np.max(solver.lows - grid.rows(wall.readings[:, :2]) @ heights, initial=0.0))
    if 0 < short <= float(HAIR):
        heights, mean = heights + short, mean + short
    worth = np.array([found.worth[row] for row in solver.readings])
    fixed = np.array([found.worth[a] + found.worth[b] for a, b in zip(*solver.fixed, strict=True)])
    return Set(name, grid, heights, mean, found.cost, worth, fixed, solver.missed, solver)


def bounds(ask: GroundsAsk, wall: Wall) -> Array:
    """How far out the face must stand at every reading [m]."""
    return np.asarray(wall.readings[:, 2] + float(ask.least))


def lean_rate(ask: GroundsAsk) -> float:
    """Rise a plumb line of the face may have, per metre of height: what a base may be out of true."""
    return ask.book.number("thickness.base-plane").number / ask.book.number("thickness.base-plane-length").number


def plane(ask: GroundsAsk, wall: Wall, fixed: Array, name: FaceName, lean: float) -> Set:
    """The plane with the least plaster that leans no more than ``lean`` per metre of height.

    Raises
    ------
    Unreadable
        "grounds.one-side" if nothing holds it in.
    """
    u0, v0, u1, v1 = wall.whole.bounds
    scale = np.array([u1 - u0, v1 - v0])
    grid = Grid(np.array([u0, u1]), np.array([v0, v1]))

    def rows(points: Array) -> Array:
        return np.column_stack([np.ones(len(points)), (points - wall.middle) / scale])

    up = lean * float(scale[1])
    open_ = np.array([np.inf, np.inf, up])
    solver = Solver.of(rows(grid.nodes), np.array([1.0, 0, 0]), -open_, open_)
    solver.hold(rows(wall.readings[:, :2]), bounds(ask, wall), rows(fixed[:, :2]), fixed[:, 2])
    found = solver.solve(ask.at)
    even = solver.evened(found, wall.readings[:, 2]) if solver.ties(found) else None
    x = found.x if even is None else even
    face = made(name, grid, found, x, solver, wall)
    face.steep = abs(float(x[2])) / float(scale[1])
    return face
