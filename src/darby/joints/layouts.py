"""From lines and cuts to joints and panels in metres: what is drawn, ordered and checked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import shapely
from quicktions import Fraction
from shapely.geometry import Polygon

from darby.joints.allowed import Allowed
from darby.joints.base import Border, kind_between
from darby.joints.field import Box, Field
from darby.joints.lines import Line
from darby.joints.model import Axis, Ground, Joint, Layout, LayoutName, Panel, Point
from darby.joints.on_lath import Laid
from darby.joints.plane import Number, Plane
from darby.joints.tables import Window
from darby.measure.outline import distance
from darby.measure.units import unit
from darby.working.model import Quantity, Working

SQ_FT, FT, PLAIN = unit("sq ft"), unit("ft-in"), unit("")


@dataclass(frozen=True)
class Placed:
    """One ground parted: its field, its lines, the stretch of each line that is a joint, its panels."""

    zones: tuple[str, ...]
    field: Field
    joints: tuple[tuple[Line, int, int, int], ...]
    """Line, its number, and the numbers of the lines across it between which it is a joint."""
    panels: tuple[Box, ...]
    areas: tuple[Fraction, ...]
    windows: tuple[Window, ...]
    allowed: Allowed | None


def placed(zones: tuple[str, ...], laid: Laid) -> Placed:
    """A layout with its joints: cuts of one line that touch are one joint."""
    r, f = laid.ready, laid.ready.field
    ranges: dict[tuple[Axis, int], list[tuple[int, int]]] = {}
    for cut in (*laid.parted.across, *laid.parted.cuts):
        ranges.setdefault((cut.axis, cut.at), []).append((cut.begin, cut.end))
    for i in r.uprights:
        ranges["vertical", i] = [(0, r.m)]
    for j in r.levels:
        ranges["horizontal", j] = [(0, r.n)]
    joints = []
    for (axis, at), spans in ranges.items():
        joints += [(laid.lines[axis, at], at, begin, end) for begin, end in _touching(spans)]
    boxes = [f.box(*panel) for panel in laid.parted.panels]
    return Placed(
        zones, f, tuple(joints), tuple(b for b in boxes if b is not None),
        tuple(f.area(*panel) for panel in laid.parted.panels), laid.parted.panels,
        laid.allowed,
    )  # fmt: skip


def _touching(spans: Iterable[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    first, *rest = sorted(spans)
    for span in rest:
        if span[0] <= first[1]:
            first = (first[0], max(first[1], span[1]))
        else:
            yield first
            first = span
    yield first


# --- joints -------------------------------------------------------------------------------------------


def joints_of(part: Placed) -> Iterator[Joint]:
    """The joints of one ground, without their ids."""
    f = part.field
    for line, at, begin, end in part.joints:
        upright = line.axis == "vertical"
        stretches = (f.uprights if upright else f.levels)[at]
        across = f.vs if upright else f.us
        low, high = across[begin], across[end]
        met = [(max(s.low, low), min(s.high, high), s) for s in stretches if s.low < high and s.high > low]
        if not met:
            continue

        def point(along: Number, line: Line = line, upright: bool = upright) -> Point:
            return (line.at, f.metres(along)) if upright else (f.metres(along), line.at)

        names = [name for a, b, s in met for name, here in zip(s.names, (s.low >= low, s.high <= high), strict=True)
                 if here and name]  # fmt: skip
        yield Joint(
            "", line.axis, point(met[0][0]), point(met[-1][1]), tuple((point(a), point(b)) for a, b, _ in met),
            sum((f.metres(b - a) for a, b, _ in met), Fraction(0)), line.kind, line.origin,
            tuple(dict.fromkeys(names)), all(low <= s.low and s.high <= high for s in stretches),
        )  # fmt: skip


def joint_between(plane: Plane, border: Border, grounds: Sequence[Ground]) -> Joint:
    """The joint where one base meets another, without its id."""
    start, end = ((Fraction(u) / plane.scale, Fraction(v) / plane.scale) for u, v in (border.start, border.end))
    axis: Axis | str = "vertical" if start[0] == end[0] else "horizontal" if start[1] == end[1] else "along"
    one, other = (grounds[g] for g in border.grounds)
    return Joint("", axis, start, end, ((start, end),), distance(start, end), kind_between(one, other),  # type: ignore[arg-type]
                 "change of base", on_edge=True)  # fmt: skip


def numbered(joints: Iterable[Joint]) -> tuple[Joint, ...]:
    """With ids: v1, v2 ... from left to right, h1 ... from the bottom up, b1 ... where base meets base."""
    rows: dict[str, list[Joint]] = {"v": [], "h": [], "b": []}
    for joint in joints:
        rows["b" if joint.on_edge else joint.axis[0]].append(joint)
    for row in rows.values():
        row.sort(key=lambda j: (j.start, j.end))
    rows["h"].sort(key=lambda j: (j.start[1], j.start[0]))
    return tuple(replace(j, id=f"{letter}{n}") for letter, row in rows.items() for n, j in enumerate(row, 1))


# --- panels -------------------------------------------------------------------------------------------


def panels_of(w: Working, key: str, parts: Sequence[Placed]) -> tuple[Panel, ...]:
    """Every panel with what is left to each limit; p1, p2 ... from left to right, from the bottom up."""
    every = [(part, n) for part in parts for n in range(len(part.panels))]
    every.sort(key=lambda x: (x[0].field.metres(x[0].panels[x[1]].left), x[0].field.metres(x[0].panels[x[1]].bottom)))
    return tuple(_panel(w, f"{key}/p{k}", f"p{k}", part, n) for k, (part, n) in enumerate(every, 1))


def _panel(w: Working, key: str, name: str, part: Placed, n: int) -> Panel:
    f, box, area = part.field, part.panels[n], part.areas[n]
    wide, high = f.metres(box.right - box.left), f.metres(box.top - box.bottom)
    long, short = max(wide, high), min(wide, high)
    within = part.allowed
    panel = Panel(
        name, part.zones, within is not None, _rings(part, n), f.metres(box.left), f.metres(box.bottom), wide, high,
        area, long / short,
    )  # fmt: skip
    if within is None:
        return panel
    limits = within.given
    ratio = w.step(f"{key}/ratio", "long / short", PLAIN, "joints.step.ratio",
                   long=Quantity(long, FT), short=Quantity(short, FT))  # fmt: skip
    left = {
        "area": w.step(f"{key}/area-left", "limit - area", SQ_FT, "joints.step.area-left",
                       limit=limits[0], area=Quantity(area, SQ_FT)),
        "side": w.step(f"{key}/side-left", "limit - long", FT, "joints.step.side-left",
                       limit=limits[1], long=Quantity(long, FT)),
        "ratio": w.step(f"{key}/ratio-left", "limit - ratio", PLAIN, "joints.step.ratio-left",
                        limit=limits[2], ratio=ratio),
    }  # fmt: skip
    return replace(
        panel, area_slack=left["area"], side_slack=left["side"], ratio_slack=left["ratio"],
        breaks=within.broken(area, wide, high),
    )  # fmt: skip


def _rings(part: Placed, n: int) -> tuple[tuple[Point, ...], ...]:
    """Outline and holes of a panel, its corners exact."""
    i0, i1, j0, j1 = part.windows[n]
    f, (shape, known) = part.field, part.field.shape
    clip = shapely.box(*(float(f.metres(x)) for x in (f.us[i0], f.vs[j0], f.us[i1], f.vs[j1])))
    rings = []
    for polygon in shapely.get_parts(shapely.intersection(shape, clip).normalize()):
        if isinstance(polygon, Polygon) and not polygon.is_empty:
            for ring in (polygon.exterior, *polygon.interiors):
                points = [(known.get(u, Fraction(u)), known.get(v, Fraction(v))) for u, v in ring.coords[:-1]]
                rings.append(_plain(points))
    return tuple(rings)


def _plain(points: list[Point]) -> tuple[Point, ...]:
    """Without points that lie on the straight between their neighbours."""
    n = len(points)
    return tuple(
        b for k, b in enumerate(points)
        if (b[0] - (a := points[k - 1])[0]) * ((c := points[(k + 1) % n])[1] - b[1]) != (c[0] - b[0]) * (b[1] - a[1])
    )  # fmt: skip


# --- the whole ----------------------------------------------------------------------------------------


def layout(
    w: Working, key: str, name: LayoutName, laid: Mapping[int, Laid], parts: Sequence[Placed], between: Sequence[Joint]
) -> Layout:
    """One layout of a whole surface: on lath and straight on the base together."""
    joints = numbered([*(j for part in parts for j in joints_of(part)), *between])
    panels = panels_of(w, key, parts)
    costs = [x.parted.cost for x in laid.values()]
    hung = [j for part in parts if part.field.ground in laid for j in joints_of(part)]
    return Layout(
        name, joints, panels, sum(c.joints for c in costs), sum(c.off for c in costs), sum(c.into for c in costs),
        sum(c.stops for c in costs), sum((j.length for j in joints), Fraction(0)), all(j.through for j in hung),
        tuple(name for part in parts if part.field.ground in laid for name in _bare(part, joints)),
        all(x.holds for x in laid.values()),
    )  # fmt: skip


def _bare(part: Placed, joints: Iterable[Joint]) -> Iterator[str]:
    """Openings in this ground with no joint at any corner."""
    met = {name for joint in joints for name in joint.corners}
    seen: set[str] = set()
    for (u, v), name in part.field.plane.corners.items():
        if name and name not in seen and name not in met and _stands(part, u, v):
            seen.add(name)
            yield name


def _stands(part: Placed, u: Number, v: Number) -> bool:
    """Whether the ground's plaster turns round this corner of an opening."""
    left, right = part.field.plane.beside(u)
    below = [p for p in (*left, *right) if p.ground == part.field.ground and p.low < v <= p.top]
    above = [p for p in (*left, *right) if p.ground == part.field.ground and p.low <= v < p.top]
    return len(below) + len(above) > 2
