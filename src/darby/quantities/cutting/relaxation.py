"""Bars sawn in parts: the linear programme over patterns, with patterns added where they pay.

P. C. Gilmore and R. E. Gomory, Operations Research 9 (1961).

One programme in two moods. At *cost* it asks what the bars cost at the least if a third of a bar could be bought. For
a *buy* it asks whether so many bars could hold the pieces, bars sawn in parts allowed. Either way its prices, made
whole numbers, are a weighing; whatever the solver's floats did, a weighing is checked with whole numbers.
"""

from __future__ import annotations

import time
from collections.abc import Iterable, Sequence
from typing import Any

import highspy
import numpy as np
from highspy._core import _Highs as Bare  # highspy.Highs prints a banner on standard output when it is made

from darby.quantities.cutting.filling import Pattern, Plan
from darby.quantities.cutting.knapsack import Knapsack
from darby.quantities.cutting.weighing import Buy, Weights
from darby.quantities.cutting.whole import Packing

NONE = highspy.kHighsInf
WORD = 2 ** (2 ** (2 * 2))
NEAR = 1 / WORD
"""What the solver's floats may be off."""

_GRAIN = WORD * WORD
"""Prices are cut to this part of the greatest."""


FEASIBLE = 2
"""The solver's word for an answer that keeps every row."""


def quiet() -> Any:
    """A solver on one thread that prints nothing: the same answer every time."""
    solver: Any = Bare()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    return solver


class Relaxation:
    """Patterns known so far, and the linear programme over them."""

    def __init__(self, task: Packing, deadline: float) -> None:
        self.task = task
        self.deadline = deadline
        self.sack = Knapsack(task)
        self.columns: list[tuple[int, Pattern]] = []
        self._known: set[tuple[int, Pattern]] = set()
        self._sizes = len(task.sizes)
        self._rows = self._sizes + len(task.kinds)
        self._priced: bool | None = None
        self.last: list[tuple[float, int, Pattern]] = []
        """The shares of the last answer that stood."""
        self.solver = self._empty()

    def _empty(self) -> Any:
        """Rows: each size as often as it is wanted; each kind as often as there is. Columns: pieces left out."""
        solver, nothing = quiet(), np.array([], dtype=np.int32)
        solver.setOptionValue("presolve", "off")
        for count in self.task.counts:
            solver.addRow(float(count), NONE, 0, nothing, nothing.astype(float))
        for kind in self.task.kinds:
            solver.addRow(-NONE, NONE if kind.most is None else float(kind.most), 0, nothing, nothing.astype(float))
        for j in range(self._sizes):
            solver.addCol(0.0, 0.0, NONE, 1, np.array([j], dtype=np.int32), np.ones(1))
        return solver

    # --- patterns --------------------------------------------------------------------------------

    def add(self, kind: int, pattern: Pattern) -> bool:
        """A new pattern for a bar of this kind; False if it was known."""
        if (kind, pattern) in self._known or not pattern:
            return False
        self._known.add((kind, pattern))
        self.columns.append((kind, pattern))
        rows = np.array([*(j for j, _ in pattern), self._sizes + kind], dtype=np.int32)
        values = np.array([*(float(n) for _, n in pattern), 1.0])
        cost = float(self.task.kinds[kind].cost) if self._priced else 0.0
        self.solver.addCol(cost, 0.0, NONE, len(rows), rows, values)
        return True

    def learn(self, plans: Iterable[Plan]) -> None:
        """The patterns of ways of sawing that were found elsewhere."""
        for plan in plans:
            for kind, pattern in plan:
                self.add(kind, pattern)

    # --- the two moods ---------------------------------------------------------------------------

    def _mood(self, priced: bool) -> None:
        if self._priced == priced:
            return
        self._priced = priced
        kinds, sizes = self.task.kinds, self.task.sizes
        worst = float(sum(k.cost for k in kinds)) * len(kinds)
        top = float(sizes[0])
        left_out = [worst if priced else size / top for size in sizes]
        costs = left_out + [float(kinds[k].cost) if priced else 0.0 for k, _ in self.columns]
        self.solver.changeColsCost(len(costs), np.arange(len(costs), dtype=np.int32), np.array(costs))

    def _bounds(self, counts: Sequence[int], buy: Sequence[int | None]) -> None:
        least = [float(n) for n in counts] + [-NONE] * len(buy)
        most = [NONE] * len(counts) + [NONE if n is None else float(n) for n in buy]
        self.solver.changeRowsBounds(self._rows, np.arange(self._rows, dtype=np.int32), np.array(least), np.array(most))

    def at_cost(self, counts: Sequence[int] | None = None, free: Sequence[int | None] | None = None) -> Weights:
        """The weighing of the cheapest bars sawn in parts, out of as many as are ``free`` of each kind."""
        self._mood(True)
        wanted = self.task.counts if counts is None else counts
        bars = [k.most for k in self.task.kinds] if free is None else free
        self._bounds(wanted, bars)
        while True:
            self.solver.run()
            shares = self.shares()
            weights, paid = self._price(wanted, [n is None or n > 0 for n in bars])
            if not paid or self.late():
                self.last = shares
                return weights

    def holds(self, buy: Buy, counts: Sequence[int] | None = None) -> tuple[bool, Weights | None]:
        """Whether ``buy`` holds the pieces, bars sawn in parts; if not, the weighing that says so.

        (False, None) where time ran out. Where it holds them, ``last`` has a way of sawing in parts.
        """
        self._mood(False)
        wanted = self.task.counts if counts is None else counts
        self._bounds(wanted, buy)
        bars = [n > 0 for n in buy]
        while True:
            self.solver.run()
            if self.solver.getObjectiveValue() < NEAR:
                self.last = self.shares()
                return True, None
            weights, paid = self._price(wanted, bars)
            if not weights.lets(buy):
                return False, weights
            if not paid:
                self.last = self.shares()
                return True, None  # as near to holding as floats can tell
            if self.late():
                return False, None

    def _price(self, counts: Sequence[int], bars: Sequence[bool]) -> tuple[Weights, bool]:
        """The weighing of the programme's prices; adds the patterns that pay by them, and says whether any does."""
        duals = self.solver.getSolution().row_dual
        prices = [max(0.0, y) for y in duals[: self._sizes]]
        top = max(prices) or 1.0
        weights = [int(price / top * _GRAIN) for price in prices]
        worth = self.sack.price(weights, counts)
        limits = tuple(int(worth[kind.room]) for kind in self.task.kinds)
        paid = False
        for k, kind in enumerate(self.task.kinds):
            asks = (kind.cost if self._priced else 0.0) - duals[self._sizes + k]
            if bars[k] and limits[k] / _GRAIN * top > asks + NEAR * NEAR:
                paid |= self.add(k, self.sack.pattern(kind.room))
        total = sum(w * n for w, n in zip(weights, counts, strict=True))
        return Weights(tuple(weights), limits, total), paid

    def shares(self) -> list[tuple[float, int, Pattern]]:
        """(how many, kind, pattern) of the programme's answer, before patterns are added to it."""
        values: Any = self.solver.getSolution().col_value
        found = [(x, *column) for x, column in zip(values[self._sizes :], self.columns, strict=True)]
        return [row for row in found if row[0] > NEAR]

    def late(self) -> bool:
        """Whether the time is up."""
        return time.monotonic() > self.deadline
