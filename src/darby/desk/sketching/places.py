"""Where on a drawing a place of the wall lies, and which size a tap on it means: what the script needs to be told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from darby.desk.drawn import sheets_for
from darby.desk.sketching.entries import Row, Sketch
from darby.drawing import LAPTOP, PHONE, Mark, Sheet, lay_out
from darby.drawing.svg import MARGIN
from darby.measure.units import IN, UNITS, System

SAME = 0.001
"""Two places nearer than this are one [m]."""
TALL, LONG = 26.0, 44.0
"""What a finger needs on a size: as high as strings leave room for, and at least so long [px]."""


@dataclass(frozen=True, slots=True)
class Tap:
    """A size on a sheet: its box [px], the field or gap it says, what stands there."""

    what: str
    x: float
    y: float
    wide: float
    high: float
    text: str
    upright: bool = False

    def plain(self) -> dict[str, Any]:
        """For the script."""
        return {"what": self.what, "x": round(self.x, 1), "y": round(self.y, 1), "w": round(self.wide, 1),
                "h": round(self.high, 1), "text": self.text, "upright": self.upright}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Grid:
    """A sheet's measure: px a metre, and where the wall's (0, 0) lies on it [px]."""

    scale: float
    left: float
    top: float
    taps: tuple[Tap, ...] = ()

    def plain(self) -> dict[str, Any]:
        """For the script: x = u * scale + left, y = top - v * scale."""
        return {"scale": self.scale, "left": self.left, "top": self.top, "taps": [t.plain() for t in self.taps]}


def grids(marks: Sequence[Mark], there: Sketch | None = None) -> tuple[Grid, Grid]:
    """The measures of both sheets, the phone's first; with the sizes that may be tapped, where there is a sketch."""
    narrow, wide = sheets_for(marks, PHONE, LAPTOP)
    return _grid(marks, narrow, there), _grid(marks, wide, there)


def step(system: System) -> float:
    """What dragging snaps to [m]: half an inch, or a centimetre."""
    return float(IN) / 2 if system == "us" else float(UNITS["cm"].scale)


def _grid(marks: Sequence[Mark], sheet: Sheet, there: Sketch | None) -> Grid:
    laid = lay_out(marks, sheet)
    left, top, _, _ = laid.box()
    origin = (MARGIN - left, MARGIN - top)
    taps: list[Tap] = []
    for mark in marks if there is not None else ():
        string = laid.strings.get((mark.side, mark.row)) if mark.kind == "dimension" else None
        what = _meant(mark, there) if string is not None and there is not None else ""
        if string is None or not what:
            continue
        (u0, v0), (u1, v1) = mark.points
        if mark.side in ("below", "above"):
            long = max(abs(u1 - u0) * sheet.scale, LONG)
            x, y = (u0 + u1) / 2 * sheet.scale - long / 2, string - TALL + 6
            taps.append(Tap(what, x + origin[0], y + origin[1], long, TALL, mark.text))
        else:
            long = max(abs(v1 - v0) * sheet.scale, LONG)
            x, y = string - TALL + 6, -(v0 + v1) / 2 * sheet.scale - long / 2
            taps.append(Tap(what, x + origin[0], y + origin[1], TALL, long, mark.text, upright=True))
    return Grid(sheet.scale, origin[0], origin[1], tuple({tap.what: tap for tap in reversed(taps)}.values()))


def _meant(mark: Mark, there: Sketch) -> str:
    """The field that a size of the drawing says; a gap beside an opening, or ""."""
    (u0, v0), (u1, v1) = mark.points
    if mark.side in ("below", "above"):
        return next(_across(min(u0, u1), max(u0, u1), there), "")
    return next(_upward(min(v0, v1), max(v0, v1), there), "")


def _across(left: float, right: float, there: Sketch) -> Iterator[str]:
    long = float(there.whole["length"].value)
    if _same(left, 0) and _same(right, long):
        yield "length"
    for row in there.openings:
        start, stop = _span(row, "at", "width")
        if _same(left, start) and _same(right, stop):
            yield f"o.{row.n}.width"
    for row in there.openings:
        start, stop = _span(row, "at", "width")
        if _same(right, start):
            yield f"o.{row.n}.gap"
        if _same(left, stop) and _same(right, long):
            yield f"o.{row.n}.rest"


def _upward(low: float, high: float, there: Sketch) -> Iterator[str]:
    eaves = float(there.whole["height"].value)
    if _same(low, 0) and _same(high, eaves):
        yield "height"
    if "gable" in there.whole and _same(low, eaves):
        yield "gable"
    for row in there.openings:
        sill, head = _span(row, "up", "height")
        if _same(low, 0) and _same(high, sill):
            yield f"o.{row.n}.up"
        if _same(low, sill) and _same(high, head):
            yield f"o.{row.n}.height"


def _span(row: Row, start: str, long: str) -> tuple[float, float]:
    return float(row.cells[start].value), float(row.cells[start].value + row.cells[long].value)


def _same(one: float, other: float) -> bool:
    return abs(one - other) < SAME
