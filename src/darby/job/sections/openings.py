"""Openings of a wall: one line of a measuring sheet, or a table."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from typing import Annotated, Any, Literal

from quicktions import Fraction

from darby import measure
from darby.job import allowed as ok
from darby.job.fields import AsTable, AsText, Document, Measured, OrTable, key, must
from darby.job.part import Part
from darby.measure.openings import OpeningLine
from darby.measure.shapes import opening
from darby.measure.surface import Opening, Side

KINDS = Literal["door", "window", "vent", "opening"]
ROUND: tuple[Side, ...] = ("head", "left", "right")
"""Which reveals are plastered where nobody says: all but the sill, which is a sill."""


class OpeningDocument(Document):
    """An opening as a table, where one line is not enough."""

    size: Measured = must("`3068`, or width by height: `12' x 10'`.")
    at: Measured = must("From the wall's left end, seen from outside, to the opening's left side.")
    id: str = key("Its short name; left out, `door-1`, `window-2` ...")
    name: str = key("What you call it.")
    kind: KINDS = key("door, window, vent or opening; opening unless you say.")
    up: Measured = key("From the wall's base to the sill; a door may leave it out.")
    reveal: Measured = key("How deep the opening is, from the face of the wall to the frame.")
    frame: Measured = key("Depth of the frame.")
    rise: Measured = key("An arched head: how much higher its middle is than its springs.")
    plaster: list[Literal["head", "sill", "left", "right"]] = key("Which reveals are plastered.")


OpeningEntry = Annotated[AsText | AsTable[OpeningDocument], OrTable]
"""`door 3068 at 1'-8", reveal 4"`, or a table."""


def read_openings(part: Part, name: str, surface: str, deep: Fraction | None = None) -> tuple[Opening, ...]:
    """The openings in the list ``name`` of ``part``; those that cannot be read are faults and left out.

    ``deep`` [m] is how deep a reveal is that nobody measured, where the wall itself says so.
    """
    found: list[Opening] = []
    seen: set[str] = set()
    counts: Counter[str] = Counter()
    for n, row in part.rows(name):
        if isinstance(row, Mapping):
            entry = Part(part.reading, row, (*part.loc, name, n), part.units)
            made = _from_table(entry, surface, counts, seen, deep)
        else:
            made = _from_line(part, (name, n), row, surface, counts, seen, deep)
        if made is not None:
            found.append(made)
    return tuple(found)


def _from_line(
    part: Part, way: tuple[str | int, ...], row: str, surface: str, counts: Counter[str], seen: set[str],
    deep: Fraction | None,
) -> Opening | None:  # fmt: skip
    units = part.units
    line = part.attempt(way, lambda: measure.opening_line(row, units) if units else measure.opening_line(row))
    if line is None:
        return None
    id = _next_id(line.kind, counts, seen)
    line = replace(line, reveal=deep) if line.reveal is None else line
    return _made(part, way, id, line.kind, line, surface, None, Fraction(0))


def _from_table(
    entry: Part, surface: str, counts: Counter[str], seen: set[str], deep: Fraction | None
) -> Opening | None:
    kind: str = entry.word("kind") or "opening"
    id = entry.id("id", seen) if entry.has("id") else _next_id(kind, counts, seen)
    size: Any = entry.raw.get("size") if entry.has("size") else None
    units = entry.units
    sides = None
    if isinstance(size, str):
        sides = entry.attempt(("size",), lambda: measure.opening_size(size, units))
    elif size is not None:
        entry.fault("size", "measure.opening-size", size, '"3068", "3\' x 4\'"')
    at, up = entry.length("at"), entry.length("up")
    if not entry.said("up"):
        if kind == "door":
            up = Fraction(0)
        else:
            entry.fault("up", "measure.opening-lacks", "", "up = \"3'\": from the wall's base to the sill")
    reveal, frame, rise = entry.length("reveal"), entry.length("frame"), entry.length("rise")
    plaster = entry.words("plaster") if entry.has("plaster") else None
    name = entry.text("name") or id
    if sides is None or at is None or up is None or not id:
        return None
    line = OpeningLine(kind, sides[0], sides[1], at, up, deep if reveal is None else reveal, frame)
    return _made(entry, (), id, name, line, surface, plaster, rise or Fraction(0))


def _next_id(kind: str, counts: Counter[str], seen: set[str]) -> str:
    """door-1, door-2 ...: by kind, so that another window does not rename a door."""
    while True:
        counts[kind] += 1
        id = f"{kind}-{counts[kind]}"
        if id not in seen:
            seen.add(id)
            return id


def _made(
    part: Part,
    way: tuple[str | int, ...],
    id: str,
    name: str,
    line: OpeningLine,
    surface: str,
    plaster: tuple[str, ...] | None,
    rise: Fraction,
) -> Opening | None:
    at = f"{surface}/{id}"
    part.reading.ways[surface, f'opening "{id}"'] = (*part.loc, *way)
    if line.reveal is None:
        part.assume("job.assumed-no-reveal", at)
    sides: tuple[Side, ...] = ()
    if plaster is not None:
        sides = plaster  # type: ignore[assignment]
        if sides and not line.reveal:
            part.fault_at((*way, "plaster"), "job.needs-key", ", ".join(sides), ok.WITH_REVEAL)
    elif line.reveal:
        sides = ROUND
        part.assume("job.assumed-plastered-reveals", at)
    return part.attempt(
        way,
        lambda: opening(
            id, name, line.width, line.height, line.at, line.up,
            reveal=line.reveal or Fraction(0), frame_depth=line.frame, plastered=sides, rise=rise,
        ),
    )  # fmt: skip
