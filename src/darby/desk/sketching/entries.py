"""A wall as the sketch holds it: its corners, its sizes, its openings, each with the text that stands in its field.

What was not touched stays in the document as he wrote it. A wall of the job file has a length, a height and perhaps a
gable; once a corner is off that, it has an ``outline``. Walls of a house and the front of a garden wall keep their
corners: of them the sizes and the openings are changed.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from quicktions import Fraction
from shapely import LineString
from shapely.geometry import Point as Spot

from darby.desk.sketching.spelling import exactly, shown, typed_length
from darby.job.places import Loc, place
from darby.measure.faults import Fault, Unreadable
from darby.measure.surface import Opening, Surface
from darby.measure.units import System

Point = tuple[Fraction, Fraction]
NOUGHT = Fraction(0)
NEW = "c.new"


@dataclass(frozen=True, slots=True)
class Wrote:
    """The entry of the document that wrote a surface. ``wall`` is the number of a house's wall, from 1."""

    section: str
    index: int
    wall: int = 0

    def entry(self, tables: Mapping[str, Any]) -> dict[str, Any]:
        """Its table."""
        found: dict[str, Any] = tables[self.section][self.index]
        return found

    @property
    def free(self) -> bool:
        """Whether its corners may be moved one by one."""
        return self.section == "wall"

    def openings(self, tables: Mapping[str, Any]) -> list[Any]:
        """Its openings, as they are written."""
        said = self.entry(tables).get("openings", [])
        rows = said.get(str(self.wall), []) if self.section == "house" and isinstance(said, Mapping) else said
        return list(rows) if isinstance(rows, list) else []

    def loc(self, *way: str | int) -> Loc:
        """The way to one of its keys."""
        return (self.section, self.index, *way)

    def opening_loc(self, n: int) -> Loc:
        """The way to one of its openings."""
        return self.loc("openings", *((str(self.wall),) if self.section == "house" else ()), n)


def wrote(tables: Mapping[str, Any], surface: str) -> Wrote | None:
    """The entry that wrote a surface and that the sketch can change; None for any other."""
    for n, entry in enumerate(tables.get("wall", ())):
        if entry.get("id") == surface:
            return Wrote("wall", n)
    for n, entry in enumerate(tables.get("house", ())):
        for wall in range(1, len(entry.get("walls", ())) + 1):
            if surface == f"{entry.get('id')}-{wall}":
                return Wrote("house", n, wall)
    for n, entry in enumerate(tables.get("garden_wall", ())):
        if surface == f"{entry.get('id')}-front":
            return Wrote("garden_wall", n)
    return None


# --- as it stands ------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Cell:
    """One field: its name in the form, what stands in it, what is wrong with it, what it is worth [m]."""

    name: str
    text: str
    value: Fraction = NOUGHT
    faults: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """A corner or an opening with its fields. ``called``: an opening's own name; of a corner its number."""

    n: int
    called: str
    cells: Mapping[str, Cell]


@dataclass(frozen=True, slots=True)
class Sketch:
    """Everything that can be dragged or typed. ``whole``: length, height and, where there is one, gable."""

    wrote: Wrote
    whole: Mapping[str, Cell]
    corners: tuple[Row, ...]
    openings: tuple[Row, ...]

    @property
    def cells(self) -> dict[str, Cell]:
        """Every field by its name."""
        rows = [cell for row in (*self.corners, *self.openings) for cell in row.cells.values()]
        return {cell.name: cell for cell in (*self.whole.values(), *rows)}

    def filled(self, posted: Mapping[str, str], faults: Mapping[str, Sequence[str]]) -> Sketch:
        """The same fields with what a person wrote in them, and what is wrong with it."""

        def again(cell: Cell) -> Cell:
            return replace(cell, text=posted.get(cell.name, cell.text), faults=tuple(faults.get(cell.name, ())))

        def row(one: Row) -> Row:
            return replace(one, cells={key: again(cell) for key, cell in one.cells.items()})

        return replace(
            self,
            whole={key: again(cell) for key, cell in self.whole.items()},
            corners=tuple(row(c) for c in self.corners),
            openings=tuple(row(o) for o in self.openings),
        )


