"""Openings by shorthand: ``3068`` is a door 3'-0" wide and 6'-8" high; one line says kind, size and place."""

from __future__ import annotations

import re
from dataclasses import dataclass

from quicktions import Fraction

from darby.measure.amounts import length, lengths_by
from darby.measure.faults import Unreadable
from darby.measure.numerals import Written, nearest, refuse, tidy
from darby.measure.units import FT, IN

OPENING_KINDS: tuple[str, ...] = ("door", "window", "vent", "opening")

SIZE = "3068, 3' x 4', 900 x 2100 mm"
LINE = "door 3068 at 1'-8\", reveal 4\"; window 3' x 4' at 5' up 3'"


@dataclass(frozen=True, slots=True)
class OpeningLine:
    """An opening as one line says it; all lengths [m].

    ``at``: from the wall's left end to the opening's left side; ``up``: from the wall's base to its sill, 0 for a
    door. ``reveal`` and ``frame`` are None where nobody measured them.
    """

    kind: str
    width: Fraction
    height: Fraction
    at: Fraction
    up: Fraction
    reveal: Fraction | None = None
    frame: Fraction | None = None


def opening_size(text: Written, units: str | None = None) -> tuple[Fraction, Fraction]:
    """Width and height [m]: ``3068`` (3'-0" x 6'-8"), ``3' x 4'``, ``3-0 x 6-8``, ``900 x 2100 mm``.

    Raises
    ------
    Unreadable
        ``measure.opening-size`` for what is no size, ``measure.not-positive`` for one without width or height, or
        what the lengths' own reading refuses.
    """
    clean = tidy(text, SIZE)
    if re.fullmatch(r"[0-9]{4}", clean):
        feet_w, inches_w, feet_h, inches_h = (int(digit) for digit in clean)
        width, height = feet_w * FT + inches_w * IN, feet_h * FT + inches_h * IN
    else:
        if not re.search(r"x|\bby\b", clean, re.IGNORECASE):
            refuse("opening-size", clean, SIZE)
        sides = lengths_by(clean, units)
        if len(sides) != 2:
            refuse("opening-size", clean, SIZE)
        width, height = sides
    if width <= 0 or height <= 0:
        refuse("not-positive", clean, SIZE)
    return width, height


_KEYS = ("at", "up", "reveal", "frame")
_KEY = re.compile(r"[,;\s]+(at|up|reveal|frame)\s+", re.IGNORECASE)


def opening_line(text: Written, units: str | None = None) -> OpeningLine:
    """``door 3068 at 1'-8", up 0", reveal 4"`` or ``window 3' x 4' at 5' up 3'``.

    A door may leave ``up`` out: it stands on the wall's base. Everything else must say how high its sill is.

    Raises
    ------
    Unreadable
        ``measure.opening-kind``, ``measure.opening-twice`` (a word that stands twice), ``measure.opening-lacks``
        (no place), or what the size or a length refuses; the Fault's place is then ``size``, ``at``, ``up`` ...
    """
    clean = tidy(text, LINE)
    head, *rest = _KEY.split(clean)
    kind, _, size = head.partition(" ")
    kind = kind.lower()
    if kind not in OPENING_KINDS:
        refuse("opening-kind", clean, ", ".join(OPENING_KINDS), nearest(kind, OPENING_KINDS))
    try:
        width, height = opening_size(size or " ", units)
    except Unreadable as unreadable:
        raise Unreadable(unreadable.fault.at("size")) from None
    found: dict[str, Fraction] = {}
    for key, value in zip((k.lower() for k in rest[::2]), rest[1::2], strict=True):
        if key in found:
            refuse("opening-twice", clean, LINE, key)
        found[key] = _placed(key, value, units)
    for key in _KEYS[:2]:
        if key not in found:
            if key == "up" and kind == "door":
                found[key] = Fraction(0)
            else:
                refuse("opening-lacks", clean, LINE, key)
    return OpeningLine(kind, width, height, found["at"], found["up"], found.get("reveal"), found.get("frame"))


def _placed(key: str, text: str, units: str | None) -> Fraction:
    try:
        value = length(text, units)
        if value < 0:
            refuse("not-positive", text, '0", 1\'-8"')
    except Unreadable as unreadable:
        raise Unreadable(unreadable.fault.at(key)) from None
    return value
