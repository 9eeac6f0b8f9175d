"""The drawings of a paper: walls to scale, fitted to the room there is, and cuts full size."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.drawing import (
    CUT_PAPER,
    METRIC_PAPERS,
    PAPERS,
    Coat,
    Mark,
    Sheet,
    cut_title,
    elevation,
    extent_on,
    key,
    section,
    sheet_for,
    titled,
    to_svg,
)
from darby.measure.units import IN
from darby.papers.filled.parting import drawn_joints
from darby.papers.model import KeyItem, Picture
from darby.words import Verbatim, surface_called

if TYPE_CHECKING:
    from darby.buildup import Option
    from darby.drawing.section import Joints
    from darby.measure.surface import Surface
    from darby.papers.filled.writer import Writer

WIDE = 6.6 * 72
"""Width of the text on a letter sheet [pt]."""
GAP = 18.0
"""Between two drawings side by side [pt]."""
READABLE = Fraction(1, 130)
"""A wall that is drawn this large or larger need not be drawn larger at the price of a page."""
SIDE_BY_SIDE, ALONE = 178.0, 215.0
"""How high a wall of the quote is drawn at the most, two to a row and by itself [pt]."""
MOST = 4
"""So many walls are drawn on a quote, two to a row; half of them where each needs a row of its own."""


def marks_of(writer: Writer, surface: Surface) -> tuple[Mark, ...]:
    """A wall with its sizes and its joints, lettered in the paper's language."""
    joints = drawn_joints(writer, surface.id)
    return elevation(surface, joints=joints, language=writer.language, system=writer.system)


def elevations(writer: Writer, surfaces: Sequence[Surface]) -> tuple[tuple[Picture, ...], tuple[KeyItem, ...], int]:
    """Walls on one scale, the first ones of ``surfaces``; one key for all of them; how many stand in a row.

    Two to a row, unless they would be too small to read so.
    """
    drawn = [marks_of(writer, surface) for surface in surfaces[:MOST]]
    if not drawn:
        return (), (), 1
    sheet = _common(writer, drawn, (WIDE - GAP) / 2, SIDE_BY_SIDE)
    abreast = 2
    if len(drawn) == 1 or sheet.scale < float(READABLE) * CUT_PAPER.scale:
        drawn, abreast = drawn[: MOST // 2], 1
        sheet = _common(writer, drawn, WIDE, ALONE)
    pictures = tuple(_picture(writer, s, marks, sheet) for s, marks in zip(surfaces, drawn, strict=False))
    return pictures, _key([mark for marks in drawn for mark in marks], sheet, writer), abreast


def _common(writer: Writer, drawn: Sequence[Sequence[Mark]], wide: float, high: float) -> Sheet:
    """The largest scale on which every one of them fits."""
    return min((sheet_for(marks, wide, high, _sheets(writer)) for marks in drawn), key=lambda s: s.scale)


def beside_cut(writer: Writer, surface: Surface, cut: Sequence[Mark], high: float) -> tuple[Picture, bool]:
    """A wall with its key, and whether it stands beside the cut: there it must be large enough to read."""
    marks, sheets = marks_of(writer, surface), _sheets(writer)
    room = WIDE - GAP - extent_on(cut, CUT_PAPER)[0]
    alone = sheet_for(marks, WIDE, high, sheets)
    beside = sheet_for(marks, room, high, sheets)
    fits = extent_on(marks, beside)[0] <= room
    abreast = fits and (beside is alone or beside.scale >= float(READABLE) * CUT_PAPER.scale)
    sheet = beside if abreast else alone
    return _picture(writer, surface, marks, sheet, _key(marks, sheet, writer)), abreast


def drawn(writer: Writer, surface: Surface, marks: Sequence[Mark], high: float, code: str) -> Picture:
    """A wall drawn in some other way, as wide as the text and ``high`` at the most [pt], with its key."""
    sheet = sheet_for(marks, WIDE, high, _sheets(writer))
    return _picture(writer, surface, marks, sheet, _key(marks, sheet, writer), code)


def _sheets(writer: Writer) -> Sequence[Sheet]:
    return PAPERS if writer.system == "us" else METRIC_PAPERS


def _picture(
    writer: Writer, surface: Surface, marks: Sequence[Mark], sheet: Sheet, items: tuple[KeyItem, ...] = (),
    code: str = "",
) -> Picture:  # fmt: skip
    alt = titled(surface, writer.language, writer.system)
    scale = writer.say("drawing.scale" if writer.system == "us" else "drawing.scale.ratio", scale=sheet.words)
    code = code or ("paper.elevation.alike" if surface.count > 1 else "paper.elevation")
    caption = writer.say(
        code, name=Verbatim(surface_called(surface, writer.language)), scale=Verbatim(scale), count=surface.count
    )
    return Picture(to_svg(marks, sheet, title=alt), alt, caption, items)


def _key(marks: Sequence[Mark], sheet: Sheet, writer: Writer) -> tuple[KeyItem, ...]:
    return tuple(KeyItem(entry.svg, entry.text) for entry in key(marks, sheet, writer.language, writer.system))


def cut_marks(
    writer: Writer, option: Option, base: str, joints: Joints | None, behind: Fraction = Fraction(4, 5)
) -> tuple[tuple[Mark, ...], str]:
    """The cut through a wall, full size, and in words what it shows. ``behind``: inches of the block that are drawn."""
    coats = [
        Coat(writer.say(f"buildup.coat.{c.name}").lower(), c.nominal.value, "finish" if c.name == "finish" else "base")
        for c in option.coats
        if c.nominal.value > 0
    ]
    lath = option.lath is not None
    marks = section(
        coats, base, joints=joints or "", lath=lath, behind=float(behind * IN), language=writer.language,
        system=writer.system,
    )  # fmt: skip
    return marks, cut_title(coats, base, writer.language, writer.system, lath=lath)


def cut_picture(marks: Sequence[Mark], alt: str, caption: str = "") -> Picture:
    """A cut at its own size."""
    return Picture(to_svg(marks, CUT_PAPER, title=alt), alt, caption)
