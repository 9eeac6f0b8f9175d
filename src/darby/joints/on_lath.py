"""One ground on lath: its lines, its best layout, those that differ; where none holds, what stands in the way."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import lcm

from quicktions import Fraction

from darby.joints.across import Parted, Ready, Whole, ready
from darby.joints.allowed import Allowed
from darby.joints.cost import Cost
from darby.joints.field import Field, field
from darby.joints.lines import AXES, Line, barred, candidates, clear_of, parted, thinned, unique
from darby.joints.model import Axis, Forbidden, LayoutName
from darby.joints.plane import Plane
from darby.joints.tables import Window, cuts
from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import whole
from darby.measure.units import unit
from darby.measure.writing import number, shown, write

SQ_FT = unit("sq ft")
ROUNDS = 2 + 1
"""How often lines are added where panels are still past a limit."""


@dataclass(frozen=True)
class Laid:
    """A layout of one ground: its field, the line of every number, and how it is parted."""

    ready: Ready
    lines: dict[tuple[Axis, int], Line]
    parted: Parted
    allowed: Allowed | None
    """None straight on a base, where no limit holds."""
    whole: Whole | None = None

    @property
    def holds(self) -> bool:
        """Whether every panel keeps within the limits."""
        return not self.parted.cost.past

    def sides(self, panel: Window) -> tuple[Fraction, Fraction]:
        """Width and height of a panel [m]."""
        return self.ready.field.sides(*panel)

    def past(self) -> list[tuple[Window, tuple[str, ...]]]:
        """The panels past a limit, and which."""
        f = self.ready.field
        if self.allowed is None:
            return []
        found = [(panel, self.allowed.broken(f.area(*panel), *f.sides(*panel))) for panel in self.parted.panels]
        return [(panel, broken) for panel, broken in found if broken]


@dataclass(frozen=True)
class OnLath:
    """All layouts of one ground, the best first. ``lacking``: joints that would mend it, were they not forbidden."""

    ground: int
    layouts: dict[LayoutName, Laid]
    left_out: int = 0
    lacking: tuple[Line, ...] = ()


@dataclass(frozen=True)
class Site:
    """What stands fast: the plane, the ground in it, the outline's corners, the limits, what he wants and forbids."""

    plane: Plane
    ground: int
    outline: tuple[tuple[Fraction, Fraction], ...]
    allowed: Allowed
    given: tuple[Line, ...]
    forbidden: tuple[Forbidden, ...]
    most: int


def on_lath(site: Site, at: str) -> OnLath:
    """The best layout of one ground and up to two others that differ from it.

    Raises
    ------
    Unreadable
        "joints.pins-too-close": two pins, or a pin and an edge, leave a strip too narrow for its length;
        "joints.pins-break-limits": without the pins there is a layout, with them there is none.
    """
    lines = candidates(site.plane, site.ground, site.allowed, site.outline, site.given, site.forbidden)
    some = thinned(lines, site.most)
    first = _mended(site, some)
    _pins_apart(first, at)
    left_out = len(lines) - len(some)
    if not first.holds:
        _pins_hold(site, first, at)
        return OnLath(site.ground, {"best": first}, left_out, _unbarred(site))
    layouts: dict[LayoutName, Laid] = {"best": first}
    if first.parted.cost.joints:
        layouts |= _others(first)
    return OnLath(site.ground, layouts, left_out)


def laid(site: Site, lines: Sequence[Line]) -> Laid:
    """The best layout over just these lines."""
    cells, named = _field(site.plane, site.ground, lines)
    musts = {axis: [k for (a, k), line in named.items() if a == axis and line.must] for axis in AXES}
    made = ready(cells, site.allowed, musts["vertical"], musts["horizontal"])
    answered = Whole(made, site.allowed.side)
    return Laid(made, named, answered.best(), site.allowed, answered)


def _field(plane: Plane, ground: int, lines: Iterable[Line]) -> tuple[Field, dict[tuple[Axis, int], Line]]:
    """The cells between the lines, and the line of every number."""
    rows = {axis: [line for line in lines if line.axis == axis] for axis in AXES}
    scale = lcm(plane.scale, *(line.at.denominator for row in rows.values() for line in row))
    plane = plane.scaled(scale)
    box = plane.extent(ground)
    assert box is not None
    left, bottom, right, top = box
    us, vs = ([int(line.at * scale) for line in rows[axis]] for axis in AXES)
    named = {(axis, k): line for axis in AXES for k, line in enumerate(rows[axis], 1)}
    return field(plane, ground, (left, *us, right), (bottom, *vs, top)), named


