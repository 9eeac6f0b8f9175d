"""What the marks of a photograph say, by ``measure.straighten``: lengths with their ±, refusals at their places."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby import measure
from darby.desk.photographed.sheet import Frame, Line, Sheet
from darby.measure import Fault, Told, Unreadable

if TYPE_CHECKING:
    from darby.measure import Straight, Taken
    from darby.measure.surface import Surface
    from darby.measure.units import System

SIZES = ("width", "height", "at", "up")
"""The numbers of an opening, in the order they are shown, and the keys they are told under."""

Point = tuple[float, float]


@dataclass(slots=True)
class Worked:
    """The photograph made straight, or why not.

    ``straight`` is None until the known points will do; ``faults``: place ("marks", "mark 0", "frame 2", "line 1") to
    what is wrong there; ``points``: place ("mark 0", "frame 1 3", "line 0 1") to its pixel; ``jog`` [px]: by how much
    each may miss; ``misses`` [px] by row.
    """

    jog: float
    straight: Straight | None = None
    faults: dict[str, Fault] = field(default_factory=dict)
    points: dict[str, Point] = field(default_factory=dict)
    misses: dict[int, float] = field(default_factory=dict)
    frames: dict[int, Mapping[str, Told]] = field(default_factory=dict)
    askew: dict[int, Told] = field(default_factory=dict)
    lines: dict[int, Told] = field(default_factory=dict)
    corners: dict[int, tuple[tuple[float, float, float, float], ...]] = field(default_factory=dict)


def work(sheet: Sheet, size: tuple[int, int], surface: Surface | None, system: System) -> Worked:
    """Every number of the sheet; ``size`` of the picture [px], ``surface`` the wall it shows."""
    from darby.measure.straightening import JOG

    worked = Worked(jog=max(JOG, sheet.jog))
    rows: list[int] = []
    pixels: list[Point] = []
    metres: list[tuple[float, float]] = []
    for n, mark in enumerate(sheet.marks):
        if mark.empty:
            continue
        try:
            pixel = _point(f"{mark.x}, {mark.y}", size)
            worked.points[f"mark {n}"] = pixel
            place = _along(mark.u), _along(mark.v)
        except Unreadable as unreadable:
            worked.faults[f"mark {n}"] = unreadable.fault
            continue
        rows.append(n)
        pixels.append(pixel)
        metres.append(place)
    _straightened(worked, rows, pixels, metres, size, surface)
    for n, frame in enumerate(sheet.frames):
        _framed(worked, n, frame, size, system)
    for n, line in enumerate(sheet.lines):
        _measured(worked, n, line, size, system)
    return worked


def _straightened(
    worked: Worked,
    rows: list[int],
    pixels: list[Point],
    metres: list[Point],
    size: tuple[int, int],
    surface: Surface | None,
) -> None:
    outline = [(float(c.u), float(c.v)) for c in surface.outline] if surface is not None else None
    if not pixels:
        return
    try:
        straight = measure.straighten(pixels, metres, size=size, outline=outline, jog=worked.jog, rows="down")
    except Unreadable as unreadable:
        fault = unreadable.fault
        if fault.place.isdigit() and int(fault.place) <= len(rows):  # the one mark that is wrong, by its row
            row = rows[int(fault.place) - 1]
            worked.faults[f"mark {row}"] = Fault(fault.code, str(row + 1), fault.found, fault.allowed)
        worked.faults["marks"] = fault
        return
    worked.straight = straight
    worked.misses = dict(zip(rows, straight.misses, strict=True))


def _framed(worked: Worked, n: int, frame: Frame, size: tuple[int, int], system: System) -> None:
    at = f"frame {n}"
    found: list[Point] = []
    for c, corner in enumerate(frame.corners):
        if corner:
            try:
                found.append(_point(corner, size))
                worked.points[f"{at} {c}"] = found[-1]
            except Unreadable as unreadable:
                worked.faults[at] = unreadable.fault
    straight = worked.straight
    if straight is None or at in worked.faults or not found:
        return
    try:
        framed = straight.framed(found)
    except Unreadable as unreadable:
        worked.faults[at] = unreadable.fault
        return
    taken = {"width": framed.width, "height": framed.height, "at": framed.at, "up": framed.up}
    told = {name: _told(t, system) for name, t in taken.items()}
    left, low = framed.at.metres, framed.up.metres
    right, top = left + framed.width.metres, low + framed.height.metres
    worked.corners[n] = tuple(_ends(straight, [(left, low), (right, low), (right, top), (left, top)]))
    worked.frames[n] = told
    if framed.askew > framed.width.give:
        worked.askew[n] = measure.told(framed.askew, 0.0, system)


def _told(taken: Taken, system: System) -> Told:
    """Rounded; a sill that is a hair below the foot of the wall, within its ±, stands on it."""
    below = -taken.metres if -taken.give <= taken.metres < 0 else 0.0
    return measure.told(taken.metres + below, taken.give + below, system)


def _measured(worked: Worked, n: int, line: Line, size: tuple[int, int], system: System) -> None:
    at = f"line {n}"
    ends: list[Point] = []
    for e, end in enumerate((line.start, line.end)):
        if end:
            try:
                ends.append(_point(end, size))
                worked.points[f"{at} {e}"] = ends[-1]
            except Unreadable as unreadable:
                worked.faults[at] = unreadable.fault
    if worked.straight is None or len(ends) < 2:
        return
    try:
        taken = worked.straight.length(*ends)
    except Unreadable as unreadable:
        worked.faults[at] = unreadable.fault
        return
    worked.lines[n] = measure.told(taken.metres, taken.give, system)


def _ends(straight: Straight, corners: list[Point]) -> list[tuple[float, float, float, float]]:
    """The sides between corners of the wall [m], as they run in the picture [px]."""
    seen = [(float(x), float(y)) for x, y in straight.to_picture(corners)]
    return [(*a, *b) for a, b in zip(seen, [*seen[1:], seen[0]], strict=True)]


def sides_seen(straight: Straight, corners: list[Point]) -> list[tuple[float, float, float, float]]:
    """The wall's own sides in the picture [px], as far as the marks reach; those past them are left out."""
    found = []
    for side in _ends(straight, corners):
        try:
            straight.to_wall([side[:2], side[2:]])
        except Unreadable:
            continue
        found.append(side)
    return found


def _point(text: str, size: tuple[int, int]) -> Point:
    """A pixel "1204, 880" inside the picture."""
    width, height = size
    allowed = f"0, 0 … {width}, {height}"
    try:
        x, y = (float(part) for part in text.split(","))
    except ValueError:
        raise Unreadable(Fault("desk.photograph.no-pixel", "", text.strip(" ,"), allowed)) from None
    if not (0 <= x <= width and 0 <= y <= height):
        raise Unreadable(Fault("desk.photograph.no-pixel", "", text, allowed))
    return x, y


def _along(text: str) -> float:
    """A length [m] along the wall as he wrote it; nought needs no unit."""
    return float(Fraction(0) if text == "0" else measure.length(text or " "))
