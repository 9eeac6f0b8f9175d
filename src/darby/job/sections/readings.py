"""[[readings]]: how far a bare wall stands out, point by point, typed or from a file, and how it is to be trued.

Faults of readings have the codes of the grounds room, which refuses the same things: "grounds.few", "grounds.in-line",
"grounds.off-wall", "grounds.in-opening", "grounds.disagree", "grounds.close", "grounds.no-number"; and
"grounds.points-or-csv", "grounds.no-csv", "grounds.not-upright".
"""

from __future__ import annotations

import csv
from collections.abc import Sequence
from pathlib import Path
from typing import Literal

import shapely
from quicktions import Fraction

from darby import measure
from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
from darby.job.part import LONGEST_LENGTH, Part
from darby.job.places import Loc, shown
from darby.job.readings import FaceName, FinishedReadings, HeldBy, Reading, WallReadings
from darby.job.sections.firm_file import LengthUnit
from darby.measure.outline import polygon
from darby.measure.surface import Surface
from darby.measure.writing import HAIR, write
from darby.rulebook.load import default

UPRIGHT = 90
"""Tilt of a wall [deg]."""

MOST_BYTES = 2_000_000
"""A longer file of readings is refused unread."""

MOST = 20_000
"""Readings of one wall; past it a scan wants thinning first."""

READING = '["2\'", "3\'", "1/8 in"]'
IN_A_FILE = "2', 3', 1/8 in"
Measuring = Literal["out", "back"]
MEASURED = (
    "`out`, unless you say: how far the wall stands out of the line. `back`: how far it lies behind a string, a laser "
    "or a straightedge held in front of it, so that a hollow reads more."
)
Placed = tuple[Loc, Reading]
"""A reading and where it was written."""


class ReadingsDocument(Document):
    """[[readings]]: readings of one bare wall."""

    surface: str = must("The surface.")
    points: list[list[Measured]] = key(
        f"From the left end, up from the base, and out of the plumb line toward you (back is below 0): `{READING}`."
    )
    csv: str = key("A file of them instead, one a line, beside this file: `readings.csv`.")
    measured: Measuring = key(MEASURED)
    units: LengthUnit = key("What a bare number in these readings is in.")
    fixed: list[list[Measured]] = key("What the face must come flush with, like points: frames, old work, set grounds.")
    least: Measured = key("The whole plaster at every reading, at the least.")
    held: HeldBy = key("How plaster too thick to hang is held: on lath, by following the wall, dubbed out in lifts.")
    face: FaceName = key("Dead plumb, leaning with the wall, or wandering within the rules; plumb unless you say.")
    spacing: Measured = key("How far apart the grounds may stand.")


class FinishedDocument(Document):
    """[[finished]]: readings of one finished face, after the work; a straightedge is rolled over them."""

    surface: str = must("The surface.")
    points: list[list[Measured]] = key(
        f"From the left end, up from the base, and how far out: `{READING}`. Three or more on a level or a plumb line."
    )
    csv: str = key("A file of them instead, one a line, beside this file: `finished.csv`.")
    measured: Measuring = key(MEASURED)
    units: LengthUnit = key("What a bare number in these readings is in.")


def read_finished(root: Part, draft: Draft) -> None:
    """Read [[finished]] into the draft: a surface once."""
    found: list[FinishedReadings] = []
    seen: set[str] = set()
    for part in root.parts("finished"):
        surface = draft.surface_named(part, "surface")
        if surface is not None and surface in seen:
            part.fault("surface", "job.twice", surface, "each surface once")
            surface = None
        if part.has("units"):
            part.use_units("units")
        points, whole = _points(part, draft)
        points = _out(part, points)
        if whole and len({(u, v) for _, (u, v, _) in points}) < 3:
            part.fault("csv" if part.has("csv") else "points", "grounds.few", len(points), "3 …")
        _agree(part, points)
        if surface is not None:
            seen.add(surface)
            draft.when_built(lambda all_of, p=part, s=surface, a=points: _on_the_wall(p, all_of, s, a, ()))  # type: ignore[misc]
            found.append(FinishedReadings(surface, tuple(reading for _, reading in points)))
    draft.put(finished=tuple(found))


