"""Trips, dates and access of a whole job: the plan, with its working and its notes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from string import ascii_lowercase
from typing import Any

from darby.days.access import choose
from darby.days.model import CoatDays, CoatTime, Extra, Hire, Piece, Real, SurfaceTime, Trip, Visits, VisitsAsk
from darby.days.plan import DAY, ORDERS, Chain, DayOut, Plan, Planner, Task, whole_days
from darby.days.weather import limits
from darby.days.workdays import working_days
from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import whole
from darby.measure.units import unit
from darby.measure.writing import shown
from darby.working import Quantity, Working

H = unit("h")


def visits(ask: VisitsAsk) -> tuple[Visits, Working]:
    """The fewest trips that the waits allow (greedy, with a bound), working days, dates, access and dampening.

    Waits are counted in whole days from the day on which a coat is done; a wait shorter than the working day is
    kept to the second. The crew works on one thing at a time.

    Raises
    ------
    Unreadable
        if nothing of the day is left after the set-up, if a surface stands twice, or if the week is not 1 to 7 days.
    """
    working = Working()
    usable = _usable(ask, working)
    hours = [_hours_of(surface, working) for surface in ask.surfaces]
    extras = _extras(ask, working)
    kinds = _access(ask, working)
    before = _done_days(ask, hours, extras, kinds)
    plan = _plan(ask, hours, [] if before else extras, kinds)
    total = _total(ask, working, hours, extras, kinds)
    trips = tuple(_done_trip(number, day, pieces, working) for number, (day, pieces) in enumerate(before, 1))
    trips += tuple(_trip(number, out, ask, working) for number, out in enumerate(plan.days, len(trips) + 1))
    bound = len(before) + plan.bound
    count = _count(bound, trips, usable, working)
    alone = _alone(_plan(_unwaiting(ask), hours, extras, kinds), len(trips), total, usable, working)
    forced = working.step("job/trips-by-waits", "max(trips - alone, 0)", "trips", "days.trips-by-waits",
                          trips=count, alone=alone)  # fmt: skip
    coats = _coats(ask, plan, hours, int(ask.day - ask.set_up))
    if before:
        working.note("days.counted-from", "fact", "job", trips=Quantity(len(before), unit("trips")), day=before[-1][0])
    span = _span("job/span", trips[0].day, trips[-1].day, "days.span", working) if trips else Quantity(0, unit("day"))
    answer = Visits(
        trips=trips,
        coats=coats,
        hires=_hires(ask, plan, kinds, working),
        hours=total,
        count=count,
        alone=alone,
        forced=forced,
        bound=Quantity(bound, unit("trips")),
        proved=bound == len(trips),
        first=trips[0].day if trips else ask.as_of,
        last=trips[-1].day if trips else ask.as_of,
        span=span,
        damp_by=ask.damp_by,
        damp_days=_damp_days(coats, trips),
    )
    _say(ask, plan, answer, working)
    return answer, working


# --- hours -------------------------------------------------------------------------------------------


def _usable(ask: VisitsAsk, working: Working) -> Quantity:
    if ask.day <= ask.set_up or ask.people < 1:
        raise Unreadable(Fault("days.no-time", "", shown(ask.day, H), shown(ask.set_up, H)))
    if len({s.at for s in ask.surfaces}) < len(ask.surfaces):
        raise Unreadable(Fault("days.surface-twice", "", ", ".join(s.at for s in ask.surfaces), ""))
    return working.step("job/day", "day - set_up", H, "days.day", day=Quantity(ask.day, H),
                        set_up=Quantity(ask.set_up, H))  # fmt: skip


def _hours_of(surface: SurfaceTime, working: Working) -> list[Quantity]:
    names: set[str] = set()
    return [_coat_hours(surface.at, coat, working, names) for coat in surface.coats]


def _coat_hours(at: str, coat: CoatTime, working: Working, names: set[str]) -> Quantity:
    if coat.hours is not None:
        return coat.hours
    if coat.size is None or coat.pace is None or not coat.pace.value:
        working.note("days.no-pace", "stop", at, coat=coat.coat, place=at)
        return Quantity(0, H)
    key = _unique(f"{at}/{coat.coat}", names)
    return working.step(f"{key}/hours", "size / pace", H, "days.coat-hours", size=coat.size, pace=coat.pace)


def _unique(name: str, names: set[str]) -> str:
    name = name.replace(" ", "-")
    n, key = 1, name
    while key in names:
        n += 1
        key = f"{name}-{n}"
    names.add(key)
    return key


def _extras(ask: VisitsAsk, working: Working) -> list[tuple[Extra, Quantity]]:
    names: set[str] = set()
    people = Quantity(ask.people, unit("people"))
    return [
        (e, working.step(f"{_unique(f'job/{e.what}', names)}/crew-hours", "hours / people", H, "days.extra-hours",
                         hours=e.hours, people=people))
        for e in ask.extras
    ]  # fmt: skip


def _access(ask: VisitsAsk, working: Working) -> dict[str, str]:
    """Surface to the kind of access it needs ("" = none is known)."""
    kinds: dict[str, str] = {}
    for surface in ask.surfaces:
        row = choose(ask.access, surface.reach) if surface.reach is not None else None
        if row is None and surface.reach is not None and ask.access:
            best = max(r.up_to for r in ask.access)
            working.note("days.no-access", "stop", surface.at, place=surface.at,
                         reach=Quantity(surface.reach, unit("ft")), highest=Quantity(best, unit("ft")))  # fmt: skip
        kinds[surface.at] = row.kind if row is not None else ""
    return kinds


def _total(
    ask: VisitsAsk,
    working: Working,
    hours: list[list[Quantity]],
    extras: list[tuple[Extra, Quantity]],
    kinds: dict[str, str],
) -> Quantity:
    used = set(kinds.values())
    parts = [
        add_up(f"{surface.at}/hours", rows, "days.surface-hours", working)
        for surface, rows in zip(ask.surfaces, hours, strict=True)
        if rows
    ]
    parts += [crew for _, crew in extras]
    parts += [Quantity(row.set_up, H) for row in ask.access if row.kind in used and row.set_up]
    return add_up("job/hours", parts, "days.hours", working)


def add_up(key: str, parts: Sequence[Quantity], says: str, working: Working) -> Quantity:
    """The sum, in lines of at most as many parts as the alphabet has letters."""
    if not parts:
        return Quantity(0, H)
    if len(parts) == 1:
        return parts[0]
    n = 0
    while len(parts) > len(ascii_lowercase):
        groups = [parts[i : i + len(ascii_lowercase)] for i in range(0, len(parts), len(ascii_lowercase))]
        parts = [_sum(f"{key}-part-{n}-{i}", group, says, working) for i, group in enumerate(groups, 1)]
        n += 1
    return _sum(key, parts, says, working)


def _sum(key: str, parts: Sequence[Quantity], says: str, working: Working) -> Quantity:
    given: dict[str, Any] = dict(zip(ascii_lowercase, parts, strict=False))
    return working.step(key, " + ".join(given), H, says, **given)


# --- the plan ----------------------------------------------------------------------------------------


def _plan(
    ask: VisitsAsk,
    hours: list[list[Quantity]],
    extras: list[tuple[Extra, Quantity]],
    kinds: dict[str, str],
) -> Plan:
    chains = [
        Chain(
            surface.at,
            tuple(_task(c, q) for c, q in zip(surface.coats, rows, strict=True)),
            kinds[surface.at],
            tuple(day.toordinal() for day in surface.done_on),
        )
        for surface, rows in zip(ask.surfaces, hours, strict=True)
    ]
    stands = {kinds[surface.at] for surface in ask.surfaces if surface.done}
    used = set(kinds.values()) - stands
    last = max((day for surface in ask.surfaces for day in surface.done_on), default=None)
    first = ask.as_of if last is None else max(ask.as_of, last + timedelta(1))
    plans = [
        Planner(
            chains,
            [Task(extra.what, int(crew.value)) for extra, crew in extras],
            {row.kind: int(row.set_up) for row in ask.access if row.kind in used},
            int(ask.day - ask.set_up),
            int(ask.set_up),
            working_days(_week(ask), ask.holidays),
            order,
        ).run(first.toordinal())
        for order in ORDERS
    ]
    plan = min(plans, key=_least)
    for kind in sorted(stands - {""}):
        plan.set_up[kind] = min(s.done_on[0] for s in ask.surfaces if kinds[s.at] == kind and s.done).toordinal()
    return plan


def _least(plan: Plan) -> tuple[int, int, int, int]:
    """Fewest trips, then least waiting about, then no short day (it is paid in full), then soonest done."""
    days = plan.days
    shortest = min((out.end for out in days), default=0)
    return len(days), sum(out.idle for out in days), -shortest, max((out.day for out in days), default=0)


def _week(ask: VisitsAsk) -> int:
    return whole(ask.book.number("days.week").number) if ask.week is None else ask.week


def _task(coat: CoatTime, hours: Quantity) -> Task:
    most = None if coat.wait_most is None else int(coat.wait_most)
    return Task(coat.coat, int(hours.value), whole(coat.wait_least), most, coat.may_stop)


def _trip(number: int, out: DayOut, ask: VisitsAsk, working: Working) -> Trip:
    pieces = tuple(Piece(s.at, s.coat, s.time) for s in out.spent)
    hours = add_up(f"job/trip-{number}/hours", [Quantity(p.time, H) for p in pieces], "days.trip-hours", working)
    trip = Trip(number, date.fromordinal(out.day), pieces, hours, Quantity(out.idle, H),
                "start" if number == 1 else "hours" if out.after_full else "wait")  # fmt: skip
    if trip.why != "wait" or out.waited is None:
        return trip
    at, index = out.waited
    coat = next(s for s in ask.surfaces if s.at == at).coats[index]
    working.note("days.trip-forced", "fact", at, rules=coat.rules, trip=number, day=trip.day, place=at,
                 coat=coat.coat, wait=_in_days(coat.wait_least))  # fmt: skip
    return Trip(number, trip.day, pieces, hours, trip.idle, "wait", at, coat.coat, coat.rules)


def _done_days(
    ask: VisitsAsk, hours: list[list[Quantity]], extras: list[tuple[Extra, Quantity]], kinds: dict[str, str]
) -> list[tuple[date, tuple[Piece, ...]]]:
    """What was done, day by day; setting up on the first day a kind was needed, protecting on the first of all."""
    days: dict[date, list[Piece]] = {}
    set_up = {row.kind: int(row.set_up) for row in ask.access if row.set_up}
    done = [(day, s, n) for s in ask.surfaces for n, day in enumerate(s.done_on)]
    times = {s.at: rows for s, rows in zip(ask.surfaces, hours, strict=True)}
    for day, surface, number in sorted(done, key=lambda row: row[0]):
        if not days:
            days[day] = [Piece("", extra.what, int(crew.value)) for extra, crew in extras]
        pieces = days.setdefault(day, [])
        if (kind := kinds[surface.at]) in set_up:
            pieces.append(Piece("", kind, set_up.pop(kind)))
        pieces.append(Piece(surface.at, surface.coats[number].coat, int(times[surface.at][number].value)))
    return [(day, tuple(pieces)) for day, pieces in days.items()]


def _done_trip(number: int, day: date, pieces: tuple[Piece, ...], working: Working) -> Trip:
    hours = add_up(f"job/trip-{number}/hours", [Quantity(p.time, H) for p in pieces], "days.trip-hours", working)
    return Trip(number, day, pieces, hours, Quantity(0, H), "done")


def _in_days(seconds: Real) -> Quantity:
    """A wait, shown in hours up to the longest wait that codes give in hours (48 h), else in days."""
    day = unit("day")
    return Quantity(seconds, day if seconds > 2 * day.scale else H)


def _unwaiting(ask: VisitsAsk) -> VisitsAsk:
    """The same work if no coat had to wait for another."""
    surfaces = tuple(
        replace(s, coats=tuple(replace(c, wait_least=0, wait_most=None) for c in s.coats), done=())
        for s in ask.surfaces
    )
    return replace(ask, surfaces=surfaces)


def _alone(plan: Plan, most: int, total: Quantity, usable: Quantity, working: Working) -> Quantity:
    """Trips that the hours alone need, planned in the same way: no coat is cut to fill a day."""
    count = min(len(plan.days), most)
    least = f"{shown(total.value, H)} / {shown(usable.value, H)} = {shown(total.value / usable.value, None)}"
    proof = (f"{least} <= {count}", *(f"{n}: {shown(d.end, H)}" for n, d in enumerate(plan.days, 1)))
    return working.found("job/trips-by-hours", count, "trips", "days.trips-by-hours", method="days.greedy-plan",
                         proof=proof, after=[k for k in (total.key, usable.key) if k])  # fmt: skip


def _count(bound: int, trips: tuple[Trip, ...], usable: Quantity, working: Working) -> Quantity:
    full = shown(usable.value, H)
    proof = (
        *(f"{t.number}: {t.day.isoformat()}: {shown(t.hours.value, H)} + {shown(t.idle.value, H)} <= {full}"
          for t in trips if t.why != "done"),
        f"{bound} <= {len(trips)}",
    )  # fmt: skip
    return working.found("job/trips", len(trips), "trips", "days.trips", method="days.greedy-plan", proof=proof)


# --- dates -------------------------------------------------------------------------------------------


def _coats(ask: VisitsAsk, plan: Plan, hours: list[list[Quantity]], usable: int) -> tuple[CoatDays, ...]:
    rows = []
    for surface, times in zip(ask.surfaces, hours, strict=True):
        for number, (coat, time) in enumerate(zip(surface.coats, times, strict=True)):
            first, last = plan.done[surface.at, number]
            final = number + 1 == len(surface.coats)
            over_night = coat.wait_least >= usable
            after = None if final else last + (whole_days(whole(coat.wait_least)) if over_night else 0)
            damp = None
            if coat.moist:
                damp = last + whole_days(whole(coat.moist))
                if not final:
                    damp = min(damp, plan.done[surface.at, number + 1][0])
            rows.append(CoatDays(surface.at, coat.coat, time, date.fromordinal(first), date.fromordinal(last),
                                 _day(after), _day(damp), coat.rules))  # fmt: skip
    return tuple(rows)


def _day(ordinal: int | None) -> date | None:
    return None if ordinal is None else date.fromordinal(ordinal)


def _damp_days(coats: Iterable[CoatDays], trips: tuple[Trip, ...]) -> tuple[date, ...]:
    """Days on which a coat has to be kept damp and nobody of the crew is there anyway."""
    days: set[date] = set()
    for coat in coats:
        if coat.damp_until is not None:
            days.update(coat.last + timedelta(n) for n in range(1, (coat.damp_until - coat.last).days + 1))
    return tuple(sorted(days - {trip.day for trip in trips}))


def _span(key: str, first: date, last: date, says: str, working: Working) -> Quantity:
    """Days from ``first`` to ``last``, both counted; the ordinals of the dates are the proof."""
    days = last.toordinal() - first.toordinal() + 1
    proof = (f"{first.isoformat()} .. {last.isoformat()}: {last.toordinal()} - {first.toordinal()} + 1 = {days}",)
    day = unit("day")
    return working.found(key, days * day.scale, day, says, method="days.calendar", proof=proof)


def _hires(ask: VisitsAsk, plan: Plan, kinds: dict[str, str], working: Working) -> tuple[Hire, ...]:
    hires = []
    for row in ask.access:
        places = tuple(s.at for s in ask.surfaces if kinds[s.at] == row.kind and s.coats)
        if not places:
            continue
        used = [day for s in ask.surfaces if s.at in places for n in range(len(s.coats)) for day in plan.done[s.at, n]]
        first, last = date.fromordinal(min(plan.set_up[row.kind], *used)), date.fromordinal(max(used))
        days = _span(f"job/{row.kind.replace(' ', '-')}/days", first, last, "days.hire-days", working)
        hires.append(Hire(row.kind, places, first, last, days, row.set_up))
    return tuple(hires)


# --- notes -------------------------------------------------------------------------------------------


def _say(ask: VisitsAsk, plan: Plan, answer: Visits, working: Working) -> None:
    week = ask.book.number("days.week")
    working.note("days.week", "assumed", "job", rules=(week.id,) if ask.week is None else (), days=_week(ask))
    working.note("days.by-date", "assumed", "job")
    if answer.proved:
        working.note("days.fewest", "fact", "job", trips=len(answer.trips))
    else:
        working.note("days.greedy", "assumed", "job", trips=len(answer.trips), bound=int(answer.bound.value))
    _say_done(ask, working)
    for lag in plan.lags:
        _say_lag(ask, lag.at, lag.number, lag.impossible, answer, working)
    asked = (coat for surface in ask.surfaces for coat in surface.coats)
    for coat, time in zip(answer.coats, asked, strict=True):
        if coat.first < coat.last and not time.may_stop:
            working.note("days.coat-over-days", "caution", coat.at, place=coat.at, coat=coat.coat,
                         first=coat.first, last=coat.last)  # fmt: skip
    if answer.damp_days:
        working.note(f"days.damp-{ask.damp_by}", "assumed", "job", days=len(answer.damp_days),
                     first=answer.damp_days[0], last=answer.damp_days[-1])  # fmt: skip
    for hire in answer.hires:
        if hire.set_up:
            working.note("days.hire-span", "assumed", "job", kind=hire.kind, days=hire.days,
                         first=hire.first, last=hire.last)  # fmt: skip
    working.notes.extend(limits(ask.book))


def _say_done(ask: VisitsAsk, working: Working) -> None:
    """What was done sooner than its wait allows; and what was done where nothing of the kind is planned."""
    for surface in ask.surfaces:
        for (this, before), (that, on) in pairwise(zip(surface.coats, surface.done, strict=False)):
            if not before or not on or this.wait_least < int(ask.day - ask.set_up):
                continue
            if (on - before).days * DAY < this.wait_least:
                working.note("days.done-early", "caution", surface.at, rules=this.rules, coat=that.coat,
                             after=this.coat, on=on, done=before, least=_in_days(this.wait_least))  # fmt: skip
    for at, coat in ask.nowhere:
        working.note("days.done-nowhere", "caution", at, coat=coat)


def _say_lag(ask: VisitsAsk, at: str, number: int, impossible: bool, answer: Visits, working: Working) -> None:
    coats = next(s for s in ask.surfaces if s.at == at).coats
    this, that = coats[number], coats[number + 1]
    assert this.wait_most is not None
    dates = [c for c in answer.coats if c.at == at]
    working.note(
        "days.lag-impossible" if impossible else "days.lag-missed", "stop", at, rules=this.rules, place=at,
        coat=this.coat, after=that.coat, most=_in_days(this.wait_most), least=_in_days(this.wait_least),
        day=Quantity(int(ask.day - ask.set_up), H), done=dates[number].last,
        on=dates[number + 1].first, hours=dates[number].hours, more=dates[number + 1].hours,
    )  # fmt: skip
