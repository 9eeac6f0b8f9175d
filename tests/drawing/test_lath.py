"""Lath on the elevation: every sheet where it was laid, numbered upright, on a layer of its own."""

from __future__ import annotations

import re
from fractions import Fraction

import shapely
from shapely.geometry import Polygon

from darby.drawing import LAPTOP, PHONE, ROLES, key, lathed_elevation, lay_out, to_dxf, to_svg
from darby.lath import Corner, LathAsk, lay_lath
from darby.lath import Opening as Hole
from darby.measure import opening, wall, zone
from darby.measure.outline import flat
from darby.measure.surface import Surface
from darby.measure.units import FT, IN


def made(surface: Surface, name: str = "", **more: object):  # type: ignore[no-untyped-def]
    """The lath of a zone of a framed wall, or of all of it."""
    outlines = {z.id: flat(z.outline) for z in surface.zones if z.outline is not None}
    holes = [Hole(o.id, flat(o.outline)) for o in surface.openings]
    holes += [Hole(z, points) for z, points in outlines.items() if z != name]
    ask = LathAsk(f"{surface.id}/{name}", outlines.get(name) or flat(surface.outline), tuple(holes),
                  studs=16 * IN, first_stud=Fraction(0), sheet=(27 * IN, 97 * IN), paper=2, **more)  # type: ignore[arg-type]  # fmt: skip
    return lay_lath(ask)[0]


def gable() -> Surface:
    window = opening("w1", "window", 3 * FT, 4 * FT, 5 * FT, 3 * FT)
    return wall("g", "gable", 14 * FT, 8 * FT, gable=4 * FT, openings=(window,), zones=(zone("rest", "frame"),))


def marks(surface: Surface, name: str = "rest", **more: object):  # type: ignore[no-untyped-def]
    lath = made(surface, name, **more)
    return lath, lathed_elevation(surface, [(name, lath)])


def test_the_sheets_cover_the_wall_and_none_lies_on_a_window() -> None:
    surface = gable()
    _, drawn = marks(surface)
    sheets = [Polygon(m.points) for m in drawn if m.role == "sheet"]
    covered = shapely.union_all(sheets)
    bare = Polygon([(float(u), float(v)) for u, v in flat(surface.outline)])
    hole = Polygon([(float(u), float(v)) for u, v in flat(surface.openings[0].outline)])
    assert covered.symmetric_difference(bare.difference(hole)).area < 0.01


def test_every_sheet_is_numbered_upright() -> None:
    lath, drawn = marks(gable())
    numbers = [m for m in drawn if m.role == "sheet number"]
    assert numbers and all(m.turn == 0 and m.upright for m in numbers)  # a 6 that is turned reads as a 9
    for sheet in (PHONE, LAPTOP):
        shown = [p for p in lay_out(drawn, sheet).placed if getattr(p, "role", "") == "sheet number"]
        assert shown and all(words.turn == 0 for words in shown)
    assert {m.text.strip("()") for m in numbers} <= {str(n) for n in range(1, int(lath.sheets.value) + 1)}
    reused = {p.id for p in lath.pieces if p.reused}
    assert sum(m.text.startswith("(") for m in numbers) <= len(reused)


def test_the_hatching_of_a_lathed_zone_makes_way_and_that_of_another_stays() -> None:
    patch = zone("patch", "frame", [(0 * FT, 0 * FT), (6 * FT, 0 * FT), (6 * FT, 5 * FT), (0 * FT, 5 * FT)])
    surface = wall("w", "wall", 20 * FT, 8 * FT, zones=(patch, zone("rest", "block")))
    _, drawn = marks(surface, "patch")
    hatched = {m.role for m in drawn if m.kind == "hatch"}
    assert "lath" not in hatched and "block" in hatched
    assert max(u for m in drawn if m.role == "sheet" for u, _ in m.points) <= float(6 * FT) + 1e-9


def test_joints_studs_paper_and_strips_stand_in_the_key() -> None:
    _, drawn = marks(gable(), corners=(Corner("left", "left", "inside", "strip"),))
    listed = {entry.role for entry in key(drawn, LAPTOP)}
    assert {"sheet", "end lap", "stud", "paper course", "lath strip"} <= listed
    assert {"malla", "traslape"} <= set(re.findall(r"\w+", " ".join(e.text for e in key(drawn, LAPTOP, "es"))))


def test_lath_is_a_layer_that_can_be_hidden_and_a_layer_of_the_dxf() -> None:
    _, drawn = marks(gable())
    for sheet in (PHONE, LAPTOP):
        assert 'class="layer-lath"' in to_svg(drawn, sheet, title="x")
    assert {ROLES[m.role].layer for m in drawn if m.role in ("sheet", "end lap", "stud", "sheet number")} == {"lath"}
    text = to_dxf(drawn).decode()
    assert "SHEETS" in text and "STUDS" in text
