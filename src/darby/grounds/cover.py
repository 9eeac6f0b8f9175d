"""What the readings leave open: readings that their neighbours do not bear out, and wall that nobody measured near."""

from __future__ import annotations

from math import acos, pi

import numpy as np
import shapely

from darby.grounds.checks import Array
from darby.grounds.model import Coverage, GroundsAsk, Wild
from darby.grounds.wall import Wall, scatter
from darby.measure.checks import SLIVER
from darby.measure.limits import whole
from darby.measure.outline import CHORD_ERROR
from darby.measure.units import unit
from darby.working.model import Quantity, Working

IN, FT_IN, SQ_FT = unit("in"), unit("ft-in"), unit("sq ft")

Outline = tuple[tuple[float, float], ...]


def wild(ask: GroundsAsk, wall: Wall) -> tuple[Wild, ...]:
    """Readings far off what their neighbours say, farthest first.

    Off by more than ``grounds.wild`` robust deviations (median absolute deviation, scaled to a standard deviation) and
    by more than a base may be out of true (``thickness.base-plane``): a true wall has little scatter, and no reading on
    it is wild for a sixteenth. They are flagged, not left out: a wild reading is a slip, or a high spot.
    """
    times = ask.book.number("grounds.wild").number
    plane = ask.book.number("thickness.base-plane").number
    off = wall.readings[:, 2] - wall.expected
    spread = scatter(off - np.median(off))
    far = np.flatnonzero((np.abs(off) > times * spread) & (np.abs(off) > plane))
    order = sorted(far.tolist(), key=lambda n: (-abs(off[n]), n))
    return tuple(
        Wild(wall.numbers[n], float(wall.readings[n, 0]), float(wall.readings[n, 1]), Quantity(float(off[n]), IN),
             float(abs(off[n]) / spread) if spread > 0 else None)
        for n in order
    )  # fmt: skip


def coverage(wall: Wall, working: Working, key: str, edge: Quantity) -> Coverage:
    """The largest circle on the net wall that holds no reading, and what lies beyond half a straightedge of any.

    Two readings farther apart than the straightedge ``edge`` can hide a hollow that it would find: so a reading speaks
    for half of its length around it. The circle is exact: of every reading's own part of the wall (Voronoi), the corner
    farthest from it.
    """
    reach = working.step(f"{key}/reach", "edge / 2", "ft-in", "grounds.step.reach", edge=edge)
    places = wall.readings[:, :2]
    cells = shapely.get_parts(shapely.voronoi_polygons(shapely.multipoints(places), extend_to=wall.whole, ordered=True))
    shapely.prepare(wall.net)
    inside = shapely.covers(wall.net, cells)
    cells[~inside] = shapely.intersection(cells[~inside], wall.net)
    corners, of = shapely.get_coordinates(cells, return_index=True)
    away = np.hypot(*(corners - places[of]).T)
    far = int(away.argmax())
    beyond = np.unique(of[away > float(reach)])
    chords = whole(pi / 2 / (2 * acos(1 - CHORD_ERROR / float(reach))))
    rings = shapely.buffer(shapely.points(places[beyond]), float(reach), quad_segs=chords)
    bare = shapely.union_all(shapely.difference(cells[beyond], rings))
    left = [p for p in shapely.get_parts(bare) if p.area > SLIVER]
    thin = working.found(f"{key}/thin", float(sum(p.area for p in left)), SQ_FT, "grounds.step.thin",
                         method="grounds.method.circles", proof=(), after=[reach.key])  # fmt: skip
    radius = working.found(f"{key}/empty-circle", float(away[far]), FT_IN, "grounds.step.empty-circle",
                           method="grounds.method.circles", proof=())  # fmt: skip
    return Coverage(float(corners[far, 0]), float(corners[far, 1]), radius, reach, thin, outlines(left))


def outlines(shapes: list[shapely.Polygon]) -> tuple[Outline, ...]:
    """The outer outlines of polygons, without the closing point."""
    return tuple(tuple((float(u), float(v)) for u, v in points_of(shape)) for shape in shapes)


def points_of(shape: shapely.Polygon) -> Array:
    """Corners of a polygon's outer ring."""
    return np.asarray(shapely.get_coordinates(shape.exterior)[:-1])
