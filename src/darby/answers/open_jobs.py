"""All open jobs side by side: which coat comes next on each, from when it may go on, and by when it must.

Not a stage: it reads answers of several jobs and computes nothing but dates from the waits that ``days`` answered.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from darby.answers.stage import Answers, Waiting
from darby.days.model import CoatDays, SurfaceTime, Visits, VisitsAsk
from darby.days.plan import DAY, whole_days
from darby.days.workdays import working_days
from darby.measure.faults import Fault
from darby.measure.limits import whole
from darby.measure.units import unit
from darby.working import Quantity

Do = Literal["late", "go", "begin", "damp", "wait", "ask"]
"""What to do with a job: too late, put it on, begin the job, keep it damp, let it be, say what is missing."""

By = Literal["", "double-back", "promised", "hired"]
"""What sets the last day: the coat before lets no later one on, the customer was told, hired access goes away."""

DAYS = unit("day")


@dataclass(frozen=True, slots=True)
class OpenJob:
    """A job that is not done, and its next coat.

    ``name`` is the key it was handed in under, ``title`` the job's own name. ``at``: surfaces and zones that take
    the ``coat`` as soon as the first. ``ready_from`` is the first working day on which it may go on, ``must_by`` the
    last on which it may begin, for the reason ``by`` whose own date is ``by_date``; None = nothing holds it to a day.
    ``after`` is the coat below it, done ``after_on``, that waits ``wait``. ``damp_at`` are the places of the job that
    are still kept damp, ``damp_until`` the last day of it. ``trips`` still to come. ``lacks``: what keeps the days
    from being answered, if ``do`` is "ask".
    """

    name: str
    title: str
    coat: str = ""
    at: tuple[str, ...] = ()
    ready_from: date | None = None
    must_by: date | None = None
    by: By = ""
    by_date: date | None = None
    do: Do = "ask"
    after: str = ""
    after_on: date | None = None
    wait: Quantity | None = None
    damp_at: tuple[str, ...] = ()
    damp_until: date | None = None
    trips: int = 0
    rules: tuple[str, ...] = ()
    lacks: tuple[str, ...] = ()


def open_jobs(answers_by_name: Mapping[str, Answers], on: date) -> tuple[OpenJob, ...]:
    """One entry for each job that is not done, as things stand ``on`` a day: by last day, then by first day.

    What was done is the job's ``[[done]]``. A job whose days cannot be answered comes last and says what it lacks.
    A job of which every coat is on is not open (painting has no date: it waits for a test of the wall).
    """
    found = [job for name, answers in answers_by_name.items() if (job := _open(name, answers, on)) is not None]
    return tuple(sorted(found, key=lambda j: (j.do == "ask", j.must_by or date.max, j.ready_from or date.max, j.name)))


def next_coats(answers: Answers, on: date) -> tuple[OpenJob, ...]:
    """The next coat of every surface and zone of one job, as things stand ``on`` a day: by last day, then by first.

    () where the days are not answered, or every coat is on.
    """
    kept = answers.kept[("days", "job")]
    if isinstance(kept.answer, (Waiting, Fault)):
        return ()
    heads = _heads("", answers, kept.ask, kept.answer, on)
    return tuple(sorted(heads, key=lambda j: (j.must_by or date.max, j.ready_from or date.max)))


def _open(name: str, answers: Answers, on: date) -> OpenJob | None:
    kept = answers.kept[("days", "job")]
    if isinstance(kept.answer, (Waiting, Fault)):
        return OpenJob(name, answers.job.name, lacks=_lacks(answers, kept.answer))
    heads = list(_heads(name, answers, kept.ask, kept.answer, on))
    if not heads:
        return None
    places = Counter(j.coat for j in heads)
    first = min(heads, key=lambda j: (j.must_by or date.max, j.ready_from or date.max, -places[j.coat]))
    together = [j for j in heads if j.coat == first.coat and (j.ready_from or on) <= max(first.ready_from or on, on)]
    at = dict.fromkeys(place for job in (first, *together) for place in job.at)
    damp = [j for j in heads if j.damp_until is not None and on <= j.damp_until]
    return replace(
        first,
        at=tuple(at),
        damp_at=tuple(place for j in damp for place in j.at),
        damp_until=max((j.damp_until for j in damp if j.damp_until is not None), default=None),
    )


def _lacks(answers: Answers, why: Waiting | Fault) -> tuple[str, ...]:
    """What is missing at the root: the stages it stands behind are asked in their turn."""
    if isinstance(why, Fault):
        return (why.code,)
    lacks = list(why.lacks)
    for key in why.behind:
        behind = answers.kept[key].answer
        lacks += _lacks(answers, behind) if isinstance(behind, (Waiting, Fault)) else ()
    return tuple(dict.fromkeys(lacks))


def _heads(name: str, answers: Answers, ask: VisitsAsk, days: Visits, on: date) -> Iterator[OpenJob]:
    """The next coat of every surface and zone that is not done."""
    job = answers.job
    dates = _numbered(days)
    usable = int(ask.day - ask.set_up)
    week = whole(ask.book.number("days.week").number) if ask.week is None else ask.week
    on_or_after = working_days(week, ask.holidays)
    hired = _hired(answers, days)
    trips = sum(1 for t in days.trips if t.why != "done")
    begun = any(s.done for s in ask.surfaces)
    for surface in ask.surfaces:
        count, done = len(surface.done), surface.done_on
        if count == len(surface.coats):
            continue
        before = surface.coats[count - 1] if count else None
        below = dates[surface.at, count - 1] if count else None
        ready = below.next_from if below is not None and below.next_from is not None else job.as_of
        limits: list[tuple[date, By, date]] = []
        if before is not None and before.wait_most is not None:
            last = date.fromordinal(done[-1].toordinal() + int(before.wait_most) // DAY)
            limits.append((last, "double-back", last))
        if job.days.promised is not None:
            begin = _latest(surface, count, days, usable, job.days.promised, on_or_after)
            limits.append((begin, "promised", job.days.promised))
        if job.days.hired_until is not None and surface.at in hired:
            begin = _latest(surface, count, days, usable, job.days.hired_until, on_or_after)
            limits.append((begin, "hired", job.days.hired_until))
        tightest = min(limits, default=None, key=lambda limit: limit[0])
        must_by, by, by_date = tightest or (None, "", None)
        ready_from = date.fromordinal(on_or_after(ready.toordinal()))
        damp = below.damp_until if below is not None else None
        yield OpenJob(
            name=name, title=job.name, coat=surface.coats[count].coat, at=(surface.at,), ready_from=ready_from,
            must_by=must_by, by=by, by_date=by_date, do=_do(ready_from, must_by, damp, begun, on),
            after=before.coat if before is not None else "", after_on=done[-1] if done else None,
            wait=Quantity(before.wait_least, DAYS) if before is not None and before.wait_least else None,
            damp_until=damp, trips=trips, rules=before.rules if before is not None else (),
        )  # fmt: skip


def _do(ready: date, must_by: date | None, damp: date | None, begun: bool, on: date) -> Do:
    if must_by is not None and must_by < on:
        return "late"
    if ready <= on:
        return "go" if begun else "begin"
    return "damp" if damp is not None and on <= damp else "wait"


def _numbered(days: Visits) -> dict[tuple[str, int], CoatDays]:
    """Each coat's days by its place and its number there."""
    count: Counter[str] = Counter()
    numbered = {}
    for coat in days.coats:
        numbered[coat.at, count[coat.at]] = coat
        count[coat.at] += 1
    return numbered


