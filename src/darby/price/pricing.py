"""The price of a job: built up by coats and by trips, with what set it and what looks odd about it."""

from __future__ import annotations

from decimal import Decimal

from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.price.columns import NOTHING, column, total
from darby.price.cost import lines_of
from darby.price.labor import Hour, hour_of
from darby.price.loading import Cost, loaded, shares_of
from darby.price.model import Group, Line, Loaded, Price, PriceAsk, SetBy, Span
from darby.price.quote import quote_lines
from darby.price.trips import Waits
from darby.working import Amount, Grade, Quantity, Working


def price(ask: PriceAsk) -> tuple[Price, Working]:
    """What the job costs the customer, every line of it, and which of area, trips or least charge set it.

    Raises
    ------
    Unreadable
        without a crew; for a percentage of something it cannot be of; for shares that leave nothing of the price.
    """
    working = Working()
    hour = hour_of(ask.crew, ask.burden, working)
    lines, lacks, waits = lines_of(ask, hour, working)
    cost = _cost(lines, working)
    built = loaded("job/price", cost, ask.overheads, ask.profit, working)
    by_area = _by_area(ask, cost, waits, built, working)
    forced = working.money("job/forced", "price - by_area", "price.forced", price=built.built, by_area=by_area)
    least = None if ask.least_charge is None else Amount(ask.least_charge)
    lift, whole = _lift(built, least, working)
    gain = column("job/price/gain", [a for a in (built.profit, lift) if a.value], "price.gain", working)
    markup, margin = shares_of(gain, whole, "job/price", working)
    area = total("job/price/area", [p.area for p in ask.places], unit("sq ft"), "price.area", working)
    answer = Price(
        total=whole,
        complete=not lacks,
        lacks=lacks,
        set_by=_set_by(by_area, forced, lift),
        by_area=by_area,
        forced=forced,
        least_charge=least,
        lift=lift,
        lines=lines,
        loaded=built,
        markup=markup,
        margin=margin,
        quote=quote_lines(ask, lines, cost.material, whole, working),
        area=area,
        per_area=_per_area(whole, area, working),
        crew_hour=hour.crew,
        person_hour=hour.person,
        usual_low=_usual(ask.usual.price, "low", area, working),
        usual_high=_usual(ask.usual.price, "high", area, working),
    )
    _say(ask, answer, hour, working)
    return answer, working


def _cost(lines: tuple[Line, ...], working: Working) -> Cost:
    def group(name: Group) -> Amount:
        return column(f"job/cost/{name}", [x.amount for x in lines if x.group == name], f"price.{name}", working)

    return Cost(group("labor"), group("material"), group("rest"))


def _by_area(ask: PriceAsk, cost: Cost, waits: Waits, built: Loaded, working: Working) -> Amount:
    """The price if the waits forced nothing: the hours in as few trips as they fill."""
    if not waits.labor.value and not waits.rest.value:
        return built.built
    labor = working.money("job/by-area/labor", "labor - waits", "price.labor", labor=cost.labor, waits=waits.labor)
    rest = working.money("job/by-area/rest", "rest - waits", "price.rest", rest=cost.rest, waits=waits.rest)
    return loaded("job/by-area", Cost(labor, cost.material, rest), ask.overheads, ask.profit, working).built


def _lift(built: Loaded, least: Amount | None, working: Working) -> tuple[Amount, Amount]:
    """What lifts the price to the least charge, and the price."""
    lift = NOTHING
    if least is not None and built.built.value < least.value:
        lift = working.money("job/price/lift", "least - built", "price.lift", least=least, built=built.built)
    return lift, working.money("job/price/total", "built + lift", "price.total", built=built.built, lift=lift)


def _set_by(by_area: Amount, forced: Amount, lift: Amount) -> SetBy:
    """The least charge where it lifts the price; else trips where the forced ones cost more than all the rest."""
    if lift.value > 0:
        return "least charge"
    return "trips" if forced.value > by_area.value else "area"


def _per_area(whole: Amount, area: Quantity, working: Working) -> Amount | None:
    if not area.value:
        return None
    return working.money("job/price/per-area", "price / area", "price.per-area", unit=unit("$/sq ft"), price=whole,
                         area=area)  # fmt: skip


def _usual(span: Span | None, end: str, area: Quantity, working: Working) -> Amount | None:
    """What the firm's usual price a square foot would come to here."""
    if span is None or not area.value:
        return None
    per = span.low if end == "low" else span.high
    return working.money(f"job/price/usual-{end}", "area * usual", f"price.usual-{end}", area=area, usual=per)


# --- notes -------------------------------------------------------------------------------------------


def _say(ask: PriceAsk, answer: Price, hour: Hour, working: Working) -> None:
    working.note(f"price.set-by-{answer.set_by.replace(' ', '-')}", "fact", "job", by_area=answer.by_area,
                 forced=answer.forced, least=answer.least_charge or NOTHING, total=answer.total)  # fmt: skip
    if answer.loaded.profit.value or answer.lift.value:
        working.note("price.markup-margin", "fact", "job", markup=answer.markup, margin=answer.margin)
    for row in answer.loaded.loadings:
        working.note("price.overhead-of", "fact", "job", part=Quantity(row.part, unit("%")),
                     of=f"price.of.{row.of}", amount=row.amount)  # fmt: skip
    if any(a.hours and not a.role for a in ask.also):
        working.note("price.one-person", "assumed", "job", hour=hour.person)
    if any(h.set_up for h in ask.hires):
        working.note("price.access-once", "assumed", "job")
    if any(line.code == "price.short-days" for line in answer.lines):
        working.note("price.short-day", "fact", "job", least=Quantity(ask.terms.least, unit("h")))
    _ask_if_unusual(ask, answer, working)


def _ask_if_unusual(ask: PriceAsk, answer: Price, working: Working) -> None:
    """Inside the firm's usual span it is said; outside it is asked, not refused."""
    area = answer.area
    if not area.value:
        return
    usual = ask.usual
    if usual.price is not None and answer.per_area is not None:
        shown = Quantity(float(answer.per_area.value), answer.per_area.unit, answer.per_area.key)
        _judge("price", shown, usual.price, working)
    if usual.bags is not None and ask.bags is not None:
        patch = ask.book.number("price.hundred")
        found = working.step("job/price/bags-per-area", "bags / area * patch", "bags", "price.bags-per-area",
                             bags=ask.bags, area=area, patch=patch)  # fmt: skip
        low, high = (Quantity(float(q.value) * patch.number, unit("bags")) for q in (usual.bags.low, usual.bags.high))
        _judge("bags", found, Span(low, high), working, patch=patch, rules=(patch.id,))
    if usual.pace is not None and ask.trips:
        day = unit("day")
        found = working.step("job/price/pace", "area / (trips * day)", "sq ft/day", "price.pace", area=area,
                             trips=Quantity(len(ask.trips), unit("trips")), day=Quantity(day.scale, day))  # fmt: skip
        _judge("pace", found, usual.pace, working)


def _judge(
    what: str, found: Quantity, span: Span, working: Working, rules: tuple[str, ...] = (), **more: object
) -> None:
    inside = at_most(float(span.low), float(found)) and at_most(float(found), float(span.high))
    code = f"price.{'usual' if inside else 'asked'}-{what}"
    grade: Grade = "fact" if inside else "caution"
    working.note(code, grade, "job", rules=rules, found=found, low=span.low, high=span.high, **more)


def whole_price(ask: PriceAsk) -> Decimal:
    """Just the price: for comparing one ask with another."""
    return price(ask)[0].total.value
