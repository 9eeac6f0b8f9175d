"""How thick the plaster is over a wall: lines of one thickness, hatching past the limit, what is unread."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor, hypot

import shapely
from shapely.geometry.base import BaseGeometry

from darby.drawing.elevation import HATCHES, elevation
from darby.drawing.geometry import area_of, flat_outline
from darby.drawing.lettering import inches
from darby.drawing.model import Mark, Point
from darby.measure.surface import Surface
from darby.measure.units import IN, UNITS, System
from darby.words import Language

EIGHTH = float(IN) / 8
THREE_MM = 3 * float(UNITS["mm"].scale)
MOST = 12
"""So many lines of one thickness are drawn; where there would be more, every second of them."""
PARTS = (0.5, 0.25, 0.75, 0.1, 0.9)
"""Where along its line a figure may stand, the best first."""
CLEAR = 0.6
"""Figures nearer to each other than that are hard to read [m]: one is left out."""
SHORT = 0.15
"""A line that is shorter is not lettered [m]."""

Outline = tuple[Point, ...]


def thickness_map(
    surface: Surface, points: Sequence[Point], thickness: Sequence[float], triangles: Sequence[tuple[int, int, int]], *,
    past: Sequence[Outline] = (), unread: Sequence[Outline] = (), readings: Sequence[Point] = (),
    language: Language = "en", system: System = "us",
) -> tuple[Mark, ...]:  # fmt: skip
    """Marks of the map.

    Parameters
    ----------
    points, thickness, triangles
        the plaster at points of the wall [m], straight over each triangle (three places in ``points``).
    past
        outlines of what is thicker than may hang without lath.
    unread
        outlines of what lies far from any reading: there the thickness is not known.
    readings
        where the wall was read.
    """
    bases = set(HATCHES.values())
    marks = [m for m in elevation(surface, sizes=False, language=language, system=system) if m.role not in bases]
    wall = area_of(flat_outline(surface.outline))
    net = wall.difference(shapely.union_all([area_of(flat_outline(o.outline)) for o in surface.openings]))
    marks += [Mark("hatch", outline, "past", f"{surface.id}/past-{n}") for n, outline in enumerate(past, 1)]
    marks += [Mark("polygon", outline, "unread", f"{surface.id}/unread-{n}") for n, outline in enumerate(unread, 1)]
    lettered: list[Point] = []
    for level in _levels(thickness, system):
        marks += _contour(surface, points, thickness, triangles, level, net, system, lettered)
    marks += [Mark("symbol", (place,), "dot", surface.id) for place in readings]
    return tuple(marks)


def _levels(thickness: Sequence[float], system: System) -> list[float]:
    step = EIGHTH if system == "us" else THREE_MM
    low, high = min(thickness), max(thickness)
    while (high - low) / step > MOST:
        step *= 2
    return [n * step for n in range(ceil(low / step), floor(high / step) + 1)]


def _contour(surface: Surface, points: Sequence[Point], thickness: Sequence[float],
             triangles: Sequence[tuple[int, int, int]], level: float, net: BaseGeometry,
             system: System, lettered: list[Point]) -> list[Mark]:  # fmt: skip
    """One line of one thickness, clipped to the wall, its longest piece lettered clear of the others."""
    cuts = [cut for trio in triangles if (cut := _across(points, thickness, trio, level)) is not None]
    if not cuts:
        return []
    lines = shapely.line_merge(shapely.intersection(shapely.union_all([shapely.LineString(c) for c in cuts]), net))
    kept = [line for line in shapely.get_parts(lines) if isinstance(line, shapely.LineString)]
    ref = f"{surface.id}/{inches(level, system)}"
    marks = [Mark("polyline", tuple((float(u), float(v)) for u, v in line.coords), "contour", ref) for line in kept]
    longest = max(kept, key=lambda line: line.length, default=None)
    if longest is not None and longest.length > SHORT:
        spots = [longest.interpolate(part, normalized=True) for part in PARTS]
        away = [min((hypot(s.x - u, s.y - v) for u, v in lettered), default=CLEAR) for s in spots]
        clear = next((s for s, far in zip(spots, away, strict=True) if far >= CLEAR), None)
        if clear is not None:
            lettered.append((clear.x, clear.y))
            marks.append(Mark("text", ((clear.x, clear.y),), "figure", ref, inches(level, system)))
    return marks


def _across(points: Sequence[Point], thickness: Sequence[float], trio: tuple[int, int, int],
            level: float) -> tuple[Point, Point] | None:  # fmt: skip
    """Where a level crosses a triangle: a corner that just meets it counts as above."""
    ends: list[Point] = []
    for a, b in ((0, 1), (1, 2), (2, 0)):
        p, q = sorted((trio[a], trio[b]))  # the same place, to the last digit, from both sides of an edge
        one, other = thickness[p] - level, thickness[q] - level
        if (one >= 0) != (other >= 0):
            t = one / (one - other)
            ends.append(
                (points[p][0] + t * (points[q][0] - points[p][0]), points[p][1] + t * (points[q][1] - points[p][1]))
            )
    return (ends[0], ends[1]) if len(ends) == 2 and ends[0] != ends[1] else None
