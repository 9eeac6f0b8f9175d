"""Stage "wall": what each surface measures, with its edges and the reveals that are plastered."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.answers.stage import Answers, Stage
from darby.measure.geometry import EdgeRun, RevealArea, ZoneArea, edge_runs, reveal_areas, zone_areas
from darby.measure.surface import Surface
from darby.measure.units import unit
from darby.working import Quantity, Working

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.rulebook import Book

SQ_FT = unit("sq ft")


@dataclass(frozen=True, slots=True)
class Wall:
    """One surface as measured: area by zone [m2], edges [m], plastered reveals, highest point above ground [m]."""

    surface: str
    name: str
    gross: Quantity
    openings: Quantity
    net: Quantity
    zones: tuple[ZoneArea, ...]
    runs: tuple[EdgeRun, ...]
    reveals: tuple[RevealArea, ...]
    reach: Fraction
    count: int


def measured(surface: Surface) -> tuple[Wall, Working]:
    """Areas and edges of ``surface``, with the working of its net area."""
    working = Working()
    zones = zone_areas(surface)
    # an opening's edge that lies on the wall's own outline has no plaster beside it: it goes with the wall's last zone
    runs = tuple(run if run.zone else replace(run, zone=zones[-1].zone) for run in edge_runs(surface))
    gross = Quantity(sum((z.gross for z in zones), Fraction(0)), SQ_FT)
    openings = Quantity(sum((z.openings for z in zones), Fraction(0)), SQ_FT)
    net = working.step(
        f"{surface.id}/net", "gross - openings", SQ_FT, "answers.wall.net", gross=gross, openings=openings
    )
    reach = surface.foot + max(corner.v for corner in surface.outline)
    wall = Wall(surface.id, surface.name, gross, openings, net, zones, runs, reveal_areas(surface, runs), reach,
                surface.count)  # fmt: skip
    return wall, working


def _ask(job: Job, book: Book, answers: Answers, at: str) -> Surface:  # noqa: ARG001 -- every ask has one shape
    return job.surface(at)


STAGE: Stage[Surface, Wall] = Stage("wall", (), "surface", "now", _ask, measured)
