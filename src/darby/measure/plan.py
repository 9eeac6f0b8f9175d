"""The plan of a house: at which corners it turns outward and at which inward, told from the lengths of its walls."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from quicktions import Fraction

from darby.measure.faults import Fault, Unreadable
from darby.measure.surface import Length

OUT, IN_ = 90.0, -90.0
"""Degrees that a plan turns at an outside and at an inside corner."""

CLOSES_WITHIN = Fraction(1, 100)
"""Of the way round: tape and wall differ by less, and a wrong corner by far more."""

MOST_WALLS = 14
"""Above it nobody should have a machine guess his corners."""


def turns_of(walls: Sequence[Length], closed: bool, turns: Sequence[float] | None = None) -> tuple[float, ...]:
    """Degrees turned at the right end of each wall, walking round outside from left to right.

    As given (-90 at every corner: a room, seen from inside); else 90 everywhere for an open row of walls and for
    four walls; else the one way in which right angles close the plan to within a hundredth without crossing it.

    Raises
    ------
    Unreadable
        ``measure.turns``: not one for each corner, not 360 degrees round, or no one way to close the plan.
    """
    corners = len(walls) if closed else len(walls) - 1
    if turns is not None:
        if len(turns) != corners:
            raise Unreadable(Fault("measure.turns", "turns", str(len(turns)), str(corners)))
        if closed and abs(abs(sum(turns)) - 360) > 1:
            raise Unreadable(Fault("measure.turns", "turns", f"{sum(turns):g}°", "360°, -360°"))
        return tuple(turns)
    if not closed or len(walls) == 4:
        return (OUT,) * corners
    ways = list(_ways(walls)) if len(walls) % 2 == 0 and len(walls) <= MOST_WALLS else []
    if len(ways) != 1:
        offered = "; ".join(", ".join(f"{t:g}" for t in way) for way in ways[:2]) or "90, -90, …"
        raise Unreadable(Fault("measure.turns", "turns", str(len(ways)), offered))
    return ways[0]


def _ways(walls: Sequence[Length]) -> list[tuple[float, ...]]:
    from shapely.geometry import LinearRing

    n = len(walls)
    slack = sum(walls) * CLOSES_WITHIN
    ways = []
    for inward in combinations(range(n), (n - 4) // 2):
        turns = tuple(IN_ if at in inward else OUT for at in range(n))
        points = _walked(walls, turns)
        if max(map(abs, points[-1])) <= slack and LinearRing(points[:-1]).is_simple:
            ways.append(turns)
    return ways


def _walked(walls: Sequence[Length], turns: Sequence[float]) -> list[tuple[Fraction, Fraction]]:
    x, y, way = Fraction(0), Fraction(0), (1, 0)
    points = [(x, y)]
    for length, turn in zip(walls, turns, strict=True):
        x, y = x + way[0] * length, y + way[1] * length
        points.append((x, y))
        way = (-way[1], way[0]) if turn > 0 else (way[1], -way[0])
    return points
