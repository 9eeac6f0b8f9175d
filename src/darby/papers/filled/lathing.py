"""Lath on the crew's sheet: every sheet in its place, and what the lather has to know."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.drawing import lath_marks, lathed_elevation
from darby.papers.filled.parting import drawn_joints
from darby.papers.filled.pictures import drawn
from darby.papers.filled.places import zone_called
from darby.papers.model import Both, Picture

if TYPE_CHECKING:
    from darby.answers.lath import SurfaceLath
    from darby.drawing import Mark
    from darby.lath import Lath
    from darby.measure.surface import Surface
    from darby.papers.filled.writer import Writer

HIGH, HIGHEST = 165.0, 300.0
"""A wall with its lath is drawn so high at the most [pt]: with few pieces, with many."""
MANY = 20

SAID = (
    "lath.lap-side", "lath.lap-end", "lath.own-lap", "lath.sheet-reach", "lath.assumed.first-stud", "lath.ties",
    "lath.weight", "lath.framing-wide", "lath.between-framing", "lath.in-line", "lath.corner-round",
    "lath.corner-strip", "lath.reveal-strips", "lath.parted", "lath.joint-loose", "lath.paper-layers",
)  # fmt: skip
"""Notes of the lath room that tell the crew what to do."""


def lathing(writer: Writer, surface_id: str) -> tuple[Picture | None, tuple[Both, ...]]:
    """The wall with its sheets and what is said of them; nothing where no lath is hung."""
    found: SurfaceLath | None = writer.answers.answered("lath", surface_id)
    if found is None or not found.zones:
        return None, ()
    surface = writer.answers.job.surface(surface_id)
    marks = lathed_elevation(
        surface, found.zones, joints=drawn_joints(writer, surface_id), sizes=False, language=writer.language,
        system=writer.system,
    )  # fmt: skip
    many = sum(len(lath.pieces) for _, lath in found.zones) > MANY
    picture = drawn(writer, surface, marks, HIGHEST if many else HIGH, "paper.elevation.lath")
    lines = []
    for zone, lath in found.zones:
        name = Both(*(zone_called(writer.answers.job, surface_id, zone, one) for one in writer.crew_languages))
        several = len(found.zones) > 1
        lines += [_headed(name, line) if several else line for line in _lines(writer, surface_id, zone, lath)]
    return picture, tuple(dict.fromkeys(lines))


def lath_over(writer: Writer, surface: Surface) -> tuple[Mark, ...]:
    """The sheets of a wall on their own layers, for whoever draws on."""
    found: SurfaceLath | None = writer.answers.answered("lath", surface.id)
    zones = found.zones if found is not None else ()
    return tuple(mark for zone, lath in zones for mark in lath_marks(surface, zone, lath))


def _headed(name: Both, line: Both) -> Both:
    return Both(f"{name.first}: {line.first}", f"{name.second}: {line.second}" if line.second else "")


def _lines(writer: Writer, surface: str, zone: str, lath: Lath) -> list[Both]:
    code = "paper.crew.lath-sheets" if lath.more.value else "paper.crew.lath-sheets-as-rule"
    said = [writer.both(code, sheets=lath.sheets, rule=lath.by_yard)]
    if lath.supports:
        said.append(writer.both("paper.crew.lath-fasteners", count=lath.fasteners, rule=lath.fasteners_by_area,
                                along=writer.answers.book.number("lath.fastener.along-studs")))  # fmt: skip
    else:
        said.append(writer.both("paper.crew.lath-fasteners-masonry", count=lath.fasteners))
    if lath.paper is not None:
        said.append(writer.both("paper.crew.lath-paper", area=lath.paper.area, layers=str(lath.paper.layers)))
    notes = writer.answers.kept[("lath", surface)].working.notes
    mine = [n for n in notes if n.code in SAID and n.at == f"{surface}/{zone}"]
    said += [writer.both_note(n, "crew") for n in sorted(mine, key=lambda n: SAID.index(n.code))]
    return said
