"""Stage "days": the trips that the coats and their waits ask for, with the first date of each."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, cast

from darby.answers.coats import SurfaceCoats
from darby.answers.stage import Answers, Stage, Waiting
from darby.answers.wall import Wall
from darby.buildup import Coat
from darby.days import visits
from darby.days.model import AccessRow, CoatTime, Extra, SurfaceTime, Visits, VisitsAsk
from darby.measure.units import unit
from darby.quantities import Order, Volumes
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.job.done import DoneWork
    from darby.job.model import Job
    from darby.rulebook import Book

HOURS, FEET = unit("h"), unit("ft")
ONE_COAT = "one-coat"


def _ask(job: Job, book: Book, answers: Answers, at: str) -> VisitsAsk | Waiting:  # noqa: ARG001 -- of the whole job
    from darby.answers.also import also  # it needs the mixes, which need the pace of a coat, which is here

    lacks = _lacks(job)
    if lacks:
        return Waiting(lacks=lacks)
    order: Order = answers.of("order")
    beads = _beads(order, answers)
    surfaces: list[SurfaceTime] = []
    for name, volumes in answers.good("volumes").items():
        surfaces += _times(job, answers, name, volumes, beads)
    wanted = {c.coat for s in surfaces for c in s.coats if c.pace is None}
    if wanted:
        return Waiting(lacks=tuple(f"answers.lacks.pace-{coat}" for coat in sorted(wanted)))
    firm = job.firm
    assert firm.labor.day is not None
    return VisitsAsk(
        book=book,
        as_of=job.as_of,
        people=firm.people,
        day=firm.labor.day,
        surfaces=tuple(surfaces),
        set_up=firm.trip.set_up if firm.trip is not None else 0,
        extras=tuple(Extra(a.what, Quantity(a.hours, HOURS)) for a in also(job, answers) if a.hours),
        access=tuple(AccessRow(a.kind, a.up_to, a.set_up) for a in firm.access),
        damp_by=job.days.damp_by or "owner",
        week=job.days.week,
        holidays=job.days.holidays,
        nowhere=_nowhere(job, surfaces),
    )


def _lacks(job: Job) -> tuple[str, ...]:
    lacks = []
    if not job.firm.crew:
        lacks.append("answers.lacks.crew")
    if job.firm.labor.day is None:
        lacks.append("answers.lacks.day")
    return tuple(lacks)


def _times(
    job: Job, answers: Answers, name: str, volumes: Volumes, beads: dict[tuple[str, str], float]
) -> list[SurfaceTime]:
    """What is done on each zone of a surface, in order: paper and lath, beads, the coats, paint."""
    wall: Wall = answers.of("wall", name)
    coats: SurfaceCoats = answers.of("coats", name)
    times = []
    for area in volumes.areas:
        option = coats.of(area.zone).chosen
        done = []
        if area.lathed:
            done.append(CoatTime("paper-and-lath", area.area, _pace(job, "paper-and-lath"), may_stop=True))
        if length := beads.get((name, area.zone)):
            done.append(CoatTime("beads", Quantity(length, FEET), _pace(job, "beads"), may_stop=True))
        for coat in option.coats:
            done.append(
                CoatTime(
                    coat.name,
                    area.area,
                    coat_pace(job, f"{name}/{area.zone}", option.id, coat),
                    wait_least=coat.wait_least.value if coat.wait_least is not None else 0,
                    wait_most=coat.wait_most.value if coat.wait_most is not None else None,
                    moist=coat.moist.value if coat.moist is not None else 0,
                )
            )
        times.append(SurfaceTime(f"{name}/{area.zone}", tuple(done), wall.reach, _done(job, name, area.zone, done)))
    return times


def _done(job: Job, name: str, zone: str, coats: list[CoatTime]) -> tuple[date | None, ...]:
    """Dates of the first coats, up to the last that was written down; None for one between that was not."""
    on = {
        entry.coat: max(e.on for e in job.done if (e.surface, e.zone, e.coat) == (name, entry.zone, entry.coat))
        for entry in job.done
        if entry.surface == name and entry.zone in (None, zone)
    }
    dates = [on.get(cast("DoneWork", coat.coat)) for coat in coats]
    while dates and dates[-1] is None:
        dates.pop()
    return tuple(dates)


def _nowhere(job: Job, surfaces: list[SurfaceTime]) -> tuple[tuple[str, str], ...]:
    """What was written down as done where the chosen build-up has no such coat."""
    planned = {(s.at, c.coat) for s in surfaces for c in s.coats}
    places = {s.at for s in surfaces}
    lost = []
    for entry in job.done:
        at = [p for p in places if p == f"{entry.surface}/{entry.zone}" or not entry.zone]
        at = [p for p in at if p.partition("/")[0] == entry.surface]
        if at and not any((p, entry.coat) in planned for p in at):
            lost.append((entry.surface, entry.coat))
    return tuple(dict.fromkeys(lost))


def coat_pace(job: Job, at: str, option: str, coat: Coat) -> Quantity | None:
    """How fast a coat goes on: by the finish's own pace, or the one heavy coat's, if the firm has it."""
    own = None
    if option == ONE_COAT:
        own = _pace(job, ONE_COAT)
    elif coat.name == "finish":
        surface, _, zone = at.partition("/")
        own = _pace(job, str(job.coats.wanted(surface, zone).finish).replace(" ", "-"))
    return own or _pace(job, coat.mix) or _pace(job, coat.name)


def _pace(job: Job, work: str) -> Quantity | None:
    pace = job.firm.pace_of(work)
    return Quantity(pace.rate, pace.unit) if pace is not None else None


def _beads(order: Order, answers: Answers) -> dict[tuple[str, str], float]:
    """Feet of beads to set on each (surface, zone) [m]: every run that lands in an accessory's line."""
    at = {
        run.id: (name, run.zone, run.length * run.count)
        for name, wall in answers.good("wall").items()
        for run in wall.runs
    }
    for name, laid in answers.good("joints").items():
        zone = answers.of("wall", name).zones[-1].zone
        at |= {run.id: (name, zone, run.length * run.count) for run in laid.runs if not run.on_edge}
    beads: dict[tuple[str, str], float] = {}
    for line in order.edges:
        if line.item is None:
            continue
        for run in line.runs:
            name, zone, length = at[run]
            beads[(name, zone)] = beads.get((name, zone), 0) + length
    return beads


STAGE: Stage[VisitsAsk, Visits] = Stage(
    "days", ("volumes", "order", "coats", "wall", "joints"), "job", "now", _ask, visits
)
