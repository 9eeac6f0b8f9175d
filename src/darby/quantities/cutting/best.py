"""The cheapest way of sawing inside a box of time: buys in the order of their cost, each shown not to do or sawn.

1. First fit and bar by bar; the cheapest buy that lengths let through. Where they meet, that is the proof.
2. The linear programme's prices as a second weighing, and one more for every buy that could not hold the pieces even
   with bars sawn in parts.
3. A buy that could: rounding, then every pattern written out. A buy given up leaves a gap.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field
from random import Random

from darby.quantities.cutting.filling import Plan, cost_of, fill, first_fit
from darby.quantities.cutting.knapsack import within_reach
from darby.quantities.cutting.weighing import Buy, Buying, Weights, by_length
from darby.quantities.cutting.whole import Packing

_BYTE = 2 * 2 * 2
_DIVES = _BYTE * 2
_WRITTEN = 2 ** (_BYTE + 2 * 2)


@dataclass(slots=True)
class Best:
    """The cheapest plan that was found, the least that any can cost, and why.

    ``tried`` are buys that the weighings let through and that were shown, pattern by pattern, not to do.
    """

    plan: Plan
    first: Plan
    cost: int
    bound: int
    weighings: list[Weights]
    tried: list[Buy] = field(default_factory=list)


def cheapest(task: Packing, seconds: float) -> Best:
    """The cheapest way of sawing found within ``seconds``, and the least any can cost."""
    return _Search(task, seconds).run()


class _Search:
    def __init__(self, task: Packing, seconds: float) -> None:
        self.task = task
        self.started = time.monotonic()
        self.deadline = self.started + seconds
        self.first = first_fit(task)
        self.plan = self.first
        self.buying = Buying(task)
        self.buying.weighings.append(by_length(task))
        self.given_up: list[Buy] = []
        self.tried: list[Buy] = []

    @property
    def cost(self) -> int:
        return cost_of(self.task, self.plan)

    def run(self) -> Best:
        buy = self.next()
        if buy is not None and not self.take(fill(self.task, buy)):
            if within_reach(self.task) and self.left():
                self.by_programme()
            else:
                self.given_up.append(buy)
        return Best(self.plan, self.first, self.cost, self.bound(), self.buying.weighings, self.tried)

    def next(self) -> Buy | None:
        return self.buying.cheapest(self.cost)

    def take(self, plan: Plan | None) -> bool:
        """Keeps a plan that is cheaper than the one before."""
        if plan is None or cost_of(self.task, plan) >= self.cost:
            return False
        self.plan = plan
        return True

    def left(self) -> float:
        return max(0.0, self.deadline - time.monotonic())

    def bound(self) -> int:
        """The cheapest that is not shown impossible: a buy given up, or the next one."""
        self.buying.barred -= set(self.given_up)
        buy = self.next()
        if self.buying.gave_up:
            return self._coarse_bound()
        return self.cost if buy is None else self.task.cost(buy)

    def _coarse_bound(self) -> int:
        """By the best rate of each weighing alone, where there are too many kinds to go through their counts."""
        least = 0
        kinds = range(self.task.bought)
        for w in self.buying.weighings:
            need = w.total - sum(n * limit for n, limit in zip(self.task.free, w.limits, strict=True))
            costs = [-(-need * self.task.kinds[k].cost // w.limits[k]) for k in kinds if w.limits[k]]
            least = max([least, min(costs)] if costs else [least])
        return min(least, self.cost)

    # --- by the linear programme -----------------------------------------------------------------

    def by_programme(self) -> None:
        from darby.quantities.cutting.packing import dive, written_out  # HiGHS is loaded only where it is needed
        from darby.quantities.cutting.relaxation import Relaxation

        relaxation = Relaxation(self.task, self.deadline)
        relaxation.learn([self.first, *self.by_hand()])
        self.buying.weighings.append(relaxation.at_cost())
        self.take(dive(relaxation, None))

        chance = Random(0)

        def by_rounding(buy: Buy, end: float, dives: int) -> bool:
            for n in range(dives):
                if self.take(dive(relaxation, buy, chance if n or buy in self.given_up else None)):
                    return True
                if time.monotonic() > end:
                    break
            return False

        def by_writing(buy: Buy, most: int, seconds: float) -> bool:
            plan, sure = written_out(self.task, buy, self.buying.weighings, most, seconds)
            if plan is None and sure:
                self.tried.append(buy)
            return self.take(plan) or sure

        self._through(relaxation.holds, by_rounding, by_writing)
        half = self.left() / 2
        for buy in self.open():  # what time is left goes to those that were given up, cheapest first
            if by_writing(buy, _WRITTEN * _BYTE, min(half, self.left())):
                self.given_up.remove(buy)
        while self.left() and self.open():
            for buy in self.open():
                if by_rounding(buy, self.deadline, 1):
                    self.given_up.remove(buy)

    def open(self) -> list[Buy]:
        """Buys that were given up and would be cheaper, the cheapest first."""
        cheaper = [buy for buy in self.given_up if self.task.cost(buy) < self.cost]
        return sorted(cheaper, key=lambda buy: (self.task.cost(buy), buy))

    def by_hand(self) -> list[Plan]:
        """Bar by bar with any number of bars, of every kind and of one alone."""
        task, chance = self.task, Random(0)
        every: list[int | None] = [k.most for k in task.kinds]
        buys = [every]
        for one in range(task.bought):
            buys.append([0 if n is None and at != one else n for at, n in enumerate(every)])
        found = []
        half = self.left() / 2
        for n, buy in ((n, buy) for n in range(2) for buy in buys):
            plan = fill(task, buy, chance=chance if n else None) if self.left() > half else None
            if plan is not None:
                found.append(plan)
                self.take(plan)
        return found

    def _through(
        self,
        holds: Callable[[Buy], tuple[bool, Weights | None]],
        by_rounding: Callable[[Buy, float, int], bool],
        by_writing: Callable[[Buy, int, float], bool],
    ) -> None:
        """Buys in the order of their cost, until one is sawn and nothing cheaper is open."""
        while self.left():
            buy = self.next()
            if buy is None:
                return
            held, weighing = holds(buy)
            if weighing is not None:
                self.buying.weighings.append(weighing)
                continue
            if held and self.take(fill(self.task, buy)):
                continue
            slice_ = self.left() / (2 * 2)
            if held and (by_rounding(buy, time.monotonic() + slice_ / 2, _DIVES) or by_writing(buy, _WRITTEN, slice_)):
                self.buying.barred.add(buy)
                continue
            self.buying.barred.add(buy)
            self.given_up.append(buy)
