"""[[survey]]: what he found on an old wall: hollow areas, cracks, loose paint, and where he tapped.

Faults: ``condition.off-wall`` (hollow, paint or a crack beyond the wall), ``condition.in-opening``,
``condition.overlap`` (two hollow areas over each other), ``condition.no-length`` (a crack that goes nowhere),
``condition.order`` (gauge readings that are not oldest first), ``condition.disagree`` (the same crack, or the same
day, said twice and otherwise), ``condition.size-or-outline``, ``condition.surface-or-id``, ``condition.taps`` and
``condition.tap`` (rows that do not fit the grid, or a letter that stands for nothing).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

import shapely
from quicktions import Fraction

from darby import measure
from darby.job import allowed as ok
from darby.job.condition import Crack, GaugeReading, Hollow, Lath, Loose, Point, Push, Survey
from darby.job.draft import Draft
from darby.job.fields import Day, Document, Measured, key, must
from darby.job.part import Part
from darby.job.places import Loc
from darby.job.sections.bases import read_points
from darby.job.sections.openings import OpeningEntry, read_openings
from darby.measure.limits import at_most
from darby.measure.outline import distance, polygon
from darby.measure.surface import Corner, Surface
from darby.measure.tapping import tap_grid
from darby.measure.writing import HAIR, write
from darby.rulebook.load import default

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

TAPS = {"s": "sound", "h": "hollow", ".": "not tapped"}
"""What a letter of a row of taps stands for."""

TEMPERATURES = "40 °F, 4.5 °C"


class AreaDocument(Document):
    """A patch of the wall, by its corners, or by its size and where its lower left corner is."""

    outline: list[str] = key("Corners in order: from the left end, up from the base: `4', 2'`.")
    size: Measured = key("Width by height instead of corners: `3' x 2'`.")
    at: Measured = key("With `size`: from the wall's left end to its left side.")
    up: Measured = key("With `size`: from the wall's base to its lower side.")
    id: str = key("Its short name; left out, `hollow-1`, `loose-1` ...")
    name: str = key("What you call it.")


class HollowDocument(AreaDocument):
    """[[survey.hollow]]: where it sounds hollow."""

    push: Push = key("Whether it gives when you push with the flat hand.")
    lath: Lath = key("Whether the lath behind it is tight on the studs, as far as you can see.")


class LooseDocument(AreaDocument):
    """[[survey.loose]]: where paint comes off."""


class ReadingDocument(Document):
    """[[survey.crack.reading]]: what the gauge showed on a day."""

    on: Day = must("The day.")
    width: Measured = must("How wide the crack was: `0.4 mm`.")
    air: Measured = key("How warm the air was: `40 °F`.")


class CrackDocument(Document):
    """[[survey.crack]]: one crack."""

    line: list[str] = must("Points along it: from the left end, up from the base: `4', 2'`.")
    width: Measured = key("How wide it is at its widest: `1/32 in`; the last gauge reading unless you say.")
    id: str = key("Its short name; left out, `crack-1`, `crack-2` ...")
    name: str = key("What you call it.")
    leaks: bool = key("Whether water comes in at it.")
    returned: bool = key("Whether it came back after it was filled.")
    gauge: Measured = key("The least that your gauge tells apart: `0.1 mm`.")
    reading: list[ReadingDocument] = key("Gauge readings, oldest first.")


class SurveyDocument(Document):
    """[[survey]]: what was found on one wall: one that is coated in this job, or one that is looked at only."""

    surface: str = key("The surface, where it is coated in this job.")
    id: str = key("Else the short name of a wall that is only looked at.")
    name: str = key("What it is called on papers.")
    size: Measured = key("With `id`: length by height: `22' x 9'`.")
    openings: list[OpeningEntry] = key("With `id`: what is in it, like the openings of a wall.")
    grid: Measured = key("How far apart you tap.")
    taps: list[str] = key(
        "What you heard, row by row, the top row first, a letter a square: `s` sound, `h` hollow, `.` not tapped."
    )
    pace: Measured = key("How much wall one person taps in an hour: `300 sq ft/h`.")
    hollow: list[HollowDocument] = key("Hollow areas.")
    crack: list[CrackDocument] = key("Cracks.")
    loose: list[LooseDocument] = key("Loose paint.")


def read(root: Part, draft: Draft) -> None:
    """Read [[survey]] into the draft: a surface once; whether it all lies on the wall is looked at when it is built."""
    found: list[Survey] = []
    seen: set[str] = set()
    for part in root.parts("survey"):
        surface, wall = _which(part, draft, seen)
        grid = _grid(part)
        taps = part.words("taps")
        names: set[str] = set()
        hollow = tuple(_hollow(entry, names, n) for n, entry in enumerate(part.parts("hollow"), 1))
        loose = tuple(_loose(entry, names, n) for n, entry in enumerate(part.parts("loose"), 1))
        cracks = _cracks(part, names)
        survey = Survey(
            surface or "",
            wall,
            grid,
            taps,
            part.rate("pace", length=False),
            tuple(h for h in hollow if h is not None),
            tuple(crack for _, crack in cracks),
            tuple(x for x in loose if x is not None),
        )
        if surface is None:
            continue
        areas = [
            (entry, area)
            for key_, made in (("hollow", hollow), ("loose", loose))
            for entry, area in zip(part.parts(key_), made, strict=True)
            if area is not None
        ]
        draft.when_built(lambda built, p=part, s=survey, a=areas, c=cracks: _on_the_wall(p, built, s, a, c))  # type: ignore[misc]
        found.append(survey)
    draft.put(survey=tuple(found))


def _which(part: Part, draft: Draft, seen: set[str]) -> tuple[str | None, Surface | None]:
    """The surface of the job, or a wall of its own; each once. None where it is neither, or cannot be read."""
    if part.said("surface") == part.said("id"):
        part.fault(None, "condition.surface-or-id", "surface, id" if part.said("id") else "", "surface … / id …")
        return None, None
    if part.said("surface"):
        for name in ("size", "openings", "name"):
            if part.has(name):
                part.fault(name, "job.not-here", part.raw[name], "id = ...")
        surface = draft.surface_named(part, "surface")
        if surface is not None and surface in seen:
            part.fault("surface", "job.twice", surface, ok.ONCE)
            return None, None
        seen |= {surface} if surface else set()
        return surface, None
    id = part.id("id", draft.ids)
    openings = read_openings(part, "openings", id)
    if not part.said("size"):
        part.fault("size", "job.missing", "", "size = ...")
    size = _by(part)
    if not id or size is None:
        return None, None
    wall = measure.wall(id, part.text("name") or id, *size, openings=openings)
    return id, wall


def _grid(part: Part) -> Fraction | None:
    """How far apart he taps; closer than a hand is wide is a slip of the pen, and no wall could be drawn so."""
    grid = part.length("grid", positive=True)
    least = default().number("survey.grid.least")
    if grid is not None and not at_most(least.number, grid):
        part.fault("grid", "condition.grid", part.raw["grid"], f"{least.written} …")
        return None
    return grid


# --- areas -------------------------------------------------------------------------------------------


def _hollow(part: Part, names: set[str], number: int) -> Hollow | None:
    outline, id = _outline(part), _id(part, names, f"hollow-{number}")
    push, lath = part.word("push"), part.word("lath")
    return None if outline is None else Hollow(id, outline, part.text("name"), push, lath)


def _loose(part: Part, names: set[str], number: int) -> Loose | None:
    outline, id = _outline(part), _id(part, names, f"loose-{number}")
    return None if outline is None else Loose(id, outline, part.text("name"))


def _id(part: Part, names: set[str], otherwise: str) -> str:
    if part.has("id"):
        return part.id("id", names) or otherwise
    names.add(otherwise)
    return otherwise


def _outline(part: Part) -> tuple[Point, ...] | None:
    """Corners as written, or of the box that size, at and up say; None where neither can be read."""
    boxed = part.said("size")
    if boxed == part.said("outline"):
        part.fault(None, "condition.size-or-outline", "outline, size" if boxed else "", "size … / outline …")
        return None
    if not boxed:
        points = read_points(part, "outline")
        if points is not None and not polygon(_corners(points)).area:
            part.fault("outline", "condition.no-area", ", ".join(part.words("outline")), ok.AN_AREA)
            return None
        return None if points is None else tuple(points)
    at, up = part.length("at"), part.length("up")
    for name in ("at", "up"):
        if not part.said(name):
            part.fault(name, "job.missing", "", f"{name} = ...")
    size = _by(part)
    if size is None or at is None or up is None:
        return None
    wide, high = size
    return (at, up), (at + wide, up), (at + wide, up + high), (at, up + high)


def _by(part: Part) -> tuple[Fraction, Fraction] | None:
    from darby.measure.amounts import lengths_by

    text, units = part.raw.get("size"), part.units
    if text is None:
        return None
    found = part.attempt(("size",), lambda: lengths_by(text, units), text)
    if found is None:
        return None
    if len(found) != 2 or min(found) <= 0:
        part.fault("size", "measure.opening-size", text, "3' x 2'")
        return None
    return found[0], found[1]


# --- cracks ------------------------------------------------------------------------------------------


def _cracks(part: Part, names: set[str]) -> list[tuple[Part, Crack]]:
    """Every crack once: one that is written twice alike is one; twice and otherwise is a fault."""
    found: list[tuple[Part, Crack]] = []
    at: dict[tuple[Point, ...], Crack] = {}
    for number, entry in enumerate(part.parts("crack"), 1):
        id = _id(entry, names, f"crack-{number}")
        line = _line(entry)
        gauge = entry.length("gauge", positive=True)
        readings = _readings(entry)
        crack = Crack(
            id, line or (), entry.text("name"), entry.length("width", positive=True), entry.flag("leaks"),
            entry.flag("returned"), gauge, readings,
        )  # fmt: skip
        if line is None:
            continue
        first = at.setdefault(min(line, line[::-1]), crack)
        if first.width != crack.width:
            both = ", ".join(write(c.width, "in", 64) if c.width else "-" for c in (first, crack))
            entry.fault(None, "condition.disagree", both, first.id)
        elif first is crack:
            found.append((entry, crack))
    return found


def _line(part: Part) -> tuple[Point, ...] | None:
    """Two points or more, apart from each other; None if one cannot be read."""
    if not part.has("line"):
        return None
    rows = part.rows("line")
    if len(rows) == len(part.raw["line"]) and len(rows) < 2:
        part.fault("line", "condition.no-length", str(len(rows)), "2 …")
        return None
    padded = Part(part.reading, {"line": [*part.raw["line"], *part.raw["line"][-1:]]}, part.loc, part.units)
    points = read_points(padded, "line")  # it asks for three corners: a line of two is written twice at its end
    if points is None:
        return None
    points = points[:-1]
    if not sum(distance(a, b) for a, b in pairwise(points)):
        part.fault("line", "condition.no-length", ", ".join(part.words("line")), "2 …")
        return None
    return tuple(points)


def _readings(part: Part) -> tuple[GaugeReading, ...]:
    """Oldest first; a day has one width."""
    found: list[GaugeReading] = []
    for entry in part.parts("reading"):
        on, width = entry.day("on"), entry.length("width")
        air = None
        if entry.has("air"):
            written = entry.raw["air"]
            air = entry.attempt(("air",), lambda written=written: measure.temperature(written), written)  # type: ignore[misc]
        if on is None or width is None:
            continue
        last = found[-1] if found else None
        if last is not None and on < last.on:
            entry.fault("on", "condition.order", on.isoformat(), f"{last.on.isoformat()} …")
        elif last is not None and on == last.on and width != last.width:
            both = f"{write(last.width, 'mm')}, {write(width, 'mm')}"
            entry.fault("width", "condition.disagree", both, on.isoformat())
        elif last is None or on > last.on:
            found.append(GaugeReading(on, width, air))
    return tuple(found)


# --- on the wall -------------------------------------------------------------------------------------


def _corners(points: Sequence[Point]) -> tuple[Corner, ...]:
    return tuple(Corner(str(n), u, v) for n, (u, v) in enumerate(points))


def _on_the_wall(
    part: Part,
    surfaces: Sequence[Surface],
    survey: Survey,
    areas: Sequence[tuple[Part, Hollow | Loose]],
    cracks: Sequence[tuple[Part, Crack]],
) -> None:
    """All of it lies on the wall and none in an opening; hollow areas lie clear of each other; taps fit the grid."""
    surface = survey.wall or next((s for s in surfaces if s.id == survey.surface), None)
    if surface is None:
        return
    wall = polygon(surface.outline)
    holes = shapely.union_all([polygon(o.outline) for o in surface.openings])
    shapes = [(entry, area, polygon(_corners(area.outline))) for entry, area in areas]
    sound = [(entry, area, shape) for entry, area, shape in shapes if _lies(entry, surface, wall, holes, shape)]
    hollow = [row for row in sound if isinstance(row[1], Hollow)]
    for n, (entry, _, shape) in enumerate(hollow):
        over = [other.id for _, other, there in hollow[:n] if shape.intersection(there).area > float(HAIR) ** 2]
        if over:
            entry.fault(None, "condition.overlap", ", ".join(over), ok.ZONES_APART)
    for entry, crack in cracks:
        line = shapely.LineString([(float(u), float(v)) for u, v in crack.line])
        _lies(entry, surface, wall, holes, line)
    _taps(part, surface, survey)


def _lies(part: Part, surface: Surface, wall: BaseGeometry, holes: BaseGeometry, shape: BaseGeometry) -> bool:
    if not shape.is_valid:
        part.fault(None, "measure.outline-crosses", "", ok.CORNERS_IN_ORDER)
        return False
    u0, v0, u1, v1 = wall.bounds
    if not wall.buffer(float(HAIR)).covers(shape):
        left, low, right, high = shape.bounds
        where = f"at {write(left)} … {write(right)}, up {write(low)} … {write(high)}"
        part.fault(None, "condition.off-wall", where, f"at {write(u0)} … {write(u1)}, up {write(v0)} … {write(v1)}")
        return False
    if holes.buffer(float(HAIR)).covers(shape):
        inside = [o.id for o in surface.openings if polygon(o.outline).intersects(shape)]
        part.fault(None, "condition.in-opening", ", ".join(inside), ok.BESIDE_OPENINGS)
        return False
    return True


def _taps(part: Part, surface: Surface, survey: Survey) -> None:
    """As many rows and letters as the grid has, and letters that stand for something."""
    if not survey.taps:
        return
    spacing = survey.grid or Fraction(default().number("survey.grid").number)
    grid = tap_grid(surface.outline, spacing)
    if len(survey.taps) != grid.high:
        part.fault("taps", "condition.taps", str(len(survey.taps)), str(grid.high))
    for n, row in enumerate(survey.taps):
        way: Loc = ("taps", n)
        wrong = [letter for letter in row if letter not in TAPS]
        if wrong:
            part.fault_at(way, "condition.tap", wrong[0], ", ".join(TAPS))
        elif len(row) != grid.wide:
            part.fault_at(way, "condition.taps", str(len(row)), str(grid.wide))