def sketch(tables: Mapping[str, Any], surface: Surface, found: Wrote, system: System) -> Sketch:
    """The wall as it stands, in the reader's measures."""

    def cell(name: str, value: Fraction) -> Cell:
        return Cell(name, shown(value, system), value)

    points = corners_of(surface)
    length, high = max(u for u, _ in points), max(v for _, v in points)
    straight = "outline" not in found.entry(tables)
    peak = _peak(points) if straight else None
    whole = {"length": cell("length", length), "height": cell("height", high if peak is None else points[2][1])}
    if straight and found.section != "garden_wall":
        whole["gable"] = cell("gable", peak or NOUGHT)
    corners = tuple(
        Row(n, str(n + 1), {"u": cell(f"c.{n}.u", u), "v": cell(f"c.{n}.v", v)})
        for n, (u, v) in enumerate(points if found.free else ())
    )
    openings = tuple(_opening(n, opening, cell) for n, opening in enumerate(surface.openings))
    return Sketch(found, whole, corners, openings)


def corners_of(surface: Surface) -> list[Point]:
    """The corners a person set: a break where an end changes its kind is none."""
    return [(Fraction(c.u), Fraction(c.v)) for c in surface.outline if not c.id.endswith("-break")]


def sides_of(opening: Opening) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """From the left, up, width and height of an opening [m]; an arch counts to its middle."""
    low, right, top = opening.outline[0], opening.outline[1], opening.outline[2]
    rise = Fraction(top.bulge).limit_denominator(10**9) * (right.u - low.u) / 2
    return Fraction(low.u), Fraction(low.v), Fraction(right.u - low.u), Fraction(top.v - low.v + rise)


def _opening(n: int, opening: Opening, cell: Any) -> Row:
    cells = {
        key: cell(f"o.{n}.{key}", value)
        for key, value in zip(("at", "up", "width", "height"), sides_of(opening), strict=True)
    }
    return Row(n, opening.name or opening.id, cells)


def _is_box(points: Sequence[Point]) -> bool:
    """Four corners of a rectangle that stands on the origin."""
    length, high = max(u for u, _ in points), max(v for _, v in points)
    return sorted(points) == sorted([(NOUGHT, NOUGHT), (length, NOUGHT), (length, high), (NOUGHT, high)])


def _peak(points: Sequence[Point]) -> Fraction | None:
    """How high a gable peaks over a rectangle, where five corners are that, in its own order."""
    if len(points) != 5:
        return None
    length = max(u for u, _ in points)
    top = max(v for _, v in points)
    rest = [p for p in points if p != (length / 2, top)]
    eaves = max(v for _, v in rest)
    if len(rest) != 4 or not _is_box(rest) or eaves >= top:
        return None
    return top - eaves


# --- as it would be ----------------------------------------------------------------------------------


class NotSo(Exception):
    """What a person typed that cannot be read: faults by the name of the field."""

    def __init__(self, faults: Mapping[str, Fault]) -> None:
        super().__init__(", ".join(faults))
        self.faults = dict(faults)


def changed(
    tables: Mapping[str, Any], there: Sketch, posted: Mapping[str, str], system: System, units: str | None = None
) -> dict[str, Any]:
    """The document with what was typed or dragged; what stands in its field as before is not touched.

    Raises
    ------
    NotSo
        with every field that cannot be read.
    """
    made = deepcopy(dict(tables))
    typed: dict[str, tuple[str, Fraction]] = {}
    faults: dict[str, Fault] = {}
    new = {f"{NEW}.{key}": posted.get(f"{NEW}.{key}", "").strip() for key in ("u", "v")}
    fields = {cell.name: cell.text for cell in there.cells.values()}
    if any(new.values()):
        fields |= dict.fromkeys(new, "")
    for name, before in fields.items():
        text = posted.get(name, before).strip()
        if text == before and name not in new:
            continue
        try:
            typed[name] = (text, typed_length(text, units, name))
        except Unreadable as error:
            faults[name] = error.fault
    if faults:
        raise NotSo(faults)
    gone = {name for name, value in posted.items() if name.endswith(".gone") and value}
    _outline(made, there, typed, gone, system, units)
    _openings(made, there, typed, gone, system)
    return made


def own_of(posted: Mapping[str, str], before: Sketch, now: Sketch) -> dict[str, str]:
    """What he changed himself of a form that showed ``before``, to stand in one that shows ``now``.

    A field that he left says what stands now. Where corners or openings became more or fewer, their
    numbers mean others, and of those nothing is said.
    """
    cells = before.cells
    counts = {"c.": (before.corners, now.corners), "o.": (before.openings, now.openings)}
    meant = {start for start, (one, other) in counts.items() if len(one) == len(other)}
    return {
        name: text
        for name, text in posted.items()
        if (name not in cells or cells[name].text != text.strip()) and (name[:2] not in counts or name[:2] in meant)
    }


Typed = Mapping[str, tuple[str, Fraction]]


@dataclass(frozen=True, slots=True)
class _At:
    """A coordinate: what it is worth [m], and how it is written."""

    value: Fraction
    text: str


