"""Every edge of a surface as runs: where it lies, what kind it is, how long, on which zone, and who counts it."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from math import hypot, lcm
from typing import Literal

from quicktions import Fraction

from darby.measure.outline import Point, distance, flat, flat_side, side_length, sides, signed_area
from darby.measure.surface import Corner, Edge, EdgeKind, Length, Meets, Opening, Surface, Zone

WallSideName = Literal["left", "right", "top", "bottom", "head", "sill", "field"]

NOUGHT = Fraction(0)
NUDGE = 1e-5
"""How far beside an edge we look to see what is there [m]: a hundredth of a millimetre."""


@dataclass(frozen=True, slots=True)
class EdgeRun:
    """One run of edge: a part of one side that is alike from end to end.

    ``where`` "wall", or the id of the opening whose edge it is; ``side`` of the wall (left, right, top, bottom), of
    the opening (head, sill, left, right), or "field" for a change of base within the wall.
    ``length`` [m] of one, where the surface stands ``count`` times; ``pieces`` it comes in: a base with a door in it
    is one run of two. ``edge`` the id of the Edge that it is part of.
    ``zone`` what stands at it ("" = no zones); ``beyond`` the zone across a change of base.
    ``shared`` the corner line it has in common with another surface; ``elsewhere`` the surface that counts it
    ("" = counted here). ``bare`` no plaster stands at it: an opening reaches this edge, or this edge of an opening
    lies on the wall's own outline.
    """

    id: str
    surface: str
    where: str
    side: WallSideName
    kind: EdgeKind
    length: Length
    pieces: tuple[Length, ...] = ()
    zone: str = ""
    edge: str = ""
    shared: str | None = None
    meets: Meets | None = None
    elsewhere: str = ""
    beyond: str = ""
    bare: bool = False
    count: int = 1

    @property
    def counted(self) -> bool:
        """Whether plaster ends here and no other surface counts it."""
        return not self.bare and not self.elsewhere


def edge_runs(surfaces: Surface | Iterable[Surface]) -> tuple[EdgeRun, ...]:
    """All edges of the surfaces as runs: of the outline, of every opening, and where one base meets another.

    The runs of a side add up to that side. A corner line that two surfaces share is counted on the one where it is
    longer (on the first where they are alike), and stands with ``elsewhere`` on the other.
    """
    every = (surfaces,) if isinstance(surfaces, Surface) else tuple(surfaces)
    return _once([run for surface in every for run in _runs(_Face(surface))])


def _once(runs: Sequence[EdgeRun]) -> tuple[EdgeRun, ...]:
    along: dict[str, dict[str, Length]] = defaultdict(dict)
    for run in runs:
        if run.shared:
            on = along[run.shared]
            on[run.surface] = on.get(run.surface, NOUGHT) + run.length
    counts = {line: max(on, key=lambda name: on[name]) for line, on in along.items()}
    return tuple(
        replace(run, elsewhere=counts[run.shared]) if run.shared and counts[run.shared] != run.surface else run
        for run in runs
    )


class _Region:
    """An outline with what it takes to ask quickly whether a point lies in it."""

    def __init__(self, id: str, outline: Sequence[Corner]) -> None:
        self.id = id
        self.points = flat(outline)
        self.floats = [(float(u), float(v)) for u, v in self.points]
        us, vs = zip(*self.floats, strict=True)
        self.box = (min(us), min(vs), max(us), max(vs))

    @cached_property
    def lines(self) -> list[tuple[Point, Point, float, float, float, float]]:
        """Each side's two ends, exact, and the box round it."""
        lines = []
        for n, (u, v) in enumerate(self.floats):
            before = self.floats[n - 1]
            box = min(u, before[0]), min(v, before[1]), max(u, before[0]), max(v, before[1])
            lines.append((self.points[n - 1], self.points[n], *box))
        return lines

    def holds(self, u: float, v: float) -> bool:
        """Whether the point lies within; points nearer to the outline than a nudge are never asked for."""
        if not (self.box[0] <= u <= self.box[2] and self.box[1] <= v <= self.box[3]):
            return False
        inside = False
        before = self.floats[-1]
        for here in self.floats:
            if (here[1] > v) != (before[1] > v):
                across = before[0] + (v - before[1]) * (here[0] - before[0]) / (here[1] - before[1])
                inside ^= u < across
            before = here
        return inside


