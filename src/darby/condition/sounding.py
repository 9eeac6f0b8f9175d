"""Where a wall is tapped, and the hollow areas that the taps draw."""

from __future__ import annotations

from collections.abc import Iterable

import shapely
from quicktions import Fraction
from shapely.geometry.base import BaseGeometry

from darby.condition.survey_model import Heard, Hollow, Point, Tap
from darby.measure.outline import polygon
from darby.measure.surface import Corner, Surface
from darby.measure.tapping import TapGrid, tap_grid

HEARD: dict[str, Heard] = {"s": "sound", "h": "hollow", ".": "not tapped"}
STEPS = ((1, 0), (-1, 0), (0, 1), (0, -1))


def shape_of(points: Iterable[Point]) -> BaseGeometry:
    """Points as an area."""
    return polygon(tuple(Corner("", u, v) for u, v in points))


def bare_wall(surface: Surface) -> BaseGeometry:
    """The wall without its openings."""
    holes = [polygon(opening.outline) for opening in surface.openings]
    return polygon(surface.outline).difference(shapely.union_all(holes))


def taps_of(surface: Surface, spacing: Fraction, rows: tuple[str, ...]) -> tuple[Tap, ...]:
    """A tap in the middle of every square that lies on the wall, from the lower left, row by row."""
    grid, wall = tap_grid(surface.outline, spacing), bare_wall(surface)
    found = []
    for row in range(grid.high):
        for column in range(grid.wide):
            u, v = grid.middle(column, row)
            if wall.covers(shapely.Point(float(u), float(v))):
                heard = HEARD[rows[grid.high - 1 - row][column]] if rows else None
                found.append(Tap(u, v, column, row, heard))
    return tuple(found)


def tapped_hollow(
    surface: Surface, spacing: Fraction, taps: tuple[Tap, ...], drawn: tuple[Hollow, ...]
) -> tuple[Hollow, ...]:
    """Squares that sound hollow and touch, each group one area; what he drew himself stands and is left out."""
    grid = tap_grid(surface.outline, spacing)
    by_hand = shapely.union_all([shape_of(h.outline) for h in drawn])
    left = {
        (tap.column, tap.row)
        for tap in taps
        if tap.heard == "hollow" and not by_hand.covers(shapely.Point(float(tap.u), float(tap.v)))
    }
    wall = bare_wall(surface).difference(by_hand)
    found: list[Hollow] = []
    for tap in taps:
        if (tap.column, tap.row) in left:
            for outline in _outlines(grid, _group(left, (tap.column, tap.row)), wall):
                found.append(Hollow(f"tapped-{len(found) + 1}", outline))
    return tuple(found)


def _group(left: set[tuple[int, int]], start: tuple[int, int]) -> list[tuple[int, int]]:
    """All squares that hang together with ``start``, taken out of ``left``."""
    group, ahead = [], [start]
    left.discard(start)
    while ahead:
        here = ahead.pop()
        group.append(here)
        for across, up in STEPS:
            there = (here[0] + across, here[1] + up)
            if there in left:
                left.discard(there)
                ahead.append(there)
    return group


def _outlines(grid: TapGrid, group: list[tuple[int, int]], wall: BaseGeometry) -> list[tuple[Point, ...]]:
    boxes = [shapely.box(*(float(x) for x in grid.box(*square))) for square in group]
    area = shapely.union_all(boxes).intersection(wall)
    parts = [part for part in getattr(area, "geoms", (area,)) if part.geom_type == "Polygon" and part.area]
    return [tuple((Fraction(u), Fraction(v)) for u, v in part.exterior.coords[:-1]) for part in parts]