def _latest(
    surface: SurfaceTime, count: int, days: Visits, usable: int, end: date, on_or_after: Callable[[int], int]
) -> date:
    """The last working day on which the next coat may begin so that the last is on by ``end``.

    By the least that waits and hours ask for on this surface alone, on working days; other walls may need more.
    """
    hours = [int(c.hours.value) for c in days.coats if c.at == surface.at]
    begin = end.toordinal()
    while True:
        if (
            on_or_after(begin) == begin
            and _through(surface, count, hours, usable, begin, on_or_after) <= end.toordinal()
        ):
            return date.fromordinal(begin)
        begin -= 1


def _through(
    surface: SurfaceTime, count: int, hours: list[int], usable: int, begin: int, on_or_after: Callable[[int], int]
) -> int:
    """The day on which the last coat of the surface is on, if the next one is begun on the working day ``begin``."""
    day, left = begin, usable
    for number in range(count, len(surface.coats)):
        time = hours[number]
        while time > left:  # what does not fit the rest of the day goes on the next one
            time -= left
            day, left = on_or_after(day + 1), usable
        left -= time
        wait = surface.coats[number].wait_least
        if number + 1 < len(surface.coats) and wait >= usable:
            day, left = on_or_after(day + whole_days(whole(wait))), usable
    return day


def _hired(answers: Answers, days: Visits) -> frozenset[str]:
    """The places that need access which is paid by the day."""
    paid = {row.kind for row in answers.job.firm.access if row.per_day}
    return frozenset(at for hire in days.hires if hire.kind in paid for at in hire.at)
