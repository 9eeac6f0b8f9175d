"""Drawings of the pages of "Put on": a wall with its lines, its layouts side by side, its lath."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from darby.desk.drawn import HIGH_LAPTOP, Drawing, drawing_of, writer_for
from darby.drawing import Mark, elevation, lathed_elevation, titled
from darby.drawing.elevation import HATCHES
from darby.papers.filled.parting import drawn_joints
from darby.papers.filled.ways import parted

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.answers.lath import SurfaceLath
    from darby.desk.put_on.lines import Line
    from darby.joints import Layout
    from darby.measure.surface import Surface
    from darby.tables.setting import Setting

BESIDE = 340.0
"""How wide one of two drawings beside each other may be on a laptop [px]."""
CROSS = "×"


def lines_drawing(surface: Surface, lines: Sequence[Line], answers: Answers, setting: Setting) -> Drawing:
    """The wall with its joints, pins at both ends of those that were pinned, and where none may be."""
    joints = drawn_joints(writer_for(answers, setting), surface.id)
    around = elevation(surface, joints=joints, language=setting.language, system=setting.system)
    bases = set(HATCHES.values())
    marks = [mark for mark in around if not (mark.kind == "hatch" and mark.role in bases)]
    for line in lines:
        marks += _marks(surface, line)
    return drawing_of(marks, titled(surface, setting.language, setting.system), setting)


def _marks(surface: Surface, line: Line) -> Iterator[Mark]:
    for place in (line.at, line.to):
        if place is None or line.state not in ("pinned", "forbidden"):
            continue
        ends = across(surface, line.way == "upright", float(place))
        ref = f"{surface.id}/line-{line.number}"
        if line.state == "pinned":
            for end in ends:
                yield Mark("symbol", (end,), "pin", ref)
        else:
            yield Mark("line", ends, "no joint", ref)
            for end in ends:
                yield Mark("text", (end,), "letter", ref, CROSS)


def across(surface: Surface, upright: bool, place: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """From edge to edge of what surrounds the wall."""
    us, vs = ([float(getattr(c, axis)) for c in surface.outline] for axis in ("u", "v"))
    if upright:
        return (place, min(vs)), (place, max(vs))
    return (min(us), place), (max(us), place)


def layout_drawing(surface: Surface, layout: Layout, answers: Answers, setting: Setting) -> Drawing:
    """The wall as one layout parts it, its panels named, small enough for two beside each other."""
    marks = parted(writer_for(answers, setting), surface, layout)
    title = titled(surface, setting.language, setting.system)
    made = drawing_of(marks, title, setting, high=HIGH_LAPTOP / 2, wide=BESIDE)
    return Drawing(f"{layout.name}", made.narrow, made.wide)


def lath_drawing(surface: Surface, found: SurfaceLath, answers: Answers, setting: Setting) -> Drawing:
    """The wall with every sheet in its place."""
    marks = lathed_elevation(
        surface, found.zones, joints=drawn_joints(writer_for(answers, setting), surface.id),
        language=setting.language, system=setting.system,
    )  # fmt: skip
    return drawing_of(marks, titled(surface, setting.language, setting.system), setting)