class _Face:
    """A surface with its wall, zones and openings as regions."""

    def __init__(self, surface: Surface) -> None:
        self.surface = surface
        self.wall = _Region("wall", surface.outline)
        self.openings = [_Region(o.id, o.outline) for o in surface.openings]
        self.zones = [_Region(z.id, z.outline) for z in surface.zones if z.outline is not None]
        self.rest = next((z.id for z in surface.zones if z.outline is None), "")

    @cached_property
    def kinds(self) -> dict[str, Zone]:
        return {zone.id: zone for zone in self.surface.zones}

    def zone_at(self, u: float, v: float) -> str:
        return next((zone.id for zone in self.zones if zone.holds(u, v)), self.rest)

    def opening_at(self, u: float, v: float) -> str:
        return next((opening.id for opening in self.openings if opening.holds(u, v)), "")


@dataclass(frozen=True, slots=True)
class _Part:
    """A piece of a chord: its length and what lies to the left and to the right of it."""

    length: Length
    left: tuple[float, float]
    right: tuple[float, float]


class _Alike:
    """Parts of one side gathered by what stands at them, neighbours joined to one piece."""

    def __init__(self) -> None:
        self.pieces: dict[tuple[str, bool], list[Length]] = {}
        self.last: tuple[str, bool] | None = None

    def add(self, zone: str, bare: bool, length: Length) -> None:
        key = (zone, bare)
        pieces = self.pieces.setdefault(key, [])
        if pieces and self.last == key:
            pieces[-1] += length
        else:
            pieces.append(length)
        self.last = key

    def skip(self) -> None:
        self.last = None


def _parts(here: Corner, there: Corner, regions: Sequence[_Region]) -> Iterator[_Part]:
    """One side cut where any region's outline meets it; the parts add up to the side's own length."""
    points = [*flat_side(here, there), (there.u, there.v)]
    chords = list(pairwise(points))
    if len(chords) == 1:
        lengths = [side_length(here, there)]
    else:  # chords are shorter than their arc
        chorded = [distance(a, b) for a, b in chords]
        stretch = side_length(here, there) / sum(chorded, NOUGHT)
        lengths = [chord * stretch for chord in chorded]
    for (a, b), length in zip(chords, lengths, strict=True):
        if not length:
            continue
        start, du, dv = (float(a[0]), float(a[1])), float(b[0] - a[0]), float(b[1] - a[1])
        size = hypot(du, dv)
        beside = (-dv / size * NUDGE, du / size * NUDGE)
        between = sorted(set(_cuts(a, b, regions)))
        for low, high in pairwise((NOUGHT, *between, Fraction(1))):
            mid = float(low + high) / 2
            u, v = start[0] + du * mid, start[1] + dv * mid
            part = length * (high - low) if between else length
            yield _Part(part, (u + beside[0], v + beside[1]), (u - beside[0], v - beside[1]))


def _cuts(a: Point, b: Point, regions: Sequence[_Region]) -> Iterator[Fraction]:
    """Where along a to b (0 to 1, exact) an outline crosses, touches or starts to run along it."""
    (west, east), (low, high) = (sorted((float(x), float(y))) for x, y in zip(a, b, strict=True))
    west, east, low, high = west - NUDGE, east + NUDGE, low - NUDGE, high + NUDGE
    for region in regions:
        if region.box[2] < west or region.box[0] > east or region.box[3] < low or region.box[1] > high:
            continue
        for p, q, u0, v0, u1, v1 in region.lines:
            if u1 >= west and u0 <= east and v1 >= low and v0 <= high:
                yield from _crossing(a, b, p, q)


