"""Ways to part a wall: every layout drawn, its panels with what is left to each limit, and what is claimed of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from darby.drawing import Joint as Drawn
from darby.drawing import Mark, elevation
from darby.drawing.elevation import HATCHES
from darby.drawing.geometry import area_of, roomiest
from darby.drawing.lettering import size
from darby.measure.units import unit
from darby.papers.filled.parting import letter_of
from darby.papers.filled.pictures import drawn
from darby.papers.model import JointsPaper, PartedWall, WayToPart
from darby.words import Verbatim, surface_called
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.joints import Joints, Layout, Panel
    from darby.measure.surface import Surface
    from darby.papers.filled.writer import Writer

HIGH = 190.0
"""A wall is drawn so high at the most [pt]."""

SQ_FT = unit("sq ft")
RULES = ("joints.limits", "joints.own-limit", "joints.own-limit-past", "joints.lath-over-block")
CLAIM = ("joints.claim", "joints.lines-left-out", "joints.lath-cut", "joints.lath-on", "joints.gap",
         "joints.gap-installed", "joints.gap-unknown")  # fmt: skip
"""Notes over the layouts of a wall, and under them."""


def ways_paper(writer: Writer) -> JointsPaper | None:
    """One paper for all walls that can be parted in more than one way, or in none that holds; None if there is none."""
    walls = tuple(
        _wall(writer, surface, laid)
        for surface, laid in writer.answers.good("joints").items()
        if len(laid.layouts) > 1 or not laid.chosen.holds
    )
    if not walls:
        return None
    return JointsPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.joints-paper.title"),
        walls=walls,
        language=writer.language,
    )


def _wall(writer: Writer, surface_id: str, laid: Joints) -> PartedWall:
    surface = writer.answers.job.surface(surface_id)
    ways = sorted(laid.layouts, key=lambda x: x is not laid.chosen)
    stops = [n for n in laid.notes if n.grade == "stop"]
    return PartedWall(
        wall=surface_called(surface, writer.language),
        rules=tuple(writer.note(n) for n in laid.notes if n.code in RULES),
        ways=tuple(_way(writer, surface, laid, layout) for layout in ways),
        claims=tuple(writer.note(n) for n in (*stops, *(n for n in laid.notes if n.code in CLAIM))),
    )


def _way(writer: Writer, surface: Surface, laid: Joints, layout: Layout) -> WayToPart:
    marks = parted(writer, surface, layout)
    code = "paper.joints-paper.taken" if layout is laid.chosen else "paper.joints-paper.other"
    heading = writer.say(f"joints.layout.{layout.name}")
    return WayToPart(
        heading=writer.say(code, layout=Verbatim(heading)),
        says=writer.say("paper.joints-paper.says", joints=layout.laid, off=layout.off_corner,
                        length=Verbatim(writer.feet(layout.length))),
        picture=drawn(writer, surface, marks, HIGH, "paper.elevation"),
        rows=tuple(_row(writer, panel) for panel in layout.panels if panel.lathed),
    )  # fmt: skip


def parted(writer: Writer, surface: Surface, layout: Layout) -> tuple[Mark, ...]:
    """A wall with the joints of a layout, their distances, and every panel on lath by its name."""
    own = [joint for joint in layout.joints if not joint.on_edge]
    joints = [
        Drawn(f"{joint.id}-{k}", piece, letter_of(n) if k == 0 and joint.axis == "vertical" else "")
        for n, joint in enumerate(own)
        for k, piece in enumerate(sorted(joint.pieces, key=lambda piece: -max(v for _, v in piece)))
    ]
    whole = elevation(surface, joints=joints, sizes=False, language=writer.language, system=writer.system)
    panels = [panel for panel in layout.panels if panel.lathed]
    # hatching would stand in the way of the panels' names
    plain = [mark for mark in whole if not (mark.kind == "hatch" and mark.role in HATCHES.values())]
    return (*plain, *_names(surface, panels), *_strings(writer, surface, layout))


def _strings(writer: Writer, surface: Surface, layout: Layout) -> Iterator[Mark]:
    """How far the joints stand apart: uprights below the wall, levels at its right."""
    us, vs = ([getattr(corner, axis) for corner in surface.outline] for axis in ("u", "v"))
    left, right, low, high = min(us), max(us), min(vs), max(vs)
    uprights = sorted({left, *(j.start[0] for j in layout.joints if j.axis == "vertical"), right})
    levels = sorted({low, *(j.start[1] for j in layout.joints if j.axis == "horizontal"), high})
    for a, b in pairwise(uprights):
        ends = ((float(a), float(low)), (float(b), float(low)))
        yield Mark("dimension", ends, "dimension", surface.id, size(float(b - a), writer.system), side="below")
    for a, b in pairwise(levels):
        ends = ((float(right), float(a)), (float(right), float(b)))
        yield Mark("dimension", ends, "dimension", surface.id, size(float(b - a), writer.system), side="right")


def _names(surface: Surface, panels: Sequence[Panel]) -> Iterator[Mark]:
    """Every panel by its name, where it has most room."""
    for panel in panels:
        rings = [[(float(u), float(v)) for u, v in ring] for ring in panel.rings]
        area = area_of(rings[0])
        for hole in rings[1:]:
            area = area.difference(area_of(hole))
        at, radius = roomiest(area)
        yield Mark("text", (at,), "letter", f"{surface.id}/{panel.id}", panel.id, room=(radius * 2, radius * 2))


def _row(writer: Writer, panel: Panel) -> tuple[str, ...]:
    size = f"{writer.feet(panel.width, to=16)} × {writer.feet(panel.height, to=16)}"
    area = writer.write(panel.area_slack) if panel.area_slack is not None else ""
    side = writer.feet(panel.side_slack.value, to=16) if panel.side_slack is not None else ""
    ratio = writer.write(panel.ratio_slack) if panel.ratio_slack is not None else ""
    return panel.id, size, writer.write(Quantity(panel.area, SQ_FT)), area, side, ratio