def straight(plane: Plane, ground: int, lines: Iterable[Line]) -> Laid:
    """Plaster straight on its base, parted by just these lines."""
    box = plane.extent(ground)
    assert box is not None
    left, bottom, right, top = (Fraction(x) / plane.scale for x in box)
    ends = {"vertical": (left, right), "horizontal": (bottom, top)}
    within = [line for line in unique(lines) if ends[line.axis][0] < line.at < ends[line.axis][1]]
    cells, named = _field(plane, ground, within)
    numbers = {axis: tuple(k for a, k in named if a == axis) for axis in AXES}
    n, m = len(cells.us) - 1, len(cells.vs) - 1
    panels = tuple(Window(i, i + 1, j, j + 1) for i in range(n) for j in range(m) if cells.area(i, i + 1, j, j + 1))
    made = Ready(cells, numbers, *cuts(cells), {})
    return Laid(made, named, Parted((), (), panels, Cost(), len(panels), 0), None)


def _others(first: Laid) -> dict[LayoutName, Laid]:
    """Fewest joints and all lined through, where they differ; where neither does, one joint more."""
    assert first.whole is not None
    found: dict[LayoutName, Laid] = {}
    fewest = first.whole.through("fewest")
    if not fewest.cost.past and fewest.cost.joints < first.parted.cost.joints:
        found["fewest"] = replace(first, parted=fewest)
    if first.parted.cuts:
        through = first.whole.through()
        if not through.cost.past and through.across != fewest.across:
            found["through"] = replace(first, parted=through)
    if not found:
        more = first.whole.more(first.parted)
        if not more.cost.past and more.panels != first.parted.panels:
            found["smaller"] = replace(first, parted=more)
    return found


def _mended(site: Site, lines: Sequence[Line]) -> Laid:
    """The best layout; where panels are past a limit, with even parts of those panels among the lines."""
    found = laid(site, lines)
    for _ in range(ROUNDS):
        if found.holds:
            break
        more = unique([*lines, *(x for x in _parts(found, site.forbidden) if not barred(x, site.forbidden))])
        if len(more) == len(lines):
            break
        lines = thinned(more, site.most)
        found = laid(site, lines)
    return found


def _parts(found: Laid, forbidden: Sequence[Forbidden]) -> Iterable[Line]:
    """Even parts of every panel that is past a limit, and lines clear of what is forbidden in it."""
    f, within = found.ready.field, found.allowed
    assert within is not None
    for panel, _ in found.past():
        box = f.box(*panel)
        assert box is not None
        left, bottom, right, top = (f.metres(x) for x in box)
        strips: tuple[tuple[Axis, Fraction, Fraction, Fraction], ...] = (
            ("vertical", left, right, top - bottom), ("horizontal", bottom, top, right - left)
        )  # fmt: skip
        for axis, begin, end, across in strips:
            few = max(whole(across / within.side), 1)
            for n in (few, few + 1):
                yield from parted(axis, begin, end, within.parts(end - begin, across / n), "even")
            if forbidden:
                yield from clear_of(forbidden, axis, begin, end)


# --- pins and what is forbidden -----------------------------------------------------------------------


def _pins_apart(found: Laid, at: str) -> None:
    """Every upright strip beside a pin is wide enough for its height, or for the storeys that it has to be cut in."""
    f, within = found.ready.field, found.allowed
    assert within is not None
    for window in found.ready.windows:
        pins = [x for k in window[:2] if (x := found.lines.get(("vertical", k))) and x.origin == "pinned"]
        wide, high = f.sides(*window)
        if not pins or not wide:
            continue
        high /= max(whole(high / within.side), 1)
        if wide < high and "ratio" in within.broken(Fraction(0), wide, high):
            raise Unreadable(
                Fault("joints.pins-too-close", f"{at}, {', '.join(write(x.at) for x in pins)}",
                      f"{write(wide)} x {write(high)}", f"{write(high / within.ratio)} …")
            )  # fmt: skip


def _pins_hold(site: Site, found: Laid, at: str) -> None:
    """The pins are not what stands in the way."""
    pins = [line for line in site.given if line.origin == "pinned"]
    if not pins:
        return
    without = replace(site, given=tuple(line for line in site.given if line.origin != "pinned"))
    free = candidates(site.plane, site.ground, site.allowed, site.outline, without.given, site.forbidden)
    if _mended(without, thinned(free, site.most)).holds:
        (panel, _), *_ = found.past()
        wide, high = found.sides(panel)
        within = site.allowed
        limits = shown(within.area, SQ_FT), write(within.side), f"{number(within.ratio, 1)} : 1"
        raise Unreadable(
            Fault("joints.pins-break-limits", at, f"{', '.join(write(pin.at) for pin in pins)}: "
                  f"{write(wide)} x {write(high)}", ", ".join(limits))
        )  # fmt: skip


def _unbarred(site: Site) -> tuple[Line, ...]:
    """The joints that would mend it if they were allowed."""
    if not site.forbidden:
        return ()
    open_ = replace(site, forbidden=())
    lines = candidates(site.plane, site.ground, site.allowed, site.outline, site.given, ())
    free = _mended(open_, thinned(lines, site.most))
    if not free.holds:
        return ()
    used = {free.lines[(cut.axis, cut.at)] for cut in (*free.parted.across, *free.parted.cuts)}
    return tuple(sorted((x for x in used if barred(x, site.forbidden)), key=lambda x: (x.axis, x.at)))
