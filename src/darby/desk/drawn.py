"""Walls and cuts on two sheets, a phone's and a laptop's: two drawings from the same marks, none shrunk."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from darby.desk.once import once
from darby.drawing import (
    CUT_LAPTOP,
    CUT_PHONE,
    LAPTOP,
    PHONE,
    Ground,
    Mark,
    Sheet,
    elevation,
    key,
    sheet_for,
    titled,
    to_svg,
)
from darby.measure.limits import at_most
from darby.papers.filled.parting import drawn_joints
from darby.papers.filled.pictures import cut_marks
from darby.papers.filled.writer import Writer

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.buildup import Option
    from darby.measure.surface import Surface
    from darby.tables.setting import Setting
    from darby.words import Language

WIDE_PHONE, WIDE_LAPTOP = 358.0, 720.0
"""Room for a drawing [px]: a phone's width without its margins, a laptop's beside the ledger."""
HIGH_PHONE, HIGH_LAPTOP = 560.0, 620.0
SMALLER = (1.6, 1.3, 1.0, 0.8, 0.65, 0.5, 0.4, 0.32, 0.25, 0.2, 0.16, 0.12, 0.09, 0.06)
"""A wall that is too wide for the usual scale is drawn smaller; its lettering stays as high as it was."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """One thing on both sheets, in words too, and the swatches of its key: (svg, what it means)."""

    title: str
    narrow: str
    wide: str
    key: tuple[tuple[str, str], ...] = ()
    layers: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Reader(Writer):
    """A writer that letters in the reader's language, not the firm's."""

    spoken: Language = "en"

    @property
    def language(self) -> Language:
        """The reader's."""
        return self.spoken


def writer_for(answers: Answers, setting: Setting) -> Writer:
    """What draws in the reader's language."""
    return _Reader(answers, spoken=setting.language)


def wall_drawing(surface: Surface, answers: Answers, setting: Setting) -> Drawing:
    """A wall with its sizes, joints and, where it was read, its grounds."""

    def drawn() -> Drawing:
        marks = wall_marks(surface, answers, setting)
        title = titled(surface, setting.language, setting.system)
        layers = tuple(name for name in ("sizes", "block", "joints", "grounds") if _has(marks, name))
        return on_both(marks, title, setting, PHONE, LAPTOP, layers)

    return once(answers, "wall drawing", surface.id, setting, make=drawn)


def wall_marks(surface: Surface, answers: Answers, setting: Setting) -> Sequence[Mark]:
    """The marks of that drawing."""
    writer = writer_for(answers, setting)
    found = answers.answered("grounds", surface.id)
    limit = found.limit if found is not None else None
    grounds = [
        Ground(g.u, g.v, g.depth.value, past=limit is not None and not at_most(g.depth.value, limit.number))
        for g in (found.grounds if found is not None else ())
        if g.known
    ]
    return elevation(
        surface, joints=drawn_joints(writer, surface.id), grounds=grounds, language=setting.language,
        system=setting.system,
    )  # fmt: skip


def cut_drawing(option: Option, base: str, answers: Answers, setting: Setting) -> Drawing:
    """The cut through a wall."""
    marks, title = cut_marks(writer_for(answers, setting), option, base, None)
    return on_both(marks, title, setting, CUT_PHONE, CUT_LAPTOP, (), 330.0)


def _has(marks: Sequence[Mark], layer: str) -> bool:
    from darby.drawing import ROLES

    return any(ROLES[mark.role].layer == layer for mark in marks)


def drawing_of(
    marks: Sequence[Mark], title: str, setting: Setting, *, layers: tuple[str, ...] = (), wide: float = WIDE_LAPTOP,
    high: float = HIGH_LAPTOP,
) -> Drawing:  # fmt: skip
    """Marks of a wall on both sheets, ``wide`` and ``high`` at the most on a laptop [px]."""
    return on_both(marks, title, setting, PHONE, LAPTOP, layers, high, wide)


def on_both(
    marks: Sequence[Mark], title: str, setting: Setting, phone: Sheet, laptop: Sheet, layers: tuple[str, ...],
    high: float = HIGH_LAPTOP, across: float = WIDE_LAPTOP,
) -> Drawing:  # fmt: skip
    """Marks on a phone's sheet and a laptop's."""
    narrow, wide = _sheets(tuple(marks), phone, laptop, high, across)
    entries = key(marks, wide, setting.language, setting.system)
    return Drawing(
        title,
        to_svg(marks, narrow, title=title, bare=True),
        to_svg(marks, wide, title=title, bare=True),
        tuple((entry.svg, entry.text) for entry in entries),
        layers,
    )


def sheets_for(marks: Sequence[Mark], phone: Sheet, laptop: Sheet, high: float = HIGH_LAPTOP) -> tuple[Sheet, Sheet]:
    """The two sheets that ``on_both`` draws on."""
    return _sheets(tuple(marks), phone, laptop, high, WIDE_LAPTOP)


@lru_cache(maxsize=64)
def _sheets(marks: tuple[Mark, ...], phone: Sheet, laptop: Sheet, high: float, across: float) -> tuple[Sheet, Sheet]:
    """Found once: for every scale that is tried the whole drawing is laid out."""
    narrow = sheet_for(marks, WIDE_PHONE, min(HIGH_PHONE, high), _scaled(phone))
    return narrow, sheet_for(marks, across, high, _scaled(laptop))


def _scaled(sheet: Sheet) -> list[Sheet]:
    return [replace(sheet, scale=sheet.scale * by) for by in SMALLER]
