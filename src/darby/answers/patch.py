"""Stage "patch": how far old plaster is cut back round an opening, how deep, in what order it is tied in, and when."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.answers.coats import SurfaceCoats, old_depth
from darby.answers.mixing import mix_name
from darby.answers.stage import Answers, Stage
from darby.condition import CoatOn, MixOn, Patch, PatchAsk, patch
from darby.measure.outline import flat
from darby.measure.units import unit
from darby.mix import Mixes
from darby.working import Quantity, Working

if TYPE_CHECKING:
    from darby.buildup import BuildUp
    from darby.job import condition as job_condition
    from darby.job.model import Also, Job
    from darby.rulebook import Book

COUNT = unit("")


@dataclass(frozen=True, slots=True)
class Patches:
    """Every patch, in the job's order; () where there is no [[patch]]."""

    patches: tuple[Patch, ...]

    def of(self, surface: str) -> Patch | None:
        """The patch that is this surface; None if it is none, or was not answered."""
        return next((found for found in self.patches if found.surface == surface), None)


def _ask(job: Job, book: Book, answers: Answers, at: str) -> tuple[PatchAsk, ...]:  # noqa: ARG001 -- of the whole job
    built: dict[str, SurfaceCoats] = answers.good("coats")
    return tuple(_patch(job, book, answers, said, built[said.surface]) for said in job.patches if said.surface in built)


def _patch(job: Job, book: Book, answers: Answers, said: job_condition.Patch, coats: SurfaceCoats) -> PatchAsk:
    at = said.surface
    surface = job.surface(at)
    zone, built = coats.zones[0]
    points = flat(surface.openings[0].outline)
    wide, high = (max(p[n] for p in points) - min(p[n] for p in points) for n in (0, 1))
    return PatchAsk(
        book=book,
        surface=at,
        width=said.width,
        wide=wide,
        high=high,
        sides=said.sides,
        hollow=said.hollow,
        lines=said.lines,
        room=said.room,
        flange=said.flange,
        lathed=built.chosen.lath is not None,
        papers=built.chosen.paper_layers,
        old=said.old,
        old_depth=old_depth(surface),
        total=built.chosen.nominal,
        coats=tuple(CoatOn(c.name, c.nominal, c.wait_least) for c in built.chosen.coats),
        mixes=_mixes(job, answers, at, zone, built),
        cut=Quantity(*said.cut) if said.cut is not None else None,
        count=surface.count,
        hauled=any(entry.what == "dispose" for entry in job.also),
    )


def _mixes(job: Job, answers: Answers, surface: str, zone: str, built: BuildUp) -> tuple[MixOn, ...]:
    """What every coat is mixed of, given or proposed; none while the mixes wait."""
    from darby.answers.mixes import PREFIX  # mixes reads the pace of the days, and those ask what else is done

    mixes: Mixes | None = answers.answered("mixes")
    if mixes is None:
        return ()
    found = []
    for coat in built.chosen.coats:
        mix = mixes.of(PREFIX + mix_name(job, surface, zone, built, coat))
        used = mix.parts.used if mix.parts is not None else ()
        parts = tuple((name, Quantity(mix.parts.of(name), COUNT)) for name in used) if mix.parts is not None else ()
        found.append(MixOn(coat.name, parts))
    return tuple(found)


def cutting(job: Job, answers: Answers) -> tuple[Also, ...]:
    """Cutting back as an entry beside his own, one for all patches; what he wrote down himself stands."""
    from darby.job.model import Also

    if any(entry.what == "cut back" for entry in job.also):
        return ()
    got: Patches | None = answers.answered("patch")
    return tuple(
        Also("cut back", job.surface(found.surface).name, hours=Fraction(found.hours.value))
        for found in (got.patches if got is not None else ())
        if found.hours is not None
    )


def patch_all(asks: tuple[PatchAsk, ...]) -> tuple[Patches, Working]:
    """Every patch by itself; steps and notes together."""
    working = Working()
    patches = []
    for ask in asks:
        found, own = patch(ask)
        working.add(own)
        patches.append(found)
    return Patches(tuple(patches)), working


STAGE: Stage[tuple[PatchAsk, ...], Patches] = Stage("patch", ("coats",), "job", "now", _ask, patch_all)
