"""Joints: where plaster is allowed to part, by what, how wide, and why.

``lay_out_joints(ask)`` stands in the graph; ``lay_out``, ``sealant_width`` and ``joint_spacing`` need no job.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from darby.joints.laying import lay_out_joints
from darby.joints.model import (
    EdgeJoint,
    Forbidden,
    Ground,
    Joint,
    Joints,
    JointsAsk,
    Layout,
    Limits,
    Panel,
    Pin,
    Run,
    Sealing,
    Width,
)
from darby.joints.width import joint_spacing, sealant_width
from darby.measure.checks import faults_of
from darby.measure.faults import Unreadable
from darby.measure.surface import Surface
from darby.rulebook.book import Book
from darby.rulebook.load import default

__all__ = [
    "EdgeJoint", "Forbidden", "Ground", "Joint", "Joints", "JointsAsk", "Layout", "Limits", "Panel", "Pin", "Run",
    "Sealing", "Width", "joint_spacing", "lay_out", "lay_out_joints", "sealant_width",
]  # fmt: skip

ON_LATH = frozenset({"frame", "lath over block"})


def lay_out(
    surface: Surface, limits: Limits | None = None, *, base: str = "frame", book: Book | None = None, **more: Any
) -> Joints:
    """Joints of a surface: layouts that differ, best first, with every panel and what is left to each limit.

    Parameters
    ----------
    surface
        as measured. Its zones say their own base; what no zone covers is ``base``.
    limits
        of panels on lath: area [m2], longest side [m], length to width; None = the book's.
    base
        "block", "concrete", "frame" or "lath over block"; the last two hang on lath.
    book
        None = the rule book that ships with darby.
    more
        any other field of ``JointsAsk``: ``position``, ``block_joints`` [m], ``floor_lines`` [m], ``pinned`` ...

    Raises
    ------
    Unreadable
        the surface's first fault, or as ``lay_out_joints``.
    TypeError
        for a keyword that ``JointsAsk`` has not.
    """
    faults = faults_of(surface)
    if faults:
        raise Unreadable(replace(faults[0], place=f'surface "{surface.id}", {faults[0].place}'.rstrip(", ")))
    every = (*((zone.id, zone.base) for zone in surface.zones), ("", base))
    grounds = tuple(Ground(zone, kind, kind in ON_LATH) for zone, kind in every)  # type: ignore[arg-type]
    ask = JointsAsk(book if book is not None else default(), surface, grounds, limits=limits or Limits(), **more)
    return lay_out_joints(ask)[0]
