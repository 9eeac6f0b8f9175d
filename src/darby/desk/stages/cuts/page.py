"""The cut list: every bar drawn as it is sawn, what it costs, and what is saved against sawing the longest first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.http import HttpRequest
from quicktions import Fraction

from darby.desk.drawn import WIDE_LAPTOP, WIDE_PHONE, Drawing, writer_for
from darby.desk.once import once
from darby.desk.places import StagePage
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.drawing import Sheet, to_svg
from darby.drawing.bars import bar_marks
from darby.drawing.lettering import size
from darby.papers.filled.sawing import cut_list_papers, piece_letter

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.papers.model import SawPart, SawRow
    from darby.quantities.cutting.model import Bar, CutList
    from darby.tables.setting import Setting

HIGH, LETTERS = 26.0, 13.5
"""A bar on the screen, and its lettering [px]."""
ROOM = 580.0
"""Room for the longest bar on a laptop [px]."""


@dataclass(frozen=True, slots=True)
class Sawn:
    """Bars sawn alike: their numbers, what they are, drawn, where each piece goes, what is left."""

    bars: str
    stock: str
    drawing: Drawing
    pieces: tuple[tuple[str, str, str], ...]
    left: str


@dataclass(frozen=True, slots=True)
class Part:
    """One profile: what to buy, its sums, whether it is proved the cheapest and by what, and how it is sawn."""

    name: str
    stock: tuple[str, ...]
    sums: tuple[tuple[str, str], ...]
    proved: str
    proof: tuple[str, ...]
    notes: tuple[str, ...]
    sawn: tuple[Sawn, ...]


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """The firm's copy of the cut list, drawn for the screen."""
    answers, setting = read.answers, said_in(request)
    if answers is None:
        return {}
    return once(answers, "cut list", setting, make=lambda: _made(answers, setting))


def _made(answers: Answers, setting: Setting) -> dict[str, Any]:
    paper = cut_list_papers(writer_for(answers, setting)).get("cuts-money.pdf")
    if paper is None:
        return {"parts": ()}
    lists = [x.cuts for x in answers.of("cuts").lists if x.cuts]
    longest = float(max(bar.stock for cuts in lists for bar in cuts.bars))
    sheets = [Sheet(name, wide / longest, LETTERS, wide=1.08) for name, wide in
              (("bars-phone", WIDE_PHONE), ("bars-laptop", min(ROOM, WIDE_LAPTOP)))]  # fmt: skip
    parts = tuple(_part(part, cuts, sheets, setting) for part, cuts in zip(paper.parts, lists, strict=True))
    return {
        "parts": parts,
        "sums": paper.sums,
        "opening": paper.opening.first,
        "saw_notes": [note.first for note in paper.notes],
        "saw_cautions": [(caution.opening.first, caution.text.first) for caution in paper.cautions],
    }


def _part(part: SawPart, cuts: CutList, sheets: list[Sheet], setting: Setting) -> Part:
    stock = tuple(
        f"{row.count} × {row.length.first}" + (f", {row.each}: {row.sum}" if row.each else "") for row in part.stock
    )
    rows = zip(part.rows, cuts.patterns, strict=True)
    sawn = tuple(_sawn(row, bars[0], Fraction(cuts.kerf), sheets, setting) for row, bars in rows)
    notes = tuple(note.first for note in part.notes)
    return Part(part.name.first, stock, part.sums, part.proved, part.proof, notes, sawn)


def _sawn(row: SawRow, bar: Bar, kerf: Fraction, sheets: list[Sheet], setting: Setting) -> Sawn:
    pieces = [(piece_letter(n), Fraction(cut.length)) for n, cut in enumerate(bar.cuts)]
    left = size(bar.left, setting.system) if bar.left else ""
    drawn = [
        to_svg(bar_marks(Fraction(bar.stock), pieces, kerf, sheet, left, setting.system, HIGH), sheet,
               title=row.picture.alt)
        for sheet in sheets
    ]  # fmt: skip
    cuts = tuple((one.letter, one.length, one.where.first) for one in row.cuts)
    return Sawn(row.bars, row.stock.first, Drawing(row.picture.alt, drawn[0], drawn[1]), cuts, row.left)


PAGE = StagePage(place="money", order=2, stages=("cuts",), sections=("cuts",), later=True, more=more)
