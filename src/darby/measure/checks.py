"""What is wrong with a surface as it was measured: a list of Faults, all at once, never an exception.

Places are seen from the surface (``opening "engine-door"``, ``zone "hollow"``, "" for the outline): whoever knows
the surface's own place puts it in front with ``Fault.at``.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from darby.measure.faults import Fault
from darby.measure.outline import area_of, polygon, straight
from darby.measure.surface import Corner, Surface
from darby.measure.writing import Style, write

if TYPE_CHECKING:
    from shapely.geometry import Polygon

    Thing = tuple[str, Sequence[Corner], Polygon]

SLIVER = 1e-6
"""Areas below this [m2], one square millimetre, are nothing: floating point makes them."""


def faults_of(surface: Surface, style: Style = "ft-in") -> tuple[Fault, ...]:
    """Everything that is wrong with one surface.

    ``measure.too-few-corners``, ``measure.outline-crosses``, ``measure.no-area`` of wall, opening or zone;
    ``measure.opening-outside``, ``measure.openings-overlap``, ``measure.zone-outside``, ``measure.zones-overlap``,
    ``measure.two-rests`` (two zones that are the rest), ``measure.same-id``, ``measure.edges`` (edges that do not
    start at each corner once).

    ``style`` is how lengths are written in ``found`` and ``allowed``: ``at`` across, ``up`` above the base.
    """
    faults = [
        *_ids([e.id for e in surface.edges], "edge"),
        *_ids([o.id for o in surface.openings], "opening"),
        *_ids([z.id for z in surface.zones], "zone"),
        *_ids([c.id for c in surface.outline], "corner"),
        *_edges(surface),
    ]
    wall, bad = _shape(surface.outline, "", style)
    faults += bad
    openings, zones = [], []
    for opening in surface.openings:
        shape, bad = _shape(opening.outline, f'opening "{opening.id}"', style)
        faults += bad
        if shape is not None:
            openings.append((opening.id, opening.outline, shape))
    for zone in surface.zones:
        if zone.outline is None:
            continue
        shape, bad = _shape(zone.outline, f'zone "{zone.id}"', style)
        faults += bad
        if shape is not None:
            zones.append((zone.id, zone.outline, shape))
    rests = [zone.id for zone in surface.zones if zone.outline is None]
    if len(rests) > 1:
        faults.append(Fault("measure.two-rests", f'zone "{rests[1]}"', ", ".join(rests), "1"))
    for kind, things in (("opening", openings), ("zone", zones)):
        if wall is not None:
            faults += _outside(kind, things, wall, style)
        faults += _overlaps(kind, things)
    return tuple(faults)


def same_ids(surfaces: Iterable[Surface]) -> tuple[Fault, ...]:
    """``measure.same-id`` for every surface whose id stands twice."""
    return tuple(_ids([surface.id for surface in surfaces], "surface"))


def _ids(ids: Sequence[str], kind: str) -> list[Fault]:
    return [Fault("measure.same-id", f'{kind} "{name}"', name, "1") for name, n in Counter(ids).items() if n > 1]


def _edges(surface: Surface) -> list[Fault]:
    corners, starts = [c.id for c in surface.outline], [e.start for e in surface.edges]
    if sorted(corners) == sorted(starts):
        return []
    lacking = sorted(set(corners) - set(starts))
    odd = [s for s in starts if s not in corners or starts.count(s) > 1]
    return [Fault("measure.edges", "", ", ".join(odd), ", ".join(corners), ", ".join(lacking))]


def _shape(outline: Sequence[Corner], place: str, style: Style) -> tuple[Polygon | None, list[Fault]]:
    if len(outline) < (3 if straight(outline) else 2):
        return None, [Fault("measure.too-few-corners", place, str(len(outline)), "3 …")]
    shape = polygon(outline)
    if not shape.is_valid and shape.convex_hull.area > SLIVER:
        return None, [Fault("measure.outline-crosses", place, _crossing(shape, style), "")]
    if area_of(outline) <= SLIVER:
        return None, [Fault("measure.no-area", place, _extent(outline, style), "")]
    return shape, []


def _crossing(shape: Polygon, style: Style) -> str:
    """Where it crosses itself: shapely's reason ends in ``[u v]``."""
    from shapely import is_valid_reason

    reason = is_valid_reason(shape)
    _, _, at = reason.partition("[")
    numbers = at.rstrip("]").split()
    return (
        f"at {write(float(numbers[0]), style)}, up {write(float(numbers[1]), style)}" if len(numbers) == 2 else reason
    )


def _extent(outline: Sequence[Corner], style: Style) -> str:
    us, vs = [c.u for c in outline], [c.v for c in outline]
    return f"{write(max(us) - min(us), style)} x {write(max(vs) - min(vs), style)}"


def _outside(kind: str, things: Sequence[Thing], wall: Polygon, style: Style) -> list[Fault]:
    faults = []
    for name, outline, shape in things:
        if shape.difference(wall).area > SLIVER:
            found, allowed = _first_outside(outline, wall, style)
            faults.append(Fault(f"measure.{kind}-outside", f'{kind} "{name}"', found, allowed))
    return faults


def _first_outside(outline: Sequence[Corner], wall: Polygon, style: Style) -> tuple[str, str]:
    """The dimension that goes too far, and how far the wall goes there."""
    from shapely.geometry import LineString

    u0, v0, u1, v1 = wall.bounds
    for corner in outline:
        u, v = float(corner.u), float(corner.v)
        if u < u0 - SLIVER or u > u1 + SLIVER:
            return f"at {write(corner.u, style)}", f"at {write(u0, style)} … {write(u1, style)}"
        if v < v0 - SLIVER or v > v1 + SLIVER:
            return f"up {write(corner.v, style)}", f"up {write(v0, style)} … {write(v1, style)}"
    for corner in outline:
        u, v = float(corner.u), float(corner.v)
        plumb = wall.intersection(LineString([(u, v0 - 1), (u, v1 + 1)]))
        if not plumb.is_empty and (v < plumb.bounds[1] - SLIVER or v > plumb.bounds[3] + SLIVER):
            low, high = write(plumb.bounds[1], style), write(plumb.bounds[3], style)
            return f"at {write(corner.u, style)}, up {write(corner.v, style)}", f"up {low} … {high}"
    return _extent(
        outline, style
    ), f"at {write(u0, style)} … {write(u1, style)}, up {write(v0, style)} … {write(v1, style)}"


def _overlaps(kind: str, things: Sequence[Thing]) -> list[Fault]:
    faults = []
    for n, (name, _, shape) in enumerate(things):
        for other, _, second in things[n + 1 :]:
            if shape.intersection(second).area > SLIVER:
                faults.append(Fault(f"measure.{kind}s-overlap", f'{kind} "{other}"', f"{name}, {other}", ""))
    return faults
