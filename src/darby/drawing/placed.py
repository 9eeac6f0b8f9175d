"""What stands on a sheet once it is laid out, in sheet units, x to the right, y down."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from darby.drawing.geometry import flat, turned
from darby.drawing.lettering import CAP, width
from darby.drawing.model import Point, Sheet
from darby.drawing.roles import ROLES

Anchor = Literal["start", "middle", "end"]
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Path:
    """A run of points; ``bulges`` as in ``Mark`` (their sign is the wall's, where v runs up)."""

    points: tuple[Point, ...]
    role: str
    ref: str = ""
    bulges: tuple[float, ...] = ()
    closed: bool = False
    text: str = ""


@dataclass(frozen=True, slots=True)
class Strokes:
    """Many short lines, or many dots where both ends are one."""

    lines: tuple[tuple[Point, Point], ...]
    role: str
    ref: str = ""


@dataclass(frozen=True, slots=True)
class Area:
    """A filled area with holes."""

    points: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...]
    role: str
    ref: str = ""


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle."""

    at: Point
    radius: float
    role: str
    ref: str = ""


@dataclass(frozen=True, slots=True)
class Words:
    """One line of lettering on its base line, turned counterclockwise by ``turn`` degrees."""

    at: Point
    text: str
    role: str
    ref: str = ""
    turn: float = 0.0
    anchor: Anchor = "middle"

    def box(self, sheet: Sheet) -> Box:
        """What it covers: left, top, right, bottom."""
        long = width(self.text) * sheet.lettering * sheet.wide
        start = {"start": 0.0, "middle": -long / 2, "end": -long}[self.anchor]
        high, deep = CAP * 1.15 * sheet.lettering, 0.22 * sheet.lettering
        corners = [turned((x, y), -self.turn) for x in (start, start + long) for y in (-high, deep)]
        return (
            self.at[0] + min(x for x, _ in corners), self.at[1] + min(y for _, y in corners),
            self.at[0] + max(x for x, _ in corners), self.at[1] + max(y for _, y in corners),
        )  # fmt: skip


Placed = Path | Strokes | Area | Ring | Words


def around(boxes: Iterable[Box]) -> Box:
    """The box around boxes."""
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def covers(placed: Placed, sheet: Sheet) -> Box:
    """What a placed thing covers, at its full weight: left, top, right, bottom."""
    half = ROLES[placed.role].weight * sheet.weight / 2
    match placed:
        case Words():
            return placed.box(sheet)
        case Ring(at=(x, y), radius=radius):
            return x - radius - half, y - radius - half, x + radius + half, y + radius + half
        case Strokes(lines=lines):
            points = [p for line in lines for p in line]
        case Area(points=outline):
            points = list(outline)
        case Path():
            upward = [(x, -y) for x, y in placed.points]
            points = [(x, -y) for x, y in flat(upward, placed.bulges, closed=placed.closed, error=0.05)]
    if not points:
        return float("inf"), float("inf"), float("-inf"), float("-inf")
    xs, ys = zip(*points, strict=True)
    return min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half


def meet(a: Box, b: Box) -> bool:
    """Whether two boxes share any room."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
