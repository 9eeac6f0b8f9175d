"""Stage "coats": what goes on each zone of a surface, in what coats, how thick, how it is parted."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from darby.answers.stage import Answers, Stage
from darby.answers.wall import Wall
from darby.buildup import BuildUp, BuildUpAsk, MeetsOld, Override, OwnCoat, build_up
from darby.buildup.model import Tried
from darby.measure.surface import Length, Surface
from darby.working import Working

if TYPE_CHECKING:
    from darby.job.model import Base, Job, Wanted
    from darby.rulebook import Book

SOFFIT_TILT = 135.0
"""Beyond this tilt [deg] a surface is looked at from below, and its plaster hangs."""


@dataclass(frozen=True, slots=True)
class SurfaceCoats:
    """The build-up of every zone of a surface, in the surface's order: (zone id, build-up)."""

    surface: str
    zones: tuple[tuple[str, BuildUp], ...]

    def of(self, zone: str) -> BuildUp:
        """The build-up of a zone.

        Raises
        ------
        KeyError
            if there is no such zone.
        """
        return dict(self.zones)[zone]


def build_all(asks: tuple[tuple[str, str, BuildUpAsk], ...]) -> tuple[SurfaceCoats, Working]:
    """Every zone's build-up. ``asks``: (surface, zone, ask)."""
    working = Working()
    zones = []
    for _, zone, ask in asks:
        built, own = build_up(ask)
        working.add(own)
        zones.append((zone, built))
    return SurfaceCoats(asks[0][0], tuple(zones)), working


def _ask(job: Job, book: Book, answers: Answers, at: str) -> tuple[tuple[str, str, BuildUpAsk], ...]:
    surface = job.surface(at)
    wall: Wall = answers.of("wall", at)
    meets = _meets(wall)
    bases = [(z.zone, z.base) for z in wall.zones]
    return tuple((at, zone, _zone_ask(job, book, surface, zone, meets.get(zone, ()), bases)) for zone, _ in bases)


def _zone_ask(
    job: Job, book: Book, surface: Surface, zone: str, meets: tuple[MeetsOld, ...], bases: list[tuple[str, str]]
) -> BuildUpAsk:
    base, wanted = job.base(surface.id, zone), job.coats.wanted(surface.id, zone)
    return BuildUpAsk(
        book=book,
        at=f"{surface.id}/{zone}",
        base=base.kind,
        weight=base.block,
        joints=base.joints,
        suction=wanted.suction,
        position="horizontal" if surface.tilt > SOFFIT_TILT else "vertical",
        finish=wanted.finish or job.coats.finish,
        sheathing=base.sheathing,
        stud_spacing=base.studs,
        out_of_plane=base.out_of_plane,
        meets=meets,
        next_to=tuple((name, kind) for name, kind in bases if name != zone),
        paint=bool(wanted.paint),
        choose=wanted.choose,
        override=_override(wanted) or _as_deep(job, surface),
        cure=wanted.cure,
        above_earth=base.above_earth,
        above_paving=base.above_paving,
        brick=base.brick,
        behind=base.behind,
        tests=_tests(base),
        place=base.place,
        retains=base.retains,
        sprinklers=base.sprinklers,
        sand=wanted.sand,
        colored=bool(wanted.colored),
    )


def _tests(base: Base) -> Tried | None:
    tests = base.tests
    return None if tests is None else Tried(tests.scrape, tests.water, tests.tap, tests.pull)


def _override(wanted: Wanted) -> Override | None:
    """What he knows better, if he said anything: his choice of coats alone is none."""
    if wanted.total is None and not wanted.coats:
        return None
    coats = tuple(OwnCoat(c.coat, c.thickness, c.moist, c.wait) for c in wanted.coats)
    return Override(wanted.total, coats, wanted.why)


def _as_deep(job: Job, surface: Surface) -> Override | None:
    """A patch comes to the old work's face, whatever the table says: as thick as what it joins."""
    if all(said.surface != surface.id for said in job.patches):
        return None
    deep = old_depth(surface)
    return None if deep is None else Override(deep)


def old_depth(surface: Surface) -> Length | None:
    """How far the old face stands out past our bare base, else how thick the old plaster is [m]; None = nobody said."""
    for edge in surface.edges:
        if edge.meets is not None and edge.meets.what == "old plaster":
            return edge.meets.proud if edge.meets.proud is not None else edge.meets.thickness
    return None


def _meets(wall: Wall) -> dict[str, tuple[MeetsOld, ...]]:
    """Zone to the old work its edges meet."""
    found: dict[str, list[MeetsOld]] = defaultdict(list)
    for run in wall.runs:
        if run.meets is not None and not run.bare:
            found[run.zone].append(MeetsOld(run.edge, run.meets.what, run.meets.thickness, run.meets.proud))
    return {zone: tuple(edges) for zone, edges in found.items()}


STAGE: Stage[tuple[tuple[str, str, BuildUpAsk], ...], SurfaceCoats] = Stage(
    "coats", ("wall",), "surface", "now", _ask, build_all
)
