"""The key that follows a drawing: a swatch of each line and hatching in it, and what that means."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from darby.drawing.geometry import turned
from darby.drawing.model import Mark, Sheet
from darby.drawing.roles import ROLES
from darby.drawing.svg import to_svg
from darby.measure.units import System
from darby.words import Language, say

KEYED: tuple[str, ...] = (
    "block", "brick", "stone", "concrete", "old base", "lath", "old dash", "zone edge", "joint", "pin", "no joint",
    "parting",
    "hollow", "loose", "crack", "crack moving", "tap", "tap hollow", "new paper", "lath tie",
    "sheet", "end lap", "lath strip", "stud", "paper course",
    "ground", "ground past", "past", "contour", "unread",
    "cut block", "cut concrete", "cut wood", "mortar", "paper", "cut lath", "base coat", "finish coat",
)  # fmt: skip
"""Roles whose meaning is not plain, in the order a key lists them."""

METRIC = ("ground", "contour")
"""Roles whose sentence names a unit."""

WIDE, HIGH = 30.0, 16.0
"""A swatch, in line-table pixels."""

DASHES = (
    (0.06, 0.7, 20.0), (0.1, 0.25, 110.0), (0.24, 0.5, 70.0), (0.33, 0.85, 5.0), (0.4, 0.2, 40.0), (0.52, 0.6, 150.0),
    (0.63, 0.3, 95.0), (0.68, 0.8, 30.0), (0.8, 0.5, 120.0), (0.88, 0.2, 10.0), (0.94, 0.75, 65.0),
)  # fmt: skip
"""A swatch is too small for chance: where its strokes stand, and their turn."""


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """One entry: the role, what it means, and its swatch as an SVG."""

    role: str
    text: str
    svg: str


def key(
    marks: Sequence[Mark], sheet: Sheet, language: Language = "en", system: System = "us"
) -> tuple[KeyEntry, ...]:  # fmt: skip
    """The key of a drawing: only what is in it, each once."""
    there = {mark.role for mark in marks}
    entries = []
    for role in KEYED:
        if role in there:
            code = f"{role}.metric" if role in METRIC and system == "metric" else role
            text = say(f"drawing.key.{code}", {}, language)
            entries.append(KeyEntry(role, text, swatch(role, sheet, text)))
    return tuple(entries)


def swatch(role: str, sheet: Sheet, title: str) -> str:
    """A small SVG of one role."""
    wide, high = (sheet.metres(px * sheet.weight**0.5) for px in (WIDE, HIGH))
    middle = high / 2
    line = ((0.0, middle), (wide, middle))
    patch = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    marks: list[Mark]
    if ROLES[role].symbol:
        marks = [Mark("symbol", ((wide / 2, middle),), role)]
    elif role == "lath":
        marks = [Mark("polyline", tuple((wide * n / 6, side * middle * 0.8 * (n % 2) + middle) for n in range(7)), role)
                 for side in (1.0, -1.0)]  # fmt: skip
    elif role == "old dash":
        marks = []
        for x, y, turn in DASHES:
            du, dv = turned((high / 6, 0.0), turn)
            marks.append(Mark("line", ((wide * x, high * y), (wide * x + du, high * y + dv)), role))
    elif ROLES[role].hatch is not None:
        under = [Mark("hatch", patch, "plaster")] if role in ("base coat", "finish coat") else []
        marks = [*under, Mark("hatch", patch, role, role)]
    elif role == "parting":
        marks = [Mark("line", line, "outline"), Mark("polyline", line, role, aside=7.5)]
    elif role == "cut lath":
        marks = [Mark("arc", ((wide * a, middle), (wide * (a + 0.2), middle)), role, bulges=(0.6,))
                 for a in (0.1, 0.4, 0.7)]  # fmt: skip
    else:
        marks = [Mark("line", line, role)]
    return to_svg(marks, Sheet(f"key-{role.replace(' ', '-')}-{sheet.name}", sheet.scale, sheet.lettering, sheet.unit,
                               sheet.weight, sheet.font, sheet.wide), title=title)  # fmt: skip