def read(root: Part, draft: Draft) -> None:
    """Read [[readings]] into the draft: a surface once; whether they lie on it is looked at when it is built."""
    found: list[WallReadings] = []
    seen: set[str] = set()
    for part in root.parts("readings"):
        surface = draft.surface_named(part, "surface")
        if surface is not None and surface in seen:
            part.fault("surface", "job.twice", surface, "each surface once")
            surface = None
        if part.has("units"):
            part.use_units("units")
        points, whole = _points(part, draft)
        points, fixed = _out(part, points), _out(part, _rows(part, "fixed"))
        if whole:
            _enough(part, points)
        for several in (points, fixed):
            _agree(part, several)
        if surface is None:
            continue
        seen.add(surface)
        draft.when_built(lambda all_of, p=part, s=surface: _upright(p, all_of, s))  # type: ignore[misc]
        draft.when_built(lambda all_of, p=part, s=surface, a=points, b=fixed: _on_the_wall(p, all_of, s, a, b))  # type: ignore[misc]
        found.append(
            WallReadings(
                surface=surface,
                points=tuple(reading for _, reading in points),
                fixed=tuple(reading for _, reading in fixed),
                least=part.length("least", positive=True),
                held=part.word("held"),
                face=part.word("face"),
                spacing=_spacing(part),
            )
        )
    draft.put(readings=tuple(found))


def _spacing(part: Part) -> Fraction | None:
    spacing = part.length("spacing", positive=True)
    least = default().number("grounds.spacing-least")
    if spacing is not None and spacing < least.number:
        part.fault("spacing", "grounds.close", part.raw["spacing"], f"{least.written} …")
    return spacing


# --- points ------------------------------------------------------------------------------------------


def _points(part: Part, draft: Draft) -> tuple[list[Placed], bool]:
    """The readings, and whether every one that was written could be read."""
    typed, filed = part.said("points"), part.said("csv")
    if typed == filed:
        part.fault(None, "grounds.points-or-csv", "points, csv" if typed else "", "points … / csv …")
        return _rows(part, "points"), False
    if filed:
        return _from_file(part, draft)
    rows = _rows(part, "points")
    return rows, part.has("points") and len(rows) == len(part.raw["points"])


def _rows(part: Part, key: str) -> list[Placed]:
    found = [((key, n), _reading(part, (key, n), row, READING)) for n, row in part.rows(key)]
    return [(way, reading) for way, reading in found if reading is not None]


def _out(part: Part, several: Sequence[Placed]) -> list[Placed]:
    """As far out: what was measured back from a line in front of the wall stands out less, the more it reads."""
    if part.word("measured") != "back":
        return list(several)
    return [(way, (u, v, -back)) for way, (u, v, back) in several]


def _reading(part: Part, way: Loc, row: Sequence[object], like: str) -> Reading | None:
    """One reading; what cannot be read is a fault at ``way``."""
    if len(row) != len(Reading.__args__) or any(value is None for value in row):  # type: ignore[attr-defined]
        if all(value is not None for value in row):
            part.fault_at(way, "grounds.no-number", ", ".join(shown(x) for x in row), like)
        return None
    lengths = [_length(part, way, value) for value in row]
    if any(x is None for x in lengths):
        return None
    across, up, out = lengths
    return (across, up, out)  # type: ignore[return-value]


def _length(part: Part, way: Loc, value: object) -> Fraction | None:
    units = part.units
    got = part.attempt(way, lambda: measure.length(value, units), value)  # type: ignore[arg-type]
    if got is not None and abs(got) > LONGEST_LENGTH:
        part.fault_at(way, "job.too-large", shown(value), "a smaller one")
        return None
    return got


def _from_file(part: Part, draft: Draft) -> tuple[list[Placed], bool]:
    """Readings of a file: three values a line, apart by commas, semicolons or tabs; a heading of words is skipped."""
    name = part.text("csv", must=True)
    text = _text(part, name, draft)
    if text is None:
        return [], False
    found: list[Placed] = []
    lines = [line for line in text.splitlines() if line.strip()]
    apart = next((mark for mark in ("\t", ";") if lines and mark in lines[0]), ",")
    rows = [[cell.strip() for cell in row] for row in csv.reader(lines, delimiter=apart, quoting=csv.QUOTE_NONE)]
    heading = bool(rows) and not any(any(c.isdigit() for c in cell) for cell in rows[0])
    for n, row in enumerate(rows[heading:], 1 + heading):
        way: Loc = ("csv", f"line {n}")
        reading = _reading(part, way, [_cell(x) for x in row], IN_A_FILE)
        if reading is not None:
            found.append((way, reading))
    if len(rows) > MOST:
        part.fault("csv", "job.too-large", str(len(rows)), f"1 … {MOST}")
        return found, False
    return found, len(found) == len(rows) - heading


