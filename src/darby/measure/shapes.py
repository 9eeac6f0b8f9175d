"""Shapes that write surfaces: a wall, a house, the openings and zones on them. Exact lengths in, stable ids out.

Ids a shape writes: corners ``base-left``, ``base-right``, ``top-right``, ``peak``, ``top-left`` (and ``left-break``,
``right-break`` where a side changes its kind on the way up); edges ``base``, ``right``, ``right-above``, ``top`` (or
``top-right`` and ``top-left`` beside a peak), ``left-above``, ``left``.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from quicktions import Fraction

from darby.measure.faults import Fault, Unreadable
from darby.measure.openings import OpeningLine
from darby.measure.plan import turns_of
from darby.measure.surface import Corner, Edge, EdgeKind, Length, Meets, Opening, Side, Surface, Zone
from darby.measure.writing import write

Point = tuple[Length, Length]
NOUGHT = Fraction(0)
UPRIGHT = 90.0


@dataclass(frozen=True, slots=True)
class WallSide:
    """The left or right end of a wall, from its base up to ``up_to`` [m] (None: to the top); ``above`` is the rest.

    ``shared`` names the corner line it has in common with another surface: ``corner_line("bay-south", "bay-east")``.
    """

    kind: EdgeKind = "outside corner"
    shared: str | None = None
    meets: Meets | None = None
    up_to: Length | None = None
    above: EdgeKind = "outside corner"
    above_shared: str | None = None


FREE_END = WallSide()
AGAINST = WallSide("inside corner")
"""An end that stands free, and one that stands against something."""


def corner_line(one: str, other: str) -> str:
    """The name of the corner line that two surfaces have in common, whichever is named first."""
    return "|".join(sorted((one, other)))


def opening(
    id: str,
    name: str,
    width: Length,
    height: Length,
    at: Length,
    up: Length,
    *,
    reveal: Length = NOUGHT,
    frame_depth: Length | None = None,
    plastered: Iterable[Side] = (),
    rise: Length = NOUGHT,
) -> Opening:
    """A rectangular opening ``at`` from the wall's left end and ``up`` from its base [m].

    ``rise`` [m] arches the head: the middle of the arc stands at ``height``, its springs ``rise`` lower.

    Raises
    ------
    Unreadable
        ``measure.rise`` where the rise is more than the height, or more than half the width.
    """
    if rise < 0 or rise > height or rise > width / 2:
        raise Unreadable(Fault("measure.rise", "", write(rise), f'0" … {write(min(height, width / 2))}'))
    top = up + height - rise
    outline = (
        Corner("base-left", at, up),
        Corner("base-right", at + width, up),
        Corner("top-right", at + width, top, float(2 * rise / width)),
        Corner("top-left", at, top),
    )
    return Opening(id, name, outline, reveal, frame_depth, frozenset(plastered))


def opening_of(id: str, name: str, line: OpeningLine, plastered: Iterable[Side] = ()) -> Opening:
    """The opening that one line of a measuring sheet describes. A reveal nobody measured is none."""
    return opening(
        id,
        name,
        line.width,
        line.height,
        line.at,
        line.up,
        reveal=line.reveal or NOUGHT,
        frame_depth=line.frame,
        plastered=plastered,
    )


def zone(
    id: str,
    base: str,
    points: Sequence[Point] | None = None,
    *,
    traits: Iterable[str] = (),
    out_of_plane: Length | None = None,
) -> Zone:
    """A zone within ``points`` (u, v) [m], in either direction round; None: the rest of the surface."""
    outline = None if points is None else tuple(Corner(f"c{n}", u, v) for n, (u, v) in enumerate(points, 1))
    return Zone(id, base, outline, frozenset(traits), out_of_plane)


def wall(
    id: str,
    name: str,
    length: Length,
    height: Length,
    *,
    gable: Length = NOUGHT,
    left: WallSide = WallSide(),
    right: WallSide = WallSide(),
    base: EdgeKind = "base",
    top: EdgeKind = "top",
    openings: Iterable[Opening] = (),
    zones: Iterable[Zone] = (),
    facing: float | None = None,
    tilt: float = UPRIGHT,
    foot: Length = NOUGHT,
    count: int = 1,
    shape: str | None = None,
) -> Surface:
    """A rectangular wall ``length`` by ``height`` [m], with a peak ``gable`` [m] above it, mid-way.

    Parameters
    ----------
    left, right
        what the ends are, seen from outside; a side that changes on the way up is split in two edges.
    base, top
        kinds of the lower edge and of the upper one (of both slopes where there is a gable).
    facing, tilt, foot, count
        as in ``Surface``.

    Raises
    ------
    Unreadable
        ``measure.up-to`` where a side is said to change at or below the base, or above the top.
    """
    corners = [Corner("base-left", NOUGHT, NOUGHT), Corner("base-right", length, NOUGHT)]
    edges = [Edge("base", base, "base-left")]
    if _broken("right", right, height):
        at = right.up_to or NOUGHT
        edges += [
            Edge("right", right.kind, "base-right", right.shared, right.meets),
            Edge("right-above", right.above, "right-break", right.above_shared),
        ]
        corners += [Corner("right-break", length, at)]
    else:
        edges += [Edge("right", right.kind, "base-right", right.shared, right.meets)]
    corners += [Corner("top-right", length, height)]
    if gable > 0:
        corners += [Corner("peak", length / 2, height + gable)]
        edges += [Edge("top-right", top, "top-right"), Edge("top-left", top, "peak")]
    else:
        edges += [Edge("top", top, "top-right")]
    corners += [Corner("top-left", NOUGHT, height)]
    if _broken("left", left, height):
        edges += [
            Edge("left-above", left.above, "top-left", left.above_shared),
            Edge("left", left.kind, "left-break", left.shared, left.meets),
        ]
        corners += [Corner("left-break", NOUGHT, left.up_to or NOUGHT)]
    else:
        edges += [Edge("left", left.kind, "top-left", left.shared, left.meets)]
    return Surface(
        id=id,
        name=name,
        outline=tuple(corners),
        edges=tuple(edges),
        openings=tuple(openings),
        zones=tuple(zones),
        facing=facing,
        tilt=tilt,
        foot=foot,
        count=count,
        shape=shape,
    )


def _broken(name: str, side: WallSide, height: Length) -> bool:
    if side.up_to is None:
        return False
    if not 0 < side.up_to <= height:
        raise Unreadable(Fault("measure.up-to", name, write(side.up_to), f'0" … {write(height)}'))
    return side.up_to < height


def house(
    id: str,
    name: str,
    walls: Sequence[Length],
    height: Length,
    *,
    closed: bool = True,
    facing: float | None = None,
    turns: Sequence[float] | None = None,
    gables: Mapping[int, Length] | None = None,
    openings: Mapping[int, Iterable[Opening]] | None = None,
    zones: Iterable[Zone] = (),
    left: WallSide = WallSide("inside corner"),
    right: WallSide = WallSide("inside corner"),
    base: EdgeKind = "base",
    top: EdgeKind = "top",
    foot: Length = NOUGHT,
) -> tuple[Surface, ...]:
    """The walls of a house, from left to right as one walks round it outside: surfaces ``<id>-1``, ``<id>-2`` ...

    Parameters
    ----------
    walls
        their lengths [m]; wall 1 first. Each wall's right end is the next one's left end.
    closed
        the last wall meets the first; else ``left`` and ``right`` are the two ends that stay open.
    facing
        of wall 1, degrees from north; the others turn with the plan: south, east, north, west.
    turns
        degrees that the plan turns at the right end of each wall: 90 an outside corner, -90 an inside one. One for
        each corner: as many as walls where closed, one less where not. None: told from the lengths (``plan``).
    gables, openings
        by number of the wall: rise of its peak [m]; what is in it.
    zones
        on every wall alike.

    Raises
    ------
    Unreadable
        ``measure.too-few-walls``, ``measure.turns`` (not one for each corner, or a plan that does not close in one
        way), ``measure.no-such-wall`` for a gable or opening on a wall that is not there.
    """
    n = len(walls)
    if n < (3 if closed else 1):
        raise Unreadable(Fault("measure.too-few-walls", "", str(n), "3 …" if closed else "1 …"))
    for number in (*(gables or {}), *(openings or {})):
        if not 1 <= number <= n:
            raise Unreadable(Fault("measure.no-such-wall", "", str(number), f"1 … {n}"))
    bends = turns_of(walls, closed, turns)
    ids = [f"{id}-{number}" for number in range(1, n + 1)]
    ends = [[left, right] for _ in walls]
    for at, bend in enumerate(bends):
        after = (at + 1) % n
        side = WallSide("outside corner" if bend > 0 else "inside corner", corner_line(ids[at], ids[after]))
        ends[at][1] = ends[after][0] = side
    made = []
    for at, length in enumerate(walls):
        turned = None if facing is None else (facing - sum(bends[:at])) % 360
        made.append(
            wall(
                ids[at],
                f"{name} {at + 1}",
                length,
                height,
                gable=(gables or {}).get(at + 1, NOUGHT),
                left=ends[at][0],
                right=ends[at][1],
                base=base,
                top=top,
                openings=(openings or {}).get(at + 1, ()),
                zones=tuple(zones),
                facing=turned,
                foot=foot,
                shape=id,
            )
        )
    return tuple(made)


def faces(surface: Surface, count: int) -> Surface:
    """The same surface standing there ``count`` times: both faces of a fence, five equal pilasters."""
    return replace(surface, count=count)
