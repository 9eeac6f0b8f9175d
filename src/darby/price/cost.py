"""The firm's own build-up: every line of labor, material and the rest, each rounded to the cent once."""

from __future__ import annotations

from collections.abc import Iterator

from quicktions import Fraction

from darby.measure.units import unit
from darby.price.labor import Hour
from darby.price.model import Also, Hire, Line, PriceAsk
from darby.price.trips import Waits, trip_lines
from darby.working import Amount, Quantity, Working

H = unit("h")
PER_DAY = unit("$/day")


def unique(name: str, names: set[str]) -> str:
    """``name``, or ``name-2`` ... where it is taken."""
    name = name.replace(" ", "-")
    n, key = 1, name
    while key in names:
        n += 1
        key = f"{name}-{n}"
    names.add(key)
    return key


def lines_of(ask: PriceAsk, hour: Hour, working: Working) -> tuple[tuple[Line, ...], tuple[str, ...], Waits]:
    """Every line that costs something; items that lack a price or a package; what of it the waits force."""
    names: set[str] = set()
    lines = [*_work(ask, hour, working, names), *_also(ask, hour, working, names)]
    material, lacks = _material(ask, working, names)
    trips, waits = trip_lines(ask, hour, working)
    lines += [*_access(ask, hour, working), *material, *trips]
    return tuple(line for line in lines if line.amount.value), lacks, waits


def _work(ask: PriceAsk, hour: Hour, working: Working, names: set[str]) -> Iterator[Line]:
    for w in ask.work:
        key = unique(f"{w.at}/{w.coat}", names)
        amount = working.money(f"{key}/labor", "hours * crew", "price.coat", hours=w.hours, crew=hour.crew)
        yield Line("price.coat", "labor", w.at, w.coat, amount)


def _also(ask: PriceAsk, hour: Hour, working: Working, names: set[str]) -> Iterator[Line]:
    for also in ask.also:
        key = unique(f"job/{also.what}", names)
        yield from _also_lines(also, key, hour, working)


def _also_lines(also: Also, key: str, hour: Hour, working: Working) -> Iterator[Line]:
    if also.hours:
        amount = working.money(f"{key}/labor", "hours * person", "price.also-labor",
                               hours=Quantity(also.hours, H), person=hour.of(also.role))  # fmt: skip
        yield Line("price.also-labor", "labor", key, also.what, amount)
    if also.cost:
        yield Line("price.also-cost", "rest", key, also.what, Amount(also.cost))


def also_keys(ask: PriceAsk) -> tuple[tuple[Also, str], ...]:
    """Each other thing that is done with the place its lines bear."""
    names: set[str] = set()
    for w in ask.work:
        unique(f"{w.at}/{w.coat}", names)
    return tuple((also, unique(f"job/{also.what}", names)) for also in ask.also)


def access_key(hire: Hire) -> str:
    """The place that the lines of a kind of access bear."""
    return f"job/{hire.kind.replace(' ', '-')}"


def _access(ask: PriceAsk, hour: Hour, working: Working) -> Iterator[Line]:
    for hire in ask.hires:
        at = access_key(hire)
        if hire.set_up:
            amount = working.money(f"{at}/labor", "set_up * crew", "price.access-labor",
                                   set_up=Quantity(hire.set_up, H), crew=hour.crew)  # fmt: skip
            yield Line("price.access-labor", "labor", at, hire.kind, amount)
        if hire.per_day:
            per_day = Quantity(PER_DAY.to_si(Fraction(hire.per_day)), PER_DAY)
            amount = working.money(f"{at}/hire", "days * per_day", "price.access-hire", days=hire.days, per_day=per_day)
            yield Line("price.access-hire", "rest", at, hire.kind, amount)


def _material(ask: PriceAsk, working: Working, names: set[str]) -> tuple[list[Line], tuple[str, ...]]:
    lines, lacks = [], []
    for item in ask.order:
        if item.price is None or item.packages is None:
            lacks.append(item.item)
            working.note("price.no-price", "stop", "job", item=item.name or item.item)
            continue
        key = unique(f"job/{item.item}", names)
        amount = working.money(f"{key}/cost", "packages * price", "price.material", packages=item.packages,
                               price=Amount(item.price))  # fmt: skip
        lines.append(Line("price.material", "material", "job", item.item, amount))
    return lines, tuple(lacks)
