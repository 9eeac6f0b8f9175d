"""Marks laid out on a sheet: everything that depends on the size of the lettering is settled here.

Sheet units, x to the right, y down, the wall's (0, 0) at (0, 0). The SVG writer draws what comes out; the DXF writer
takes the places of dimension strings from it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise

from shapely.geometry import LineString, Polygon

from darby.drawing.geometry import BLOCK, courses_in, flat, lines_in, scattered_in, turned
from darby.drawing.lettering import CAP, LINE, fitted
from darby.drawing.model import Mark, Point, Sheet, Side
from darby.drawing.placed import Area, Box, Path, Placed, Ring, Strokes, Words, around, covers, meet
from darby.drawing.roles import ROLES, Hatch
from darby.drawing.strings import dimensions


@dataclass(slots=True)
class Layout:
    """What was placed, in drawing order, and how far out each dimension string stands [sheet units]."""

    sheet: Sheet
    placed: list[Placed] = field(default_factory=list)
    strings: Mapping[tuple[Side, int], float] = field(default_factory=dict)

    def box(self) -> Box:
        """Left, top, right, bottom of everything, lines at their full weight."""
        return around(covers(p, self.sheet) for p in self.placed)


RING = 1.6
"""Radius of the ring round a ground, in arms of its cross."""


def lay_out(marks: Sequence[Mark], sheet: Sheet) -> Layout:
    """Place ``marks`` on ``sheet``.

    Raises
    ------
    KeyError
        for a role that is not in the table.
    """
    out = Layout(sheet)
    symbols = [m for m in marks if m.kind == "symbol" and ROLES[m.role].symbol != "dot"]
    for mark in marks:
        if mark.kind != "dimension" and mark not in symbols:
            out.placed += _plain(mark, sheet)
    _symbols(out, symbols)
    core = out.box() if out.placed else (0.0, 0.0, 0.0, 0.0)
    lines, figures, out.strings = dimensions([m for m in marks if m.kind == "dimension"], core, sheet)
    out.placed += [*lines, *figures]
    return out


def core(mark: Mark) -> bool:
    """Whether a drawing may reach further for this mark: hatching stands inside outlines, but earth hangs below."""
    return mark.kind != "hatch" or mark.role == "earth"


# --- plain marks -------------------------------------------------------------------------------------------


def on_sheet(point: Point, sheet: Sheet) -> Point:
    """Metres on the wall to sheet units."""
    return point[0] * sheet.scale, -point[1] * sheet.scale


def run(mark: Mark, sheet: Sheet) -> tuple[tuple[Point, ...], tuple[float, ...]]:
    """Points [m] and bulges of a line as it is drawn: moved aside if it asks for it, arcs then flattened."""
    if not mark.aside:
        return mark.points, mark.bulges
    straight = flat(mark.points, mark.bulges or (0.0,) * len(mark.points), closed=False)
    moved = LineString(straight).offset_curve(sheet.metres(mark.aside * sheet.weight))
    return tuple((x, y) for x, y in moved.coords), ()


def _plain(mark: Mark, sheet: Sheet) -> Sequence[Placed]:
    if mark.kind == "text":
        return list(_text(mark, sheet))
    if mark.kind == "symbol":
        return [Ring(on_sheet(mark.points[0], sheet), ROLES[mark.role].size * sheet.weight, mark.role, mark.ref)]
    if mark.kind == "hatch":
        return _hatched(mark, sheet)
    points, bulges = run(mark, sheet)
    spread = tuple(on_sheet(p, sheet) for p in points)
    return [Path(spread, mark.role, mark.ref, bulges, mark.kind == "polygon", mark.text)]


def _text(mark: Mark, sheet: Sheet) -> Iterable[Words]:
    letter = sheet.lettering
    x, y = on_sheet(mark.points[0], sheet)
    x, y = x + mark.shift[0] * letter, y - mark.shift[1] * letter
    lines, turn = mark.text.split("\n"), mark.turn
    if mark.room is not None:
        spare = 0.4
        room = (
            (mark.room[0] * sheet.scale / letter - spare) / sheet.wide,
            mark.room[1] * sheet.scale / letter - spare / 2,
        )
        found = fitted(mark.text, room)
        if found is None or (found[1] and mark.upright):
            return
        lines, turn = found[0], mark.turn + found[1] if mark.turn + found[1] <= 90 else 0.0
    for k, line in enumerate(lines):
        down = ((len(lines) - 1) / -2 + k) * LINE * letter + CAP / 2 * letter
        across, along = turned((0.0, down), -turn)
        yield Words((x + across, y + along), line, mark.role, mark.ref, turn, mark.anchor)


@lru_cache(maxsize=256)
def _hatched(mark: Mark, sheet: Sheet) -> tuple[Placed, ...]:
    """Hatching, which takes longest: kept, as the same wall is laid out for quote, crew sheet and file."""
    hatch = ROLES[mark.role].hatch
    if hatch is None:
        raise KeyError(f"{mark.role!r} is no hatching")
    if hatch.family == "solid":
        rings = [tuple(on_sheet(p, sheet) for p in ring) for ring in (mark.points, *mark.holes)]
        return (Area(rings[0], tuple(rings[1:]), mark.role, mark.ref),)
    area = Polygon(mark.points, mark.holes)
    lines = _strokes(area, hatch, mark, sheet)
    return (Strokes(tuple((on_sheet(a, sheet), on_sheet(b, sheet)) for a, b in lines), mark.role, mark.ref),)


def _strokes(area: Polygon, hatch: Hatch, mark: Mark, sheet: Sheet) -> list[tuple[Point, Point]]:
    """The lines of a hatch in metres."""
    origin = mark.origin or mark.points[0]
    pitch = sheet.metres(hatch.pitch * pitch_of(sheet))
    if hatch.family == "courses":
        return courses_in(area, BLOCK, origin)
    if hatch.family == "lines":
        return lines_in(area, pitch, hatch.angle, origin)
    if hatch.family == "diamonds":
        return [line for turn in (hatch.angle, -hatch.angle) for line in lines_in(area, pitch, turn, origin)]
    long = sheet.metres(hatch.size * sheet.weight)
    strokes = []
    for (x, y), one, other in scattered_in(area, pitch, mark.ref + mark.role):
        reach = long * (0.4 + 0.6 * one) if hatch.family == "strokes" else 0.0
        dx, dy = turned((reach / 2, 0.0), other * 180)
        strokes.append(((x - dx, y - dy), (x + dx, y + dy)))
    return strokes


def pitch_of(sheet: Sheet) -> float:
    """A pitch of the line table is so many sheet units for one pixel: paper hatches a little wider than its lines."""
    return float(sheet.weight**0.5)


# --- symbols -----------------------------------------------------------------------------------------------


def _symbols(out: Layout, marks: Sequence[Mark]) -> None:
    taken = [covers(p, out.sheet) for p in out.placed if isinstance(p, Words)]
    tops = [p for p in out.placed if isinstance(p, Path)]
    for mark in marks:
        if ROLES[mark.role].symbol == "tag":
            some = _tag(mark, out.sheet, tops, taken)
            out.placed += some
            taken += [covers(p, out.sheet) for p in some if isinstance(p, (Words, Ring))]
    grounds = [m for m in marks if ROLES[m.role].symbol != "tag"]
    for mark in grounds:
        cross = _cross(mark, out.sheet)
        out.placed += cross
        taken += [covers(p, out.sheet) for p in cross]
    for mark in grounds:
        words = _depth(mark, out.sheet, taken)
        out.placed.append(words)
        taken.append(covers(words, out.sheet))


def _tag(mark: Mark, sheet: Sheet, tops: Sequence[Path], taken: Sequence[Box]) -> list[Placed]:
    """A letter in a circle above everything that stands over the joint."""
    x, y = on_sheet(mark.points[0], sheet)
    radius = max(ROLES[mark.role].size * sheet.weight, sheet.lettering * 0.75)
    over = min((_top(path, x - radius, x + radius) for path in tops), default=y)
    middle = min(y, over) - radius * 1.6
    while any(meet((x - radius, middle - radius, x + radius, middle + radius), b) for b in taken):
        middle -= radius * 2.2
    return [
        Path(((x, y), (x, middle + radius)), "joint line", mark.ref),
        Ring((x, middle), radius, mark.role, mark.ref),
        Words((x, middle + CAP / 2 * sheet.lettering), mark.text, "letter", mark.ref),
    ]


def _cross(mark: Mark, sheet: Sheet) -> list[Placed]:
    """A ground: a cross, ringed where the plaster is past its limit."""
    arm = ROLES[mark.role].size * sheet.weight
    x, y = on_sheet(mark.points[0], sheet)
    cross: list[Placed] = [Strokes((((x - arm, y), (x + arm, y)), ((x, y - arm), (x, y + arm))), mark.role, mark.ref)]
    if ROLES[mark.role].symbol == "ringed ground":
        cross.append(Ring((x, y), arm * RING, "ground ring", mark.ref))
    return cross


def _depth(mark: Mark, sheet: Sheet, taken: Sequence[Box]) -> Words:
    """A ground's depth above, beside or below its cross: where least is lettered already."""
    x, y = on_sheet(mark.points[0], sheet)
    letter = sheet.lettering
    gap = ROLES[mark.role].size * sheet.weight * RING + 0.36 * letter
    tries = [
        Words((x, y - gap), mark.text, mark.role, mark.ref),
        Words((x + gap, y + CAP / 2 * letter), mark.text, mark.role, mark.ref, anchor="start"),
        Words((x, y + gap + CAP * letter), mark.text, mark.role, mark.ref),
        Words((x - gap, y + CAP / 2 * letter), mark.text, mark.role, mark.ref, anchor="end"),
    ]
    return min(tries, key=lambda words: sum(meet(words.box(sheet), b) for b in taken))


def _top(path: Path, left: float, right: float) -> float:
    """The highest place of a path between two uprights; far below if it does not come there."""
    points = flat([(x, -y) for x, y in path.points], path.bulges, closed=path.closed, error=0.5)
    ends = [*points, points[0]] if path.closed else points
    best = float("inf")
    for (x0, y0), (x1, y1) in pairwise(ends):
        if max(x0, x1) < left or min(x0, x1) > right:
            continue
        if x0 == x1:
            best = min(best, -y0, -y1)
            continue
        for x in (min(max(left, min(x0, x1)), max(x0, x1)), max(min(right, max(x0, x1)), min(x0, x1))):
            best = min(best, -(y0 + (y1 - y0) * (x - x0) / (x1 - x0)))
    return best
