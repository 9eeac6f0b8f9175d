"""What an hour must bring in: a year of wages and what comes with them, over the hours that can be charged."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from quicktions import Fraction

from darby.measure.limits import whole
from darby.measure.units import unit
from darby.price.columns import column
from darby.price.labor import PER_HOUR, PERCENT
from darby.working import Amount, Quantity, Working

H = unit("h")


@dataclass(frozen=True, slots=True)
class Paid:
    """So many hours in the year [h] at a rate [$/h]: straight time, overtime."""

    name: str
    hours: Fraction
    rate: Decimal


@dataclass(frozen=True, slots=True)
class OnWages:
    """A part of the year's wages, up to ``up_to`` [$] of them (None = all)."""

    name: str
    part: Fraction
    up_to: Decimal | None = None


@dataclass(frozen=True, slots=True)
class AYear:
    """So much a year [$], whatever the hours. ``wage``: it counts as wages (a bonus)."""

    name: str
    amount: Decimal
    wage: bool = False


@dataclass(frozen=True, slots=True)
class HourCost:
    """Wages of the year, every line on top, and what an hour that can be charged has to bring in."""

    wages: Amount
    lines: tuple[tuple[str, Amount], ...]
    year: Amount
    hour: Amount


def hour_must_bring(
    paid: Iterable[Paid],
    on_wages: Iterable[OnWages] = (),
    a_year: Iterable[AYear] = (),
    *,
    chargeable: Fraction,
) -> tuple[HourCost, Working]:
    """A year's cost of one person, line by line, over ``chargeable`` hours [h]: not the paid ones.

    Profit is not in it unless a line says so. Source of the form: burdened rate over billable hours, Peterson and
    Dagostino, "Estimating in Building Construction", example 7-5.
    """
    working = Working()
    flat = tuple(a_year)
    rows = [
        working.money(f"year/{p.name}", "hours * rate", "price.year-paid", hours=Quantity(p.hours * H.scale, H),
                      rate=Quantity(PER_HOUR.to_si(Fraction(p.rate)), PER_HOUR))
        for p in paid
    ]  # fmt: skip
    wages = column("year/wages", [*rows, *(Amount(f.amount) for f in flat if f.wage)], "price.year-wages", working)
    lines: list[tuple[str, Amount]] = []
    for share in on_wages:
        base = wages if share.up_to is None else Amount(min(share.up_to, wages.value))
        lines.append((share.name, working.money(f"year/{share.name}", "wages * part", "price.year-share", wages=base,
                                                part=Quantity(share.part, PERCENT))))  # fmt: skip
    lines += [(f.name, Amount(f.amount)) for f in flat if not f.wage]
    year = column("year/cost", [wages, *(amount for _, amount in lines)], "price.year-cost", working)
    hour = working.money("year/hour", "year / hours", "price.hour-must-bring", unit=PER_HOUR, year=year,
                         hours=Quantity(chargeable * H.scale, H))  # fmt: skip
    return HourCost(wages, tuple(lines), year, hour), working


def break_even(fixed: Decimal, unit_price: Decimal, unit_cost: Decimal) -> int:
    """How many units (square yards, jobs, days) pay the fixed cost: fixed / (price - cost of one), rounded up.

    Raises
    ------
    ValueError
        where one brings in no more than it costs.

    Source: U.S. Small Business Administration, break-even analysis (as quoted).
    """
    if unit_price <= unit_cost:
        raise ValueError(f"at {unit_price} a unit that costs {unit_cost} never pays for itself")
    return whole(Fraction(fixed) / Fraction(unit_price - unit_cost))
