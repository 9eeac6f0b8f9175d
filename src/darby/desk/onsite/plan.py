"""A job's days as drawings: a week across for a laptop, a day at a time for a phone. Dates and hours were answered."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from darby.days.workdays import WEEK, working_days
from darby.drawing.week import Block, Day, Row, Stretch, Work, day_svg, week_svg
from darby.measure.limits import whole
from darby.measure.units import unit
from darby.tables.places import place
from darby.words import catalogue
from darby.words import day as in_words
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.days.model import CoatDays, Trip, Visits, VisitsAsk
    from darby.tables.setting import Setting

WIDE, NARROW = 1044.0, 358.0
"""Room for the week on a laptop, for a day on a phone [px]."""
HOURS = unit("h")
SHORT = 3
"""Letters of a weekday over its column."""


@dataclass(frozen=True, slots=True)
class Shown:
    """One day to choose: its number in the week, its name in short and at length, its drawing, and what is said of it.

    ``work``: hours in words, "" where nobody is there. ``text`` are the lines that stand for the drawing.
    """

    number: int
    short: str
    date: date
    name: str
    svg: str
    work: str
    text: tuple[str, ...]
    here: bool


@dataclass(frozen=True, slots=True)
class Plan:
    """A week of a job. ``before`` and ``after``: the weeks beside it in which something is done or waits."""

    svg: str
    days: tuple[Shown, ...]
    first: date
    last: date
    before: date | None
    after: date | None
    chosen: int


def plan(answers: Answers, setting: Setting, asked: str, today: date) -> Plan | None:
    """The week of the day ``asked`` (written 2026-10-05), else of today, else of the first day; None without days."""
    days: Visits | None = answers.answered("days")
    if days is None or not days.trips:
        return None
    ask: VisitsAsk = answers.kept[("days", "job")].ask
    end = max([days.last, *days.damp_days])
    wanted = _written(asked) or (today if days.first <= today <= end else days.first)
    monday = wanted - timedelta(days=wanted.weekday())
    week = [monday + timedelta(days=n) for n in range(WEEK)]
    columns, rows = _days(week, ask, setting, today), _rows(days, ask, answers, monday, setting)
    return Plan(
        svg=week_svg(_title(monday, setting), columns, rows, WIDE),
        days=tuple(_shown(n, day, days, ask, answers, setting, today) for n, day in enumerate(week)),
        first=monday,
        last=week[-1],
        before=monday - timedelta(days=WEEK) if days.first < monday else None,
        after=monday + timedelta(days=WEEK) if end > week[-1] else None,
        chosen=_chosen(wanted, week, days),
    )


def _written(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _chosen(wanted: date, week: list[date], days: Visits) -> int:
    """The day that was asked for; if nobody is there that day, the first of the week on which somebody is."""
    there = [n for n, day in enumerate(week) if any(t.day == day for t in days.trips)]
    number = week.index(wanted)
    return number if number in there or not there else min((n for n in there if n >= number), default=there[0])


def _title(monday: date, setting: Setting) -> str:
    return setting.say("desk.days.week", day=in_words(monday, setting.language, weekday=False))


def _days(week: list[date], ask: VisitsAsk, setting: Setting, today: date) -> list[Day]:
    works = _works(ask)
    return [Day(f"{_short(day, setting)} {day.day}", works(day), day == today) for day in week]


def _works(ask: VisitsAsk) -> Callable[[date], bool]:
    week = whole(ask.book.number("days.week").number) if ask.week is None else ask.week
    on_or_after = working_days(week, ask.holidays)
    return lambda day: on_or_after(day.toordinal()) == day.toordinal()


def _short(day: date, setting: Setting) -> str:
    return catalogue(setting.language)[f"date.weekday.{day.weekday()}"][:SHORT]


# --- the week ------------------------------------------------------------------------------------------


def _rows(days: Visits, ask: VisitsAsk, answers: Answers, monday: date, setting: Setting) -> list[Row]:
    """A row for what is done for all walls, then one for each place; places on which nothing happens are left out."""
    ends: dict[tuple[str, date], float] = {}
    work: dict[str, list[Work]] = {}
    for trip in days.trips:
        clock = float(ask.set_up)
        for piece in trip.pieces:
            start, clock = clock / float(ask.day), clock + piece.time
            label = _what(piece.coat, setting).lower()
            number = (trip.day - monday).days
            one = Work(number, min(start, 1), min(clock / float(ask.day), 1), label, trip.why == "done")
            work.setdefault(piece.at, []).append(one)
            ends[piece.at, trip.day] = one.end
    by_place: dict[str, list[CoatDays]] = {at: [] for at in work}
    for coat in days.coats:
        by_place.setdefault(coat.at, []).append(coat)
    rows = []
    for at in sorted(by_place, key=lambda at: at != ""):
        damp, waits = _stretches(by_place[at], ends, monday, setting)
        own = tuple(one for one in work.get(at, ()) if 0 <= one.day < WEEK)
        called = place(answers, at, setting) or setting.say("desk.days.all-walls")
        here = [s for s in (*damp, *waits) if s.end > 0 and s.start < WEEK]
        if own or here:
            rows.append(Row(called, own, damp, waits))
    return rows


def _stretches(
    coats: list[CoatDays], ends: dict[tuple[str, date], float], monday: date, setting: Setting
) -> tuple[tuple[Stretch, ...], tuple[Stretch, ...]]:
    """Where it is kept damp, and where it then waits for the next coat, from the work's end on."""
    damp, waits = [], []
    for n, coat in enumerate(coats):
        start = (coat.last - monday).days + ends.get((coat.at, coat.last), 1.0)
        if coat.damp_until is not None:
            end = (coat.damp_until - monday).days + 1.0
            damp.append(Stretch(start, end, setting.say("desk.days.damp")))
            start = end
        if coat.next_from is not None and n + 1 < len(coats):
            end = float((coat.next_from - monday).days)
            following = _what(coats[n + 1].coat, setting).lower()
            said = setting.say("desk.days.next", coat=following, day=f"{_short(coat.next_from, setting)} "
                               f"{coat.next_from.day}")  # fmt: skip
            waits.append(Stretch(start, end, said))
    return tuple(damp), tuple(waits)


