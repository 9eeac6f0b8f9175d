"""A bar as it is sawn: its pieces in order with letter and length, what the blade takes, what is left over."""

from __future__ import annotations

from collections.abc import Sequence

from quicktions import Fraction

from darby.drawing.lettering import size
from darby.drawing.model import PAPER_FONT, Mark, Sheet
from darby.measure.units import System

HIGH = 16.0
"""A bar is drawn so high whatever its profile [pt]: lettering stands in it."""
LETTERING = 9.5


def bar_sheet(longest: Fraction, wide: float, name: str = "paper-bars") -> Sheet:
    """The sheet on which a bar of ``longest`` [m] is ``wide`` points long; every bar of a paper is drawn on one."""
    return Sheet(name, wide / float(longest), LETTERING, "pt", 0.6, PAPER_FONT)


def bar_marks(length: Fraction, pieces: Sequence[tuple[str, Fraction]], kerf: Fraction, sheet: Sheet,
              left: str = "", system: System = "us", high: float = HIGH) -> tuple[Mark, ...]:  # fmt: skip
    """One bar from its left end: ``pieces`` (letter, length [m]) in the order they are sawn, ``kerf`` [m] between.

    ``left``: what is said of the rest, where there is room for it. ``high``: how high it is drawn [sheet units].
    """
    high = sheet.metres(high)
    marks: list[Mark] = []
    start = Fraction(0)
    for letter, piece in pieces:
        marks += _piece(float(start), float(piece), high, f"{letter}, {size(piece, system)}", letter)
        start += piece + kerf
    rest = length - min(start, length)
    if rest > 0:
        u0, u1 = float(length - rest), float(length)
        ring = ((u0, 0.0), (u1, 0.0), (u1, high), (u0, high))
        marks.append(Mark("polygon", ring, "zone edge", "left"))
        if left:
            middle = ((u0 + u1) / 2, high / 2)
            marks.append(Mark("text", (middle,), "note", "left", left, room=(u1 - u0, high)))
    return tuple(marks)


def _piece(start: float, long: float, high: float, text: str, letter: str) -> list[Mark]:
    u0, u1 = start, start + long
    ring = ((u0, 0.0), (u1, 0.0), (u1, high), (u0, high))
    middle = ((u0 + u1) / 2, high / 2)
    return [
        Mark("hatch", ring, "plaster", letter),
        Mark("polygon", ring, "cut edge", letter),
        Mark("text", (middle,), "figure", letter, text, room=(long, high)),
    ]
