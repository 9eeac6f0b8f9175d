"""Overhead, profit and the least charge on a cost. A percentage says of what; markup is not margin."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from quicktions import Fraction

from darby.measure.faults import Fault, Unreadable
from darby.measure.units import unit
from darby.price.columns import NOTHING, column
from darby.price.model import Loaded, Loading, Profit, Share
from darby.working import Amount, Quantity, Working

PERCENT = unit("%")
ON_COST = ("labor", "material", "labor and material", "cost", "running total")


@dataclass(frozen=True, slots=True)
class Cost:
    """Labor, material and the rest [$]."""

    labor: Amount = NOTHING
    material: Amount = NOTHING
    rest: Amount = NOTHING


def margin_of(markup: Fraction) -> Fraction:
    """The margin (of the price) that a markup (of the cost) comes to.

    >>> margin_of(Fraction(1, 4))
    Fraction(1, 5)

    Source: price = cost (1 + markup) = cost / (1 - margin); Contracting Business, "Mark-Up and Margin" (2024).
    """
    return markup / (1 + markup)


def markup_of(margin: Fraction) -> Fraction:
    """The markup (of the cost) that gives a margin (of the price).

    Raises
    ------
    Unreadable
        for a margin of the whole price or more.
    """
    if margin >= 1:
        raise Unreadable(Fault("price.shares-too-big", "", _percent(margin), "< 100 %"))
    return margin / (1 - margin)


def loaded(key: str, cost: Cost, overheads: Iterable[Share], profit: Profit | None, working: Working) -> Loaded:
    """Cost with overhead and profit: every line rounded to the cent once, the price their sum.

    Overheads are taken one after another; "running total" takes those before it along, "price" is worked back from
    the price. Where something is of the price, profit is what remains, so that the column adds up.

    Raises
    ------
    Unreadable
        for a percentage of something it cannot be of, or shares of the price that leave nothing of it.
    """
    shares = tuple(overheads)
    _check(shares, profit)
    whole = column(f"{key}/cost", [cost.labor, cost.material, cost.rest], "price.cost", working)
    rows, running = [], whole
    for n, share in enumerate((s for s in shares if s.of != "price"), 1):
        base = _base(f"{key}/overhead-{n}", share, cost, whole, running, working)
        amount = working.money(f"{key}/overhead-{n}", "base * part", "price.overhead", base=base,
                               part=Quantity(share.part, PERCENT))  # fmt: skip
        rows.append(Loading(share.name, share.part, share.of, amount))
        running = working.money(f"{key}/running-{n}", "before + overhead", "price.running", before=running,
                                overhead=amount)  # fmt: skip
    of_price = [s for s in shares if s.of == "price"]
    if of_price or (profit is not None and profit.kind == "margin"):
        return _back_from_price(key, cost, (whole, running), rows, of_price, profit, working)
    overhead = column(f"{key}/overhead", [r.amount for r in rows], "price.overhead-all", working)
    gain = NOTHING
    if profit is not None:
        base = whole if profit.of == "cost" else running
        gain = working.money(f"{key}/profit", "base * markup", "price.profit", base=base,
                             markup=Quantity(profit.part, PERCENT))  # fmt: skip
    built = working.money(f"{key}/built", "cost + overhead + profit", "price.built", cost=whole, overhead=overhead,
                          profit=gain)  # fmt: skip
    return Loaded(cost.labor, cost.material, cost.rest, whole, tuple(rows), overhead, gain, built)


def _check(shares: tuple[Share, ...], profit: Profit | None) -> None:
    for share in shares:
        if share.of not in (*ON_COST, "price"):
            raise Unreadable(Fault("price.overhead-of-what", share.name, share.of, ", ".join((*ON_COST, "price"))))
    if profit is None:
        return
    allowed = ("price",) if profit.kind == "margin" else ("cost", "cost and overhead")
    if profit.of not in allowed:
        raise Unreadable(Fault(f"price.{profit.kind}-of", "", profit.of, ", ".join(allowed)))


def _base(key: str, share: Share, cost: Cost, whole: Amount, running: Amount, working: Working) -> Amount:
    if share.of == "labor and material":
        return column(f"{key}/base", [cost.labor, cost.material], "price.labor-and-material", working)
    return {"labor": cost.labor, "material": cost.material, "cost": whole, "running total": running}[share.of]


def _back_from_price(
    key: str,
    cost: Cost,
    sums: tuple[Amount, Amount],
    rows: list[Loading],
    of_price: list[Share],
    profit: Profit | None,
    working: Working,
) -> Loaded:
    """The price of which the shares of the price leave just the cost, the other overhead and the profit."""
    whole = sums[0]
    given, formula, left = _price_formula(sums, of_price, profit)
    if left <= 0:
        taken = sum((s.part for s in of_price), Fraction(0)) + (profit.part if profit is not None else 0)
        raise Unreadable(Fault("price.shares-too-big", "", _percent(taken), "< 100 %"))
    built = working.money(f"{key}/built", formula, "price.built", **given)
    for n, share in enumerate(of_price, 1):
        amount = working.money(f"{key}/overhead-of-price-{n}", "price * part", "price.overhead", price=built,
                               part=Quantity(share.part, PERCENT))  # fmt: skip
        rows.append(Loading(share.name, share.part, share.of, amount))
    overhead = column(f"{key}/overhead", [r.amount for r in rows], "price.overhead-all", working)
    gain = working.money(f"{key}/profit", "price - cost - overhead", "price.profit", price=built, cost=whole,
                         overhead=overhead)  # fmt: skip
    return Loaded(cost.labor, cost.material, cost.rest, whole, tuple(rows), overhead, gain, built)


def _price_formula(
    sums: tuple[Amount, Amount], of_price: list[Share], profit: Profit | None
) -> tuple[dict[str, Any], str, Fraction]:
    """What the formula is given, the formula, and how much of the price is left for cost."""
    whole, running = sums
    given: dict[str, Any] = {"costs": running}
    share = sum((s.part for s in of_price), Fraction(0))
    part = profit.part if profit is not None else Fraction(0)
    given["share"] = Quantity(share, PERCENT)
    if profit is None:
        return given, "costs / (1 - share)", 1 - share
    if profit.kind == "margin":
        return {**given, "margin": Quantity(part, PERCENT)}, "costs / (1 - share - margin)", 1 - share - part
    given["markup"] = Quantity(part, PERCENT)
    if profit.of == "cost":
        return {**given, "cost": whole}, "(costs + cost * markup) / (1 - share)", 1 - share
    return given, "costs * (1 + markup) / (1 - share * (1 + markup))", 1 - share * (1 + part)


def _percent(part: Fraction) -> str:
    return f"{float(part):.0%}"


def left_at(offer: Amount, cost: Cost, overheads: Iterable[Share], working: Working, key: str = "offer") -> Amount:
    """The profit that is left if the price is ``offer``: what a customer's counter-offer would leave him.

    Raises
    ------
    Unreadable
        as ``loaded``.
    """
    shares = tuple(overheads)
    fixed = loaded(f"{key}/fixed", cost, [s for s in shares if s.of != "price"], None, working)
    rows = [
        working.money(f"{key}/overhead-of-price-{n}", "offer * part", "price.overhead", offer=offer,
                      part=Quantity(share.part, PERCENT))
        for n, share in enumerate((s for s in shares if s.of == "price"), 1)
    ]  # fmt: skip
    other = column(f"{key}/overhead", rows, "price.overhead-all", working)
    return working.money(f"{key}/left", "offer - costs - overhead", "price.left", offer=offer, costs=fixed.built,
                         overhead=other)  # fmt: skip


def shares_of(gain: Amount, built: Amount, key: str, working: Working) -> tuple[Quantity, Quantity]:
    """One profit said twice: as markup (of cost and overhead) and as margin (of the price)."""
    none = Quantity(0.0, PERCENT)
    markup = margin = none
    if built.value != gain.value:
        markup = working.step(f"{key}/markup", "profit / (price - profit)", PERCENT, "price.markup", profit=gain,
                              price=built)  # fmt: skip
    if built.value:
        margin = working.step(f"{key}/margin", "profit / price", PERCENT, "price.margin", profit=gain, price=built)
    return markup, margin
