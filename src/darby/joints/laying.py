"""The verb of the graph: where the plaster of one surface is allowed to part, by what, how wide, and why."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from quicktions import Fraction

from darby.joints import width
from darby.joints.allowed import Allowed, allowed
from darby.joints.base import block_spacing, borders
from darby.joints.layouts import Placed, joint_between, layout, placed
from darby.joints.lines import Line, barred
from darby.joints.model import EdgeJoint, Ground, Joint, Joints, JointsAsk, Layout, LayoutName, Run
from darby.joints.on_lath import Laid, OnLath, Site, on_lath, straight
from darby.joints.plane import Plane, plane
from darby.joints.saying import ids, proved, said_of_layout, said_of_stop
from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import whole
from darby.measure.outline import area_of
from darby.measure.units import unit
from darby.measure.writing import write
from darby.working.model import Quantity, Working

FT = unit("ft-in")
ORDER: tuple[LayoutName, ...] = ("best", "fewest", "through", "smaller")


def lay_out_joints(ask: JointsAsk) -> tuple[Joints, Working]:
    """Joints of one surface: layouts that differ, best first, each panel with what is left to every limit.

    Where no layout holds the limits the answer still stands, with a ``stop`` note for every panel that is past one.

    Raises
    ------
    Unreadable
        "joints.nothing" (no plaster), "joints.no-ground" (a part of the surface whose base nobody said),
        "joints.pin-off-wall", "joints.pin-forbidden", "joints.block-joint-off-wall", "joints.floor-off-wall",
        "joints.forbidden-backwards", "joints.no-such-layout"; those of ``allowed``, ``on_lath`` and ``width.checked``.
    """
    _checked(ask)
    at = ask.surface.id
    w = Working()
    grounds, numbers = _grounds(ask)
    whole_plane = plane(ask.surface, numbers)
    _covered(ask, whole_plane, len(grounds))
    within, notes = allowed(ask.book, ask.limits, ask.position, at)
    w.notes.extend(notes)
    done: dict[int, OnLath] = {}
    direct: dict[int, Laid] = {}
    for number, ground in enumerate(grounds):
        box = whole_plane.extent(number)
        if box is None:
            continue
        if ground.lathed:
            done[number] = on_lath(_site(w, ask, whole_plane, number, ground, within), at)
        else:
            direct[number] = straight(whole_plane, number, _base_lines(w, ask))
            _said_of_base(w, ask, ground, Fraction(box[2] - box[0]) / whole_plane.scale)
    zones = {n: tuple(g.zone for g in ask.grounds if (g.base, g.lathed) == (grounds[n].base, grounds[n].lathed))
             for n in (*done, *direct)}  # fmt: skip
    between = [joint_between(whole_plane, border, grounds) for border in borders(whole_plane)]
    names: list[LayoutName] = [n for n in ORDER if any(n in d.layouts for d in done.values())] or ["base"]
    layouts = tuple(_layout(w, ask, name, done, direct, zones, between, within) for name in names)
    chosen = _chosen(ask, layouts)
    for found in done.values():
        said_of_stop(w, at, found)
    said_of_layout(w, ask, chosen, layouts, within, done)
    edges = tuple(_edges(ask, grounds))
    widths = tuple(width.widths(w, ask, chosen, ask.grounds, [e.edge for e in edges]))
    runs = tuple(_run(ask, joint) for joint in chosen.joints)
    return Joints(at, layouts, chosen, runs, edges, widths, tuple(w.notes)), w


# --- what was asked -----------------------------------------------------------------------------------


def _checked(ask: JointsAsk) -> None:
    at, outline = ask.surface.id, ask.surface.outline
    if not outline or not area_of(outline):
        raise Unreadable(Fault("joints.nothing", at, "0", "> 0"))
    width.checked(ask.sealing, at)
    us, vs = [c.u for c in outline], [c.v for c in outline]
    ends = {"vertical": (min(us), max(us)), "horizontal": (min(vs), max(vs))}
    for pin in ask.pinned:
        _within(pin.at, *ends[pin.axis], f"{at}, {pin.axis}", "joints.pin-off-wall")
        if barred(Line(pin.axis, pin.at, "pinned"), ask.forbidden):
            raise Unreadable(Fault("joints.pin-forbidden", f"{at}, {pin.axis}", write(pin.at), ""))
    for joint in ask.block_joints or ():
        _within(joint, *ends["vertical"], at, "joints.block-joint-off-wall")
    for floor in ask.floor_lines:
        _within(floor, *ends["horizontal"], at, "joints.floor-off-wall")
    for span in ask.forbidden:
        if span.to is not None and span.to < span.at:
            raise Unreadable(
                Fault("joints.forbidden-backwards", at, f"{write(span.at)} … {write(span.to)}", f"{write(span.at)} …")
            )


def _within(x: Fraction, low: Fraction, high: Fraction, at: str, code: str) -> None:
    if not low < x < high:
        raise Unreadable(Fault(code, at, write(x), f"{write(low)} … {write(high)}"))


def _grounds(ask: JointsAsk) -> tuple[list[Ground], list[int]]:
    """Grounds that differ, and the number of each zone's and, last, of what no zone covers."""
    by_zone = {g.zone: g for g in ask.grounds}
    kinds: list[Ground] = []
    numbers: list[int] = []
    for zone in (*(z.id for z in ask.surface.zones), ""):
        ground = by_zone.get(zone)
        if ground is None and zone:
            raise Unreadable(Fault("joints.no-ground", f'{ask.surface.id}, zone "{zone}"', "", ", ".join(by_zone)))
        like = [n for n, k in enumerate(kinds) if ground and (k.base, k.lathed) == (ground.base, ground.lathed)]
        if ground is None:
            numbers.append(len(kinds))
        elif like:
            numbers.append(like[0])
        else:
            kinds.append(ground)
            numbers.append(len(kinds) - 1)
    return kinds, numbers


