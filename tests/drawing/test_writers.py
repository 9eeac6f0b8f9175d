"""SVG and DXF come from the same marks: same things, same extents, text escaped, nothing for an auditor to mend."""

from __future__ import annotations

import io
import xml.etree.ElementTree as ET
from collections import Counter
from dataclasses import replace

import ezdxf
import pytest
from ezdxf import bbox
from ezdxf.document import Drawing
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.drawing import (
    CUT_PAPER,
    LAPTOP,
    PAPER,
    PHONE,
    ROLES,
    Coat,
    Joint,
    Mark,
    elevation,
    lay_out,
    section,
    to_dxf,
    to_svg,
)
from darby.drawing.dxf import SIZES, Units
from darby.drawing.geometry import arc
from darby.drawing.placed import Words
from darby.drawing.svg import identifier
from tests.drawing.walls import bay_south, crew_room, ft, garden_wall, parapet

SVG = "{http://www.w3.org/2000/svg}"
JOINTS = [Joint("c", ((ft(8), ft(0)), (ft(8), ft(14))), "C")]
CUT = section([Coat("scratch", ft(0, 1) / 2), Coat("finish", ft(0, 1) / 8, "finish")], "lath over block",
              joints="struck", total=True)  # fmt: skip
DRAWINGS = {
    "bay": (elevation(bay_south(), joints=JOINTS), PAPER),
    "crew": (elevation(crew_room()), PAPER),
    "parapet": (elevation(parapet()), LAPTOP),
    "garden": (elevation(garden_wall()), PHONE),
    "cut": (CUT, CUT_PAPER),
}
drawings = pytest.mark.parametrize("name", DRAWINGS)


def read(data: bytes) -> Drawing:
    return ezdxf.read(io.StringIO(data.decode()))  # type: ignore[no-any-return]


def parsed(svg: str) -> ET.Element:
    return ET.fromstring(svg)


# --- SVG ---------------------------------------------------------------------------------------------------


@drawings
def test_svg_says_what_it_shows_and_holds_everything_in_its_frame(name: str) -> None:
    marks, sheet = DRAWINGS[name]
    root = parsed(to_svg(marks, sheet, title="A wall", describe="to scale"))
    assert root.get("role") == "img" and root.get("aria-label") == "A wall to scale"
    assert [root.find(SVG + t).text for t in ("title", "desc")] == ["A wall", "to scale"]  # type: ignore[union-attr]
    left, top, right, bottom = lay_out(marks, sheet).box()
    frame = [float(x) for x in root.get("viewBox", "").split()]
    assert frame == pytest.approx([0, 0, right - left + 2, bottom - top + 2], abs=0.02)
    for text in root.iter(SVG + "text"):
        assert 0 <= float(text.get("x", "-1")) <= frame[2] and 0 <= float(text.get("y", "-1")) <= frame[3]


@drawings
def test_svg_letters_what_was_laid_out_and_gives_every_id_once(name: str) -> None:
    marks, sheet = DRAWINGS[name]
    root = parsed(to_svg(marks, sheet, title="A wall"))
    laid = [p.text for p in lay_out(marks, sheet).placed if isinstance(p, Words)]
    assert [t.text for t in root.iter(SVG + "text")] == laid
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    assert {f"{sheet.name}.{identifier(m.ref)}" for m in marks if m.ref and m.kind != "text"} <= set(ids)
    classes = {e.get("class") for e in root.iter() if e.get("class", "").startswith("d-")}
    assert classes <= {role.css for role in ROLES.values()}


def test_svg_text_and_refs_are_escaped() -> None:
    nasty = "<b a=\"1\" b='2'>&\x00\ud800 ½</b>"
    mark = Mark("text", ((0.0, 0.0),), "letter", nasty, nasty)
    hole = Mark("polygon", ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)), "opening", nasty + "2", nasty)
    svg = to_svg([mark, hole], replace(PAPER, name='a"b<', font='x"y'), title=nasty)
    root = parsed(svg)
    assert [t.text for t in root.iter(SVG + "text")] == ["<b a=\"1\" b='2'>& ½</b>"]
    assert "<b" not in svg


@given(st.text(max_size=30))
@settings(max_examples=100, deadline=None)
def test_any_name_gives_a_readable_svg_and_a_sound_id(name: str) -> None:
    root = parsed(to_svg([Mark("text", ((0.0, 0.0),), "letter", name, name)], PAPER, title=name))
    assert root.tag == SVG + "svg"
    for element in root.iter():
        assert all(c.isalnum() or c in "-._" for c in element.get("id", ""))


def test_arcs_stay_arcs() -> None:
    """A head that rises over its springs: sweep from right to left over the top is drawn with sweep 0."""
    root = parsed(to_svg(elevation(crew_room(), sizes=False), PAPER, title="x"))
    (window,) = [e for e in root.iter(SVG + "path") if e.get("class") == "d-opening"]
    assert window.get("d", "").count("A") == 1
    run = window.get("d", "").split("A")[1].split("L")[0].split()
    radius = arc((float(ft(8)), float(ft(6))), (float(ft(5)), float(ft(6))), 0.5).radius * PAPER.scale
    assert float(run[0]) == pytest.approx(radius, abs=0.01) and run[2:5] == ["0", "0", "0"]


def test_switchable_layers_are_marked() -> None:
    root = parsed(to_svg(DRAWINGS["bay"][0], PAPER, title="x"))
    layers = {g.get("class") for g in root.iter(SVG + "g") if g.get("class")}
    assert layers == {"layer-block", "layer-joints", "layer-sizes"}


