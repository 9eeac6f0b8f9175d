"""The key that follows a drawing: a swatch of each line and hatching in it, and what that means."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from darby.drawing.model import Mark, Sheet
from darby.drawing.roles import ROLES
from darby.drawing.svg import to_svg
from darby.measure.units import System
from darby.words import Language, say

KEYED: tuple[str, ...] = (
    "block", "concrete", "lath", "old dash", "zone edge", "joint", "parting", "ground", "ground past", "past",
    "cut block", "cut concrete", "cut wood", "mortar", "paper", "cut lath", "base coat", "finish coat",
)  # fmt: skip
"""Roles whose meaning is not plain, in the order a key lists them."""

WIDE, HIGH = 30.0, 16.0
"""A swatch, in line-table pixels."""


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
            code = "ground.metric" if role == "ground" and system == "metric" else role
            text = say(f"drawing.key.{code}", {}, language)
            entries.append(KeyEntry(role, text, swatch(role, sheet, text)))
    return tuple(entries)


def swatch(role: str, sheet: Sheet, title: str) -> str:
    """A small SVG of one role."""
    wide, high = (sheet.metres(px * sheet.weight**0.5) for px in (WIDE, HIGH))
    middle = high / 2
    line = ((0.0, middle), (wide, middle))
    patch = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    if ROLES[role].symbol:
        marks = [Mark("symbol", ((wide / 2, middle),), role)]
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
