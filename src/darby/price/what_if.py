"""Which assumptions move the price most: each is changed by itself, and the price worked anew."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal

from quicktions import Fraction

from darby.measure.units import unit
from darby.price.model import NO_TIME, Move, PriceAsk
from darby.price.pricing import whole_price
from darby.working import Quantity
from darby.working.formula import exact


def ranked(base: Decimal, prices: Iterable[tuple[str, Decimal]]) -> tuple[Move, ...]:
    """Moves from the price ``base`` to each named price, the largest first; equal ones by name."""
    moves = (Move(name, price, price - base) for name, price in prices)
    return tuple(sorted(moves, key=lambda m: (-abs(m.change), m.name)))


def sensitivity(ask: PriceAsk, variations: Iterable[tuple[str, PriceAsk]] | None = None) -> tuple[Move, ...]:
    """Price every variation and rank by how far it moves the price. None = this room's own (``what_ifs``).

    Raises
    ------
    Unreadable
        as ``price``.
    """
    changed = what_ifs(ask) if variations is None else tuple(variations)
    return ranked(whole_price(ask), ((name, whole_price(other)) for name, other in changed))


def what_ifs(ask: PriceAsk) -> tuple[tuple[str, PriceAsk], ...]:
    """One assumption at a time: a slower crew, dearer material, more of it, higher wages, a day more on site.

    How far each is moved is the book's (``price.what-if``). A slower crew makes longer days here; the trips that this
    may add are the days room's to say.
    """
    more = 1 + exact(ask.book.number("price.what-if").number, unit("%"))
    slower = tuple(replace(w, hours=_times(w.hours, more)) for w in ask.work)
    trips = tuple(replace(t, hours=_times(t.hours, more)) for t in ask.trips)
    dearer = tuple(replace(i, price=i.price * _decimal(more)) if i.price is not None else i for i in ask.order)
    asks = [
        ("pace", replace(ask, work=slower, trips=trips)),
        ("material", replace(ask, order=dearer)),
        ("wage", replace(ask, crew=tuple(replace(c, wage=c.wage * _decimal(more)) for c in ask.crew))),
    ]
    if ask.trips:
        asks.append(("trip", replace(ask, trips=(*ask.trips, replace(ask.trips[-1], hours=NO_TIME)))))
    if ask.burden:
        asks.append(("burden", replace(ask, burden=tuple(replace(s, part=s.part * more) for s in ask.burden))))
    return tuple(asks)


def _times(q: Quantity, more: Fraction) -> Quantity:
    return Quantity(q.value * (float(more) if isinstance(q.value, float) else more), q.unit)


def _decimal(x: Fraction) -> Decimal:
    return Decimal(x.numerator) / Decimal(x.denominator)
