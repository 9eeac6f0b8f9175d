"""A surface drawn to scale, seen from outside: what stands there, where it is parted, and its sizes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import hypot

import shapely
from quicktions import Fraction
from shapely.geometry.base import BaseGeometry

from darby.drawing.geometry import (
    area_of,
    box,
    bulges_of,
    flat,
    flat_outline,
    pieces,
    points_of,
    roomiest,
    turns_left,
)
from darby.drawing.lettering import inches, size, thickness
from darby.drawing.model import Mark, Point
from darby.drawing.sizes import strings
from darby.measure.surface import Edge, Opening, Surface
from darby.measure.units import FT, System
from darby.words import Language, Verbatim, catalogue, say, surface_called, unit_names

_FOOT = float(FT)
APRON = _FOOT * 0.35
OVERHANG = _FOOT
FASCIA = _FOOT / 2
NEIGHBOUR = _FOOT * 2.6
CAP = _FOOT * 0.4
PANEL = 2 * _FOOT
FRAME = _FOOT / 6
DOOR = 4.5 * _FOOT
BEHIND = _FOOT / 3
BELOW = _FOOT * 0.5
"""Not figures of the trade: how far things are drawn that nobody measured, and up to which width a door swings."""

HATCHES: Mapping[str, str] = {
    "block": "block", "painted block": "block", "concrete": "concrete", "frame": "lath", "lath over block": "lath",
    "brick": "brick", "stone": "stone", "old plaster": "old base", "painted plaster": "old base",
}  # fmt: skip
"""Base of a zone to the role of its hatching; a base that is not here is left white."""


@dataclass(frozen=True, slots=True)
class Joint:
    """A joint carried through the plaster, from foot to top [m]; ``letter`` stands in a circle above it.

    ``parting``: it runs along an edge that meets old work, whose double line is drawn already.
    """

    id: str
    line: tuple[tuple[Fraction | float, Fraction | float], ...]
    letter: str = ""
    parting: bool = False


@dataclass(frozen=True, slots=True)
class Ground:
    """A ground at (``u``, ``v``) with the plaster on it [m]; ``past`` = more than the base may carry bare."""

    u: Fraction | float
    v: Fraction | float
    thickness: Fraction | float
    past: bool = False


def elevation(
    surface: Surface,
    *,
    joints: Iterable[Joint] = (),
    grounds: Iterable[Ground] = (),
    names: Mapping[str, str] | None = None,
    hinged: Mapping[str, str] | None = None,
    sizes: bool = True,
    language: Language = "en",
    system: System = "us",
) -> tuple[Mark, ...]:
    """Marks of one surface, in the order they are drawn.

    Parameters
    ----------
    surface
        outline, edges, openings, zones [m, exact].
    joints, grounds
        what other rooms laid out; none are invented here.
    names
        lettering by id of a zone, an opening, or an edge that meets old work; an empty name letters nothing.
    hinged
        "left" or "right" by id of a door; left where nobody said.
    sizes
        whether dimension strings are drawn.
    """
    names, hinged = names or {}, hinged or {}
    wall = area_of(flat_outline(surface.outline))
    holes = shapely.union_all([area_of(flat_outline(o.outline)) for o in surface.openings])
    joints = tuple(joints)
    marks: list[Mark] = []
    marks += _bases(surface, wall.difference(holes))
    for opening in surface.openings:
        marks += _opening(surface, opening, names, hinged, language)
    marks += _roof(surface)
    marks.append(Mark("polygon", points_of(surface.outline), "outline", surface.id, bulges=bulges_of(surface.outline)))
    marks += _stand_out(surface, language, system)
    marks += _neighbours(surface, names, language)
    marks += _grade(surface)
    marks += _zones(surface, wall.difference(holes), names)
    for joint in joints:
        marks += _joint(surface, joint)
    for ground in grounds:
        at = (float(ground.u), float(ground.v))
        role = "ground past" if ground.past else "ground"
        marks.append(Mark("symbol", (at,), role, surface.id, inches(ground.thickness, system)))
    if sizes:
        old = [start[0] for _, start, _ in _edges(surface, "meets old work")]
        uprights = [joint.line for joint in joints if len({u for u, _ in joint.line}) == 1]
        marks += strings(surface, [u for line in uprights for u, _ in line], old, system)
    return tuple(marks)


def titled(surface: Surface, language: Language = "en", system: System = "us") -> str:
    """In words what the drawing shows, for the title and the aria-label."""
    left, low, right, high = box(flat_outline(surface.outline))
    openings = ", ".join(opening_called(o, language) for o in surface.openings)
    values = {
        "name": Verbatim(surface_called(surface, language)),
        "wide": size(right - left, system),
        "high": size(high - low, system),
        "openings": openings,
    }
    return say("drawing.title.openings" if openings else "drawing.title.plain", values, language, system)


# --- what the wall is made of ------------------------------------------------------------------------


def _bases(surface: Surface, bare: BaseGeometry) -> list[Mark]:
    """Hatching zone by zone; the zone without an outline takes what the others leave."""
    left, low, _, _ = box(flat_outline(surface.outline))
    marks, rest = [], bare
    drawn = [(zone, area_of(flat_outline(zone.outline))) for zone in surface.zones if zone.outline is not None]
    for _, area in drawn:
        rest = rest.difference(area)
    for zone, area in [(zone, rest) for zone in surface.zones if zone.outline is None] + drawn:
        role = HATCHES.get(zone.base)
        if role is None:
            continue
        for outline, holes in pieces(area.intersection(bare)):
            marks.append(
                Mark("hatch", outline, role, f"{surface.id}/{zone.id}", holes=holes, origin=(left, low))
            )  # fmt: skip
    return marks


def _zones(surface: Surface, bare: BaseGeometry, names: Mapping[str, str]) -> list[Mark]:
    marks = []
    for zone in surface.zones:
        if zone.outline is None:
            continue
        ref = f"{surface.id}/{zone.id}"
        marks.append(Mark("polygon", points_of(zone.outline), "zone edge", ref, bulges=bulges_of(zone.outline)))
        name = names.get(zone.id, "")
        area = area_of(flat_outline(zone.outline)).intersection(bare)
        if name and not area.is_empty:
            at, radius = roomiest(area)
            marks.append(Mark("text", (at,), "letter", ref, name, room=(radius * 1.8, radius * 1.2)))
    return marks


# --- what stands out of it -----------------------------------------------------------------------------

CUT: Mapping[str, str] = {"block": "cut block", "painted block": "cut block", "concrete": "cut concrete"}
"""Base of a wall to the hatching of its cut; another is left white."""


def _stand_out(surface: Surface, language: Language, system: System) -> list[Mark]:
    """Pilasters: their arrises on the face, and below it the wall cut through and seen from above, to the same scale.

    How thick the wall is nobody drew: behind its face the strip is broken off level.
    """
    if not surface.projections:
        return []
    marks = [
        Mark("polygon", points_of(p.outline), "arris", f"{surface.id}/{p.id}", bulges=bulges_of(p.outline))
        for p in surface.projections
    ]
    left, low, right, _ = box(flat_outline(surface.outline))
    at = low - APRON - BELOW - BEHIND
    face, deepest = [(left, at)], 0.0
    for projection in sorted(surface.projections, key=lambda p: min(c.u for c in p.outline)):
        start, _, end, _ = box(flat_outline(projection.outline))
        out = float(projection.out)
        deepest = max(deepest, out)
        face += [(start, at), (start, at - out), (end, at - out), (end, at)]
    face = [p for n, p in enumerate([*face, (right, at)]) if not n or p != face[n - 1]]
    role = CUT.get(next((z.base for z in surface.zones if z.outline is None), ""))
    if role is not None:
        marks.append(
            Mark("hatch", (*face, (right, at + BEHIND), (left, at + BEHIND)), role, surface.id, origin=(left, at))
        )
    marks.append(Mark("polyline", tuple(face), "cut edge", surface.id))
    inch = unit_names(language).get("in.", "in.")
    outs = " – ".join(thickness(out, system, inch=inch) for out in sorted({p.out for p in surface.projections}))
    said = say("drawing.from-above", {"out": Verbatim(outs)}, language)
    below = (((left + right) / 2, at - deepest),)
    marks.append(Mark("text", below, "note", surface.id, said, shift=(0.0, -1.2)))
    return marks


# --- openings ------------------------------------------------------------------------------------------


def opening_called(opening: Opening, language: Language = "en") -> str:
    """Its own name; one that was written in short and never named is a door, a window ... in ``language``."""
    name = opening.name or opening.id
    return catalogue(language).get(f"drawing.opening.{name}", name)


def _opening(
    surface: Surface, opening: Opening, names: Mapping[str, str], hinged: Mapping[str, str], language: Language
) -> list[Mark]:
    ref = f"{surface.id}/{opening.id}"
    points, bulges = points_of(opening.outline), bulges_of(opening.outline)
    left, low, right, high = box(flat_outline(opening.outline))
    _, foot, _, _ = box(flat_outline(surface.outline))
    name = names.get(opening.id, opening_called(opening, language))
    marks = [Mark("polygon", points, "opening", ref, name, bulges=bulges)]
    stands = low <= foot + FRAME / 2
    if stands and right - left <= DOOR:
        apex, back = (right, left) if hinged.get(opening.id) == "right" else (left, right)
        swing = ((back, high), (apex, (low + high) / 2), (back, low))
        marks.append(Mark("polyline", swing, "swing", ref))
    elif stands:
        rail = low + PANEL
        while rail < high - PANEL / 4:
            marks.append(Mark("line", ((left, rail), (right, rail)), "fine", ref))
            rail += PANEL
    else:
        pane = area_of(flat(points, bulges, closed=True)).buffer(-FRAME, join_style="mitre")
        marks += [Mark("polygon", outline, "fine", ref) for outline, _ in pieces(pane)]
    if name:
        at = ((left + right) / 2, (low + high) / 2)
        marks.append(Mark("text", (at,), "letter", ref, name, room=(right - left - FRAME / 2, (high - low) * 0.9)))
    return marks


# --- what stands next to it ----------------------------------------------------------------------------


def _sides(surface: Surface) -> dict[str, tuple[Point, Point, float]]:
    """Corner id to the side that starts there: (start, end, bulge), running counterclockwise round the wall."""
    points = points_of(surface.outline)
    left = turns_left(points)
    sides = {}
    for i, corner in enumerate(surface.outline):
        start, end = points[i], points[(i + 1) % len(points)]
        sides[corner.id] = (start, end, corner.bulge) if left else (end, start, -corner.bulge)
    return sides


def _outward(start: Point, end: Point) -> Point:
    """Unit direction out of the wall from a side that runs counterclockwise."""
    long = hypot(end[0] - start[0], end[1] - start[1])
    return (end[1] - start[1]) / long, (start[0] - end[0]) / long


def _neighbours(surface: Surface, names: Mapping[str, str], language: Language) -> list[Mark]:
    """Old work is drawn in front and broken off; the new is parted from it by a second line inside the wall."""
    marks: list[Mark] = []
    sides = _sides(surface)
    high = box(flat_outline(surface.outline))[3]
    for edge in surface.edges:
        if edge.kind != "meets old work":
            continue
        start, end, bulge = sides[edge.start]
        ref = f"{surface.id}/{edge.id}"
        out = _outward(start, end)
        far = [(p[0] + out[0] * NEIGHBOUR, p[1] + out[1] * NEIGHBOUR) for p in (end, start)]
        rim = flat((start, end), (bulge, 0.0), closed=False)
        marks.append(Mark("hatch", (*rim, *far), "old dash", ref))
        marks.append(Mark("polyline", (start, end), "old work", ref, bulges=(bulge, 0.0) if bulge else ()))
        marks.append(Mark("polyline", _broken_off(far[0], far[1]), "break", ref))
        upright = abs(out[1]) < 0.1
        if upright and max(start[1], end[1]) < high - CAP:
            top = max(start[1], end[1])
            inner = start[0] - out[0] * CAP
            cap = ((inner, top), (inner, top + CAP), (far[0][0], top + CAP), (far[0][0], top))
            marks.append(Mark("polygon", cap, "roof", ref))
        name = names.get(edge.id, say("drawing.old-work", {}, language))
        if name and upright:
            at = ((start[0] + far[1][0]) / 2, (start[1] + end[1]) / 2)
            room = (abs(end[1] - start[1]), NEIGHBOUR)
            marks.append(Mark("text", (at,), "letter", ref, name, room=room, turn=90.0))
        for role, aside in (("gap", 4.0), ("parting", 7.5)):
            marks.append(Mark("polyline", (start, end), role, ref, bulges=(bulge, 0.0) if bulge else (), aside=aside))
    return marks


def _broken_off(start: Point, end: Point) -> tuple[Point, ...]:
    """A line with the zigzag that says it goes on."""
    long = hypot(end[0] - start[0], end[1] - start[1])
    along = ((end[0] - start[0]) / long, (end[1] - start[1]) / long)
    jog = min(_FOOT * 0.4, long / 8)
    stations = ((0.0, 0.0), (long / 2 - jog, 0.0), (long / 2 - jog / 2, -jog), (long / 2 + jog / 2, jog),
                (long / 2 + jog, 0.0), (long, 0.0))  # fmt: skip
    return tuple((start[0] + along[0] * s - along[1] * t, start[1] + along[1] * s + along[0] * t) for s, t in stations)


def _edges(surface: Surface, *kinds: str) -> list[tuple[Edge, Point, Point]]:
    sides = _sides(surface)
    return [(e, *sides[e.start][:2]) for e in surface.edges if e.kind in kinds]


def _roof(surface: Surface) -> list[Mark]:
    """A roof edge: a board with an overhang along sides that look up, a line along one that looks down.

    A top that slopes has a roof over it; a level top is a wall that ends in the open.
    """
    marks = []
    left, _, right, _ = box(flat_outline(surface.outline))
    boards: list[tuple[str, list[Point]]] = []
    for edge, *ends in sorted(_edges(surface, "roof line", "soffit", "top"), key=lambda e: min(e[1], e[2])):
        ref = f"{surface.id}/{edge.id}"
        a, b = sorted(ends)
        level = abs(b[1] - a[1]) < FRAME
        if b[0] - a[0] < FRAME or (edge.kind == "top" and level):
            continue
        if _outward(*ends)[1] <= 0:
            marks.append(Mark("line", (_along(a, b, -OVERHANG), _along(b, a, -OVERHANG)), "roof", ref))
        elif boards and boards[-1][1][-1] == a:
            boards[-1][1].append(b)
        else:
            boards.append((ref, [a, b]))
    for ref, line in boards:
        if line[0][0] <= left + FRAME:
            line[0] = _along(line[0], line[1], -OVERHANG)
        if line[-1][0] >= right - FRAME:
            line[-1] = _along(line[-1], line[-2], -OVERHANG)
        marks.append(Mark("polygon", (*line, *((u, v + FASCIA) for u, v in reversed(line))), "roof", ref))
    return marks


def _along(a: Point, b: Point, across: float) -> Point:
    """The place on the line from ``a`` through ``b`` that lies ``across`` metres level from ``a``, towards ``b``."""
    part = across / abs(b[0] - a[0])
    return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part


def _grade(surface: Surface) -> list[Mark]:
    """The apron along grade, past the ends of the wall, with earth under it."""
    marks = []
    olds = _edges(surface, "meets old work")
    left, _, right, _ = box(flat_outline(surface.outline))
    for edge, start, end in _edges(surface, "grade"):
        ref = f"{surface.id}/{edge.id}"
        (u0, v0), (u1, v1) = sorted((start, end))
        for u, out in ((left, -1.0), (right, 1.0)):
            beside = any(abs(a[0] - u) < FRAME and min(a[1], b[1]) <= v0 + FRAME for _, a, b in olds)
            reach = (NEIGHBOUR if beside else 0.0) + APRON * 2
            if out < 0 and abs(u0 - u) < FRAME:
                u0 -= reach
            if out > 0 and abs(u1 - u) < FRAME:
                u1 += reach
        marks.append(Mark("line", ((u0, v0), (u1, v1)), "apron", ref))
        marks.append(Mark("hatch", ((u0, v0 - APRON), (u1, v1 - APRON), (u1, v1), (u0, v0)), "earth", ref))
    return marks


def _joint(surface: Surface, joint: Joint) -> list[Mark]:
    ref = f"{surface.id}/{joint.id}"
    line = tuple((float(u), float(v)) for u, v in joint.line)
    marks = [] if joint.parting else [Mark("polyline", line, "joint", ref)]
    if joint.letter:
        top = max(line, key=lambda p: p[1])
        marks.append(Mark("symbol", (top,), "tag", ref, joint.letter))
    return marks
