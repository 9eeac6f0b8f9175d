"""[trip], [[access]], [money] and [usual] of the firm file: what a day costs, and what the firm must come out for."""

from __future__ import annotations

from decimal import Decimal

from quicktions import Fraction

from darby.job import allowed as ok
from darby.job.fields import Document, Measured, key, must
from darby.job.firm import Access, Money, Profit, Trip, Usual
from darby.job.part import DAY, Part


class TripDocument(Document):
    """[trip]: what a day costs before the first trowel of plaster."""

    travel: Measured = key("Driving there and back, all of you: `$85.00`.")
    set_up: Measured = key("Setting up and washing out, of the whole crew: `1.5 h`.")
    least: Measured = key("The whole crew is paid at least this long a trip: `4 h`.")


class AccessDocument(Document):
    """[[access]]: one way to stand at the wall."""

    kind: str = must("ground, planks and trestles, scaffold, ...")
    up_to: Measured = must("How high a wall can be worked from it: `10'`.")
    per_day: Measured = key("Hire a day: `$18.00`.")
    set_up: Measured = key("Putting up and taking down, of the whole crew, once: `1 h`.")


class ProfitDocument(Document):
    """profit: markup or margin; they are not the same."""

    markup: Measured = key("On cost and overhead: `12 % of cost and overhead`.")
    margin: Measured = key("Of the price: `11 % of price`.")


class MoneyDocument(Document):
    """[money]: overhead, profit, the least charge."""

    overhead: Measured = key("`22 % of cost`: cost is labor, material, access and the rest.")
    profit: ProfitDocument = key("Markup, or margin.")
    least_charge: Measured = key("The least you come out for: `$1,450.00`.")


class UsualDocument(Document):
    """[usual]: outside these spans darby asks; it does not refuse."""

    price: Measured = key("`$8 to $34/sq ft`.")
    bags: Measured = key("`6 to 26 bags/100 sq ft`.")
    pace: Measured = key("`150 to 900 sq ft/day`.")


def read_trip(part: Part | None) -> Trip | None:
    """[trip] [$, s]."""
    if part is None:
        return None
    return Trip(
        part.money("travel") or Decimal(0), part.time("set_up", nought=True) or Fraction(0),
        part.time("least", nought=True) or Fraction(0),
    )  # fmt: skip


def read_access(part: Part) -> tuple[Access, ...]:
    """[[access]] entries, lowest first; a kind stands once."""
    ways: list[Access] = []
    seen: set[str] = set()
    for entry in part.parts("access"):
        kind, up_to = entry.text("kind", must=True), entry.length("up_to", positive=True)
        per_day, set_up = entry.money("per_day"), entry.time("set_up", nought=True)
        if kind in seen:
            entry.fault("kind", "job.twice", kind, ok.ONCE)
        seen.add(kind)
        if up_to is not None:
            ways.append(Access(kind, up_to, per_day or Decimal(0), set_up or Fraction(0)))
    return tuple(sorted(ways, key=lambda way: way.up_to))


def read_money(part: Part | None) -> Money:
    """[money]: overhead is of cost, markup of cost and overhead, margin of the price."""
    if part is None:
        return Money()
    profit = None
    inner = part.part("profit")
    if inner is not None:
        markup = inner.share("markup", ("cost and overhead",))
        margin = inner.share("margin", ("price",), below_one=True)
        if inner.said("markup") == inner.said("margin"):
            found = "markup, margin" if inner.said("markup") else ""
            inner.fault(None, "job.profit-one", found, ok.MARKUP_OR_MARGIN)
        elif markup is not None:
            profit = Profit("markup", markup)
        elif margin is not None:
            profit = Profit("margin", margin)
    return Money(part.share("overhead", ("cost",)), profit, part.money("least_charge"))


def read_usual(part: Part | None) -> Usual:
    """[usual] spans, low not above high."""
    if part is None:
        return Usual()
    return Usual(
        part.span("price", "$8 to $34/sq ft", "$/m2"),
        part.span("bags", "6 to 26 bags/100 sq ft", "/m2"),
        part.span("pace", "150 to 900 sq ft/day", "m2/day", per=DAY),
    )