def _outline(
    made: dict[str, Any], there: Sketch, typed: Typed, gone: set[str], system: System, units: str | None
) -> None:
    entry = there.wrote.entry(made)
    own = {key: typed[key] for key in there.whole if key in typed}
    moved = any(name.startswith("c.") for name in (*typed, *gone))
    if not there.wrote.free:
        _sizes(entry, there, own)
        return
    if not own and not moved:
        return
    straight = "outline" not in entry
    if straight and not moved:
        _sizes(entry, there, own)
        return
    length, high = there.whole["length"].value, max(c.cells["v"].value for c in there.corners)
    points: list[tuple[_At, _At]] = []
    for corner in there.corners:
        if f"c.{corner.n}.gone" in gone:
            continue
        u, v = (_coordinate(corner.cells[key], typed, system) for key in ("u", "v"))
        if "length" in own and u.value == length:
            u = _At(own["length"][1], own["length"][0])
        if "height" in own and v.value == high:
            v = _At(own["height"][1], own["height"][0])
        points.append((u, v))
    if f"{NEW}.u" in typed:
        point = tuple(_At(typed[f"{NEW}.{key}"][1], typed[f"{NEW}.{key}"][0]) for key in ("u", "v"))
        points.insert(_between(points, (point[0].value, point[1].value)), (point[0], point[1]))
    before = dict(entry)
    _written_outline(entry, points, system)
    _spelled_as_before(entry, before, units)
    if "gable" in own and own["gable"][1] and "outline" not in entry:
        entry["gable"] = own["gable"][0]


def _spelled_as_before(entry: dict[str, Any], before: Mapping[str, Any], units: str | None) -> None:
    """Sizes and corners that are worth what they were stay as they were written."""
    for key in ("length", "height"):
        if key in before and _worth(entry[key], units) == _worth(before[key], units):
            entry[key] = before[key]
    written = {_worth(row, units): row for row in before.get("outline", ())}
    if "outline" in entry:
        entry["outline"] = [written.get(_worth(row, units), row) for row in entry["outline"]]


def _worth(written: Any, units: str | None) -> tuple[Fraction, ...] | str:
    """Lengths with commas between; what cannot be read is worth only itself."""
    try:
        return tuple(typed_length(part, units, "") for part in str(written).split(","))
    except Unreadable:
        return str(written)


def _sizes(entry: dict[str, Any], there: Sketch, own: Typed) -> None:
    """Length, height and gable as keys of their own."""
    wall = there.wrote.wall
    for key, (text, value) in own.items():
        if wall and key == "length":
            entry["walls"] = [text if n == wall else w for n, w in enumerate(entry["walls"], 1)]
        elif wall and key == "gable":
            gables = {**entry.get("gables", {}), str(wall): text}
            entry["gables"] = {k: w for k, w in gables.items() if k != str(wall) or value}
        elif key == "gable" and not value:
            entry.pop("gable", None)
        else:
            entry[key] = text


def _coordinate(cell: Cell, typed: Typed, system: System) -> _At:
    if cell.name in typed:
        return _At(typed[cell.name][1], typed[cell.name][0])
    return _At(cell.value, exactly(cell.value, system))


def _between(points: Sequence[tuple[_At, _At]], new: Point) -> int:
    """Where a new corner goes: into the side it lies nearest to."""
    places = [(float(u.value), float(v.value)) for u, v in points]
    sides = [LineString(pair) for pair in pairwise([*places, places[0]])]
    far = [side.distance(Spot(float(new[0]), float(new[1]))) for side in sides]
    return far.index(min(far)) + 1


def _written_outline(entry: dict[str, Any], points: Sequence[tuple[_At, _At]], system: System) -> None:
    """A rectangle and a gable in its middle are sizes again; anything else is an outline that starts at nought."""
    left, low = min((u for u, _ in points), key=lambda a: a.value), min((v for _, v in points), key=lambda a: a.value)
    right, top = max((u for u, _ in points), key=lambda a: a.value), max((v for _, v in points), key=lambda a: a.value)
    plain = [(u.value, v.value) for u, v in points]
    for key in ("gable", "outline"):
        entry.pop(key, None)
    peak = _peak(plain)
    if not left.value and not low.value and (peak is not None or _is_box(plain)):
        entry["length"] = right.text
        entry["height"] = top.text
        if peak is not None:
            entry["height"] = max((v for _, v in points if v.value != top.value), key=lambda a: a.value).text
            entry["gable"] = exactly(peak, system)
        return
    entry["length"], entry["height"] = right.text, top.text
    entry["outline"] = [f"{u.text}, {v.text}" for u, v in points]


