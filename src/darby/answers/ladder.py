"""Paint, skim, or lath and three coats over the same old walls: what each does, takes and costs, and what forbids it.

Every rung is the whole job answered with that way on every wall that is coated anew; no number is made here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Literal

from darby.answers import coats as coats_stage
from darby.answers import days as days_stage
from darby.answers import paint as paint_stage
from darby.answers.coats import SurfaceCoats, build_all
from darby.answers.graph import Later, walk
from darby.answers.recoat import coated
from darby.answers.stage import Answers, Stage, Waiting
from darby.buildup.model import DOUBTFUL, BuildUp, Option
from darby.condition.recoat_model import Check
from darby.days.model import CoatTime, Visits, VisitsAsk
from darby.days.paint import Paint, PaintAsk
from darby.job.model import Wanted
from darby.measure.units import unit
from darby.working import Amount, Quantity, Working

if TYPE_CHECKING:
    from darby.job.model import Base, Job
    from darby.rulebook import Book

RungCode = Literal["paint", "skim", "lath"]

WAYS: dict[RungCode, tuple[str, ...]] = {
    "paint": (),
    "skim": ("heavy-skim", "two-coat"),
    "lath": ("lath-three-coat",),
}
"""Build-ups of each rung, the first that is open taken: under a thrown finish two coats take the skim's place."""

CURES: dict[RungCode, tuple[str, ...]] = {
    "paint": ("color",),
    "skim": ("color", "texture", "hairlines"),
    "lath": ("color", "texture", "bond", "plane", "old-cracks"),
}
"""What each rung puts right, as codes ("answers.cures.<code>")."""

LEAVES: dict[RungCode, tuple[str, ...]] = {
    "paint": ("cracks", "hollow", "texture", "water"),
    "skim": ("cracks", "hollow", "plane", "water"),
    "lath": ("movement", "water"),
}
"""What each rung does not ("answers.leaves.<code>")."""

WHY: dict[RungCode, tuple[str, ...]] = {
    "paint": ("recoat.cracks-return", "prep.hollow", "prep.water-behind"),
    "skim": ("recoat.cracks-return", "prep.painted", "prep.hollow", "prep.water-behind"),
    "lath": ("prep.lath-needed", "recoat.cracks-return", "prep.water-behind"),
}
"""Subjects of the rule book behind what each rung cures and leaves."""

HOLDING = ("scrape", "water", "tap", "pull")
"""Tests of what plaster bonds to."""

_NOTHING = Quantity(0, unit("in"))


@dataclass(frozen=True, slots=True)
class Barred:
    """Why a rung is not open on some walls: a code ("answers.barred.<code>"), and those surfaces."""

    code: str
    surfaces: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Rung:
    """One rung on all walls that are coated anew.

    ``barred``: where it is not open, and then it has no numbers. ``off``: old plaster comes off first.
    ``added`` the most that any face comes out by [m];
    ``checks`` the places, each with what is left of it. ``trips``, ``hours`` (of the whole crew) and ``span`` of the
    plastering, ``paint_trips`` and ``paint_hours`` of painting. ``total`` is the price of the whole job, None where it
    cannot be priced; ``lacks``: what has no price. ``weight`` of what goes on, the most [kg/m2]. ``rules``: figures
    behind what it cures and leaves. ``first``: tests to be made before it ("answers.first.<code>").
    """

    code: RungCode
    surfaces: tuple[str, ...]
    cures: tuple[str, ...]
    leaves: tuple[str, ...]
    rules: tuple[str, ...] = ()
    first: tuple[str, ...] = ()
    barred: tuple[Barred, ...] = ()
    off: bool = False
    added: Quantity | None = None
    weight: Quantity | None = None
    checks: tuple[Check, ...] = ()
    trips: Quantity | None = None
    hours: Quantity | None = None
    span: Quantity | None = None
    paint_trips: Quantity | None = None
    paint_hours: Quantity | None = None
    total: Amount | None = None
    lacks: tuple[str, ...] = ()
    chosen: bool = False

    @property
    def options(self) -> tuple[str, ...]:
        """Its build-ups, the first that is open taken."""
        return WAYS[self.code]

    @property
    def short(self) -> tuple[Check, ...]:
        """The places that it leaves short."""
        return tuple(c for c in self.checks if c.short is not None)


