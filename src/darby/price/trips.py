"""What coming out costs, and how much of it is there only because a coat had to wait."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from darby.measure.units import unit
from darby.price.columns import NOTHING, total
from darby.price.labor import Hour
from darby.price.model import NO_TIME, Line, PriceAsk
from darby.working import Amount, Quantity, Working

H = unit("h")
TRIPS = unit("trips")


@dataclass(frozen=True, slots=True)
class Waits:
    """What the waits add to labor and to the rest; both nought where the hours alone need every trip."""

    labor: Amount = NOTHING
    rest: Amount = NOTHING


def trip_lines(ask: PriceAsk, hour: Hour, working: Working) -> tuple[list[Line], Waits]:
    """Travel, set-up, short and idle time of every trip, visits to keep it damp; and what the waits force of it."""
    damp = _damp(ask, hour, working)
    if not ask.trips:
        return damp, _waits_of(damp)
    count = Quantity(len(ask.trips), TRIPS)
    set_up = Quantity(ask.terms.set_up, H)
    work = total("job/trips/work", [t.hours for t in ask.trips], H, "price.trip-work", working)
    idle = total("job/trips/idle", [t.idle for t in ask.trips if t.idle.value], H, "price.trip-idle", working)
    short = _short(ask, set_up, working)
    travel = working.money("job/travel", "trips * travel", "price.travel", trips=count, travel=Amount(ask.terms.travel))
    lines = [Line("price.travel", "rest", "job", "trips", travel)]
    for name, time in (("set-up", set_up), ("idle", idle), ("short-days", short)):
        if time.value:
            given: dict[str, Any] = {"time": time, "crew": hour.crew}
            formula = "time * crew"
            if name == "set-up":
                formula, given = "trips * time * crew", {"trips": count, **given}
            amount = working.money(f"job/{name}", formula, f"price.{name}", **given)
            lines.append(Line(f"price.{name}", "labor", "job", "trips", amount))
    return [*lines, *damp], _waits(ask, hour, (work, idle, short), _waits_of(damp), working)


def _short(ask: PriceAsk, set_up: Quantity, working: Working) -> Quantity:
    """Time that is paid though the day was shorter than the least paid day."""
    least = Quantity(ask.terms.least, H)
    parts = []
    for number, trip in enumerate(ask.trips, 1):
        if set_up.value + trip.hours.value + trip.idle.value < least.value:
            idle = Quantity(trip.idle.value, H, trip.idle.key)
            parts.append(working.step(f"job/short-{number}/hours", "least - set_up - work - idle", H,
                                      "price.short-hours", least=least, set_up=set_up, work=trip.hours,
                                      idle=idle))  # fmt: skip
    return total("job/short/hours", parts, H, "price.short-hours", working)


def _damp(ask: PriceAsk, hour: Hour, working: Working) -> list[Line]:
    if not ask.damp.visits:
        return []
    visits = Quantity(ask.damp.visits, TRIPS)
    travel = working.money("job/damp-travel", "visits * travel", "price.damp-travel", visits=visits,
                           travel=Amount(ask.terms.travel))  # fmt: skip
    lines = [Line("price.damp-travel", "rest", "job", "damp", travel)]
    if ask.damp.hours:
        labor = working.money("job/damp-labor", "visits * hours * person", "price.damp-labor", visits=visits,
                              hours=Quantity(ask.damp.hours, H), person=hour.person)  # fmt: skip
        lines.append(Line("price.damp-labor", "labor", "job", "damp", labor))
    return lines


def _waits_of(damp: list[Line]) -> Waits:
    """Visits to keep it damp are there for a wait's sake, all of them."""
    labor, rest = (next((x.amount for x in damp if x.group == g), NOTHING) for g in ("labor", "rest"))
    return Waits(labor, rest)


def _waits(
    ask: PriceAsk, hour: Hour, times: tuple[Quantity, Quantity, Quantity], damp: Waits, working: Working
) -> Waits:
    """The trips beyond those that the hours alone need: their travel and set-up, and what makes days short or idle."""
    work, idle, short = times
    count = len(ask.trips)
    alone = Quantity(count if ask.alone is None else min(int(ask.alone.value), count), TRIPS,
                     ask.alone.key if ask.alone is not None else "")  # fmt: skip
    if alone.value == count and not short.value and not idle.value:
        return damp
    set_up = Quantity(ask.terms.set_up, H)
    anyway = _anyway(ask, alone, set_up, work, short, working)
    trips = working.step("job/trips-forced", "trips - alone", TRIPS, "price.trips-forced",
                         trips=Quantity(count, TRIPS), alone=alone)  # fmt: skip
    labor = working.money(
        "job/waits/labor", "(trips * set_up + short - anyway + idle) * crew + damp", "price.waits-labor",
        trips=trips, set_up=set_up, short=short, anyway=anyway, idle=idle, crew=hour.crew, damp=damp.labor,
    )  # fmt: skip
    rest = working.money("job/waits/rest", "trips * travel + damp", "price.waits-rest", trips=trips,
                         travel=Amount(ask.terms.travel), damp=damp.rest)  # fmt: skip
    return Waits(labor, rest)


def _anyway(
    ask: PriceAsk, alone: Quantity, set_up: Quantity, work: Quantity, short: Quantity, working: Working
) -> Quantity:
    """Short time that would be paid without any wait too: full days, and what the last of them lacks."""
    formula = "min(max(alone * (least - set_up) - work, none), short)"
    given: dict[str, Any] = {"alone": alone, "least": Quantity(ask.terms.least, H), "set_up": set_up, "work": work,
                             "none": NO_TIME, "short": short}  # fmt: skip
    if ask.terms.day > ask.terms.set_up:
        formula = "min(max(least - set_up - (work - (alone - 1) * (day - set_up)), none), short)"
        given["day"] = Quantity(ask.terms.day, H)
    return working.step("job/short-anyway/hours", formula, H, "price.short-anyway", **given)