def _cell(text: str) -> object:
    """A bare number of the file as a number: then the units say of what."""
    try:
        return int(text) if text.lstrip("+-").isdigit() else float(text)
    except ValueError:
        return text


def _text(part: Part, name: str, draft: Draft) -> str | None:
    """The file's text; without a folder no file is opened, whatever the document says."""
    if not name:
        return None
    allowed = "readings.csv"
    if draft.folder is None or "\x00" in name:
        part.fault("csv", "grounds.no-csv", name, allowed)
        return None
    try:
        with (Path(draft.folder) / name).open("rb") as file:
            raw = file.read(MOST_BYTES + 1)
        if len(raw) <= MOST_BYTES:
            return raw.decode("utf-8-sig")
        part.fault("csv", "job.too-long", f"more than {MOST_BYTES:,} bytes", f"{MOST_BYTES:,} bytes")
    except (OSError, ValueError):
        part.fault("csv", "grounds.no-csv", name, allowed)
    return None


# --- what does not fit -------------------------------------------------------------------------------


def _enough(part: Part, points: Sequence[Placed]) -> None:
    """Three readings, not in one line."""
    where = {(u, v) for _, (u, v, _) in points}
    key = "csv" if part.has("csv") else "points"
    if len(where) < 3:
        part.fault(key, "grounds.few", len(where), "3 …")
    elif _in_line(sorted(where)):
        part.fault(key, "grounds.in-line", len(where), "3 …")


def _in_line(places: Sequence[tuple[Fraction, Fraction]]) -> bool:
    (u0, v0), (u1, v1) = places[0], places[-1]
    return all((u - u0) * (v1 - v0) == (v - v0) * (u1 - u0) for u, v in places)


def _agree(part: Part, points: Sequence[Placed]) -> None:
    """A place read twice is read alike."""
    first: dict[tuple[Fraction, Fraction], Fraction] = {}
    for way, (u, v, out) in points:
        there = first.setdefault((u, v), out)
        if abs(there - out) > HAIR:
            part.fault_at(way, "grounds.disagree", f"{write(there, 'in')}, {write(out, 'in')}", _at(u, v))


def _at(u: Fraction | float, v: Fraction | float) -> str:
    return f"at {write(u)}, up {write(v)}"


def _upright(part: Part, surfaces: Sequence[Surface], name: str) -> None:
    """Readings are off a plumb line: on a soffit, a top or a battered wall "plumb" means nothing."""
    surface = next((s for s in surfaces if s.id == name), None)
    if surface is not None and surface.tilt != UPRIGHT:
        part.fault("surface", "grounds.not-upright", f"{name}, {surface.tilt:g}°", f"{UPRIGHT}°")


def _on_the_wall(
    part: Part, surfaces: Sequence[Surface], name: str, points: Sequence[Placed], fixed: Sequence[Placed]
) -> None:
    """Readings lie on the wall and in none of its openings; what is fixed may stand in an opening."""
    surface = next((s for s in surfaces if s.id == name), None)
    if surface is None:
        return
    wall = polygon(surface.outline)
    holes = [(opening.id, polygon(opening.outline)) for opening in surface.openings]
    u0, v0, u1, v1 = wall.bounds
    span = f"at {write(u0)} … {write(u1)}, up {write(v0)} … {write(v1)}"
    for several, free in ((points, False), (fixed, True)):
        for way, (u, v, _) in several:
            point = shapely.Point(float(u), float(v))
            if wall.distance(point) > float(HAIR):
                part.fault_at(way, "grounds.off-wall", _at(u, v), span)
            elif not free:
                inside = [i for i, hole in holes if hole.covers(point) and hole.exterior.distance(point) > float(HAIR)]
                if inside:
                    part.fault_at(way, "grounds.in-opening", _at(u, v), ", ".join(inside))
