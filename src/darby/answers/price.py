"""Stage "price": by coats and by trips, from the order, the days and the firm's own rates."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from darby.answers.also import also
from darby.answers.stage import Answers, Stage, Waiting
from darby.days.model import Visits
from darby.days.paint import Paint
from darby.measure.limits import whole
from darby.measure.units import unit
from darby.price import price
from darby.price.model import (
    Also,
    Crew,
    Hire,
    Item,
    Place,
    Price,
    PriceAsk,
    Profit,
    Share,
    Span,
    TripTerms,
    TripTime,
    Usual,
    Work,
)
from darby.quantities import Order, Volumes
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.job import firm as job_firm
    from darby.job.model import Job
    from darby.rulebook import Book

BAGS, VOLUME = unit("bags"), unit("cu ft")
FREE = frozenset({"water"})
"""What a job takes and nobody buys."""


def _ask(job: Job, book: Book, answers: Answers, at: str) -> PriceAsk | Waiting:  # noqa: ARG001 -- of the whole job
    firm, days, order, painted = job.firm, answers.of("days"), answers.of("order"), answers.of("paint")
    return PriceAsk(
        book=book,
        crew=tuple(Crew(c.role, c.people, c.wage) for c in firm.crew),
        burden=_burden(firm),
        work=(
            *(Work(c.at, c.coat, c.hours) for c in days.coats),
            *(Work(place, "paint", hours) for place, hours in painted.hours),
        ),
        places=tuple(p for v in answers.good("volumes").values() for p in _places(v)),
        order=_items(firm, order),
        also=tuple(Also(a.what, a.says, a.hours, a.cost) for a in also(job, answers)),
        terms=_terms(firm),
        trips=(*(TripTime(t.hours, t.idle) for t in days.trips), *_paint_trips(painted)),
        alone=days.alone,
        hires=_hires(firm, days),
        overheads=_overheads(firm),
        profit=_profit(firm),
        least_charge=firm.money.least_charge,
        bags=_bags(order),
        usual=_usual(firm),
    )


def _paint_trips(painted: Paint) -> tuple[TripTime, ...]:
    """The painting's trips, evenly filled."""
    if painted.total is None or painted.trips is None:
        return ()
    count = whole(painted.trips.value)
    return (TripTime(Quantity(float(painted.total) / count, painted.total.unit)),) * count


def _burden(firm: job_firm.Firm) -> tuple[Share, ...]:
    burden = firm.labor.burden
    return (Share("burden", burden.part, burden.of),) if burden is not None else ()


def _overheads(firm: job_firm.Firm) -> tuple[Share, ...]:
    overhead = firm.money.overhead
    return (Share("overhead", overhead.part, overhead.of),) if overhead is not None else ()


def _profit(firm: job_firm.Firm) -> Profit | None:
    profit = firm.money.profit
    return Profit(profit.kind, profit.share.part, profit.share.of) if profit is not None else None


def _terms(firm: job_firm.Firm) -> TripTerms:
    trip, day = firm.trip, firm.labor.day or 0
    return TripTerms(trip.travel, trip.set_up, trip.least, day) if trip is not None else TripTerms(day=day)


def _places(volumes: Volumes) -> list[Place]:
    """The zones of a surface; their share of the material goes by the mortar on them."""
    mortar: dict[str, float] = {}
    for coat in volumes.coats:
        mortar[coat.zone] = mortar.get(coat.zone, 0.0) + float(coat.total.value)
    return [
        Place(f"{volumes.surface}/{a.zone}", a.area, Quantity(mortar.get(a.zone, 0.0), VOLUME)) for a in volumes.areas
    ]


def _items(firm: job_firm.Firm, order: Order) -> tuple[Item, ...]:
    items = []
    for line in order.lines:
        buys = firm.buy(line.item)
        if buys is None and line.item in FREE:
            continue
        items.append(Item(line.item, line.packages, buys.price if buys is not None else None, line.name, line.supplier))
    return tuple(items)


def _hires(firm: job_firm.Firm, days: Visits) -> tuple[Hire, ...]:
    per_day = {a.kind: a.per_day for a in firm.access}
    return tuple(Hire(h.kind, h.days, per_day.get(h.kind, Decimal(0)), h.set_up) for h in days.hires)


def _bags(order: Order) -> Quantity | None:
    """Bags of every kind that the job takes, before rounding."""
    counts = [float(line.exact.value) for line in order.lines if line.each == "bag" and line.exact is not None]
    return Quantity(sum(counts), BAGS) if counts else None


def _usual(firm: job_firm.Firm) -> Usual:
    usual = firm.usual
    return Usual(_span(usual.price), _span(usual.bags), _span(usual.pace))


def _span(span: job_firm.Span | None) -> Span | None:
    return Span(Quantity(span.low, span.unit), Quantity(span.high, span.unit)) if span is not None else None


STAGE: Stage[PriceAsk, Price] = Stage("price", ("volumes", "order", "days", "paint"), "job", "now", _ask, price)