# --- openings ----------------------------------------------------------------------------------------

_KEY = re.compile(r"[,;\s]+(at|up|reveal|frame)\s+", re.IGNORECASE)


def _openings(made: dict[str, Any], there: Sketch, typed: Typed, gone: set[str], system: System) -> None:
    rows = there.wrote.openings(made)
    kept = []
    for n, row in enumerate(rows):
        if f"o.{n}.gone" in gone:
            continue
        own = {key: typed[f"o.{n}.{key}"][0] for key in ("at", "up", "width", "height") if f"o.{n}.{key}" in typed}
        kept.append(_row(row, there.openings[n], own, system) if own and n < len(there.openings) else row)
    put_openings(made, there.wrote, kept)


def put_openings(made: dict[str, Any], found: Wrote, rows: Sequence[Any]) -> None:
    """Write the openings of a wall back where they stood."""
    entry = found.entry(made)
    if found.section == "house":
        every = {**entry.get("openings", {}), str(found.wall): list(rows)}
        entry["openings"] = {wall: some for wall, some in every.items() if some}
    else:
        entry["openings"] = list(rows)
    if not entry["openings"]:
        del entry["openings"]


def _row(row: Any, there: Row, own: Mapping[str, str], system: System) -> Any:
    """One opening with what is new of it; a line stays a line, a table a table."""
    size = None
    if "width" in own or "height" in own:
        size = " x ".join(own.get(key) or exactly(there.cells[key].value, system) for key in ("width", "height"))
    if isinstance(row, Mapping):
        return {**row, **({"size": size} if size else {}), **{k: own[k] for k in ("at", "up") if k in own}}
    head, *more = _KEY.split(row.strip())
    placed = dict(zip((word.lower() for word in more[::2]), more[1::2], strict=True))
    placed |= {key: own[key] for key in ("at", "up") if key in own}
    kind, _, before = head.partition(" ")
    order = [key for key in ("at", "up", "reveal", "frame") if key in placed]
    return f"{kind} {size or before} " + ", ".join(f"{key} {placed[key]}" for key in order)


# --- a size tapped in the drawing --------------------------------------------------------------------


def tapped(there: Sketch, what: str, text: str, system: System, units: str | None = None) -> dict[str, str]:
    """What the form would say if the size ``what`` were ``text``: a gap beside an opening moves the opening.

    Raises
    ------
    NotSo
        if it cannot be read.
    KeyError
        if there is no such size.
    """
    if what in there.cells:
        return {what: text}
    _, number, which = what.split(".")
    row = there.openings[int(number)]
    try:
        typed = typed_length(text, units, what)
    except Unreadable as error:
        raise NotSo({what: error.fault}) from None
    left, right = _beside(there, row)
    width = row.cells["width"].value
    if which not in ("gap", "rest"):
        raise KeyError(what)
    at = left + typed if which == "gap" else right - typed - width
    if at < 0:
        raise NotSo({what: Fault("measure.not-positive", what, text, f'0" … {shown(right - width, system)}')})
    return {f"o.{number}.at": exactly(at, system)}


def _beside(there: Sketch, row: Row) -> tuple[Fraction, Fraction]:
    """Where the opening (or the end of the wall) to its left ends, and the one to its right begins."""
    at, width = row.cells["at"].value, row.cells["width"].value
    others = [(o.cells["at"].value, o.cells["at"].value + o.cells["width"].value) for o in there.openings if o != row]
    left = max((stop for _, stop in others if stop <= at), default=NOUGHT)
    right = min((start for start, _ in others if start >= at + width), default=there.whole["length"].value)
    return left, right


def where(tables: Mapping[str, Any], there: Sketch) -> dict[str, str]:
    """Places of the document, as faults call them, to the field that says it."""
    found: dict[str, str] = {}
    entry = there.wrote
    for n, _ in enumerate(entry.entry(tables).get("outline", ()) if entry.free else ()):
        found[place(tables, entry.loc("outline", n))] = f"c.{n}.u"
    for key in there.whole:
        found[place(tables, entry.loc(key))] = key
    if entry.wall:
        found[place(tables, entry.loc("walls", entry.wall - 1))] = "length"
        found[place(tables, entry.loc("gables", str(entry.wall)))] = "gable"
    for n in range(len(entry.openings(tables))):
        found[place(tables, entry.opening_loc(n))] = f"o.{n}.at"
        for key, cell in (("at", "at"), ("up", "up"), ("size", "width")):
            found[place(tables, (*entry.opening_loc(n), key))] = f"o.{n}.{cell}"
    return found