def ladder(answers: Answers) -> tuple[Rung, ...]:
    """The three rungs, the least work first; () where nothing is coated anew."""
    job = answers.job
    places = tuple(_places(answers))
    if not places:
        return ()
    surfaces = tuple(dict.fromkeys(surface for surface, _, _ in places))
    rungs = []
    for code in WAYS:
        rung = Rung(
            code, surfaces, CURES[code], LEAVES[code],
            tuple(answers.book.number(subject).id for subject in WHY[code]), _first(code, job, places),
            _barred(code, job, places), chosen=_chosen(code, places),
            off=code == "lath" and any(b.verdict == "do not" for _, _, b in places),
        )  # fmt: skip
        rungs.append(rung if rung.barred else _answered(rung, answers, places))
    return tuple(rungs)


Place = tuple[str, str, BuildUp]
"""Surface, zone, and what is built up on it now."""


def _places(answers: Answers) -> Iterator[Place]:
    for surface in coated(answers.job):
        coats: SurfaceCoats | None = answers.answered("coats", surface)
        for zone, built in coats.zones if coats is not None else ():
            yield surface, zone, built


def _chosen(code: RungCode, places: tuple[Place, ...]) -> bool:
    """Whether the job as it stands is this rung, on every wall."""
    return bool(WAYS[code]) and all(b.chosen.id in WAYS[code] for _, _, b in places)


# --- what forbids it, and what is tried first ---------------------------------------------------------


def _barred(code: RungCode, job: Job, places: tuple[Place, ...]) -> tuple[Barred, ...]:
    """His own tests speak first; then whether the book has such a way on this base at all."""
    found: dict[str, list[str]] = {}
    for surface, zone, built in places:
        why = _why_not(code, job.base(surface, zone), built)
        if why and surface not in found.setdefault(why, []):
            found[why].append(surface)
    return tuple(Barred(why, tuple(names)) for why, names in found.items())


def _why_not(code: RungCode, base: Base, built: BuildUp) -> str:
    tests = base.tests
    if code == "paint" and base.kind == "frame":
        return "bare-frame"
    if code == "paint":
        return "paint-comes-off" if tests is not None and tests.scrape == "comes off" else ""
    if code == "skim" and tests is not None:
        if tests.tap == "hollow":
            return "hollow"
        if tests.pull == "let go":
            return "let-go"
        if tests.scrape == "comes off":
            return "comes-off"
    return "" if any(built.option(option) is not None for option in WAYS[code]) else "not-open"


def _first(code: RungCode, job: Job, places: tuple[Place, ...]) -> tuple[str, ...]:
    """The tests that nobody made and that decide this rung."""
    wanted: list[str] = []
    for surface, zone, _ in places:
        base = job.base(surface, zone)
        if base.kind not in DOUBTFUL:
            continue
        tests = base.tests
        needs = {"paint": ("scrape", "tap"), "skim": HOLDING, "lath": ("tap",)}[code]
        wanted += [name for name in needs if getattr(tests, name, None) is None and name not in wanted]
        if code == "lath" and base.behind == "frame" and "studs" not in wanted:
            wanted.append("studs")
    return tuple(wanted)


# --- the whole job, answered with it ------------------------------------------------------------------


def _answered(rung: Rung, answers: Answers, places: tuple[Place, ...]) -> Rung:
    from darby.answers.stages import STAGES

    stages: tuple[Stage[Any, Any], ...] = STAGES
    job = _built(answers.job, places, rung.code)
    if rung.code == "paint":
        only = frozenset((surface, zone) for surface, zone, _ in places)
        alone = {s.name: s for s in (_no_plaster(only), _days_of_paint(only), _no_later_paint(only))}
        stages = tuple(alone.get(s.name, s) for s in STAGES)
    other = walk(stages, job, answers.book, version=answers.made_with, since=answers, later=Later.skip)
    good = {name: other.answered(name) for name in ("recoat", "days", "paint", "price")}
    days, paint, price, fits = good["days"], good["paint"], good["price"], good["recoat"]
    priced = price is not None and price.complete and not other.left_out
    return replace(
        rung,
        added=max((added for _, added in fits.added), key=float, default=None) if fits is not None else None,
        weight=max((other.of("coats", s).of(z).chosen.weight for s, z, _ in places), key=float)
        if rung.code != "paint" and not other.left_out
        else None,
        checks=fits.checks if fits is not None else (),
        trips=days.count if days is not None else None,
        hours=days.hours if days is not None else None,
        span=days.span if days is not None else None,
        paint_trips=paint.trips if paint is not None else None,
        paint_hours=paint.total if paint is not None else None,
        total=price.total if priced and price is not None else None,
        lacks=price.lacks if price is not None else _lacks(other),
    )


