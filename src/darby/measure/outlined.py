"""A wall that is no rectangle: its corners as they were measured, its edges told from how they lie.

Corners are called ``c1``, ``c2`` ... in the order they were written, edges after the corner they start at. An edge
that looks down is the base, one that looks up the top; one at the left or right end is that end. A riser within the
wall goes on with what the edge before it is. Where an end changes its kind on the way up, a corner ``left-break`` or
``right-break`` stands between.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from quicktions import Fraction

from darby.measure.faults import Fault, Unreadable
from darby.measure.shapes import FREE_END, UPRIGHT, Point, WallSide
from darby.measure.surface import Corner, Edge, EdgeKind, Length, Opening, Surface, Zone
from darby.measure.writing import write

NOUGHT = Fraction(0)


@dataclass(frozen=True, slots=True)
class _Run:
    """An edge before it is named: where it starts, what it is, and the end it belongs to."""

    corner: Corner
    kind: EdgeKind
    side: WallSide | None = None
    above: bool = False


def outlined(
    id: str,
    name: str,
    points: Sequence[Point],
    *,
    left: WallSide = FREE_END,
    right: WallSide = FREE_END,
    base: EdgeKind = "base",
    top: EdgeKind = "top",
    openings: Iterable[Opening] = (),
    zones: Iterable[Zone] = (),
    facing: float | None = None,
    tilt: float = UPRIGHT,
    foot: Length = NOUGHT,
    count: int = 1,
) -> Surface:
    """A wall within ``points`` (u, v) [m], in either direction round; the other parameters as in ``shapes.wall``.

    Raises
    ------
    Unreadable
        ``measure.up-to`` where an end is said to change at or below its lower corner, or above its upper one.
    """
    named = [Corner(f"c{n}", u, v) for n, (u, v) in enumerate(points, 1)]
    if _turn(named) < 0:
        named = [named[0], *named[:0:-1]]
    ends = {"left": (min(u for u, _ in points), left), "right": (max(u for u, _ in points), right)}
    runs: list[_Run] = []
    for a, b in pairwise([*named, named[0]]):
        side = next((s for s, (at, _) in ends.items() if a.u == b.u == at), None)
        if side is not None:
            runs += _end(side, ends[side][1], a, b)
        else:
            before: EdgeKind = runs[-1].kind if runs and runs[-1].side is None else base
            runs.append(_Run(a, base if b.u > a.u else top if b.u < a.u else before))
    return Surface(
        id=id,
        name=name,
        outline=tuple(run.corner for run in runs),
        edges=tuple(_edge(run) for run in runs),
        openings=tuple(openings),
        zones=tuple(zones),
        facing=facing,
        tilt=tilt,
        foot=foot,
        count=count,
    )


def _turn(corners: Sequence[Corner]) -> Length:
    """Twice the area within, below 0 where the corners run clockwise [m2]."""
    return sum((a.u * b.v - b.u * a.v for a, b in pairwise([*corners, corners[0]])), NOUGHT)


def _end(name: str, side: WallSide, a: Corner, b: Corner) -> list[_Run]:
    """An end, in two where it changes on the way up."""
    low, high = min(a.v, b.v), max(a.v, b.v)
    if side.up_to is None or side.up_to == high:
        return [_Run(a, side.kind, side)]
    if not low < side.up_to < high:
        raise Unreadable(Fault("measure.up-to", name, write(side.up_to), f"{write(low)} … {write(high)}"))
    middle = Corner(f"{name}-break", a.u, side.up_to)
    lower, upper = (a, middle) if a.v < b.v else (middle, a)
    runs = [_Run(lower, side.kind, side), _Run(upper, side.above, side, above=True)]
    return runs if a.v < b.v else runs[::-1]


def _edge(run: _Run) -> Edge:
    if run.side is None:
        return Edge(run.corner.id, run.kind, run.corner.id)
    if run.above:
        return Edge(run.corner.id, run.kind, run.corner.id, run.side.above_shared)
    return Edge(run.corner.id, run.kind, run.corner.id, run.side.shared, run.side.meets)
