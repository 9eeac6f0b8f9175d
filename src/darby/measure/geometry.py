"""What a surface measures: areas, zones, reveals, edges. Exact Fractions wherever every side is straight.

Everything here is of ONE such surface: who orders for a surface that stands there ``count`` times multiplies.
"""

from __future__ import annotations

from dataclasses import dataclass

from quicktions import Fraction

from darby.measure.checks import faults_of, same_ids
from darby.measure.edges import EdgeRun, edge_runs
from darby.measure.outline import CHORD_ERROR, area_in_both, area_of, flat, perimeter_of, polygon
from darby.measure.surface import Length, Opening, Side, Surface

__all__ = [
    "CHORD_ERROR", "EdgeRun", "RevealArea", "ZoneArea", "edge_runs", "faults_of", "flat", "gross_area", "net_area",
    "opening_area", "perimeter", "polygon", "reveal_areas", "same_ids", "zone_areas",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class ZoneArea:
    """One zone: area before openings, what openings take of it (each by its id), and what is left [m2]."""

    zone: str
    base: str
    gross: Fraction
    openings: Fraction
    net: Fraction
    cut: tuple[tuple[str, Fraction], ...] = ()


@dataclass(frozen=True, slots=True)
class RevealArea:
    """A plastered reveal: which side of which opening, on which zone, its length and depth [m], its area [m2]."""

    opening: str
    side: Side
    zone: str
    length: Length
    depth: Length
    area: Fraction


def gross_area(surface: Surface) -> Fraction:
    """Area within the outline, openings and all [m2]."""
    return area_of(surface.outline)


def opening_area(opening: Opening) -> Fraction:
    """Area of an opening in the face of the wall [m2]."""
    return area_of(opening.outline)


def net_area(surface: Surface) -> Fraction:
    """Area within the outline less every opening in full [m2]; reveals are not in it."""
    return gross_area(surface) - sum((opening_area(opening) for opening in surface.openings), Fraction(0))


def perimeter(surface: Surface | Opening) -> Length:
    """All sides of the outline together [m]."""
    return perimeter_of(surface.outline)


def zone_areas(surface: Surface) -> tuple[ZoneArea, ...]:
    """Each zone with what openings take of it [m2], in the surface's order; together they are the whole surface.

    A surface without zones, or the part that no zone covers, is the zone "".
    Zones and openings must have passed ``faults_of``: they lie within the wall and not over each other.
    """
    whole = gross_area(surface)
    taken = {opening.id: opening_area(opening) for opening in surface.openings}
    left, left_of = whole, dict(taken)
    found: dict[str, ZoneArea] = {}
    for zone in surface.zones:
        if zone.outline is None:
            continue
        gross = area_in_both(zone.outline, surface.outline)
        cut = {o.id: area_in_both(o.outline, zone.outline) for o in surface.openings}
        left -= gross
        for name, area in cut.items():
            left_of[name] -= area
        found[zone.id] = _zone_area(zone.id, zone.base, gross, cut)
    rest = next((zone for zone in surface.zones if zone.outline is None), None)
    if rest is not None:
        found[rest.id] = _zone_area(rest.id, rest.base, left, left_of)
    ordered = [found[zone.id] for zone in surface.zones if zone.id in found]
    if rest is None and left > whole / 10**9:
        ordered.append(_zone_area("", "", left, left_of))
    return tuple(ordered)


def _zone_area(zone: str, base: str, gross: Fraction, cut: dict[str, Fraction]) -> ZoneArea:
    kept = tuple((name, area) for name, area in cut.items() if area > 0)
    openings = sum((area for _, area in kept), Fraction(0))
    return ZoneArea(zone, base, gross, openings, gross - openings, kept)


def reveal_areas(surface: Surface, runs: tuple[EdgeRun, ...] | None = None) -> tuple[RevealArea, ...]:
    """The plastered reveals of every opening [m2], each on the zone that its edge stands on.

    An edge that lies on the wall's own outline (a door's sill on the base) has no reveal.
    ``runs``: the surface's ``edge_runs``, where they are at hand.
    """
    by_opening = {opening.id: opening for opening in surface.openings}
    areas = []
    for run in edge_runs(surface) if runs is None else runs:
        opening = by_opening.get(run.where) if run.surface == surface.id else None
        if opening is None or run.bare or not opening.reveal:
            continue
        for side in opening.plastered:
            if side == run.side:
                areas.append(
                    RevealArea(opening.id, side, run.zone, run.length, opening.reveal, run.length * opening.reveal)
                )
    return tuple(areas)
