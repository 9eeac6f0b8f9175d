"""Marks of walls and cuts, and their writers: SVG for papers and pages, DXF for whoever draws on.

``elevation`` and ``section`` hand out marks [m]; ``to_svg`` and ``to_dxf`` write the same marks on a sheet; ``key``
says what the lines mean. Everything that depends on the size of lettering is settled when a sheet is chosen.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from darby.drawing.dxf import Units, to_dxf
from darby.drawing.elevation import Ground, Joint, elevation, opening_called, titled
from darby.drawing.key import KeyEntry, key
from darby.drawing.lath import lath_marks, lathed_elevation
from darby.drawing.layout import core, lay_out
from darby.drawing.model import (
    CUT_LAPTOP,
    CUT_PAPER,
    CUT_PHONE,
    LAPTOP,
    METRIC_PAPERS,
    PAPER,
    PAPERS,
    PHONE,
    Kind,
    Mark,
    Sheet,
)
from darby.drawing.roles import ROLES, Role, stylesheet
from darby.drawing.section import Coat, cut_title, section
from darby.drawing.svg import MARGIN, to_svg


def sheet_for(marks: Sequence[Mark], wide: float, high: float, sheets: Sequence[Sheet] = PAPERS) -> Sheet:
    """The sheet with the largest scale on which ``marks`` fit ``wide`` by ``high`` sheet units; else the smallest."""
    # hatching lies within outlines that are measured anyway, and is what takes long to lay out
    outer = [mark for mark in marks if core(mark)]
    for sheet in sorted(sheets, key=lambda s: -s.scale):
        across, down = extent_on(outer, sheet)
        if across <= wide and down <= high:
            return sheet
    return min(sheets, key=lambda s: s.scale)


def extent_on(marks: Sequence[Mark], sheet: Sheet) -> tuple[float, float]:
    """Width and height of the drawing that ``marks`` make on ``sheet`` [sheet units]."""
    left, top, right, bottom = lay_out(marks, sheet).box()
    return right - left + 2 * MARGIN, bottom - top + 2 * MARGIN


def moved(marks: Sequence[Mark], right: float = 0.0, up: float = 0.0) -> tuple[Mark, ...]:
    """The same marks ``right`` and ``up`` [m] from where they were: to set two cuts side by side on one sheet."""

    def there(points: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
        return tuple((u + right, v + up) for u, v in points)

    return tuple(
        replace(
            mark,
            points=there(mark.points),
            holes=tuple(there(hole) for hole in mark.holes),
            origin=there((mark.origin,))[0] if mark.origin else None,
        )
        for mark in marks
    )


__all__ = [
    "CUT_LAPTOP", "CUT_PAPER", "CUT_PHONE", "LAPTOP", "METRIC_PAPERS", "PAPER", "PAPERS", "PHONE", "ROLES",
    "Coat", "Ground", "Joint", "KeyEntry", "Kind", "Mark", "Role", "Sheet", "Units",
    "cut_title", "elevation", "extent_on", "key", "lath_marks", "lathed_elevation", "lay_out", "moved",
    "opening_called", "section", "sheet_for", "stylesheet", "titled", "to_dxf", "to_svg",
]  # fmt: skip
