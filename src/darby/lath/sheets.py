"""Sheets and what is left of them: each piece from the smallest offcut that holds it, else from a new sheet.

The long way of the sheet stays level, so nothing is turned. A piece is cut off straight across, edge to edge, first
along or first across, whichever leaves the larger rest. What is narrower or shorter than the least strip is scrap.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from darby.lath.model import Offcut
from darby.measure.surface import Length


@dataclass(frozen=True, slots=True)
class Taken:
    """The sheet a piece comes from, and whether it was begun before."""

    sheet: int
    reused: bool


class Stack:
    """Sheets used so far and the offcuts that lie about."""

    __slots__ = ("least", "length", "offcuts", "scrap", "used", "width")

    def __init__(self, length: Length, width: Length, least: Length) -> None:
        self.length, self.width, self.least = length, width, least
        self.used = 0
        self.offcuts: list[Offcut] = []
        self.scrap = Fraction(0)

    def copy(self) -> Stack:
        """Another stack in the same state, to try a cut on."""
        other = Stack(self.length, self.width, self.least)
        other.used, other.offcuts, other.scrap = self.used, list(self.offcuts), self.scrap
        return other

    def cut(self, length: Length, width: Length) -> Taken:
        """Cuts a piece, no larger than a sheet, and lays the rests aside."""
        fits = [o for o in self.offcuts if o.length >= length and o.width >= width]
        if fits:
            best = min(fits, key=lambda o: (o.length * o.width, o.sheet))
            self.offcuts.remove(best)
        else:
            self.used += 1
            best = Offcut(self.used, self.length, self.width)
        across = (best.length - length, best.width), (length, best.width - width)
        along = (best.length, best.width - width), (best.length - length, width)
        for rest in max(across, along, key=lambda rests: max(a * b for a, b in rests)):
            self._lay(best.sheet, *rest)
        return Taken(best.sheet, bool(fits))

    def _lay(self, sheet: int, length: Length, width: Length) -> None:
        if length >= self.least and width >= self.least:
            self.offcuts.append(Offcut(sheet, length, width))
        else:
            self.scrap += length * width
