"""Why a cut list cannot be cheaper, as arithmetic that a reader can check: few weighings, in small whole numbers."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.measure.surface import Length
from darby.measure.units import IN, UNITS
from darby.measure.writing import number, short, write
from darby.quantities.cutting.model import Bought, Cost, CutList, Weighing
from darby.quantities.cutting.weighing import Buying, Weights
from darby.quantities.cutting.whole import Packing

if TYPE_CHECKING:
    from darby.quantities.cutting.best import Best

_BYTE = 2 * 2 * 2
_SMALL = _BYTE * _BYTE
_TWICE = 2 * 2 * 2 + 2 * 2
"""How often the grain is doubled where small numbers will not do."""


def needed(task: Packing, best: Best) -> list[Weights]:
    """The weighings without which the bound would not stand: one where one will do."""
    for w in best.weighings:
        if _stands(task, best, [w]):
            return [w]
    kept = list(best.weighings)
    for w in best.weighings:
        others = [x for x in kept if x is not w]
        if others and _stands(task, best, others):
            kept = others
    return kept


def _stands(task: Packing, best: Best, weighings: Sequence[Weights]) -> bool:
    """Whether nothing below the bound gets past these weighings and the buys that were tried."""
    buying = Buying(task)
    buying.weighings = list(weighings)
    buying.barred = set(best.tried)
    return buying.cheapest(best.bound) is None and not buying.gave_up


def readable(task: Packing, best: Best, weighings: Sequence[Weights]) -> list[Weights]:
    """The same proof in the smallest whole numbers that still prove it; lengths stay lengths."""
    from darby.quantities.cutting.knapsack import Knapsack  # numpy is loaded only where it is needed

    plain = list(weighings)
    sack: Knapsack | None = None
    for at, w in enumerate(weighings):
        if w.weights == task.sizes:
            continue
        sack = sack or Knapsack(task)
        top = max(w.limits)
        for grain in (*range(1, _SMALL), *(_SMALL << n for n in range(_TWICE))):
            small = [weight * grain // top for weight in w.weights]
            worth = sack.price(small, task.counts)
            limits = tuple(int(worth[kind.room]) for kind in task.kinds)
            total = sum(x * n for x, n in zip(small, task.counts, strict=True))
            simpler = Weights(tuple(small), limits, total)
            if _stands(task, best, [*plain[:at], simpler, *plain[at + 1 :]]):
                plain[at] = simpler
                break
    return plain


# --- in print ------------------------------------------------------------------------------------


def lines(found: CutList) -> tuple[str, ...]:
    """The proof as lines without words: weights, limits, what each buy holds, and what the least costs."""
    written: list[str] = []
    for n, w in enumerate(found.weighings, start=1):
        written += _weights(f"W{n}" if len(found.weighings) > 1 else "W", w)
    written += [f"{_buy(buy)}: ∅" for buy in found.tried]
    written.append(f"≥ {_money(found, found.bound)}")
    return tuple(written)


def _weights(name: str, w: Weighing) -> list[str]:
    """One weighing: lengths where the weights are lengths (with a kerf each), else small numbers."""
    if w.unit is not None:
        total, unit = w.total * w.unit, w.unit
        holds = "; ".join(f"{_long(length)} ≤ {_long(limit * unit)}" for length, limit, _ in w.limits)
        return [f"Σ {name} = {_long(total)}", f"{name}: {holds}"]
    of = "; ".join(f"{count} × {_long(length)} → {number(weight)}" for length, count, weight in w.weights)
    holds = "; ".join(f"{_long(length)} ≤ {number(limit)}" for length, limit, _ in w.limits)
    return [f"{name}: {of}", f"Σ {name} = {number(w.total)}", f"{name}: {holds}"]


def _buy(buy: Sequence[Bought]) -> str:
    return " + ".join(f"{b.count} × {_long(b.length)}" for b in buy)


def _money(found: CutList, cost: Cost) -> str:
    return f"${number(cost, 2)}" if found.aim == "money" else _long(Fraction(cost))


def _long(length: Length) -> str:
    """A length in feet and inches where it comes out in them, else in millimetres."""
    parts = length / IN
    for to in (1 << n for n in range(_BYTE)):
        if (parts * to).denominator == 1:
            return write(length, "ft-in", to)
    return f"{short(length / UNITS['mm'].scale, 2)} mm"
