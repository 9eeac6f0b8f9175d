"""What is asked of price, and what it answers. Times in seconds, areas in m2, money in dollars (``Decimal``)."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from quicktions import Fraction

from darby.measure.units import unit
from darby.rulebook import Book
from darby.working import Amount, Quantity

Real = float | int | Fraction

Of = Literal["wage", "labor", "material", "labor and material", "cost", "cost and overhead", "running total", "price"]
"""What a percentage is of. Cost = labor, material and the rest, before overhead. Running total = cost and what was
added to it so far."""

NO_TIME = Quantity(Fraction(0), unit("h"))

Group = Literal["labor", "material", "rest"]
SetBy = Literal["area", "trips", "least charge"]


@dataclass(frozen=True, slots=True)
class Crew:
    """So many people of a role at a wage [$ an hour each]."""

    role: str
    people: int
    wage: Decimal


@dataclass(frozen=True, slots=True)
class Share:
    """A percentage that says of what: 22 % of cost is ``Share("overhead", Fraction(22, 100), "cost")``."""

    name: str
    part: Fraction
    of: Of


@dataclass(frozen=True, slots=True)
class Profit:
    """Markup (of cost, or of cost and overhead) or margin (of the price): not the same thing."""

    kind: Literal["markup", "margin"]
    part: Fraction
    of: Of


@dataclass(frozen=True, slots=True)
class Work:
    """Time of the whole crew [s] on one coat (or lath, beads, paint) of one surface or zone."""

    at: str
    coat: str
    hours: Quantity


@dataclass(frozen=True, slots=True)
class Place:
    """A surface or zone that is a line of the quote: its area [m2], and what its share of the material goes by.

    ``weight`` (mortar, say, in m3) None = the area; all places or none have one.
    """

    at: str
    area: Quantity
    weight: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the order: ``packages`` at ``price`` [$ each]. None = not known, and said so."""

    item: str
    packages: Quantity | None
    price: Decimal | None
    name: str = ""
    supplier: str = ""


@dataclass(frozen=True, slots=True)
class Also:
    """What else is done: ``hours`` [s] of one person (of ``role``, else of the crew on average), ``cost`` [$]."""

    what: str
    says: str = ""
    hours: Real | None = None
    cost: Decimal | None = None
    role: str = ""


@dataclass(frozen=True, slots=True)
class TripTerms:
    """What a day on site costs before the first trowel: travel [$], set-up and least paid time of the crew [s].

    ``day`` [s] is the crew's working day: how full the trips would be that the hours alone need. 0 = evenly filled.
    """

    travel: Decimal = Decimal(0)
    set_up: Real = 0
    least: Real = 0
    day: Real = 0


@dataclass(frozen=True, slots=True)
class TripTime:
    """One day on site: work and idle time of the whole crew [s], set-up not counted."""

    hours: Quantity
    idle: Quantity = NO_TIME


@dataclass(frozen=True, slots=True)
class Hire:
    """Access that is hired: days it stands, [$ a day], set-up of the whole crew [s], once."""

    kind: str
    days: Quantity
    per_day: Decimal = Decimal(0)
    set_up: Real = 0


@dataclass(frozen=True, slots=True)
class Damp:
    """The crew's own visits to keep it damp: how many, and the time of one person at each [s]."""

    visits: int
    hours: Real = 0


@dataclass(frozen=True, slots=True)
class Span:
    """From ``low`` to ``high``: what is usual with this firm."""

    low: Quantity
    high: Quantity


@dataclass(frozen=True, slots=True)
class Usual:
    """Outside these darby asks; it does not refuse. Price [$/m2], bags [1/m2], pace [m2/s]."""

    price: Span | None = None
    bags: Span | None = None
    pace: Span | None = None


@dataclass(frozen=True, slots=True)
class PriceAsk:
    """Everything a price is made of. ``alone``: trips that the hours alone would need (from days).

    ``burden`` are shares of the wage, added up. ``bags``: bags of all kinds, for the plausibility line.
    """

    book: Book
    crew: tuple[Crew, ...]
    burden: tuple[Share, ...] = ()
    work: tuple[Work, ...] = ()
    places: tuple[Place, ...] = ()
    order: tuple[Item, ...] = ()
    also: tuple[Also, ...] = ()
    terms: TripTerms = TripTerms()
    trips: tuple[TripTime, ...] = ()
    alone: Quantity | None = None
    hires: tuple[Hire, ...] = ()
    damp: Damp = Damp(0)
    overheads: tuple[Share, ...] = ()
    profit: Profit | None = None
    least_charge: Decimal | None = None
    bags: Quantity | None = None
    usual: Usual = Usual()


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the firm's own build-up. ``code`` is its sentence; ``what`` a coat, an item, a kind of access."""

    code: str
    group: Group
    at: str
    what: str
    amount: Amount


@dataclass(frozen=True, slots=True)
class Loading:
    """Overhead, or a part of it: ``part`` of ``of`` comes to ``amount``."""

    name: str
    part: Fraction
    of: Of
    amount: Amount


@dataclass(frozen=True, slots=True)
class Loaded:
    """Cost with overhead and profit on it. The amounts add up to ``built`` exactly."""

    labor: Amount
    material: Amount
    rest: Amount
    cost: Amount
    loadings: tuple[Loading, ...]
    overhead: Amount
    profit: Amount
    built: Amount


@dataclass(frozen=True, slots=True)
class QuoteLine:
    """One line as the customer reads it: a surface, something else that is done, access. They add up to the total."""

    kind: Literal["surface", "also", "access", "job"]
    at: str
    what: str
    says: str
    amount: Amount


@dataclass(frozen=True, slots=True)
class Price:
    """The price, what it is made of, and what set it.

    ``total`` = ``loaded.built`` + ``lift`` (up to the least charge). ``by_area``: the price if the waits forced no
    trip; ``forced``: what the waits' trips add to it. ``markup`` and ``margin`` say the same profit in two ways.
    ``lacks``: items without a price or a package; then the total is no price yet (``complete`` False).
    """

    total: Amount
    complete: bool
    lacks: tuple[str, ...]
    set_by: SetBy
    by_area: Amount
    forced: Amount
    least_charge: Amount | None
    lift: Amount
    lines: tuple[Line, ...]
    loaded: Loaded
    markup: Quantity
    margin: Quantity
    quote: tuple[QuoteLine, ...]
    area: Quantity
    per_area: Amount | None
    crew_hour: Amount
    person_hour: Amount
    usual_low: Amount | None = None
    usual_high: Amount | None = None


@dataclass(frozen=True, slots=True)
class Move:
    """What one assumption does to the price: the price with it changed, and by how much that is more or less."""

    name: str
    price: Decimal
    change: Decimal
