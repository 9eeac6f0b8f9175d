"""Sheets and what is left of them: each piece from the smallest offcut that holds it, else from a new sheet.

The long way of the sheet stays level, so nothing is turned. A piece is cut off straight across, edge to edge, first
along or first across, whichever leaves the larger rest. What is narrower or shorter than the least strip is scrap.
"""

from __future__ import annotations

from dataclasses import dataclass

from quicktions import Fraction

from darby.lath.model import Offcut
from darby.measure.surface import Length


@dataclass(frozen=True, slots=True)
class Taken:
    """The sheet a piece comes from, and whether it was begun before."""

    sheet: int
    reused: bool


class Stack:
    """Sheets used so far and the offcuts that lie about."""

    __slots__ = ("_lying", "least", "length", "scrap", "used", "width")

    def __init__(self, length: Length, width: Length, least: Length) -> None:
        self.length, self.width, self.least = length, width, least
        self.used = 0
        self._lying: list[tuple[Fraction, int, Length, Length]] = []
        """Area, sheet, length and width of each offcut, in the order they were laid aside."""
        self.scrap = Fraction(0)

    @property
    def offcuts(self) -> tuple[Offcut, ...]:
        """What is left and large enough to use."""
        return tuple(Offcut(sheet, length, width) for _, sheet, length, width in self._lying)

    def copy(self) -> Stack:
        """Another stack in the same state, to try a cut on."""
        other = Stack(self.length, self.width, self.least)
        other.used, other._lying, other.scrap = self.used, list(self._lying), self.scrap
        return other

    def cut(self, length: Length, width: Length) -> Taken:
        """Cuts a piece, no larger than a sheet, and lays the rests aside."""
        fits = [(area, n, a, b) for area, n, a, b in self._lying if a >= length and b >= width]
        if fits:
            best = min(fits, key=lambda o: o[:2])
            self._lying.remove(best)
            _, sheet, long, wide = best
        else:
            self.used += 1
            sheet, long, wide = self.used, self.length, self.width
        over, up = long - length, wide - width
        across, along = over * wide, long * up
        corner = over * up
        # the larger rest decides; where they are alike it is cut across
        if across >= along:
            rests = (across, over, wide), (along - corner, length, up)
        else:
            rests = (along, long, up), (across - corner, over, width)
        for area, a, b in rests:
            if a >= self.least and b >= self.least:
                self._lying.append((area, sheet, a, b))
            else:
                self.scrap += area
        return Taken(sheet, bool(fits))
