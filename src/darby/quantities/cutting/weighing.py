"""What a buy must at least be: weights for pieces, limits for bars, and the cheapest buy that they let through.

Give every size a weight, whatever weight; let no bar of a kind hold more than its limit. A buy whose bars hold less
than all pieces weigh cannot hold the pieces. Lengths themselves are such weights (the wall's length of bead needs as
much bar); better ones come from the prices of a linear programme (Farley, 1990, and the duals of Gilmore and Gomory,
1961), rounded down to whole numbers, so that everything here is exact.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from darby.quantities.cutting.whole import Packing

Buy = tuple[int, ...]
"""How many bars of each kind."""


@dataclass(frozen=True, slots=True)
class Weights:
    """``weights`` of one piece of each size, ``limits``: the most that a bar of each kind holds, ``total`` of all."""

    weights: tuple[int, ...]
    limits: tuple[int, ...]
    total: int

    def lets(self, buy: Sequence[int]) -> bool:
        """Whether so many bars can hold the total."""
        return sum(n * limit for n, limit in zip(buy, self.limits, strict=True)) >= self.total


def by_length(task: Packing) -> Weights:
    """Lengths as weights: nothing that is bought is shorter than what is cut from it."""
    total = sum(size * count for size, count in zip(task.sizes, task.counts, strict=True))
    return Weights(task.sizes, tuple(kind.room for kind in task.kinds), total)


_PATIENCE = 2 ** (2 * 2 * 2 + 2 * 2 + 1)
"""Steps after which a search among too many kinds of bars is given up."""


class Buying:
    """The cheapest buy that every weighing lets through, looked for anew as weighings are added."""

    def __init__(self, task: Packing) -> None:
        self.task = task
        self.weighings: list[Weights] = []
        self.barred: set[Buy] = set()
        """Buys that are known not to do, or that were given up."""
        self.gave_up = False
        """Whether the last search ended before it was through: its answer may then not be the cheapest."""
        self._order: list[int] = []

    def cheapest(self, below: int) -> Buy | None:
        """The cheapest buy that costs less than ``below``; None if there is none. Offcuts all lie there for nothing."""
        task = self.task
        self._order = sorted(range(task.bought), key=lambda k: task.kinds[k].cost / task.kinds[k].room)
        search = _Search(self, below)
        need = [w.total - sum(n * limit for n, limit in zip(task.free, w.limits, strict=True)) for w in self.weighings]
        search.look(0, need, 0, [])
        self.gave_up = search.steps > _PATIENCE
        return search.found

    def whole(self, chosen: Sequence[int]) -> Buy:
        """The choice in the order of the search as a buy, with the offcuts."""
        buy = list(self.task.free)
        for kind, n in zip(self._order, chosen, strict=True):
            buy[kind] = n
        return tuple(buy)


class _Search:
    """Depth first over how many of each kind, best value first; cut off where even the best rate costs too much."""

    def __init__(self, buying: Buying, below: int) -> None:
        kinds = buying.task.kinds
        order = buying._order
        self.buying = buying
        self.best = below
        self.found: Buy | None = None
        self.steps = 0
        self.costs = [kinds[k].cost for k in order]
        self.limits = [[w.limits[k] for k in order] for w in buying.weighings]
        self.rates = [self._rates(row) for row in self.limits]

    def _rates(self, limits: list[int]) -> list[tuple[int, int]]:
        """(cost, limit) of the best kind from each place on: what is needed costs at least so much of it."""
        best: list[tuple[int, int]] = []
        for cost, limit in zip(reversed(self.costs), reversed(limits), strict=True):
            before = best[-1] if best else (0, 0)
            best.append((cost, limit) if not before[1] or cost * before[1] < before[0] * limit else before)
        return best[::-1]

    def look(self, at: int, need: list[int], spent: int, chosen: list[int]) -> None:
        self.steps += 1
        if self.steps > _PATIENCE or self._least(at, need, spent) >= self.best:
            return
        if at == len(self.costs) - 1:
            self._last(at, need, spent, chosen)
            return
        cost = self.costs[at]
        most, enough = (self.best - spent - 1) // cost, self._enough(at, need)
        numbers = [*range(min(most, enough), -1, -1)]
        if self.buying.barred:  # one more than enough may do where just enough is known not to
            numbers += range(enough + 1, most + 1)
        for n in numbers:
            rest = [x - n * row[at] for x, row in zip(need, self.limits, strict=True)]
            self.look(at + 1, rest, spent + n * cost, [*chosen, n])

    def _least(self, at: int, need: list[int], spent: int) -> int:
        least = spent
        for x, rates in zip(need, self.rates, strict=True):
            if x > 0:
                cost, limit = rates[at]
                if not limit:
                    return self.best
                least = max(least, spent - (-x * cost // limit))
        return least

    def _enough(self, at: int, need: list[int]) -> int:
        """How many of this kind alone do for every need that it can meet."""
        return max((-(-x // row[at]) for x, row in zip(need, self.limits, strict=True) if x > 0 and row[at]), default=0)

    def _last(self, at: int, need: list[int], spent: int, chosen: list[int]) -> None:
        if any(x > 0 and not row[at] for x, row in zip(need, self.limits, strict=True)):
            return
        n = self._enough(at, need)
        while spent + n * self.costs[at] < self.best:
            buy = self.buying.whole([*chosen, n])
            if buy not in self.buying.barred:
                self.best, self.found = spent + n * self.costs[at], buy
                return
            n += 1
