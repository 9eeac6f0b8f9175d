"""Ways of sawing found by hand's rules: longest first into the first bar with room, and bar by bar as full as it goes.

A plan says how many bars of which kind are sawn to which pattern; a pattern is (number of the size, how many) pairs.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from random import Random

from darby.quantities.cutting.whole import Packing

Pattern = tuple[tuple[int, int], ...]
Plan = Counter[tuple[int, Pattern]]


def pattern_of(taken: dict[int, int]) -> Pattern:
    """Pairs in the order of sizes, without noughts."""
    return tuple(sorted((j, n) for j, n in taken.items() if n))


def size_of(task: Packing, pattern: Pattern) -> int:
    """Room that a pattern takes."""
    return sum(task.sizes[j] * n for j, n in pattern)


def cost_of(task: Packing, plan: Plan) -> int:
    """What the bars of a plan cost."""
    return sum(task.kinds[kind].cost * times for (kind, _), times in plan.items())


def buy_of(task: Packing, plan: Plan) -> tuple[int, ...]:
    """How many bars of each kind a plan saws."""
    buy = [0] * len(task.kinds)
    for (kind, _), times in plan.items():
        buy[kind] += times
    return tuple(buy)


# --- first fit ---------------------------------------------------------------------------------


def first_fit(task: Packing) -> Plan:
    """Longest first, each into the first bar with room: the rule of thumb that a cut list is held against.

    Offcuts stand first, shortest first; new bars are all of one length, each is then swapped for the cheapest that
    holds its cuts; the best over the stock lengths.
    """
    plans = [_first_fit(task, kind) for kind in range(task.bought)]
    return min(plans, key=lambda plan: cost_of(task, plan))


class _Alike:
    """Bars with one and the same content, standing side by side."""

    __slots__ = ("kind", "room", "taken", "times")

    def __init__(self, kind: int, room: int, times: int, taken: dict[int, int]) -> None:
        self.kind, self.room, self.times, self.taken = kind, room, times, taken

    def split(self, times: int) -> _Alike:
        """The first ``times`` of them, on their own."""
        self.times -= times
        return _Alike(self.kind, self.room, times, dict(self.taken))

    def take(self, j: int, size: int, n: int) -> None:
        self.room -= size * n
        self.taken[j] = self.taken.get(j, 0) + n


def _first_fit(task: Packing, new: int) -> Plan:
    free = [(k.room, n, k.most or 0) for n, k in enumerate(task.kinds) if k.most is not None]
    rows = [_Alike(kind, room, most, {}) for room, kind, most in sorted(free)]
    for j, (size, count) in enumerate(zip(task.sizes, task.counts, strict=True)):
        left, at = count, 0
        while left and at < len(rows):
            fits = rows[at].room // size
            if fits:
                left, at = _into(rows, at, j, size, fits, left)
            at += 1
        if left:
            kind = new if task.kinds[new].room >= size else _cheapest_holding(task, size)
            room = task.kinds[kind].room
            fits = room // size
            full, rest = divmod(left, fits)
            for times, n in ((full, fits), (1, rest)):
                if times and n:
                    rows.append(_Alike(kind, room - size * n, times, {j: n}))
    plan: Plan = Counter()
    for row in rows:
        if row.taken:
            pattern = pattern_of(row.taken)
            bought = task.kinds[row.kind].most is None
            kind = _cheapest_holding(task, size_of(task, pattern)) if bought else row.kind
            plan[kind, pattern] += row.times
    return plan


def _into(rows: list[_Alike], at: int, j: int, size: int, fits: int, left: int) -> tuple[int, int]:
    """Lays up to ``left`` pieces into the bars of row ``at``, ``fits`` in each; what is left, and the row reached."""
    row = rows[at]
    full, rest = divmod(left, fits)
    if full >= row.times:
        row.take(j, size, fits)
        return left - fits * row.times, at
    for n, times in ((fits, full), (rest, 1)):
        if times and n:
            part = row.split(times)
            part.take(j, size, n)
            rows.insert(at, part)
            at += 1
    if not row.times:
        rows.pop(at)
    return 0, at


def _cheapest_holding(task: Packing, room: int) -> int:
    return min((k for k in range(task.bought) if task.kinds[k].room >= room), key=lambda k: task.kinds[k].cost)


# --- as full as it goes ------------------------------------------------------------------------


def fill(
    task: Packing, buy: Sequence[int | None], counts: Sequence[int] | None = None, chance: Random | None = None
) -> Plan | None:
    """The pieces into ``buy`` bars of each kind (None = any number), bar by bar; None where that does not come out.

    Each bar takes the longest piece that is left, then those that fill it best: all sums are written out as the bits
    of one number. With ``chance`` the order and the choice of bars are shaken a little.
    """
    left = list(task.counts if counts is None else counts)
    total = sum(left)
    bars = [total if n is None else n for n in buy]
    order = list(range(len(left)))
    if chance is not None:
        shaken = [size * (1 + chance.random()) for size in task.sizes]
        order.sort(key=lambda j: -shaken[j])
    plan: Plan = Counter()
    first = 0
    while True:
        while first < len(left) and not left[first]:
            first += 1
        if first == len(left):
            return plan
        size = task.sizes[first]
        kinds = [k for k, n in enumerate(bars) if n and task.kinds[k].room >= size]
        if not kinds:
            return None
        left[first] -= 1
        kind, taken = _fullest(task, kinds, left, order, size, chance)
        left[first] += 1
        taken[first] = taken.get(first, 0) + 1
        times = min([bars[kind], *(left[j] // n for j, n in taken.items())])
        for j, n in taken.items():
            left[j] -= n * times
        bars[kind] -= times
        plan[kind, pattern_of(taken)] += times


def _fullest(
    task: Packing, kinds: Iterable[int], left: Sequence[int], order: Sequence[int], size: int, chance: Random | None
) -> tuple[int, dict[int, int]]:
    """The kind of bar that is filled best beside a piece of ``size``, and with what."""
    rooms = {k: task.kinds[k].room - size for k in kinds}
    top = max(rooms.values())
    mask = (1 << (top + 1)) - 1
    sums, before, which = 1, [], []
    for j in order:
        step = task.sizes[j]
        if left[j] and step <= top:
            for _ in range(min(left[j], top // step)):
                before.append(sums)
                which.append(j)
                sums |= (sums << step) & mask
    best: tuple[float, int, int] | None = None
    for k, room in rooms.items():
        reached = (sums & ((1 << (room + 1)) - 1)).bit_length() - 1
        lost = (room - reached) / task.kinds[k].room
        if chance is not None:
            lost *= chance.random() + 1 / 2
        if best is None or lost < best[0]:
            best = lost, k, reached
    assert best is not None
    _, kind, rest = best
    taken: dict[int, int] = {}
    for sums, j in zip(reversed(before), reversed(which), strict=True):
        if not rest:
            break
        if not sums >> rest & 1:  # the sum is not reached without this piece
            taken[j] = taken.get(j, 0) + 1
            rest -= task.sizes[j]
    return kind, taken