def _lacks(other: Answers) -> tuple[str, ...]:
    """What is missing before anything can be priced, as codes."""
    return tuple(dict.fromkeys(code for why in other.unanswered().values() for code in getattr(why, "lacks", ())))


def _built(job: Job, places: tuple[Place, ...], code: RungCode) -> Job:
    """The job with this rung on all of these zones. What he fixed himself is of another way, and is left out."""
    surfaces = {surface for surface, _, _ in places}
    on = []
    for surface, zone, built in places:
        option = next((o for o in WAYS[code] if built.option(o) is not None), None)
        on.append(Wanted(surface, zone, choose=option, paint=True if code == "paint" else None))  # type: ignore[arg-type]
    kept = (replace(w, total=None, coats=(), choose=None) if w.surface in surfaces else w for w in job.coats.on)
    recoat = replace(job.recoat, adds=None) if job.recoat is not None else None
    # a zone's own word comes first of all, so what is wanted besides goes behind it zone by zone
    merged = [_with(w, job.coats.wanted(w.surface, w.zone)) for w in on]
    return replace(job, coats=replace(job.coats, on=(*merged, *kept)), recoat=recoat)


def _with(own: Wanted, said: Wanted) -> Wanted:
    """A rung's way and paint, and all else as it was wanted there."""
    paint = own.paint if own.paint is not None else said.paint
    return replace(said, choose=own.choose, paint=paint, total=None, coats=())


def _no_plaster(only: frozenset[tuple[str, str]]) -> Stage[Any, SurfaceCoats]:
    """Stage "coats" with no plaster on these zones. Its ask is marked, so that no answer with plaster is kept."""
    stage = coats_stage.STAGE

    def ask(job: Job, book: Book, answers: Answers, at: str) -> tuple[str, Any]:
        return "paint alone", stage.ask(job, book, answers, at)

    def run(asked: tuple[str, Any]) -> tuple[SurfaceCoats, Working]:
        plastered, working = build_all(asked[1])
        surface = plastered.surface
        zones = tuple((z, _bare(b) if (surface, z) in only else b) for z, b in plastered.zones)
        return SurfaceCoats(surface, zones), working

    return Stage(stage.name, stage.needs, stage.per, stage.pace, ask, run)


def _days_of_paint(only: frozenset[tuple[str, str]]) -> Stage[Any, Visits]:
    """Stage "days" with the painting of these zones in it: the wall is old and dry, so paint waits for nothing.

    All its coats go on at the firm's pace for one, and what it stands on is hired as for plaster.
    """
    stage = days_stage.STAGE

    def ask(job: Job, book: Book, answers: Answers, at: str) -> VisitsAsk | Waiting:
        asked = stage.ask(job, book, answers, at)
        pace = job.firm.pace_of("paint")
        if isinstance(asked, Waiting):
            return asked
        if pace is None:
            return Waiting(lacks=("answers.lacks.pace-paint",))
        areas = {f"{s}/{a.zone}": a for s, volumes in answers.good("volumes").items() for a in volumes.areas}
        surfaces = []
        for time in asked.surfaces:
            area = areas[time.at]
            if tuple(time.at.split("/")) in only:
                each = Quantity(pace.rate / (area.primer + area.paint), pace.unit)
                time = replace(time, coats=(CoatTime("paint", area.area, each, may_stop=True),))
            surfaces.append(time)
        return replace(asked, surfaces=tuple(surfaces))

    return Stage(stage.name, stage.needs, stage.per, stage.pace, ask, stage.run)


def _no_later_paint(only: frozenset[tuple[str, str]]) -> Stage[Any, Paint]:
    """Stage "paint" without these zones: their paint stands among the days."""
    stage = paint_stage.STAGE

    def ask(job: Job, book: Book, answers: Answers, at: str) -> PaintAsk | Waiting:
        asked = stage.ask(job, book, answers, at)
        if isinstance(asked, Waiting):
            return asked
        return replace(asked, places=tuple(p for p in asked.places if tuple(p[0].split("/")) not in only))

    return Stage(stage.name, stage.needs, stage.per, stage.pace, ask, stage.run)


def _bare(built: BuildUp) -> BuildUp:
    """Nothing goes on but paint."""
    option: Option = replace(
        built.chosen, preparation=("paint-off", "clean"), coats=(), lath=None, paper_layers=0, parting=(),
        least=_NOTHING, nominal=_NOTHING, most=_NOTHING, grounds=_NOTHING, bead=_NOTHING,
        set_back=None, wander=None, voices=(), reasons=(), cautions=(),
    )  # fmt: skip
    return replace(built, chosen=option, test_time=None)
