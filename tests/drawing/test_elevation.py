"""What an elevation draws, and that a moved or turned-over wall is the same drawing, moved or turned over."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.drawing import Ground, Joint, Mark, elevation, moved, titled
from darby.drawing.geometry import box
from darby.measure.surface import Corner, Opening, Projection, Surface, Zone
from tests.drawing import walls
from tests.drawing.walls import bay_south, crew_room, ft, garden_wall, parapet


def texts(marks: tuple[Mark, ...], side: str, row: int) -> list[str]:
    return [m.text for m in marks if m.kind == "dimension" and (m.side, m.row) == (side, row)]


def of(marks: tuple[Mark, ...], role: str) -> list[Mark]:
    return [m for m in marks if m.role == role]


def test_the_wall_and_its_openings_stand_where_they_were_measured() -> None:
    marks = elevation(bay_south())
    (outline,) = of(marks, "outline")
    assert box(outline.points) == pytest.approx(tuple(float(x) for x in (ft(0), ft(0), ft(24), ft(15))))
    small, big = of(marks, "opening")
    assert (small.ref, big.ref) == ("bay-south/door", "bay-south/engine-door")
    assert box(big.points) == pytest.approx(tuple(float(x) for x in (ft(9), ft(0), ft(21), ft(10))))
    assert [m.ref for m in of(marks, "swing")] == ["bay-south/door"], "a door of twelve feet does not swing"


def test_three_strings_below_and_heights_at_the_right() -> None:
    joint = Joint("c", ((ft(8), ft(0)), (ft(8), ft(14))), "C")
    marks = elevation(replace(bay_south(), zones=(Zone("field", "block"),)), joints=[joint])
    assert texts(marks, "below", 0) == ["1′-8″", "3′-0″", "4′-4″", "12′-0″", "3′-0″"]
    assert texts(marks, "below", 1) == ["8′-0″", "16′-0″"]
    assert texts(marks, "below", 2) == ["24′-0″"]
    assert texts(marks, "right", 0) == ["12′-0″", "3′-0″"], "old work ends on a straight side: no break of the wall"


def test_changes_of_base_are_measured_with_the_joints() -> None:
    assert texts(elevation(bay_south()), "below", 1) == ["4′-8″", "4′-4″", "15′-0″"]


def test_heights_stand_away_from_old_work_and_name_sills_and_crowns() -> None:
    marks = elevation(crew_room())
    assert texts(marks, "right", 0) == []
    # an arc of bulge 1/2 on three feet stands nine inches over its springs
    assert texts(marks, "left", 0) == ["3′-0″", "3′-9″", "1′-3″"]
    assert texts(marks, "left", 1) == ["8′-0″"]


def test_a_plain_wall_has_one_string_a_side() -> None:
    marks = elevation(garden_wall())
    assert Counter(m.side for m in marks if m.kind == "dimension") == {"below": 1, "right": 1}
    assert not [m for m in elevation(garden_wall(), sizes=False) if m.kind == "dimension"]


def test_hatching_is_each_bases_own_and_leaves_openings_out() -> None:
    marks = elevation(bay_south())
    assert [(m.role, m.ref) for m in marks if m.kind == "hatch" and m.role in ("block", "lath")] == [
        ("block", "bay-south/field"), ("lath", "bay-south/hollow")]  # fmt: skip
    (block,) = of(marks, "block")
    assert block.origin == (0.0, 0.0), "coursing starts at the wall's lower left"
    assert [m.role for m in elevation(crew_room()) if m.role == "lath"] == ["lath"]
    (lath,) = of(elevation(crew_room()), "lath")
    assert len(lath.holes) == 1, "the window"


def test_old_work_is_drawn_in_front_and_broken_off_and_the_new_parted_from_it() -> None:
    marks = elevation(bay_south())
    (old,) = of(marks, "old dash")
    left, low, right, high = box(old.points)
    assert (right, low, high) == pytest.approx((0.0, 0.0, float(ft(9, 4)))) and left < 0
    (parting,) = of(marks, "parting")
    assert parting.ref == old.ref == "bay-south/edge-6"
    assert [m.role for m in marks if m.ref == old.ref] == [
        "old dash", "old work", "break", "roof", "letter", "gap", "parting"]  # fmt: skip
    order = [m.role for m in marks]
    assert order.index("outline") < order.index("old dash")
    (parted,) = of(elevation(crew_room()), "parting")
    assert parted.points[0][0] == pytest.approx(float(ft(14)))
    assert not of(elevation(garden_wall()), "parting")


def test_a_roof_edge_is_a_board_above_and_a_line_below() -> None:
    (gable,) = of(elevation(bay_south()), "roof")[:1]
    assert gable.kind == "polygon" and len(gable.points) == 6, "both slopes are one board"
    (line,) = of(elevation(parapet()), "roof")
    assert line.kind == "line" and line.points[0][1] == line.points[1][1] == 0
    assert not of(elevation(garden_wall()), "roof"), "a level top ends in the open"


def test_joints_are_lettered_and_a_parting_is_not_drawn_twice() -> None:
    joints = [
        Joint("c", ((ft(8), ft(0)), (ft(8), ft(14))), "C"),
        Joint("e", ((ft(0), ft(0)), (ft(0), ft(9, 4))), "E", parting=True),
    ]
    marks = elevation(bay_south(), joints=joints)
    assert [m.ref for m in of(marks, "joint")] == ["bay-south/c"]
    assert [(m.text, m.points[0]) for m in of(marks, "tag")] == [
        ("C", (float(ft(8)), float(ft(14)))), ("E", (0.0, float(ft(9, 4))))]  # fmt: skip


def test_grounds_carry_their_depth() -> None:
    marks = elevation(bay_south(), grounds=[Ground(ft(5), ft(1), ft(0, Fraction(15, 16)), past=True)])
    assert [(m.role, m.text) for m in marks if m.kind == "symbol"] == [("ground past", "15/16")]


def test_the_title_says_in_words_what_is_drawn() -> None:
    assert titled(bay_south()) == (
        "Engine bay, south wall, seen from outside, to scale: 24′-0″ wide and 15′-0″ high. "
        "Openings: door 3068, engine door."
    )
    assert titled(garden_wall(), "es") == "Garden wall, vista desde afuera, a escala: 60′-0″ de ancho y 6′-0″ de alto."


def test_names_given_stand_before_names_measured_and_an_empty_one_letters_nothing() -> None:
    marks = elevation(bay_south(), names={"door": "", "edge-6": "your office"})
    assert [m.text for m in marks if m.kind == "text"] == ["engine door", "your office"]


# --- moved, turned over ------------------------------------------------------------------------------------

inch = st.integers(1, 240).map(lambda n: ft(0, Fraction(n, 2)))


@st.composite
def plain_walls(draw: st.DrawFn) -> Surface:
    wide, high = ft(4) + draw(inch), ft(4) + draw(inch)
    left, low = draw(st.fractions(0, 1)) * (wide - ft(2)), draw(st.fractions(0, 1)) * (high - ft(2))
    hole = walls.box("o", left, low, ft(1), ft(1))
    outline = walls.box("c", ft(0), ft(0), wide, high)
    return Surface("w", "Wall", outline, walls.edges(outline, "grade", "outside corner", "top", "outside corner"),
                   openings=(Opening("o", "hole", hole),), zones=(Zone("all", "block"),))  # fmt: skip


def shifted(surface: Surface, du: Fraction, dv: Fraction) -> Surface:
    def there(outline: tuple[Corner, ...]) -> tuple[Corner, ...]:
        return tuple(replace(c, u=c.u + du, v=c.v + dv) for c in outline)

    return replace(surface, outline=there(surface.outline),
                   openings=tuple(replace(o, outline=there(o.outline)) for o in surface.openings))  # fmt: skip


def turned_over(surface: Surface) -> Surface:
    """Seen from behind: u becomes -u; corners run the other way round, each still starting its own edge."""

    def there(outline: tuple[Corner, ...]) -> tuple[Corner, ...]:
        return tuple(replace(c, u=-c.u) for c in outline)

    return replace(surface, outline=there(surface.outline),
                   openings=tuple(replace(o, outline=there(o.outline)) for o in surface.openings))  # fmt: skip


@settings(max_examples=30, deadline=None)
@given(plain_walls(), inch, inch)
def test_a_moved_wall_is_the_same_drawing_moved(surface: Surface, du: Fraction, dv: Fraction) -> None:
    there, moved_there = elevation(shifted(surface, du, dv)), moved(elevation(surface), float(du), float(dv))
    assert [(m.kind, m.role, m.text) for m in there] == [(m.kind, m.role, m.text) for m in moved_there]
    for one, other in zip(there, moved_there, strict=True):
        if one.kind != "hatch":  # where a cut outline starts is shapely's business
            assert [c for p in one.points for c in p] == pytest.approx([c for p in other.points for c in p], abs=1e-9)
        assert box(one.points) == pytest.approx(box(other.points), abs=1e-9)
        assert (one.origin or (0, 0)) == pytest.approx(other.origin or (0, 0), abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(plain_walls())
def test_a_wall_turned_over_keeps_its_sizes_in_the_other_order(surface: Surface) -> None:
    front, back = elevation(surface), elevation(turned_over(surface))
    assert Counter((m.kind, m.role) for m in front) == Counter((m.kind, m.role) for m in back)
    for row in range(3):
        assert texts(front, "below", row) == texts(back, "below", row)[::-1]
        assert texts(front, "right", row) == texts(back, "right", row)
    (a,), (b,) = of(front, "outline"), of(back, "outline")
    assert sorted(a.points) == sorted((-u, v) for u, v in b.points)


# --- pilasters -----------------------------------------------------------------------------------------


def with_pilasters(base: str = "block") -> Surface:
    wall = replace(garden_wall(), zones=(Zone("all", base),))
    stand = tuple(Projection(f"p{n}", walls.box(f"p{n}", ft(at), ft(0), ft(1, 4), ft(6)), ft(0, 4)) for n, at in
                  enumerate((10, 30, 50)))  # fmt: skip
    return replace(wall, projections=stand)


def test_pilasters_stand_on_the_face_and_are_cut_below_it_to_scale() -> None:
    marks = elevation(with_pilasters())
    assert [m.ref for m in of(marks, "arris")] == ["wall/p0", "wall/p1", "wall/p2"]
    left, low, right, high = box(of(marks, "arris")[0].points)
    assert (left, low, right, high) == pytest.approx([float(x) for x in (ft(10), ft(0), ft(11, 4), ft(6))])
    (cut,) = of(marks, "cut edge")
    left, low, right, high = box(cut.points)
    assert (left, right) == pytest.approx((0, float(ft(60))))
    assert high - low == pytest.approx(float(ft(0, 4))) and high < 0, "as far out as measured, below the wall"
    # seen from above with the reader in front of the wall, what stands out comes down the sheet
    assert [round((v - high) / float(ft(0, 4))) for _, v in cut.points] == [0, 0, -1, -1, 0] + [0, -1, -1, 0] * 2 + [0]
    (said,) = of(marks, "note")
    assert said.text == "cut through, from above: pilasters stand out 4 in."
    assert texts(marks, "below", 0) == ["10′-0″", "1′-4″", "18′-8″", "1′-4″", "18′-8″", "1′-4″", "8′-8″"]
    assert "pilastras salen 4 pulg." in of(elevation(with_pilasters(), language="es"), "note")[0].text
    assert "102 mm" in of(elevation(with_pilasters(), system="metric"), "note")[0].text


@pytest.mark.parametrize(("base", "role"), [("block", "cut block"), ("concrete", "cut concrete"), ("brick", "")])
def test_the_cut_is_hatched_by_its_base(base: str, role: str) -> None:
    cuts = [m.role for m in elevation(with_pilasters(base)) if m.role.startswith("cut ") and m.kind == "hatch"]
    assert cuts == ([role] if role else [])


def test_a_wall_without_pilasters_has_no_strip() -> None:
    assert not of(elevation(garden_wall()), "cut edge") and not of(elevation(garden_wall()), "arris")


def test_a_pilaster_flush_with_the_end_ends_the_strip() -> None:
    wall = replace(garden_wall(), projections=(Projection("p", walls.box("p", ft(0), ft(0), ft(2), ft(6)), ft(0, 4)),))
    (cut,) = of(elevation(wall), "cut edge")
    us = [u for u, _ in cut.points]
    assert us == sorted(us) and len(set(cut.points)) == len(cut.points)
