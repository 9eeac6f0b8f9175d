"""Stage "volumes": area by the firm's custom and mortar of every coat of a surface, each allowance on its own line."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from darby.answers.bases import as_hung
from darby.answers.coats import SurfaceCoats
from darby.answers.mixing import mix_name
from darby.answers.stage import Answers, Stage
from darby.answers.wall import Wall
from darby.buildup import BuildUp
from darby.measure.geometry import opening_area
from darby.quantities import Allowances, Coat, Opening, Reveal, Volumes, VolumesAsk, Zone, volumes

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.rulebook import Book


def allowances(job: Job) -> Allowances:
    """The firm's own allowances; what it has not said is the book's."""
    return Allowances(**{a.name: a.part for a in job.firm.allow})


def _ask(job: Job, book: Book, answers: Answers, at: str) -> VolumesAsk:
    wall: Wall = answers.of("wall", at)
    coats: SurfaceCoats = answers.of("coats", at)
    whole = {opening.id: opening_area(opening) for opening in job.surface(at).openings}
    reveals: dict[tuple[str, str], list[Reveal]] = defaultdict(list)
    for r in wall.reveals:
        reveals[(r.zone, r.opening)].append(Reveal(r.side, r.length, r.depth))
    zones = []
    for area in wall.zones:
        cut = dict(area.cut)
        names = [name for name in whole if name in cut or (area.zone, name) in reveals]
        openings = tuple(
            Opening(name, cut.get(name, 0), tuple(reveals[(area.zone, name)]), whole[name]) for name in names
        )
        zones.append(_zone(job, book, at, area.zone, area.gross, openings, coats.of(area.zone)))
    return VolumesAsk(at, tuple(zones), count=wall.count, allow=allowances(job), book=book)


def _coats(book: Book, subject: str) -> int:
    return round(book.number(subject).number)


def _zone(
    job: Job, book: Book, at: str, zone: str, gross: object, openings: tuple[Opening, ...], built: BuildUp
) -> Zone:
    base, option = job.base(at, zone), built.chosen
    coats = tuple(
        Coat(
            c.name,
            c.nominal.value,
            mix_name(job, at, zone, built, c),
            levels=c.levels,
            least=c.least.value,
            most=c.most.value,
        )
        for c in option.coats
    )
    wanted = job.coats.wanted(at, zone)
    return Zone(
        id=zone,
        base=as_hung(base, lathed=option.lath is not None),
        gross=gross,  # type: ignore[arg-type]
        coats=coats,
        openings=openings,
        lathed=option.lath is not None,
        struck=base.joints == "struck" and option.lath is None,
        out_of_plane=base.out_of_plane,
        studs=base.studs,
        sheathing=base.sheathing,
        paper=option.paper_layers,
        bonding="bonding-agent" in option.preparation,
        primer=_coats(book, "coating.coats.prime") if wanted.paint else 0,
        paint=_coats(book, "coating.coats.paint") if wanted.paint else 0,
    )


STAGE: Stage[VolumesAsk, Volumes] = Stage("volumes", ("wall", "coats"), "surface", "now", _ask, volumes)
