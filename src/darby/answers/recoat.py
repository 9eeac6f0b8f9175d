"""Stage "recoat": whether new plaster fits at what stays on old walls, and what is done before the first coat."""

from __future__ import annotations

from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.answers.coats import SOFFIT_TILT, SurfaceCoats
from darby.answers.stage import Answers, Stage
from darby.answers.wall import Wall
from darby.buildup.model import DOUBTFUL
from darby.condition.recoat import recoat
from darby.condition.recoat_model import Off, RecoatAsk, RecoatWall, Spot
from darby.condition.recoat_model import Recoat as Answered
from darby.measure.geometry import opening_area
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.job.model import Also, Job
    from darby.job.recoat import Pace, Recoat
    from darby.measure.surface import Surface
    from darby.rulebook import Book

INCH = "in"
ROUGHEN, SCREED = "roughen", "weep-screed"
MASKED = ("head", "jamb", "sill", "top", "soffit", "drip", "roof line", "base", "grade")
"""Edges that are taped before anything is washed or thrown: frames, eaves, the foot."""

TOPS = ("top", "soffit", "drip", "roof line")
"""Upper edges over which a roof, a frieze or a cap stands."""


def coated(job: Job) -> tuple[str, ...]:
    """The surfaces that are coated anew, in the job's order; () where there is no [recoat]."""
    if job.recoat is None:
        return ()
    old = {base.surface for base in job.bases if base.kind in DOUBTFUL}
    named = set(job.recoat.surfaces)
    return tuple(s.id for s in job.surfaces if (s.id in named if named else s.id in old))


def _ask(job: Job, book: Book, answers: Answers, at: str) -> RecoatAsk:  # noqa: ARG001 -- of the whole job
    said = job.recoat
    if said is None:
        return RecoatAsk(book)
    walls = []
    for name in coated(job):
        coats: SurfaceCoats | None = answers.answered("coats", name)
        added = _added(said, coats) if coats is not None else None
        if coats is not None:
            walls.append(_wall(job, said, answers.of("wall", name), job.surface(name), added, coats))
    return RecoatAsk(
        book,
        tuple(walls),
        tuple(Off(f.what, f.count, f.each) for f in said.fixtures),
        _pace(said.mask),
        _pace(said.wash),
        _pace(said.roughen),
        own=said.adds is not None,
    )


def _pace(pace: Pace | None) -> Quantity | None:
    return Quantity(*pace) if pace is not None else None


def _added(said: Recoat, coats: SurfaceCoats) -> Quantity | None:
    """What the face comes out by: his own word, else the thickest of the wall's zones [m].

    Where old plaster comes off first, what goes on is not on top of it: such a zone adds nothing that is known.
    """
    from darby.measure.units import unit

    if said.adds is not None:
        return Quantity(said.adds, unit(INCH))
    stays = [b.chosen.nominal for _, b in coats.zones if b.verdict != "do not"]
    return max(stays, key=float, default=None)


def _wall(
    job: Job, said: Recoat, wall: Wall, surface: Surface, added: Quantity | None, coats: SurfaceCoats
) -> RecoatWall:
    rough = {zone for zone, built in coats.zones if ROUGHEN in built.chosen.preparation}
    renewed = all(SCREED in built.chosen.preparation for _, built in coats.zones)
    masked = tuple(run.length * run.count for run in wall.runs if run.kind in MASKED and not run.bare)
    return RecoatWall(
        surface.id,
        added,
        (
            *_frames(said, surface),
            *_foot(job, said, surface, renewed=renewed),
            *_vents(said, surface),
            *_eaves(said, surface),
        ),
        masked,
        tuple(opening_area(opening) * surface.count for opening in surface.openings),
        sum((z.net * wall.count for z in wall.zones), Fraction(0)),
        sum((z.net * wall.count for z in wall.zones if z.zone in rough), Fraction(0)),
    )


def _frames(said: Recoat, surface: Surface) -> list[Spot]:
    """Every opening: a frame in the face stands out past it; of one set back, what shows between plastered reveals."""
    spots = []
    for opening in surface.openings:
        at = f"{surface.id}/{opening.id}"
        if not opening.reveal:
            room = opening.frame_depth if opening.frame_depth is not None else said.frames
            spots.append(Spot("frame", at, room, opening.id, surface.count))
        elif opening.plastered:
            spots.append(Spot("return", at, said.returns, opening.id, surface.count))
    return spots


def _foot(job: Job, said: Recoat, surface: Surface, *, renewed: bool) -> list[Spot]:
    """The screed at the foot of a framed wall; on masonry there is none unless he measured it.

    ``renewed``: lath over the old plaster hangs its own.
    """
    framed = any(b.surface == surface.id and (b.behind == "frame" or b.kind == "frame") for b in job.bases)
    foot = any(edge.kind in ("base", "grade") for edge in surface.edges)
    upright = surface.tilt <= SOFFIT_TILT
    if not (upright and foot and (framed or said.weep is not None)):
        return []
    return [Spot("weep", f"{surface.id}/base", said.weep, count=surface.count, renewed=renewed)]


def _vents(said: Recoat, surface: Surface) -> list[Spot]:
    return [
        Spot("vent", f"{surface.id}/{vent.id}", vent.clear, vent.name or "vent", vent.count * surface.count)
        for vent in said.vents
        if vent.surface == surface.id
    ]


def _eaves(said: Recoat, surface: Surface) -> list[Spot]:
    """Every roof edge that he measured; where he measured none and something stands over the wall, that is asked."""
    own = [
        Spot("eave", f"{surface.id}/{eave.id}", eave.clear, eave.name or "eave", surface.count)
        for eave in said.eaves
        if eave.surface == surface.id
    ]
    over = surface.tilt <= SOFFIT_TILT and any(
        edge.kind in TOPS and edge.id.startswith("top") for edge in surface.edges
    )
    return own or ([Spot("eave", f"{surface.id}/top", None, "eave", surface.count)] if over else [])


def before(job: Job, answers: Answers) -> tuple[Also, ...]:
    """Masking, washing and fixtures of a re-coat as entries beside his own; what he wrote down himself stands."""
    from darby.job.model import Also

    got: Answered | None = answers.answered("recoat")
    if got is None or job.recoat is None:
        return ()
    written = {entry.what for entry in job.also}
    found = []
    if got.mask is not None:
        area = _exact(got.cover) if got.cover is not None else None
        hours = _exact(got.mask_hours) if got.mask_hours is not None else None
        found.append(Also("mask", hours=hours, length=_exact(got.mask), area=area))
    if got.off_hours is not None:
        listed = "; ".join(f"{f.count} × {f.what}" for f in job.recoat.fixtures)
        found.append(Also("take off and put back", listed, hours=_exact(got.off_hours)))
    if got.wash_hours is not None:
        found.append(Also("wash", hours=_exact(got.wash_hours)))
    if got.rough_hours is not None:
        found.append(Also("roughen", hours=_exact(got.rough_hours)))
    return tuple(entry for entry in found if entry.what not in written)


def _exact(quantity: Quantity) -> Fraction:
    return Fraction(quantity.value).limit_denominator(10**9)


STAGE: Stage[RecoatAsk, Answered] = Stage("recoat", ("wall", "coats"), "job", "now", _ask, recoat)
