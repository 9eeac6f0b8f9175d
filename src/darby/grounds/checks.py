"""What cannot be trued: too few readings, readings off the wall, two that disagree. The first is refused.

Codes: "grounds.few", "grounds.in-line", "grounds.off-wall", "grounds.in-opening", "grounds.disagree",
"grounds.one-side", "grounds.close", "grounds.no-number", "grounds.least", "grounds.no-wall".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite

import numpy as np
import shapely
from numpy.typing import NDArray

from darby.grounds.model import GroundsAsk, Point
from darby.measure.checks import SLIVER
from darby.measure.faults import Fault, Unreadable
from darby.measure.outline import polygon
from darby.measure.units import unit
from darby.measure.writing import HAIR, between, write

Array = NDArray[np.float64]
THREE = len(Point.__args__)  # type: ignore[attr-defined]
"""A plane wants three readings."""


def refuse(code: str, at: str, found: str, allowed: str) -> Unreadable:
    """The fault, ready to be raised."""
    return Unreadable(Fault(code, at, found, allowed))


def points_of(points: Sequence[Point], at: str, what: str) -> Array:
    """Readings or fixed points as (n, 3) floats.

    Raises
    ------
    Unreadable
        "grounds.no-number".
    """
    for n, point in enumerate(points, 1):
        if len(point) != THREE or not all(isfinite(x) for x in point):
            raise refuse("grounds.no-number", f"{at}, {what} {n}", ", ".join(str(x) for x in point), "u, v, out")
    return np.array([[float(x) for x in p] for p in points], dtype=float).reshape(-1, THREE)


def place(u: float, v: float) -> str:
    """Across and up, as measured from the wall's lower left."""
    return f"at {write(u)}, up {write(v)}"


def net_of(ask: GroundsAsk) -> tuple[shapely.Polygon, shapely.Polygon | shapely.MultiPolygon]:
    """The wall within its outline, and the same without its openings.

    Raises
    ------
    Unreadable
        "grounds.no-wall": nothing is left of it, or its outline crosses itself.
    """
    whole = polygon(ask.outline)
    if not whole.is_valid or whole.area <= SLIVER:
        raise refuse("grounds.no-wall", ask.at, shapely.is_valid_reason(whole), "u, v")
    net = whole
    for opening in ask.openings:
        net = shapely.difference(net, polygon(opening.outline))
    kept = [p for p in shapely.get_parts(net) if isinstance(p, shapely.Polygon) and p.area > SLIVER]
    if not kept:
        raise refuse("grounds.no-wall", ask.at, ", ".join(o.id for o in ask.openings), "u, v")
    return whole, kept[0] if len(kept) == 1 else shapely.MultiPolygon(kept)


@dataclass(frozen=True)
class Checked:
    """Readings (n, 3), each place once, with the number each was written under; fixed points (m, 3); the wall within
    its outline, and without its openings."""

    readings: Array
    numbers: tuple[int, ...]
    fixed: Array
    whole: shapely.Polygon
    net: shapely.Polygon | shapely.MultiPolygon


def checked(ask: GroundsAsk) -> Checked:
    """The ask as numbers. A reading written twice and alike counts once.

    Raises
    ------
    Unreadable
        as listed above.
    """
    whole, net = net_of(ask)
    readings = points_of(ask.readings, ask.at, "reading")
    fixed = points_of(ask.fixed, ask.at, "fixed")
    if not float(ask.least) >= 0 or not isfinite(float(ask.least)):
        raise refuse("grounds.least", ask.at, write(float(ask.least), "in"), '0" ...')
    _spacing(ask)
    if len(readings) < THREE:
        raise refuse("grounds.few", ask.at, str(len(readings)), f"{THREE} ...")
    _on_the_wall(ask, readings, net, "reading")
    _on_the_wall(ask, fixed, whole, "fixed")
    once = _agree(ask, readings, "reading")
    fixed = fixed[_agree(ask, fixed, "fixed")]
    readings = readings[once]
    spread = readings[:, :2] - readings[:, :2].mean(axis=0)
    if np.linalg.matrix_rank(spread, tol=float(HAIR)) < 2:
        raise refuse("grounds.in-line", ask.at, str(len(readings)), f"{THREE} ...")
    _around_the_middle(ask, readings, fixed, net)
    return Checked(readings, tuple(n + 1 for n in once), fixed, whole, net)


def _spacing(ask: GroundsAsk) -> None:
    least = ask.book.number("grounds.spacing-least")
    if ask.spacing is not None and not float(ask.spacing) >= least.number:
        raise refuse("grounds.close", ask.at, write(float(ask.spacing)), f"{least.written} ...")


def _on_the_wall(ask: GroundsAsk, points: Array, area: shapely.Geometry, what: str) -> None:
    """Every point on the wall and in none of its openings; a hair off its edge is on it."""
    off = shapely.distance(shapely.points(points[:, :2]), area) > float(HAIR)
    for n in np.flatnonzero(off):
        u0, v0, u1, v1 = area.bounds
        across, up = (between(low, high, unit("ft-in")) for low, high in ((u0, u1), (v0, v1)))
        holes = [o.id for o in ask.openings if polygon(o.outline).covers(shapely.Point(points[n, :2]))]
        at, found = f"{ask.at}, {what} {n + 1}", place(points[n, 0], points[n, 1])
        if holes and what == "reading":
            raise refuse("grounds.in-opening", at, found, ", ".join(holes))
        raise refuse("grounds.off-wall", at, found, f"at {across}, up {up}")


def _agree(ask: GroundsAsk, points: Array, what: str) -> list[int]:
    """The first of every place."""
    seen: dict[tuple[float, float], int] = {}
    for n, (u, v, out) in enumerate(points):
        first = seen.setdefault((u, v), n)
        if abs(points[first, 2] - out) > float(HAIR):
            found = f"{write(points[first, 2], 'in')}, {write(out, 'in')}"
            raise refuse("grounds.disagree", f"{ask.at}, {what} {first + 1}, {n + 1}", found, place(u, v))
    return list(seen.values())


def _around_the_middle(ask: GroundsAsk, readings: Array, fixed: Array, net: shapely.Geometry) -> None:
    """A plane that may turn needs readings on both sides of the middle of the wall, or nothing holds its far end."""
    middle = net.centroid.x
    us = np.concatenate([readings[:, 0], fixed[:, 0]])
    held = np.ptp(fixed[:, 0]) > 0 if len(fixed) else False
    if not held and not us.min() <= middle <= us.max():
        found = between(us.min(), us.max(), unit("ft-in"))
        raise refuse("grounds.one-side", ask.at, found, f"... {write(middle)} ...")
