"""Where the plaster is thicker than may hang without lath, and what each way of holding it there comes to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from darby.grounds.checks import THREE, Array
from darby.grounds.cover import outlines
from darby.grounds.model import GroundsAsk, Holding, Patch
from darby.grounds.spots import money
from darby.grounds.wall import Triangles, Wall, Whole
from darby.measure.checks import SLIVER
from darby.measure.limits import at_most
from darby.measure.outline import polygon
from darby.measure.units import unit
from darby.measure.writing import HAIR
from darby.rulebook.model import Figure
from darby.working.model import Quantity, Working

LATHED = ("frame", "lath over block")
"""Bases that plaster goes on with lath whatever its thickness."""

IN, SQ_FT, CU_FT = unit("in"), unit("sq ft"), unit("cu ft")


@dataclass(frozen=True)
class Past:
    """What of the net wall is past the limit: pieces of triangles, each with area, thickness in its middle and most."""

    shapes: tuple[shapely.Geometry, ...]
    area: Array
    middle: Array
    most: Array
    at: Array

    @property
    def total(self) -> float:
        """Area [m2]."""
        return float(self.area.sum())


def limit_of(ask: GroundsAsk) -> Figure | None:
    """What may hang without lath; None on lath and on wood. Figures speak of block and of concrete; brick, stone and
    old plaster are taken as block, as the build-up does, which is noted."""
    if ask.base in LATHED:
        return None
    base = "concrete" if ask.base == "concrete" else "block"
    return ask.book.number("thickness.no-lath", base=base, position="vertical")


def past_limit(ask: GroundsAsk, wall: Wall, thickness: Array, limit: float) -> Past:
    """The parts of the net wall, less what is on lath anyway, where the plaster is thicker than ``limit`` [m].

    ``thickness`` at the points of ``wall.folded``, straight between them: exact cuts of the triangles.
    """
    pieces, folded = wall.pieces, wall.folded
    over = thickness - limit
    over = np.where((over > 0) & (over <= float(HAIR)), 0.0, over)  # a hair past the limit is not past it
    above = (over[folded.corners] > 0).sum(axis=1)[pieces.of]
    whole, part = np.flatnonzero(above == THREE), np.flatnonzero((above > 0) & (above < THREE))
    cut = _above(folded.points, folded.corners[pieces.of[part]], over)
    clipped = ~pieces.full[part]
    cut[clipped] = shapely.intersection(cut[clipped], pieces.shapes[part[clipped]])
    shapes, which = np.concatenate([pieces.shapes[whole], cut]), pieces.of[np.concatenate([whole, part])]
    if ask.lathed:
        shapes = shapely.difference(shapes, shapely.union_all([polygon(outline) for outline in ask.lathed]))
    shapes, back = shapely.get_parts(shapes, return_index=True)
    kept = shapely.area(shapes) > 0
    shapes, which = shapes[kept], which[back[kept]]
    middle = shapely.get_coordinates(shapely.centroid(shapes)).reshape(-1, 2)
    corners, back = shapely.get_coordinates(shapes, return_index=True)
    thick_at = _read(folded, thickness, corners, which[back])
    order = np.lexsort((thick_at, back))
    tops = order[np.flatnonzero(np.diff(np.append(back[order], len(shapes))))]
    mean = _read(folded, thickness, middle, which)
    return Past(tuple(shapes), shapely.area(shapes), mean, thick_at[tops], corners[tops])


def _read(folded: Triangles, values: Array, points: Array, which: Whole) -> Array:
    """Values read off at points of the triangles ``which``."""
    return np.asarray((folded.weights_in(points, which) * values[folded.corners[which]]).sum(axis=1))


def _above(points: Array, corners: Whole, over: Array) -> NDArray[np.object_]:
    """The parts of triangles where a value that is straight over them is above nought: at one corner or at two."""
    found = np.empty(len(corners), dtype=object)
    for one in (True, False):
        rows = np.flatnonzero(((over[corners] > 0).sum(axis=1) == 1) == one)
        # turned so that the corner that differs from the other two comes first
        first = ((over[corners[rows]] > 0) == one).argmax(axis=1)
        turned = corners[rows][np.arange(len(rows))[:, None], (first[:, None] + np.arange(THREE)) % THREE]
        a, b, c = (points[turned[:, n]] for n in range(THREE))
        x, y, z = (over[turned[:, n], None] for n in range(THREE))
        ab, ac = a + (b - a) * (x / (x - y)), a + (c - a) * (x / (x - z))
        found[rows] = shapely.polygons(np.stack([a, ab, ac] if one else [ab, b, c, ac], axis=1))
    return found


def patches(ask: GroundsAsk, past: Past, limit: Figure, working: Working, key: str) -> tuple[Patch, ...]:
    """Hollows past the limit, each in one piece, deepest first."""
    one = ask.book.number("thickness.one-pass")
    points = [shape.representative_point() for shape in past.shapes]
    rows = []
    for shapes in _joined([p for p in shapely.get_parts(shapely.union_all(list(past.shapes))) if p.area > SLIVER]):
        together = shapely.multipolygons(shapes)
        own = np.array([n for n, p in enumerate(points) if together.distance(p) <= float(HAIR)], dtype=np.intp)
        rows.append((float(past.most[own].max()), shapes, own))
    found = []
    for n, (most, shapes, own) in enumerate(sorted(rows, key=lambda r: (-r[0], r[1][0].bounds)), 1):
        name = f"{key}/patch-{n}"
        area = working.found(f"{name}/area", float(past.area[own].sum()), SQ_FT, "grounds.step.patch-area",
                             method="grounds.method.cut", proof=(), rules=[limit.id])  # fmt: skip
        deepest = working.found(f"{name}/deepest", most, IN, "grounds.step.deepest",
                                method="grounds.method.cut", proof=())  # fmt: skip
        bulk = float((past.area[own] * (past.middle[own] - limit.number)).sum())
        excess = working.found(f"{name}/excess", bulk, CU_FT, "grounds.step.excess",
                               method="grounds.method.cut", proof=(), rules=[limit.id])  # fmt: skip
        lifts = working.step(f"{name}/lifts", "ceil((deepest - limit) / one_pass)", "", "grounds.step.lifts",
                             deepest=deepest, limit=limit, one_pass=one)  # fmt: skip
        u, v = past.at[own[past.most[own].argmax()]]
        shown = at_most(ask.book.number("grounds.to").number, float(deepest) - limit.number)
        slight = not shown or not at_most(ask.book.number("grounds.least-fill").number, float(excess))
        found.append(Patch(outlines(shapes), float(u), float(v), area, deepest, excess, lifts, slight))
    return tuple(found)


def _joined(shapes: list[shapely.Polygon]) -> list[list[shapely.Polygon]]:
    """Polygons that touch, if only in a point, are one hollow."""
    groups: list[list[shapely.Polygon]] = []
    for shape in shapes:
        near = [group for group in groups if any(shape.distance(other) <= float(HAIR) for other in group)]
        groups = [group for group in groups if group not in near]
        groups.append([shape, *(other for group in near for other in group)])
    return groups


def holdings(ask: GroundsAsk, several: tuple[Patch, ...], limit: Figure, volume: Quantity, working: Working,
             key: str) -> tuple[Holding, ...]:  # fmt: skip
    """Lath on the hollows, the face following the wall, dubbing out: plaster, area, lifts of each."""
    one = ask.book.number("thickness.one-pass")
    worst = several[0]
    area = _sum(working, f"{key}/past", "grounds.step.past", SQ_FT.name, [p.area for p in several])
    excess = _sum(working, f"{key}/excess", "grounds.step.excess", CU_FT.name, [p.excess for p in several])
    all_lifts = working.step(f"{key}/lath/lifts", "ceil(deepest / one_pass)", "", "grounds.step.lifts",
                             deepest=worst.deepest, one_pass=one)  # fmt: skip
    straight = working.step(f"{key}/follow/lifts", "ceil(limit / one_pass)", "", "grounds.step.lifts",
                            limit=limit, one_pass=one)  # fmt: skip
    less = working.step(f"{key}/follow/volume", "volume - excess", "cu ft", "grounds.step.volume-follow",
                        volume=volume, excess=excess)  # fmt: skip
    off = working.step(f"{key}/follow/off", "deepest - limit", "in", "grounds.step.off",
                       deepest=worst.deepest, limit=limit)  # fmt: skip
    cost = money(ask, working, f"{key}/lath/money", volume)
    return (
        Holding("lath", volume, cost, area, all_lifts, one),
        Holding("follow", less, money(ask, working, f"{key}/follow/money", less), area, straight, one, off),
        Holding("dub out", volume, cost, area, worst.lifts, one),
    )


def _sum(working: Working, key: str, says: str, unit_name: str, several: list[Quantity]) -> Quantity:
    names: dict[str, Any] = {f"part_{n}": q for n, q in enumerate(several, 1)}
    return working.step(key, " + ".join(names), unit_name, says, **names)
