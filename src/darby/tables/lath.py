"""Lath and paper as pages: a line for every zone, and where every sheet goes."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING

from darby.measure.surface import Length
from darby.measure.units import unit
from darby.tables.page import Page
from darby.tables.places import edge_called, place
from darby.tables.setting import Setting
from darby.words import Verbatim
from darby.working import Note, Quantity

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.answers.lath import SurfaceLath
    from darby.lath import Lath, Piece, Strip

FEET, IN = unit("ft-in"), unit("in")


def lath_pages(answers: Answers, setting: Setting) -> list[Page]:
    """What every zone takes; [] where nothing takes lath."""
    rows = []
    for surface, found in answers.good("lath").items():
        for zone, lath in found.zones:
            rows.append((place(answers, f"{surface}/{zone}", setting), *_taken(lath, setting)))
    if not rows:
        return []
    heads = tuple(
        setting.say(f"cli.lath.{h}") for h in ("where", "area", "sheets", "by-yard", "fasteners", "by-area", "paper")
    )
    numbers = frozenset(range(1, len(heads)))
    return [Page("lath", setting.say("cli.lath.title"), heads, tuple(rows), right=numbers, whole=numbers)]


def _taken(lath: Lath, setting: Setting) -> tuple[str, ...]:
    paper = ""
    if lath.paper is not None:
        paper = setting.write(lath.paper.area)
    counts = (lath.area, lath.all_sheets, lath.by_yard, lath.fasteners, lath.fasteners_by_area)
    return *(setting.write(x) for x in counts), paper


def sheets_pages(answers: Answers, setting: Setting) -> list[Page]:
    """What every zone takes, then where every sheet, strip and course of paper goes."""
    made = [replace(page, lines=_beside_the_order(answers, setting)) for page in lath_pages(answers, setting)]
    for surface, found in answers.good("lath").items():
        made += _surface(surface, found, answers, setting)
    return made or [Page("lath", setting.say("cli.lath.title"), lines=(setting.say("cli.lath.none"),))]


def _beside_the_order(answers: Answers, setting: Setting) -> tuple[str, ...]:
    """What is laid against what is ordered; in the whole answer it stands among what to take care of."""
    if "job" not in answers.good("sheets"):
        return ()
    notes = answers.kept[("sheets", "job")].working.notes
    return tuple(setting.say(n.code, **dict(n.values)) for n in notes)


def laths_of(surface: str, answers: Answers, setting: Setting) -> list[Page]:
    """Where every sheet, strip and course of paper of one wall goes; [] where it takes no lath."""
    found: SurfaceLath | None = answers.answered("lath", surface)
    return _surface(surface, found, answers, setting) if found is not None else []


def _surface(surface: str, found: SurfaceLath, answers: Answers, setting: Setting) -> list[Page]:
    made = []
    notes = answers.kept[("lath", surface)].working.notes
    for zone, lath in found.zones:
        at = f"{surface}/{zone}"
        name = Verbatim(place(answers, at, setting))
        rows: list[tuple[str, ...]] = []
        for (panel, course), pieces in groupby(lath.pieces, key=lambda p: (p.panel, p.course)):
            rows.append((setting.say("cli.lath.course", panel=str(panel), course=str(course)),))
            rows += [_piece(piece, setting) for piece in pieces]
        if lath.strips:
            rows.append((setting.say("cli.lath.strips"),))
            rows += [_strip(strip, surface, answers, setting) for strip in lath.strips]
        heads = tuple(setting.say(f"cli.lath.{h}") for h in ("piece", "from-left", "up", "cut", "from-sheet"))
        lines = tuple(_said(n, surface, answers, setting) for n in notes if n.at == at)
        made.append(Page("lath", setting.say("cli.lath.of", wall=name), heads, tuple(rows), lines=lines,
                         right=frozenset({1, 2, 3}), whole=frozenset({1, 2, 3})))  # fmt: skip
        if lath.paper is not None:
            made.append(_paper(lath, name, setting))
    return made


def _said(note: Note, surface: str, answers: Answers, setting: Setting) -> str:
    values = dict(note.values)
    if isinstance(values.get("edge"), str):
        values["edge"] = Verbatim(edge_called(answers, surface, str(values["edge"]), setting))
    return setting.say(note.code, **values)


def _feet(length: Length, setting: Setting) -> str:
    return setting.write(Quantity(length, FEET))


def _cut(length: Length, width: Length, setting: Setting) -> str:
    return f"{setting.write(Quantity(width, IN))} × {_feet(length, setting)}"


def _piece(piece: Piece, setting: Setting) -> tuple[str, ...]:
    across = f"{_feet(piece.left, setting)} – {_feet(piece.right, setting)}"
    up = f"{_feet(piece.low, setting)} – {_feet(piece.high, setting)}"
    cut = _cut(piece.right - piece.left, piece.high - piece.low, setting)
    return piece.id, across, up, cut, _from(piece.sheet, setting, reused=piece.reused)


def _strip(strip: Strip, surface: str, answers: Answers, setting: Setting) -> tuple[str, ...]:
    edge = f"{strip.of}/{strip.side}" if strip.sheet is not None else strip.of
    name = edge_called(answers, surface, edge, setting)
    sheet = _from(strip.sheet, setting, reused=strip.reused) if strip.sheet else setting.say("cli.lath.corner-lath")
    return name, "", "", _cut(strip.length, strip.width, setting), sheet


def _from(sheet: int | None, setting: Setting, *, reused: bool) -> str:
    return setting.say("cli.lath.offcut" if reused else "cli.lath.sheet", sheet=str(sheet))


def _paper(lath: Lath, name: Verbatim, setting: Setting) -> Page:
    assert lath.paper is not None
    rows = [
        (
            str(strip.layer),
            str(strip.course),
            f"{_feet(strip.left, setting)} – {_feet(strip.right, setting)}",
            f"{_feet(strip.low, setting)} – {_feet(strip.high, setting)}",
            str(strip.roll or ""),
        )
        for strip in lath.paper.strips
    ]
    heads = tuple(setting.say(f"cli.lath.{h}") for h in ("layer", "course-head", "from-left", "up", "roll"))
    return Page("lath", setting.say("cli.lath.paper-of", wall=name), heads, tuple(rows), right=frozenset(range(5)))
