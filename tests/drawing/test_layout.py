"""One wall, three drawings: each sheet is laid out for its own lettering."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.drawing import LAPTOP, PAPER, PAPERS, PHONE, Ground, Joint, Mark, Sheet, elevation, key, lay_out, sheet_for
from darby.drawing.placed import Path, Ring, Words, meet
from darby.measure.units import FT
from tests.drawing.test_elevation import plain_walls
from tests.drawing.walls import bay_south, crew_room, ft, garden_wall, parapet

SHEETS = (PAPER, PHONE, LAPTOP)
JOINT = Joint("c", ((ft(8), ft(0)), (ft(8), ft(14))), "C")


def words(marks: tuple[Mark, ...], sheet: Sheet) -> list[Words]:
    return [p for p in lay_out(marks, sheet).placed if isinstance(p, Words)]


def test_scales_are_those_of_the_look() -> None:
    assert PHONE.scale * float(FT) == pytest.approx(12.3)
    assert LAPTOP.scale * float(FT) == pytest.approx(21)
    assert PAPER.scale * float(FT) == pytest.approx(72 * 3 / 16)
    assert min(PHONE.lettering, LAPTOP.lettering) >= 13 and PAPER.lettering >= 9


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: s.name)
@pytest.mark.parametrize("surface", [bay_south(), crew_room(), parapet(), garden_wall()], ids=lambda s: s.id)
def test_no_lettering_stands_on_other_lettering(surface: object, sheet: Sheet) -> None:
    marks = elevation(surface, joints=[JOINT] if surface.id == "bay-south" else [])  # type: ignore[attr-defined,arg-type]
    boxes = [(w.text, w.box(sheet)) for w in words(marks, sheet)]
    assert not [(a, b) for i, (a, one) in enumerate(boxes) for b, other in boxes[:i] if meet(one, other)]


@settings(max_examples=40, deadline=None)
@given(plain_walls(), st.sampled_from(SHEETS), st.lists(st.integers(1, 47), max_size=4, unique=True))
def test_no_figure_stands_on_another_however_tight(surface: object, sheet: Sheet, at: list[int]) -> None:
    joints = [Joint(f"j{n}", ((ft(0, n), ft(0)), (ft(0, n), ft(4)))) for n in at]
    figures = [w for w in words(elevation(surface, joints=joints), sheet) if w.role == "figure"]  # type: ignore[arg-type]
    for side in (0.0, 90.0):
        boxes = [w.box(sheet) for w in figures if w.turn == side]
        assert not [(a, b) for i, a in enumerate(boxes) for b in boxes[:i] if meet(a, b)]


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: s.name)
def test_lettering_reads_from_below_or_from_the_right(sheet: Sheet) -> None:
    turns = {w.turn for s in (bay_south(), crew_room()) for w in words(elevation(s), sheet)}
    assert turns == {0.0, 90.0}


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: s.name)
def test_the_wall_is_to_scale_on_every_sheet(sheet: Sheet) -> None:
    (outline,) = [
        p for p in lay_out(elevation(bay_south()), sheet).placed if isinstance(p, Path) and p.role == "outline"
    ]
    xs, ys = zip(*outline.points, strict=True)
    assert max(xs) - min(xs) == pytest.approx(24 * float(FT) * sheet.scale)
    assert max(ys) - min(ys) == pytest.approx(15 * float(FT) * sheet.scale)


def test_strings_stand_outside_the_wall_one_further_than_the_last() -> None:
    strings = lay_out(elevation(bay_south(), joints=[JOINT]), PAPER).strings
    below = [strings["below", row] for row in range(3)]
    assert 0 < below[0] < below[1] < below[2]
    assert strings["right", 0] > 24 * float(FT) * PAPER.scale
    assert lay_out(elevation(crew_room()), PAPER).strings["left", 0] < 0


def test_a_tag_stands_above_the_roof_over_its_joint() -> None:
    laid = lay_out(elevation(bay_south(), joints=[JOINT]), PAPER)
    (ring,) = [p for p in laid.placed if isinstance(p, Ring)]
    roof_over_eight_feet = -(14.5 * float(FT)) * PAPER.scale
    assert ring.at[0] == pytest.approx(8 * float(FT) * PAPER.scale)
    assert ring.at[1] + ring.radius < roof_over_eight_feet


def test_depths_of_grounds_keep_off_crosses_and_off_each_other() -> None:
    grounds = [Ground(ft(1 + 2 * i), ft(1 + 2 * k), ft(0, Fraction(11, 16)), past=k % 2 == 0)
               for i in range(3) for k in range(3)]  # fmt: skip
    marks = elevation(garden_wall(), grounds=grounds, sizes=False)
    for sheet in (PAPER, LAPTOP):
        boxes = [w.box(sheet) for w in words(marks, sheet)]
        assert len(boxes) == 9
        assert not [(a, b) for i, a in enumerate(boxes) for b in boxes[:i] if meet(a, b)]


def test_the_largest_usual_scale_that_fits_is_taken() -> None:
    bay, wall = elevation(bay_south()), elevation(garden_wall())
    assert sheet_for(bay, 6.6 * 72, 330).words == "3/16"
    assert sheet_for(wall, 6.6 * 72, 330).words == "3/32"
    assert sheet_for(bay, 10, 10) is min(PAPERS, key=lambda s: s.scale)
    for marks in (bay, wall):
        sheet = sheet_for(marks, 6.6 * 72, 330)
        left, top, right, bottom = lay_out(marks, sheet).box()
        assert right - left <= 6.6 * 72 and bottom - top <= 330


def test_a_key_explains_what_is_drawn_and_nothing_else() -> None:
    assert [e.text for e in key(elevation(garden_wall()), PAPER)] == ["block"]
    assert [e.role for e in key(elevation(bay_south(), joints=[JOINT]), PHONE, "es")] == [
        "block", "lath", "old dash", "zone edge", "joint", "parting"]  # fmt: skip
    assert all(
        e.svg.startswith("<svg") and f"<title>{e.text}</title>" in e.svg for e in key(elevation(bay_south()), PAPER)
    )
