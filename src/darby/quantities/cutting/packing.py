"""Sawing the pieces out of just so many bars: rounding the programme step by step, or writing out every pattern.

Rounding (diving) takes what the programme saws whole, solves what is left anew, and so on; it finds nearly every way
of sawing there is, and proves nothing where it finds none. Writing out does: with weights, a buy can waste only its
slack, so every bar that loses more than that is out, and what is left is a small exact programme.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Sequence
from random import Random
from typing import Any

import highspy
import numpy as np

from darby.quantities.cutting.filling import Pattern, Plan, fill
from darby.quantities.cutting.relaxation import FEASIBLE, NEAR, NONE, Relaxation, quiet
from darby.quantities.cutting.weighing import Buy, Weights
from darby.quantities.cutting.whole import Packing

_BYTE = 2 * 2 * 2
_HANDFUL = _BYTE * 2 * 2
"""Pieces so few that bar by bar is tried on them."""

_SHAKES = 2

_CELLS = 2 ** (2 * _BYTE + 2 * 2 + 2)
"""Cells of a table of worths beyond which patterns are not written out."""

_STEPS = 2 ** (2 * _BYTE + 2)
"""Steps of writing out after which it is given up."""


def dive(relaxation: Relaxation, buy: Buy | None, chance: Random | None = None) -> Plan | None:
    """The pieces into ``buy`` bars by rounding (None = whatever is cheapest); None where that does not come out."""
    task = relaxation.task
    left = list(task.counts)
    bars = [k.most if k.most is not None else sum(left) for k in task.kinds] if buy is None else list(buy)
    plan: Plan = Counter()
    while any(left):
        if buy is None:
            relaxation.at_cost(left, bars)
        elif not relaxation.holds(tuple(bars), left)[0]:
            return None
        if relaxation.late():
            return None
        shares = relaxation.last
        if chance is not None:
            shares = [(x + chance.random() / 2 if x < 1 else x, kind, pattern) for x, kind, pattern in shares]
        shares.sort(key=lambda row: (-row[0], row[1], row[2]))
        took = sum(
            _take(plan, left, bars, kind, pattern, int(x + NEAR)) for x, kind, pattern in shares if x + NEAR >= 1
        )
        for x, kind, pattern in shares:
            if took and x < 1 / 2:
                break
            clipped = tuple((j, min(n, left[j])) for j, n in pattern if left[j])
            if x + NEAR < 1 and clipped and (not took or clipped == pattern):
                took += _take(plan, left, bars, kind, clipped, 1)
                break
        if not took:
            return None
        if any(left) and sum(left) <= _HANDFUL:
            rest = _handful(task, bars, left, chance)
            if rest is not None:
                return plan + rest
    return plan


def _take(plan: Plan, left: list[int], bars: list[int], kind: int, pattern: Pattern, times: int) -> int:
    """Saws a pattern as often as it goes, ``times`` at the most; how often it went."""
    times = min([times, bars[kind], *(left[j] // n for j, n in pattern)])
    if times <= 0:
        return 0
    for j, n in pattern:
        left[j] -= n * times
    bars[kind] -= times
    plan[kind, pattern] += times
    return times


def _handful(task: Packing, bars: Sequence[int], left: Sequence[int], chance: Random | None) -> Plan | None:
    shaken = chance or Random(0)
    tries = (fill(task, bars, left, shaken if n else None) for n in range(1 + _SHAKES))
    return next((plan for plan in tries if plan is not None), None)


# --- every pattern written out -----------------------------------------------------------------


class _Written:
    """The patterns of a buy that lose no more than its slack, by the weighing that leaves the least of it."""

    def __init__(self, task: Packing, buy: Buy, weighings: Sequence[Weights], most: int) -> None:
        self.task = task
        self.buy = buy
        self.most = most
        self.whole = True
        """Whether all patterns are there; False: there were too many."""
        self.slacks = [sum(n * limit for n, limit in zip(buy, w.limits, strict=True)) - w.total for w in weighings]
        self.weighings = weighings
        self.first = min(range(len(weighings)), key=lambda r: self.slacks[r] / max(1, *weighings[r].limits))
        self.weights = weighings[self.first].weights
        self.best = self._best()
        self.found: list[tuple[int, Pattern]] = []
        self.steps = 0
        for kind, n in enumerate(buy):
            if n and self.whole:
                need = weighings[self.first].limits[kind] - self.slacks[self.first]
                self._write(kind, 0, task.kinds[kind].room, need, [])

    def _best(self) -> np.ndarray[tuple[int, int], np.dtype[np.int64]]:
        """The worthiest that goes into each room of the sizes from each one on."""
        sizes, counts, weights = self.task.sizes, self.task.counts, self.weights
        top = max(k.room for k in self.task.kinds)
        table = np.zeros((len(sizes) + 1, top + 1), dtype=np.int64)
        for j in range(len(sizes) - 1, -1, -1):
            row = table[j + 1].copy()
            left, n = min(counts[j], top // sizes[j]), 1
            while left > 0:
                n = min(n, left)
                room = n * sizes[j]
                row[room:] = np.maximum(row[room:], row[: top + 1 - room] + n * weights[j])
                left -= n
                n *= 2
            table[j] = row
        return table

    def _write(self, kind: int, start: int, room: int, need: int, chosen: list[tuple[int, int]]) -> None:
        self.steps += 1
        if need <= 0 and chosen and self._keeps(kind, chosen):
            self.found.append((kind, tuple(chosen)))
        self.whole = len(self.found) <= self.most and self.steps <= _STEPS
        sizes, counts = self.task.sizes, self.task.counts
        for j in range(start, len(sizes)):
            if not self.whole or self.best[j, room] < need:
                return
            for n in range(1, min(counts[j], room // sizes[j]) + 1):
                rest = room - n * sizes[j]
                asked = need - n * self.weights[j]
                if self.best[j + 1, rest] >= asked:
                    chosen.append((j, n))
                    self._write(kind, j + 1, rest, asked, chosen)
                    chosen.pop()

    def _keeps(self, kind: int, chosen: list[tuple[int, int]]) -> bool:
        """Whether the pattern is within the slack of every other weighing too."""
        return all(
            w.limits[kind] - sum(w.weights[j] * n for j, n in chosen) <= slack
            for w, slack in zip(self.weighings, self.slacks, strict=True)
        )


def written_out(
    task: Packing, buy: Buy, weighings: Sequence[Weights], most: int, seconds: float
) -> tuple[Plan | None, bool]:
    """The pieces into ``buy`` bars by the exact programme over every pattern; (None, True) = there is no way at all."""
    if len(task.sizes) * (max(k.room for k in task.kinds) + 1) > _CELLS:
        return None, False
    started = time.monotonic()
    table = _Written(task, buy, weighings, most)
    if not table.whole:
        return None, False
    if not table.found:
        return None, True
    solver = _exact(task, buy, table.found)
    solver.setOptionValue("time_limit", max(0.0, seconds - (time.monotonic() - started)))
    solver.run()
    if solver.getModelStatus() == highspy.HighsModelStatus.kInfeasible:
        return None, True
    if solver.getInfo().primal_solution_status != FEASIBLE:
        return None, False
    plan: Plan = Counter()
    for x, column in zip(solver.getSolution().col_value, table.found, strict=True):
        if round(x):
            plan[column] += round(x)
    return plan, True


def _exact(task: Packing, buy: Buy, columns: Sequence[tuple[int, Pattern]]) -> Any:
    """Each size just as often as it is wanted, no more bars than there are; the first answer will do."""
    solver, nothing = quiet(), np.array([], dtype=np.int32)
    for count in task.counts:
        solver.addRow(float(count), float(count), 0, nothing, nothing.astype(float))
    for n in buy:
        solver.addRow(-NONE, float(n), 0, nothing, nothing.astype(float))
    for kind, pattern in columns:
        rows = np.array([*(j for j, _ in pattern), len(task.sizes) + kind], dtype=np.int32)
        values = np.array([*(float(n) for _, n in pattern), 1.0])
        most = min([buy[kind], *(task.counts[j] // n for j, n in pattern)])
        solver.addCol(0.0, 0.0, float(most), len(rows), rows, values)
    every = np.arange(len(columns), dtype=np.int32)
    solver.changeColsIntegrality(len(columns), every, np.array([highspy.HighsVarType.kInteger] * len(columns)))
    solver.setOptionValue("mip_max_improving_sols", 1)
    return solver


def checked(task: Packing, plan: Plan) -> bool:
    """Whether a plan cuts every piece just once and no bar beyond its room."""
    cut = [0] * len(task.sizes)
    for (kind, pattern), times in plan.items():
        if sum(task.sizes[j] * n for j, n in pattern) > task.kinds[kind].room:
            return False
        for j, n in pattern:
            cut[j] += n * times
    used: Counter[int] = Counter()
    for (kind, _), times in plan.items():
        used[kind] += times
    within = all(k.most is None or used[n] <= k.most for n, k in enumerate(task.kinds))
    return within and tuple(cut) == task.counts
