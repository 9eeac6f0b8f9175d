"""Stage "cautions": what can hurt people on this job, with the rule that says so."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.answers.coats import SurfaceCoats
from darby.answers.stage import Answers, Stage
from darby.answers.wall import Wall
from darby.buildup.model import DOUBTFUL, OLD, BuildUp
from darby.days import cautions, platform
from darby.days.model import AccessRow
from darby.rulebook import Book
from darby.working import Note, Working

if TYPE_CHECKING:
    from darby.job.model import Base, Job

SCAFFOLD = frozenset({"scaffold", "planks and trestles"})
PAINTED = tuple(base for base in DOUBTFUL if base != "old plaster")
NOUGHT = Fraction(0)


@dataclass(frozen=True, slots=True)
class CautionsAsk:
    """What the job does, as far as it can hurt anybody. ``reach`` [m] the highest point; ``built`` of what is old.

    ``painted`` [m2] is the old paint that is disturbed; None = not measured, or none.
    """

    book: Book
    built: int | None
    works: tuple[str, ...]
    materials: tuple[str, ...]
    reach: Fraction
    access: tuple[AccessRow, ...]
    painted: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Cautions:
    """Cautions of the whole job; each surface's own lie with its build-up."""

    notes: tuple[Note, ...]


def _ask(job: Job, book: Book, answers: Answers, at: str) -> CautionsAsk:  # noqa: ARG001 -- of the whole job
    walls: dict[str, Wall] = answers.good("wall")
    reach = max((w.reach for w in walls.values()), default=NOUGHT)
    works = ["mix", "cut"]
    meets_old = any(r.meets is not None and r.meets.what == "old plaster" for w in walls.values() for r in w.runs)
    old = {base.kind for base in job.bases} & {*DOUBTFUL}
    if meets_old or old & {*OLD}:
        works.append("disturb old plaster")
    if meets_old or old & {*PAINTED}:
        works.append("disturb paint")
    works += _tools(answers)
    if any(base.replaced for base in job.bases):
        works.append("replace window")
    if any(a.kind in SCAFFOLD for a in job.firm.access) and reach > min(a.up_to for a in job.firm.access):
        works.append("scaffold")
    if any(edge.kind == "roof line" and _is_foot(edge.id) for s in job.surfaces for edge in s.edges):
        works.append("roof edge")
    return CautionsAsk(
        book=book,
        built=_built(job),
        works=tuple(works),
        materials=("portland", "lime", "sand"),
        reach=reach,
        access=tuple(AccessRow(a.kind, a.up_to, a.set_up) for a in job.firm.access),
        painted=_painted(job, walls),
    )


def _is_foot(edge: str) -> bool:
    """The lower edge of a surface: it stands on a roof."""
    return edge.startswith("base")


def _built(job: Job) -> int | None:
    """The oldest year that anybody said of anything on this job."""
    years = [base.built for base in job.bases if base.built is not None]
    return min((*years, *((job.built,) if job.built is not None else ())), default=None)


def _tools(answers: Answers) -> list[str]:
    """Grinding where a face is roughened, drilling where lath is fastened to masonry."""
    coats: dict[str, SurfaceCoats] = answers.good("coats")
    built: list[BuildUp] = [b for c in coats.values() for _, b in c.zones]
    done = {step for b in built for step in b.chosen.preparation}
    tools = ["grind"] if "roughen" in done else []
    return [*tools, "drill"] if "lath-on-masonry" in done else tools


def _painted(job: Job, walls: dict[str, Wall]) -> Fraction | None:
    """Old paint that is disturbed: on painted bases, and on patches, whose own area was cut out of a painted wall."""
    areas = [
        z.gross * w.count - z.openings * w.count
        for name, w in walls.items()
        for z in w.zones
        if _paint_on(job.base(name, z.zone))
    ]
    return sum(areas, NOUGHT) if areas else None


def _paint_on(base: Base) -> bool:
    return base.kind in PAINTED or base.place == "patch"


def _run(ask: CautionsAsk) -> tuple[Cautions, Working]:
    working = Working()
    notes = cautions(
        year_built=ask.built,
        works=ask.works,
        platform=float(platform(ask.access, ask.reach, ask.book)),
        materials=ask.materials,
        painted_area=float(ask.painted) if ask.painted is not None else None,
        book=ask.book,
    )
    working.notes.extend(notes)
    return Cautions(notes), working


STAGE: Stage[CautionsAsk, Cautions] = Stage("cautions", ("wall", "coats"), "job", "now", _ask, _run)