def test_the_same_marks_are_the_same_text() -> None:
    marks, sheet = DRAWINGS["bay"]
    assert to_svg(marks, sheet, title="x") == to_svg(elevation(bay_south(), joints=JOINTS), sheet, title="x")
    assert to_dxf(marks) == to_dxf(elevation(bay_south(), joints=JOINTS))


# --- DXF ---------------------------------------------------------------------------------------------------

ENTITIES = {"line": "LINE", "polyline": "LWPOLYLINE", "polygon": "LWPOLYLINE", "arc": "ARC", "dimension": "DIMENSION",
            "hatch": "HATCH", "symbol": "INSERT"}  # fmt: skip


@drawings
def test_dxf_has_an_entity_for_every_mark_and_nothing_to_mend(name: str) -> None:
    marks, sheet = DRAWINGS[name]
    document = read(to_dxf(marks, sheet))
    auditor = document.audit()
    assert not auditor.errors and not auditor.fixes
    drawn = [m for m in marks if ROLES[m.role].dxf]
    wanted = Counter(ENTITIES[m.kind] for m in drawn if m.kind != "text")
    lettered = [w for m in drawn if m.kind == "text" for w in lay_out([m], sheet).placed]
    found = Counter(e.dxftype() for e in document.modelspace())
    assert found == wanted + Counter({"TEXT": len(lettered)} if lettered else {})


@drawings
def test_dxf_layers_are_those_of_the_roles(name: str) -> None:
    marks, sheet = DRAWINGS[name]
    document = read(to_dxf(marks, sheet))
    assert {e.dxf.layer for e in document.modelspace()} == {ROLES[m.role].dxf for m in marks if ROLES[m.role].dxf}


@pytest.mark.parametrize(
    ("units", "width", "code"), [("in", 288, 1), ("ft", 24, 2), ("mm", 7315.2, 4), ("m", 7.3152, 6)]
)
def test_dxf_is_full_size_in_the_unit_asked_for(units: Units, width: float, code: int) -> None:
    document = read(to_dxf(elevation(bay_south()), units=units))
    assert document.header["$INSUNITS"] == code == SIZES[units][1]
    (outline,) = document.modelspace().query('LWPOLYLINE[layer=="WALL"]')
    box = bbox.extents([outline], fast=True)
    assert (box.size.x, box.size.y) == pytest.approx((width, width * 15 / 24))


def test_dxf_and_svg_have_the_same_extents() -> None:
    """The wall, its neighbour and its roof: the same corners, in metres."""
    marks = tuple(m for m in elevation(bay_south(), sizes=False) if m.kind in ("line", "polyline", "polygon"))
    box = bbox.extents(read(to_dxf(marks, units="m")).modelspace(), fast=True)
    root = parsed(to_svg(marks, PAPER, title="x"))
    frame = [float(x) / PAPER.scale for x in root.get("viewBox", "").split()]
    # the frame also holds half a line on each side and its margin
    assert (box.size.x, box.size.y) == pytest.approx(tuple(frame[2:]), abs=5 / PAPER.scale)


def test_dxf_keeps_arcs_and_bulges() -> None:
    document = read(to_dxf(elevation(crew_room()), units="m"))
    bulges = [p[4] for e in document.modelspace().query('LWPOLYLINE[layer=="OPENINGS"]') for p in e.get_points()]
    assert 0.5 in bulges
    (one, *_) = read(to_dxf(CUT, CUT_PAPER, units="m")).modelspace().query("ARC")
    mark = next(m for m in CUT if m.kind == "arc")
    turn = arc(*mark.points, mark.bulges[0])
    assert (one.dxf.radius, one.dxf.center.x) == pytest.approx((turn.radius, turn.centre[0]))
    ends = sorted((p.x, p.y) for p in (one.start_point, one.end_point))
    assert [c for p in ends for c in p] == pytest.approx([c for p in sorted(mark.points) for c in p])


def test_dxf_dimensions_measure_what_they_say() -> None:
    document = read(to_dxf(elevation(bay_south()), units="ft"))
    measured = sorted(round(d.get_measurement(), 4) for d in document.modelspace().query("DIMENSION"))
    assert measured == sorted([1.6667, 3, 4.3333, 12, 3, 4.6667, 4.3333, 15, 24, 12, 3])
    assert "24′-0″" in {d.dxf.text for d in document.modelspace().query("DIMENSION")}


def test_dxf_text_keeps_a_name_and_none_of_its_codes() -> None:
    named = elevation(bay_south(), names={"engine-door": "puerta <ancha> & ½ %%c"})
    texts = [e.dxf.text for e in read(to_dxf(named)).modelspace().query("TEXT")]
    assert "puerta <ancha> & ½ % %c" in texts


@given(st.text(max_size=20))
@settings(max_examples=25, deadline=None)
def test_any_name_gives_a_sound_dxf(name: str) -> None:
    marks = [Mark("text", ((0.0, 0.0),), "letter", name, name), Mark("symbol", ((0.0, 0.0),), "tag", name, name),
             Mark("dimension", ((0.0, 0.0), (1.0, 0.0)), "dimension", name, name)]  # fmt: skip
    auditor = read(to_dxf(marks)).audit()
    assert not auditor.errors and not auditor.fixes


def test_units_that_dxf_does_not_know_are_refused() -> None:
    with pytest.raises(KeyError):
        to_dxf(elevation(parapet()), units="yd")  # type: ignore[arg-type]
