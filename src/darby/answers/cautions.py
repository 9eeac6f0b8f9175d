"""Stage "cautions": what can hurt people on this job, with the rule that says so."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from darby.answers.stage import Answers, Stage
from darby.days import cautions, platform
from darby.days.model import AccessRow
from darby.rulebook import Book
from darby.working import Note, Working

if TYPE_CHECKING:
    from darby.job.model import Job

SCAFFOLD = frozenset({"scaffold", "planks and trestles"})


@dataclass(frozen=True, slots=True)
class CautionsAsk:
    """What the job does, as far as it can hurt anybody. ``reach`` [m] the highest point; ``built`` of what is old."""

    book: Book
    built: int | None
    works: tuple[str, ...]
    materials: tuple[str, ...]
    reach: Fraction
    access: tuple[AccessRow, ...]


@dataclass(frozen=True, slots=True)
class Cautions:
    """Cautions of the whole job; each surface's own lie with its build-up."""

    notes: tuple[Note, ...]


def _ask(job: Job, book: Book, answers: Answers, at: str) -> CautionsAsk:  # noqa: ARG001 -- of the whole job
    walls = answers.good("wall").values()
    reach = max((w.reach for w in walls), default=Fraction(0))
    works = ["mix", "cut"]
    if any(run.meets is not None and run.meets.what == "old plaster" for w in walls for run in w.runs):
        works += ["disturb old plaster", "disturb paint"]
    if any(a.kind in SCAFFOLD for a in job.firm.access) and reach > min(a.up_to for a in job.firm.access):
        works.append("scaffold")
    old = min((b.built for b in job.bases if b.built is not None), default=job.built)
    return CautionsAsk(
        book=book,
        built=old,
        works=tuple(works),
        materials=("portland", "lime", "sand"),
        reach=reach,
        access=tuple(AccessRow(a.kind, a.up_to, a.set_up) for a in job.firm.access),
    )


def _run(ask: CautionsAsk) -> tuple[Cautions, Working]:
    working = Working()
    notes = cautions(
        year_built=ask.built,
        works=ask.works,
        platform=float(platform(ask.access, ask.reach, ask.book)),
        materials=ask.materials,
        book=ask.book,
    )
    working.notes.extend(notes)
    return Cautions(notes), working


STAGE: Stage[CautionsAsk, Cautions] = Stage("cautions", ("wall",), "job", "now", _ask, _run)
