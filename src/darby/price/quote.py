"""The price as the customer reads it: a line for each surface and each other thing done; they add up to the total."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from darby.price.columns import NOTHING, column, total
from darby.price.cost import access_key, also_keys
from darby.price.model import Line, PriceAsk, QuoteLine
from darby.working import Amount, Working


@dataclass(frozen=True, slots=True)
class _Direct:
    """A line of the quote, with its key and what it costs the firm by itself, before what all lines share."""

    line: QuoteLine
    key: str
    cost: Amount


def quote_lines(
    ask: PriceAsk, lines: Sequence[Line], material: Amount, price: Amount, working: Working
) -> tuple[QuoteLine, ...]:
    """The total shared out by what each line costs by itself: its coats and its share of the material, or its own cost.

    Trips, overhead and profit go with it in proportion. What rounding leaves goes on the largest line.
    """
    if not price.value:
        return ()
    direct = [d for d in (*_surfaces(ask, lines, material, working), *_others(ask, lines, working)) if d.cost.value > 0]
    if not direct:
        return (QuoteLine("job", "job", "", "", price),)
    costs = column("job/quote/direct", [d.cost for d in direct], "price.direct-all", working)
    largest = max(direct, key=lambda d: d.cost.value)
    shared = {
        d.key: working.money(f"{d.key}/price", "price * part / parts", "price.quote-line", price=price, part=d.cost,
                             parts=costs)
        for d in direct
        if d is not largest
    }  # fmt: skip
    others = column("job/quote/others", list(shared.values()), "price.quote-others", working)
    shared[largest.key] = working.money(f"{largest.key}/price", "price - others", "price.quote-rest", price=price,
                                        others=others)  # fmt: skip
    return tuple(replace(d.line, amount=shared[d.key]) for d in direct)


def _surfaces(ask: PriceAsk, lines: Sequence[Line], material: Amount, working: Working) -> list[_Direct]:
    labor: dict[str, list[Amount]] = {}
    for line in lines:
        if line.code == "price.coat":
            labor.setdefault(line.at, []).append(line.amount)
    weights = [place.weight or place.area for place in ask.places]
    known = {p.at for p in ask.places}
    rows = []
    if weights and any(w.value for w in weights):
        whole = total("job/quote/weights", weights, weights[0].unit, "price.quote-weights", working)
        for place, weight in zip(ask.places, weights, strict=True):
            work = column(f"{place.at}/labor", labor.get(place.at, []), "price.surface-labor", working)
            cost = working.money(f"{place.at}/direct", "labor + material * weight / weights", "price.direct",
                                 labor=work, material=material, weight=weight, weights=whole)  # fmt: skip
            rows.append(_Direct(_surface(place.at), place.at, cost))
    else:
        known = set()
    for at, amounts in labor.items():
        if at not in known:
            rows.append(_Direct(_surface(at), at, column(f"{at}/labor", amounts, "price.surface-labor", working)))
    return rows


def _surface(at: str) -> QuoteLine:
    return QuoteLine("surface", at, "", "", NOTHING)


def _others(ask: PriceAsk, lines: Sequence[Line], working: Working) -> list[_Direct]:
    by_at: dict[str, list[Amount]] = {}
    for line in lines:
        if line.code.startswith(("price.also", "price.access")):
            by_at.setdefault(line.at, []).append(line.amount)
    rows = [(QuoteLine("also", key, also.what, also.says, NOTHING), key) for also, key in also_keys(ask)]
    rows += [(QuoteLine("access", access_key(h), h.kind, "", NOTHING), access_key(h)) for h in ask.hires]
    return [
        _Direct(line, key, column(f"{key}/direct", by_at[key], "price.direct", working))
        for line, key in rows
        if key in by_at
    ]
