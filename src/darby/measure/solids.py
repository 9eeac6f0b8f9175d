"""Boxes, strips and rings: a chimney on its roof, a soffit, the patch round a window. Exact, each corner once.

A box ``ch`` is written as ``ch-1``, ``ch-2`` ... from left to right as one walks round it outside, with ``ch-top``
where its top is plastered; a strip and a ring are one surface each, called as the shape is.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import atan2, degrees
from typing import Literal

from quicktions import Fraction

from darby.measure.faults import Fault, Unreadable
from darby.measure.garden import CAPS, Cap
from darby.measure.outline import distance
from darby.measure.panels import Line, panel
from darby.measure.shapes import AGAINST, UPRIGHT, WallSide, corner_line, opening, wall
from darby.measure.surface import Corner, Edge, EdgeKind, Length, Meets, Opening, Side, Surface, Zone
from darby.measure.writing import write

NOUGHT = Fraction(0)
QUARTER = 90.0

StripKind = Literal["soffit", "band", "foundation"]
ROUND: tuple[Side, ...] = ("head", "sill", "left", "right")


# --- a box -------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Roof:
    """The roof a box stands on: rise over run, the number of the side that looks down it, whether it is its ridge."""

    pitch: Fraction
    down: int = 1
    ridge: bool = False


def box(
    id: str,
    name: str,
    sides: Sequence[Length],
    height: Length,
    cap: Cap,
    *,
    roof: Roof | None = None,
    base: EdgeKind = "grade",
    openings: Mapping[int, Iterable[Opening]] | None = None,
    zones: Iterable[Zone] = (),
    left: WallSide = AGAINST,
    right: WallSide = AGAINST,
    facing: float | None = None,
    foot: Length = NOUGHT,
    count: int = 1,
) -> tuple[Surface, ...]:
    """The sides of a box: a chimney, a column, a planter.

    Parameters
    ----------
    sides
        two lengths [m]: all four sides, side 1 the first length; three: side 1, 2, 3 of a box that stands against
        a wall.
    height
        [m], of side 1; on a roof, of the side that looks down it, where the box is highest.
    cap
        how its top is kept dry; a plastered slope falls to the front (side 1 of four, side 2 of three) or to the back,
        and ``height`` is where it is lowest.
    roof
        what it stands on, where it comes out of a roof: the lower edges follow it and are roof lines.
    openings
        by number of the side.
    left, right
        what the free ends of three sides meet.
    facing
        of side 1, degrees from north.

    Raises
    ------
    Unreadable
        ``measure.box-sides`` (place ``sides``) for other than two or three sides; ``measure.no-such-wall`` (place
        ``roof`` for the side that looks down, else none); ``measure.slope-past-top`` (place ``roof``) where the roof
        rises past the top; ``measure.cap-fall`` (place ``cap``) for a slope that does not fall, or falls both ways.
    """
    check_sides(len(sides))
    closed = len(sides) == 2
    lengths = (*sides, *sides) if closed else tuple(sides)
    n = len(lengths)
    for number in openings or {}:
        if not 1 <= number <= n:
            raise Unreadable(Fault("measure.no-such-wall", "", str(number), f"1 … {n}"))
    if cap.kind == "slope" and (cap.fall <= 0 or cap.to == "both"):
        found = write(cap.fall) if cap.to != "both" else cap.to
        raise Unreadable(Fault("measure.cap-fall", "cap", found, '1", 2"'))
    front = 0 if closed else 1
    feet = _feet(lengths, height, roof, n)
    tops = _heights(n, height, cap, front)
    ids = [f"{id}-{number}" for number in range(1, n + 1)]
    made = []
    for at, length in enumerate(lengths):
        after, before = (at + 1) % n, (at - 1) % n
        ends = [
            WallSide("outside corner", corner_line(ids[at], ids[other]))
            if closed or 0 <= at + step < n
            else (left, right)[step > 0]
            for step, other in ((-1, before), (1, after))
        ]
        over = corner_line(ids[at], f"{id}-top") if cap.kind == "slope" else None
        kind: EdgeKind = "roof line" if roof is not None else base
        low_left, low_right, peak = feet[at]
        made.append(
            panel(
                ids[at],
                f"{name} {at + 1}",
                length,
                Line(kind, low_left, low_right, peak),
                Line(CAPS[cap.kind], *tops[at], None, over),
                left=ends[0],
                right=ends[1],
                openings=tuple((openings or {}).get(at + 1, ())),
                zones=tuple(zones),
                facing=None if facing is None else (facing - QUARTER * at) % 360,
                foot=foot,
                count=count,
                shape=id,
            )
        )
    if cap.kind == "slope":
        ahead = None if facing is None else facing - QUARTER * front
        wide, deep = lengths[front], lengths[front + 1]
        made.append(_lid(id, name, wide, deep, ids, front, cap, tuple(zones), ahead, foot + height, count))
    return tuple(made)


def check_sides(count: int) -> None:
    """Refuse a box of other than two or three measured sides.

    Raises
    ------
    Unreadable
        ``measure.box-sides`` (place ``sides``).
    """
    if not 2 <= count <= 3:
        raise Unreadable(Fault("measure.box-sides", "sides", str(count), "2 … 3"))


def _feet(
    lengths: Sequence[Length], height: Length, roof: Roof | None, n: int
) -> list[tuple[Length, Length, tuple[Length, Length] | None]]:
    """Of each side how high its lower edge is at the left and right, over the lowest, and where a ridge crosses it."""
    flat = [(NOUGHT, NOUGHT, None)] * n
    if roof is None:
        return list(flat)
    if not 1 <= roof.down <= n:
        raise Unreadable(Fault("measure.no-such-wall", "roof", str(roof.down), f"1 … {n}"))
    run = lengths[roof.down] if roof.down < n else lengths[roof.down - 2]  # the sides beside it run up the roof
    rise = roof.pitch * (run / 2 if roof.ridge else run)
    if rise >= height:
        raise Unreadable(Fault("measure.slope-past-top", "roof", write(rise), f"< {write(height)}"))
    feet: list[tuple[Length, Length, tuple[Length, Length] | None]] = list(flat)
    beside = {(roof.down - 2) % 4: (rise, NOUGHT), roof.down % 4: (NOUGHT, rise)}
    for at, (at_left, at_right) in beside.items():
        if at < n:
            peak = (lengths[at] / 2, rise)
            feet[at] = (NOUGHT, NOUGHT, peak) if roof.ridge else (at_left, at_right, None)
    across = (roof.down + 1) % 4
    if across < n and not roof.ridge:
        feet[across] = (rise, rise, None)
    return feet


def _heights(n: int, height: Length, cap: Cap, front: int) -> list[tuple[Length, Length]]:
    """Of each side how high its upper edge is at the left and at the right."""
    if cap.kind != "slope":
        return [(height, height)] * n
    near, far = (height, height + cap.fall) if cap.to == "front" else (height + cap.fall, height)
    round_it = [(near, near), (near, far), (far, far), (far, near)]
    return [round_it[at - front] for at in range(n)]


def _lid(
    id: str, name: str, wide: Length, deep: Length, ids: Sequence[str], front: int, cap: Cap,
    zones: tuple[Zone, ...], facing: float | None, foot: Length, count: int,
) -> Surface:  # fmt: skip
    """The plastered top, seen from above with the front at its foot."""
    top = f"{id}-top"
    slant = distance((NOUGHT, NOUGHT), (deep, cap.fall))
    corners = (
        Corner("base-left", NOUGHT, NOUGHT), Corner("base-right", wide, NOUGHT), Corner("top-right", wide, slant),
        Corner("top-left", NOUGHT, slant),
    )  # fmt: skip
    named = ("base", "right", "top", "left")
    edges = []
    for n, (edge, corner) in enumerate(zip(named, corners, strict=True)):
        at = (front + n) % len(named)
        if at < len(ids):
            edges.append(Edge(edge, "outside corner", corner.id, corner_line(top, ids[at])))
        else:
            edges.append(Edge(edge, "inside corner", corner.id))
    towards = None if facing is None else (facing + (0 if cap.to == "front" else 180)) % 360
    tilt = degrees(atan2(float(cap.fall), float(deep)))
    return Surface(
        top, f"{name}, top", corners, tuple(edges), (), zones, towards, tilt, foot, count, id, says=("top", name)
    )


# --- a strip -----------------------------------------------------------------------------------------

INNER: Mapping[StripKind, EdgeKind] = {"soffit": "inside corner", "band": "base", "foundation": "grade"}
OUTER: Mapping[StripKind, EdgeKind] = {"soffit": "drip", "band": "drip", "foundation": "floor line"}
TILTS: Mapping[StripKind, float] = {"soffit": 180.0, "band": UPRIGHT, "foundation": UPRIGHT}


def strip(
    id: str,
    name: str,
    length: Length,
    width: Length,
    kind: StripKind,
    *,
    inner: EdgeKind | None = None,
    outer: EdgeKind | None = None,
    left: WallSide = AGAINST,
    right: WallSide = AGAINST,
    openings: Iterable[Opening] = (),
    zones: Iterable[Zone] = (),
    facing: float | None = None,
    tilt: float | None = None,
    foot: Length = NOUGHT,
    count: int = 1,
) -> Surface:
    """A long strip: a soffit (its inner edge at the wall), a band, the face of a foundation.

    ``inner``, ``outer``: its two long edges, at the wall and away from it, or below and above; None = as such a strip
    usually ends. ``tilt`` [deg]: None = a soffit level, anything else upright.
    """
    return wall(
        id, name, length, width, left=left, right=right,
        base=inner if inner is not None else INNER[kind],
        top=outer if outer is not None else OUTER[kind],
        openings=openings, zones=zones, facing=facing, tilt=TILTS[kind] if tilt is None else tilt, foot=foot,
        count=count, shape=id,
    )  # fmt: skip


# --- a ring ------------------------------------------------------------------------------------------


def ring(
    id: str,
    name: str,
    opening_width: Length,
    opening_height: Length,
    width: Length,
    *,
    sides: Iterable[Side] = ROUND,
    meets: Meets | None = None,
    at: Length | None = None,
    up: Length | None = None,
    wall_length: Length | None = None,
    wall_height: Length | None = None,
    base: EdgeKind = "base",
    opening_id: str = "opening-1",
    opening_name: str = "",
    reveal: Length = NOUGHT,
    plastered: Iterable[Side] = (),
    zones: Iterable[Zone] = (),
    facing: float | None = None,
    foot: Length = NOUGHT,
    count: int = 1,
) -> Surface:
    """The patch round an opening, ``width`` [m] wide on every one of its ``sides``, with the opening in it.

    Parameters
    ----------
    sides
        where it runs; without "sill" it stands on ``base``, round a door.
    meets
        the old work all round it.
    at, up, wall_length, wall_height
        where the opening is in its wall, and the wall [m], as far as anybody measured: the ring has to fit.

    Raises
    ------
    Unreadable
        ``measure.ring-outside`` (place ``width``) where it is larger than its wall; ``measure.ring-sides`` (place
        ``sides``) where it has none; ``measure.not-positive`` for one without a width.
    """
    if width <= 0:
        raise Unreadable(Fault("measure.not-positive", "width", write(width), '6"'))
    runs = frozenset(sides)
    if not runs:
        raise Unreadable(Fault("measure.ring-sides", "sides", "-", ", ".join(ROUND)))
    left, right, low, over = (width if side in runs else NOUGHT for side in ("left", "right", "sill", "head"))
    whole = (left + opening_width + right, low + opening_height + over)
    _fits("left", left, at, "-")
    _fits("sill", low, up, "-")
    for total, size in ((whole[0], wall_length), (whole[1], wall_height)):
        _fits("", total, size, "-")
    if at is not None and wall_length is not None:
        _fits("right", right, wall_length - at - opening_width, "-")
    if up is not None and wall_height is not None:
        _fits("head", over, wall_height - up - opening_height, "-")
    old = meets or Meets("old plaster")
    corners = (
        Corner("base-left", NOUGHT, NOUGHT), Corner("base-right", whole[0], NOUGHT),
        Corner("top-right", *whole), Corner("top-left", NOUGHT, whole[1]),
    )  # fmt: skip
    edges = tuple(
        Edge(edge, "meets old work", corner, None, old)
        if edge != "base" or "sill" in runs
        else Edge(edge, base, corner)
        for edge, corner in (("base", "base-left"), ("right", "base-right"), ("top", "top-right"), ("left", "top-left"))
    )
    hole = opening(
        opening_id, opening_name or opening_id, opening_width, opening_height, left, low, reveal=reveal,
        plastered=plastered,
    )  # fmt: skip
    lift = foot + ((up - low) if up is not None else NOUGHT)
    return Surface(
        id, name, corners, edges, (hole,), tuple(zones), facing, UPRIGHT, lift, count, id
    )  # fmt: skip


def _fits(side: str, needs: Length, room: Length | None, none: str) -> None:
    if room is not None and needs > room:
        found = f"{side} {write(needs)}".strip()
        allowed = f"≤ {write(room)}" if room > 0 else none
        raise Unreadable(Fault("measure.ring-outside", "width", found, allowed))
