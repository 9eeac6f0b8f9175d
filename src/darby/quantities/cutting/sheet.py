"""From a plan back to bars a person can saw: every cut with what stands on the piece, bars in order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.measure.surface import Length
from darby.quantities.cutting.filling import Plan, buy_of
from darby.quantities.cutting.model import Aim, Bar, Bought, Cost, Cut, CutList, Placed, Weighing
from darby.quantities.cutting.weighing import Buy, Weights
from darby.quantities.cutting.whole import Asked, Kind, Packing

if TYPE_CHECKING:
    from darby.quantities.cutting.best import Best

NOUGHT = Fraction(0)


def cut_list_of(
    asked: Asked,
    task: Packing | None,
    best: Best | None,
    judged: Packing | None,
    proof: Best | None,
    weighings: Sequence[Weights],
) -> CutList:
    """The cut list of a plan, with the ``weighings`` that prove its bound, made for the task that is ``judged``."""
    if task is None or best is None or judged is None or proof is None:  # everything lies on offcuts
        bars = _bars(asked, None, Counter())
        nothing = _cost(0, Fraction(1), asked.aim)
        return CutList(asked.aim, asked.kerf, bars, (), nothing, nothing, True, nothing, (), _placed(bars), ())
    bars = _bars(asked, task, best.plan)
    return CutList(
        aim=asked.aim,
        kerf=asked.kerf,
        bars=bars,
        bought=_bought(task, buy_of(task, best.plan)),
        cost=_cost(best.cost, task.money, asked.aim),
        bound=_cost(best.bound, task.money, asked.aim),
        proved_best=best.cost == best.bound,
        first_fit=_cost(sum(task.kinds[k].cost * n for (k, _), n in best.first.items()), task.money, asked.aim),
        first_fit_bought=_bought(task, buy_of(task, best.first)),
        by_piece=_placed(bars),
        weighings=tuple(_weighing(judged, w) for w in weighings),
        tried=tuple(_bought(judged, buy) for buy in proof.tried if judged.cost(buy) < proof.bound),
    )


def _cost(whole: int, money: Fraction, aim: Aim) -> Cost:
    """Units of money as dollars, exactly; of length as metres."""
    value = whole * money
    if aim == "length":
        return value
    return Decimal(value.numerator) / Decimal(value.denominator)


def _bought(task: Packing, buy: Buy) -> tuple[Bought, ...]:
    pairs = [(kind, n) for kind, n in zip(task.kinds, buy, strict=True) if n and kind.most is None]
    return tuple(Bought(k.length, k.price, n) for k, n in sorted(pairs, key=lambda pair: -pair[0].length))


def _weighing(task: Packing, w: Weights) -> Weighing:
    limits = tuple((k.length, limit, k.most) for k, limit in zip(task.kinds, w.limits, strict=True))
    weights = tuple(zip(task.lengths, task.counts, w.weights, strict=True))
    return Weighing(weights, w.total, limits, task.unit if w.weights == task.sizes else None)


def _bars(asked: Asked, task: Packing | None, plan: Plan) -> tuple[Bar, ...]:
    """Offcuts first, then bars that are bought, the longest first; alike ones side by side; longest cuts first."""
    waiting = {length: sorted(cuts, key=lambda c: (c.piece, c.n, c.part)) for length, cuts in asked.cuts.items()}
    rows: list[tuple[Kind, list[Length]]] = []
    if task is not None:
        for (which, pattern), times in plan.items():
            lengths = [task.lengths[j] for j, n in pattern for _ in range(n)]
            rows += [(task.kinds[which], lengths)] * times
    held = {id(kind.held) for kind, _ in rows if kind.held is not None}
    rows += [(Kind(0, 0, 1, o.length, None, o.id, cut), []) for o, cut in asked.held if id(cut) not in held]
    rows.sort(key=lambda row: _in_order(*row))
    bars = []
    for number, (kind, lengths) in enumerate(rows, start=1):
        cuts = [kind.held] if kind.held is not None else []
        cuts += [waiting[length].pop(0) for length in lengths]
        bars.append(_bar(number, kind, cuts, asked.kerf))
    return tuple(bars)


def _in_order(kind: Kind, lengths: Iterable[Length]) -> tuple[object, ...]:
    held = -kind.held.length if kind.held is not None else NOUGHT
    return kind.offcut is None, -kind.length, kind.offcut or "", held, tuple(-length for length in lengths)


def _bar(number: int, kind: Kind, cuts: Sequence[Cut], kerf: Length) -> Bar:
    """A bar with what the blade takes: a kerf between two pieces, and one more, or what there is, behind the last."""
    between = kerf * (len(cuts) - 1)
    rest = kind.length - sum((cut.length for cut in cuts), NOUGHT) - between
    last = min(kerf, rest)
    return Bar(number, kind.length, kind.price, kind.offcut, tuple(cuts), between + last, rest - last)


def _placed(bars: Iterable[Bar]) -> tuple[Placed, ...]:
    """Every piece with the bars that its parts come from, by the pieces' names."""
    parts: dict[tuple[str, int], list[tuple[int, Cut, int]]] = {}
    for bar in bars:
        for cut in bar.cuts:
            parts.setdefault((cut.piece, cut.n), []).append((cut.part, cut, bar.number))
    placed = []
    for (piece, n), found in sorted(parts.items()):
        found.sort(key=lambda part: part[0])
        length = sum((cut.length for _, cut, _ in found), NOUGHT)
        placed.append(Placed(piece, n, found[0][1].of, length, tuple((bar, cut.length) for _, cut, bar in found)))
    return tuple(placed)