def _covered(ask: JointsAsk, p: Plane, count: int) -> None:
    if p.extent(count) is not None:
        raise Unreadable(Fault("joints.no-ground", ask.surface.id, "", ", ".join(g.zone for g in ask.grounds)))
    if all(p.extent(n) is None for n in range(count)):
        raise Unreadable(Fault("joints.nothing", ask.surface.id, "0", "> 0"))


# --- lines that are given -----------------------------------------------------------------------------


def _pins(ask: JointsAsk) -> Iterator[Line]:
    for pin in ask.pinned:
        yield Line(pin.axis, pin.at, pin.why, must=True, kind="control" if pin.why == "pinned" else "expansion")


def _site(w: Working, ask: JointsAsk, p: Plane, number: int, ground: Ground, within: Allowed) -> Site:
    given = list(_pins(ask))
    frame = ground.base == "frame"
    for floor in ask.floor_lines:
        line = Line("horizontal", floor, "floor line", must=frame, kind="expansion" if frame else "control")
        if frame and barred(line, ask.forbidden):
            w.note("joints.floor-forbidden", "caution", ask.surface.id, rules=ids(ask, "joint.two-piece"),
                   height=Quantity(floor, FT))  # fmt: skip
            continue
        given.append(line)
    if ground.base == "lath over block":
        given += [Line("vertical", u, "block joint") for u in ask.block_joints or ()]
    outline = tuple((c.u, c.v) for c in ask.surface.outline)
    most = whole(ask.book.number("joint.search").number)
    return Site(p, number, outline, within, tuple(given), ask.forbidden, most)


def _base_lines(w: Working, ask: JointsAsk) -> list[Line]:
    """Plaster straight on its base: the base's joints, what moves, and what he insists on."""
    lines = [Line("vertical", u, "block joint", must=True, kind="expansion") for u in ask.block_joints or ()]
    for line in _pins(ask):
        lines.append(line)
        if line.origin == "pinned":
            w.note("joints.pin-on-base", "caution", ask.surface.id, place=Quantity(line.at, FT))
    return lines


def _said_of_base(w: Working, ask: JointsAsk, ground: Ground, wide: Fraction) -> None:
    at, us = ask.surface.id, [c.u for c in ask.surface.outline]
    rules = (*ids(ask, "joint.direct"), *ids(ask, "parting.direct"))
    w.note("joints.follow-base", "fact", at, rules=rules)
    if ground.base in ("block", "painted block"):
        # a gable stands as high as it does on the average
        block_spacing(w, ask, f"{at}/joints/block", wide, area_of(ask.surface.outline) / (max(us) - min(us)))


# --- answers ------------------------------------------------------------------------------------------


def _layout(
    w: Working, ask: JointsAsk, name: LayoutName, done: dict[int, OnLath], direct: dict[int, Laid],
    zones: dict[int, tuple[str, ...]], between: Sequence[Joint], within: Allowed,
) -> Layout:  # fmt: skip
    laid = {n: d.layouts.get(name) or d.layouts["best"] for n, d in done.items()}
    parts: list[Placed] = [placed(zones[n], x) for n, x in laid.items()]
    parts += [placed(zones[n], x) for n, x in direct.items()]
    key = f"{ask.surface.id}/joints/{name}"
    made = layout(w, key, name, laid, parts, between)
    if done:
        proved(w, key, made, within.rules)
    return made


def _chosen(ask: JointsAsk, layouts: tuple[Layout, ...]) -> Layout:
    if ask.choose is None:
        return layouts[0]
    found = next((x for x in layouts if x.name == ask.choose), None)
    if found is None:
        raise Unreadable(Fault("joints.no-such-layout", ask.surface.id, ask.choose, ", ".join(x.name for x in layouts)))
    return found


def _edges(ask: JointsAsk, grounds: Iterable[Ground]) -> Iterator[EdgeJoint]:
    """Edges that are joints by what they meet."""
    frame = any(g.lathed and g.base == "frame" for g in grounds)
    for edge in ask.surface.edges:
        if edge.kind == "meets old work" or (edge.meets is not None and edge.meets.what in ("old plaster", "trim")):
            yield EdgeJoint(edge.id, "casing", "joints.edge.old")
        elif edge.kind == "change of base" or (edge.meets is not None and edge.meets.what == "other base"):
            yield EdgeJoint(edge.id, "casing", "joints.edge.base")
        elif edge.kind == "floor line" and frame:
            yield EdgeJoint(edge.id, "expansion", "joints.edge.floor")


def _run(ask: JointsAsk, joint: Joint) -> Run:
    at = ask.surface.id
    beads = 2 if joint.kind == "casing" else 1
    return Run(f"{at}/joint/{joint.id}", joint.id, joint.kind, joint.origin, joint.length, beads,
               ask.surface.count, joint.on_edge)  # fmt: skip
