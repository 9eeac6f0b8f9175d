"""The worthiest pattern for a bar of every room at once, by dynamic programming over whole units, vectorised."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from darby.quantities.cutting.filling import Pattern, pattern_of
from darby.quantities.cutting.whole import Packing

_BYTE = 2 * 2 * 2
_MOST = 2 ** (2 * _BYTE + _BYTE + 2)
"""Cells of the table that is kept to read patterns back."""


def rows_of(task: Packing, counts: Sequence[int]) -> list[tuple[int, int]]:
    """(size, how many at once): every number up to the count is a sum of rows."""
    top = max(kind.room for kind in task.kinds)
    rows = []
    for j, (size, count) in enumerate(zip(task.sizes, counts, strict=True)):
        left, n = min(count, top // size), 1
        while left > 0:
            rows.append((j, min(n, left)))
            left -= n
            n *= 2
    return rows


def within_reach(task: Packing) -> bool:
    """Whether the table of this task is of a size that can be kept."""
    return not task.coarse and len(rows_of(task, task.counts)) * (max(k.room for k in task.kinds) + 1) <= _MOST


class Knapsack:
    """Bounded knapsack: each size at most as often as it is wanted."""

    def __init__(self, task: Packing) -> None:
        self.task = task
        self.top = max(kind.room for kind in task.kinds)
        self._worth = np.zeros(self.top + 1, dtype=np.int64)
        self._with = np.zeros(self.top + 1, dtype=np.int64)
        self._took = np.zeros((len(rows_of(task, task.counts)), self.top + 1), dtype=np.bool_)
        self._rows: list[tuple[int, int, int, int]] = []

    def price(self, weights: Sequence[int], counts: Sequence[int]) -> npt.NDArray[np.int64]:
        """The worthiest that goes into each room, with ``weights`` for the pieces and no more than ``counts``."""
        worth, top = self._worth, self.top
        worth[:] = 0
        self._rows = []
        for j, n in rows_of(self.task, counts):
            room = n * self.task.sizes[j]
            if weights[j] <= 0 or room > top:
                continue
            taken = np.add(worth[: top + 1 - room], n * weights[j], out=self._with[: top + 1 - room])
            row = len(self._rows)
            np.greater(taken, worth[room:], out=self._took[row, room:])
            np.maximum(taken, worth[room:], out=worth[room:])
            self._rows.append((row, j, n, room))
        return worth

    def pattern(self, room: int) -> Pattern:
        """The pattern behind the worth of ``room``, as it was priced last."""
        taken: dict[int, int] = {}
        for row, j, n, size in reversed(self._rows):
            if room >= size and self._took[row, room]:
                taken[j] = taken.get(j, 0) + n
                room -= size
        return pattern_of(taken)