def _what(coat: str, setting: Setting) -> str:
    """A coat, something else that has to be done, or access that is set up."""
    words = catalogue(setting.language)
    for code in (f"cli.work.{coat}", f"cli.also.{coat}"):
        if code in words:
            return words[code]
    return setting.say("cli.work.set-up", kind=coat)


# --- one day -------------------------------------------------------------------------------------------


def _shown(
    number: int, day: date, days: Visits, ask: VisitsAsk, answers: Answers, setting: Setting, today: date
) -> Shown:
    trips = [trip for trip in days.trips if trip.day == day]
    blocks = [block for trip in trips for block in _blocks(trip, ask, answers, setting)]
    damp = list(dict.fromkeys(
        place(answers, c.at, setting) for c in days.coats if c.damp_until is not None and c.last < day <= c.damp_until
    ))  # fmt: skip
    name = in_words(day, setting.language)
    text = [f"{b.what}{f', {b.where}' if b.where else ''}: {b.hours}" for b in blocks]
    if damp:
        text.append(setting.say("desk.days.damp-at", places="; ".join(damp)))
    hours = max([whole(float(ask.day) / HOURS.scale) or 1, *(-int(-b.end // 1) for b in blocks)])
    svg = day_svg(name, hours, blocks, damp, NARROW, f"day{number}") if blocks else ""
    work = "; ".join(setting.write(trip.hours) for trip in trips)
    return Shown(number, _short(day, setting), day, name, svg, work, tuple(text), day == today)


def _blocks(trip: Trip, ask: VisitsAsk, answers: Answers, setting: Setting) -> list[Block]:
    """The day's work in its order, the set-up first; a coat on several pieces at one place is one block."""
    scale = float(HOURS.scale)
    at = 0.0
    blocks = []
    if ask.set_up and trip.why != "done":
        at = float(ask.set_up) / scale
        hours = setting.write(Quantity(ask.set_up, HOURS))
        blocks.append(Block(0.0, at, "", setting.say("desk.days.set-up"), hours))
    for piece in trip.pieces:
        start, at = at, at + piece.time / scale
        where, what = place(answers, piece.at, setting), _what(piece.coat, setting)
        blocks.append(Block(start, at, where, what, setting.write(Quantity(piece.time, HOURS))))
    return blocks