def _crossing(a: Point, b: Point, p: Point, q: Point) -> Iterator[Fraction]:
    scale = lcm(*(x.denominator for x in (*a, *b, *p, *q)))
    (au, av), (bu, bv), (pu, pv), (qu, qv) = (
        [x.numerator * (scale // x.denominator) for x in xy] for xy in (a, b, p, q)
    )
    du, dv = bu - au, bv - av
    side_p = du * (pv - av) - dv * (pu - au)
    side_q = du * (qv - av) - dv * (qu - au)
    if side_p == side_q == 0:  # along the same line: cut where the other one ends
        square = du * du + dv * dv
        along = [du * (u - au) + dv * (v - av) for u, v in ((pu, pv), (qu, qv))]
        yield from (Fraction(t, square) for t in along if 0 < t < square)
    elif (side_p <= 0 <= side_q) or (side_q <= 0 <= side_p):
        eu, ev = qu - pu, qv - pv
        cross = du * ev - dv * eu
        t = (pu - au) * ev - (pv - av) * eu
        if cross < 0:
            t, cross = -t, -cross
        if 0 < t < cross:
            yield Fraction(t, cross)


def _runs(face: _Face) -> Iterator[EdgeRun]:
    yield from _wall_runs(face)
    for opening in face.surface.openings:
        yield from _opening_runs(face, opening)
    yield from _base_runs(face)


def _wall_runs(face: _Face) -> Iterator[EdgeRun]:
    surface = face.surface
    edges = {edge.start: edge for edge in surface.edges}
    within_left = signed_area(surface.outline) > 0
    for here, there in sides(surface.outline):
        edge = edges.get(here.id) or Edge(here.id, "top", here.id)
        found = _Alike()
        for part in _parts(here, there, [*face.zones, *face.openings]):
            inward = part.left if within_left else part.right
            found.add(face.zone_at(*inward), bool(face.opening_at(*inward)), part.length)
        for (zone, bare), pieces in found.pieces.items():
            name = _name((surface.id, edge.id), zone, bare, found)
            yield EdgeRun(
                name, surface.id, "wall", _side_of(here, there, within_left, wall=True), edge.kind,
                sum(pieces, NOUGHT), tuple(pieces), zone, edge.id, edge.shared, edge.meets,
                bare=bare, count=surface.count,
            )  # fmt: skip


def _opening_runs(face: _Face, opening: Opening) -> Iterator[EdgeRun]:
    surface = face.surface
    outward_right = signed_area(opening.outline) > 0
    others = [region for region in face.openings if region.id != opening.id]
    named = [(h, t, _side_of(h, t, outward_right, wall=False)) for h, t in sides(opening.outline)]
    alike = Counter(side for _, _, side in named)
    for here, there, side in named:
        found = _Alike()
        for part in _parts(here, there, [*face.zones, *others, face.wall]):
            outward = part.right if outward_right else part.left
            bare = not face.wall.holds(*outward) or bool(face.opening_at(*outward))
            found.add(face.zone_at(*outward) if face.wall.holds(*outward) else "", bare, part.length)
        edge = side if alike[side] == 1 else f"{side}@{here.id}"
        kind: EdgeKind = "head" if side == "head" else "sill" if side == "sill" else "jamb"
        for (zone, bare), pieces in found.pieces.items():
            name = _name((surface.id, opening.id, edge), zone, bare, found)
            yield EdgeRun(
                name, surface.id, opening.id, side, kind, sum(pieces, NOUGHT), tuple(pieces), zone, edge,
                bare=bare, count=surface.count,
            )  # fmt: skip


def _base_runs(face: _Face) -> Iterator[EdgeRun]:
    """Zone boundaries within the wall and outside its openings, each length once."""
    surface = face.surface
    order = {zone.id: n for n, zone in enumerate(face.zones)}
    for zone in surface.zones:
        if zone.outline is None:
            continue
        within_left = signed_area(zone.outline) > 0
        others = [region for region in face.zones if region.id != zone.id]
        for here, there in sides(zone.outline):
            found = _Alike()
            for part in _parts(here, there, [*others, *face.openings, face.wall]):
                outward = part.right if within_left else part.left
                inward = part.left if within_left else part.right
                if not face.wall.holds(*outward) or face.opening_at(*outward) or face.opening_at(*inward):
                    found.skip()
                    continue
                beyond = face.zone_at(*outward)
                if order.get(beyond, len(order)) < order[zone.id] or _same_base(face, zone.id, beyond):
                    found.skip()
                    continue
                found.add(beyond, False, part.length)
            for (beyond, _), pieces in found.pieces.items():
                name = _name((surface.id, zone.id, here.id), beyond, False, found)
                yield EdgeRun(
                    name, surface.id, "wall", "field", "change of base", sum(pieces, NOUGHT), tuple(pieces),
                    zone.id, here.id, beyond=beyond, count=surface.count,
                )  # fmt: skip


def _same_base(face: _Face, one: str, other: str) -> bool:
    a, b = face.kinds.get(one), face.kinds.get(other)
    return a is not None and b is not None and (a.base, a.traits) == (b.base, b.traits)


def _name(parts: tuple[str, ...], zone: str, bare: bool, found: _Alike) -> str:
    """``wall/edge``; with the zone where the side runs over several, and ``bare`` where plaster stands beside."""
    zones = {z for z, _ in found.pieces}
    extra = [zone or "unzoned"] if len(zones) > 1 else []
    if bare and (zone, False) in found.pieces:
        extra.append("bare")
    return "/".join((*parts, *extra))


def _side_of(here: Corner, there: Corner, anticlockwise: bool, *, wall: bool) -> WallSideName:
    """Which side it is, by the way it faces out of the outline; a slope up to 45 degrees is top or bottom."""
    du, dv = there.u - here.u, there.v - here.v
    out = (dv, -du) if anticlockwise else (-dv, du)
    if abs(out[1]) >= abs(out[0]):
        if wall:
            return "top" if out[1] > 0 else "bottom"
        return "head" if out[1] > 0 else "sill"
    return "right" if out[0] > 0 else "left"
