"""Lath as it is put up: every sheet in its place with the number it is cut from, end laps, studs, strips and paper.

Marks of a layer of their own, to be drawn over a wall that is drawn without its hatching (``lathed_elevation``).
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

import shapely
from shapely.geometry.base import BaseGeometry

from darby.drawing.elevation import HATCHES, Joint, elevation
from darby.drawing.geometry import area_of, box, flat_outline, pieces
from darby.drawing.model import Mark, Point
from darby.measure.surface import Surface
from darby.measure.units import System
from darby.words import Language

if TYPE_CHECKING:
    from darby.lath import Lath, Piece

SMALLEST = 0.004
"""A scrap of a piece is not drawn [m2]."""
LETTERED = 0.2
"""A piece narrower or lower than this stands without its number [m]."""
ROOM = 10.0
"""Only a piece's length decides whether its number has room [m]."""


def lathed_elevation(
    surface: Surface,
    zones: Iterable[tuple[str, Lath]],
    *,
    joints: Iterable[Joint] = (),
    sizes: bool = True,
    language: Language = "en",
    system: System = "us",
) -> tuple[Mark, ...]:
    """A wall with its lath on it: outline, openings, joints and sizes as ever, sheets instead of hatching.

    Parameters
    ----------
    surface
        as measured [m].
    zones
        (zone id, its lath) of every zone that takes it.
    """
    found = list(zones)
    bare = set(HATCHES.values())
    around = elevation(surface, joints=joints, sizes=sizes, language=language, system=system)
    # what stands behind the lath is left out, and so are names of openings' parts over which sheets are lettered
    wall = [mark for mark in around if not (mark.role in bare and mark.kind == "hatch" and _takes(mark, found))]
    sheets = [mark for zone, lath in found for mark in lath_marks(surface, zone, lath)]
    opened = next((n for n, mark in enumerate(wall) if mark.role == "opening"), len(wall))
    return (*wall[:opened], *sheets, *wall[opened:])


def _takes(mark: Mark, zones: Iterable[tuple[str, Lath]]) -> bool:
    return any(mark.ref.endswith(f"/{zone}") for zone, _ in zones)


def lath_marks(surface: Surface, zone: str, lath: Lath) -> tuple[Mark, ...]:
    """Studs, paper, sheets, end laps and strips of one zone."""
    ref = f"{surface.id}/{zone}/lath"
    wall = _wall(surface, zone)
    marks = [*_studs(ref, wall, lath), *_paper(ref, wall, lath)]
    for piece in lath.pieces:
        marks += _piece(ref, wall, piece)
    for joint in lath.joints:
        ends = ((float(joint.u), float(joint.low)), (float(joint.u), float(joint.high)))
        marks.append(Mark("line", ends, "end lap", ref))
    marks += _strips(ref, surface, wall, lath)
    return tuple(marks)


def _wall(surface: Surface, zone: str) -> BaseGeometry:
    """The wall of a zone, its openings left out."""
    outlines = {z.id: area_of(flat_outline(z.outline)) for z in surface.zones if z.outline is not None}
    whole = outlines.get(zone) or area_of(flat_outline(surface.outline))
    others = [area for name, area in outlines.items() if name != zone]
    holes = [area_of(flat_outline(o.outline)) for o in surface.openings]
    return whole.difference(shapely.union_all([*others, *holes]))


def _studs(ref: str, wall: BaseGeometry, lath: Lath) -> list[Mark]:
    """Framing behind the sheets, where there is wall."""
    _, low, _, high = wall.bounds
    marks = []
    for u in map(float, lath.supports):
        behind = shapely.intersection(wall, shapely.LineString([(u, low), (u, high)]))
        for part in shapely.get_parts(behind):
            if part.geom_type == "LineString" and part.length:
                marks.append(Mark("line", _ends(part), "stud", ref))
    return marks


def _paper(ref: str, wall: BaseGeometry, lath: Lath) -> list[Mark]:
    """The upper edge of every course of the first layer: the next one laps over it."""
    if lath.paper is None:
        return []
    left, _, right, top = wall.bounds
    highs = sorted({float(s.high) for s in lath.paper.strips if s.layer == 1 and float(s.high) < top})
    marks = []
    for v in highs:
        line = shapely.intersection(wall, shapely.LineString([(left, v), (right, v)]))
        marks += [Mark("line", _ends(part), "paper course", ref) for part in shapely.get_parts(line)
                  if part.geom_type == "LineString" and part.length]  # fmt: skip
    return marks


def _ends(line: BaseGeometry) -> tuple[Point, ...]:
    return tuple((x, y) for x, y in line.coords)


def _piece(ref: str, wall: BaseGeometry, piece: Piece) -> list[Mark]:
    """One piece as far as it lies on the wall, lettered with its sheet; in brackets where it is an offcut."""
    sides = shapely.box(*(float(x) for x in (piece.left, piece.low, piece.right, piece.high)))
    marks = []
    largest: tuple[float, tuple[Point, ...]] = (0.0, ())
    for outline, _ in pieces(shapely.intersection(wall, sides)):
        size = area_of(outline).area
        if size < SMALLEST:
            continue
        marks.append(Mark("polygon", outline, "sheet", f"{ref}/{piece.id}"))
        largest = max(largest, (size, outline))
    if largest[1]:
        u0, v0, u1, v1 = box(largest[1])
        number = f"({piece.sheet})" if piece.reused else str(piece.sheet)
        if min(u1 - u0, v1 - v0) >= LETTERED:
            at = ((u0 + u1) / 2, (v0 + v1) / 2)
            marks.append(Mark("text", (at,), "sheet number", ref, number, room=(u1 - u0, ROOM), upright=True))
    return marks


def _strips(ref: str, surface: Surface, wall: BaseGeometry, lath: Lath) -> list[Mark]:
    """What of every strip lies on the face: beside an opening, or along an end of the wall."""
    left, low, right, high = wall.bounds
    holes = {o.id: box(flat_outline(o.outline)) for o in surface.openings}
    marks, seen = [], set()
    for strip in lath.strips:
        leg = float(strip.leg)
        if not leg or (strip.of, strip.side) in seen:
            continue
        seen.add((strip.of, strip.side))
        if strip.of in holes:
            u0, v0, u1, v1 = holes[strip.of]
            band = {
                "left": (u0 - leg, v0, u0, v1), "right": (u1, v0, u1 + leg, v1),
                "head": (u0, v1, u1, v1 + leg), "sill": (u0, v0 - leg, u1, v0),
            }[strip.side]  # fmt: skip
        else:
            band = (left, low, left + leg, high) if strip.side == "left" else (right - leg, low, right, high)
        for outline, _ in pieces(shapely.intersection(wall, shapely.box(*band))):
            marks.append(Mark("hatch", outline, "lath strip", ref))
    return marks
