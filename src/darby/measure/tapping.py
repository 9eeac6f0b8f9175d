"""Where an old wall is tapped: squares over its whole width and height, a tap in the middle of each.

The squares start at the lower left; the last of a row or column is as narrow as the wall leaves it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quicktions import Fraction

from darby.measure.limits import whole
from darby.measure.outline import flat
from darby.measure.surface import Corner, Length

Box = tuple[Length, Length, Length, Length]
"""Left, low, right, high [m]."""


@dataclass(frozen=True, slots=True)
class TapGrid:
    """``columns`` from the left and ``rows`` from the base: edges of the squares [m]."""

    columns: tuple[Length, ...]
    rows: tuple[Length, ...]

    @property
    def wide(self) -> int:
        """Squares in a row."""
        return len(self.columns) - 1

    @property
    def high(self) -> int:
        """Rows of squares."""
        return len(self.rows) - 1

    def box(self, column: int, row: int) -> Box:
        """The square in a column from the left and a row from the base, both counted from 0 [m]."""
        return self.columns[column], self.rows[row], self.columns[column + 1], self.rows[row + 1]

    def middle(self, column: int, row: int) -> tuple[Length, Length]:
        """Where that square is tapped [m]."""
        left, low, right, high = self.box(column, row)
        return (left + right) / 2, (low + high) / 2


def tap_grid(outline: Sequence[Corner], spacing: Length) -> TapGrid:
    """Squares ``spacing`` wide [m] over everything within the outline's greatest width and height."""
    points = flat(outline)
    return TapGrid(_cut([u for u, _ in points], spacing), _cut([v for _, v in points], spacing))


def _cut(along: Sequence[Length], spacing: Length) -> tuple[Length, ...]:
    low, high = min(along), max(along)
    count = whole(float((high - low) / spacing))  # a foot of the rule book is a float
    return (*(low + spacing * n for n in range(count)), Fraction(high))
