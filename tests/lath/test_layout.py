"""Sheets in their places on walls that can be drawn on the back of an envelope."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from darby.lath import Corner, Lath, LathAsk, Reveal, lay_lath
from darby.lath.courses import Rules, bands
from darby.measure.units import FT, IN, unit
from darby.working import Found, Working
from tests.lath.asking import box, following, framed, hole, inch, joint, over_block, points

SQ_FT = unit("sq ft")


def laid(ask: LathAsk) -> Lath:
    return lay_lath(ask)[0]


def placed(found: Lath) -> list[tuple[float, ...]]:
    """(left, right, low, high) of every piece in inches."""
    return [tuple(float(x / IN) for x in (p.left, p.right, p.low, p.high)) for p in found.pieces]


def sizes(found: Lath) -> list[tuple[float, float]]:
    """(length, width) of every strip in inches."""
    return [(float(s.length / IN), float(s.width / IN)) for s in found.strips]


def codes(working: Working) -> list[str]:
    return [n.code for n in working.notes]


# --- courses -----------------------------------------------------------------------------------


def test_full_sheets_from_the_foot_and_the_rest_on_top() -> None:
    """A wall of 8 ft on a sheet's length: courses at 0, 26 1/2, 53 and 79 1/2 in., the last 16 1/2 in. high."""
    found = laid(framed(96, 96))
    assert placed(found) == [(0, 96, 0, 27), (0, 96, 26.5, 53.5), (0, 96, 53, 80), (0, 96, 79.5, 96)]
    assert found.joints == ()
    assert found.sheets.value == 4


def test_a_top_course_too_narrow_to_fasten_is_lowered() -> None:
    """81 in. would leave a strip of 1 1/2 in.: it is made 6 in. and laps the more."""
    assert placed(laid(framed(96, 81)))[-1] == (0, 96, 75, 81)
    assert placed(laid(framed(96, 85)))[-1] == (0, 96, 79, 85)
    assert placed(laid(framed(96, 86)))[-1] == (0, 96, 79.5, 86)


def test_a_wall_no_higher_than_a_sheet_is_one_course() -> None:
    rules = Rules(inch(27), inch(97), inch(1) / 2, inch(1), inch(6), None)
    assert bands(Fraction(0), inch(27), rules) == [(0, inch(27))]
    assert len(bands(Fraction(0), inch(27) + IN / 100, rules)) == 2
    assert bands(inch(10), inch(12), rules) == [(inch(10), inch(12))]


def test_ends_lap_over_studs_and_not_over_the_joint_below() -> None:
    found = laid(framed(192, 53.5))
    assert all(j.over_framing for j in found.joints)
    below, above = (tuple(float(j.u / IN) for j in found.joints if j.course == n) for n in (1, 2))
    assert not set(below) & set(above)
    for course in (1, 2):
        row = [p for p in found.pieces if p.course == course]
        assert all(here.right - there.left == IN for here, there in pairwise(row))


def test_a_sheet_of_96_reaches_five_studs_and_one_of_97_six() -> None:
    """A lap of 1 in. on the stud: 95 in. are 5 x 16 = 80 with 15 lost, 96 in. are six studs."""
    short, working = lay_lath(framed(161, 27, sheet=(inch(27), inch(96))))
    assert [float(j.u / IN) for j in short.joints] == [80]
    assert "lath.sheet-reach" in codes(working)
    (note,) = [n for n in working.notes if n.code == "lath.sheet-reach"]
    assert [float(v.value / IN) for _, v in note.values] == pytest.approx([96, 80, 15])  # type: ignore[attr-defined]
    long, working = lay_lath(framed(192, 27))
    assert [float(j.u / IN) for j in long.joints] == [96]
    assert "lath.sheet-reach" not in codes(working)


def test_framing_too_wide_for_the_sheet_is_said() -> None:
    found, working = lay_lath(framed(300, 27, studs=inch(120)))
    assert {"lath.between-framing", "lath.framing-wide"} <= set(codes(working))
    assert any(not j.over_framing for j in found.joints)
    assert all(p.right - p.left <= inch(97) for p in found.pieces)


def test_on_masonry_ends_lap_where_they_come_in_running_bond() -> None:
    """Two sheets and their lap reach 193 in.: one whole row, the next from a part of a sheet."""
    found = laid(over_block(193, 53.5))
    rows = [[float(j.u / IN) for j in found.joints if j.course == n] for n in (1, 2)]
    assert rows[0] == [96.5]
    assert all(abs(u - 96.5) >= 97 / 4 for u in rows[1])
    assert not any(j.over_framing for j in found.joints)


# --- openings, joints, corners -----------------------------------------------------------------


def test_courses_stop_at_an_opening_and_go_over_and_under_it() -> None:
    found = laid(framed(144, 96, hole("window", 48, 96, 26, 80)))
    assert (0, 48, 26.5, 53.5) in placed(found)
    assert (96, 144, 26.5, 53.5) in placed(found)
    assert all(not (p.left < inch(60) < p.right and p.low < inch(60) < p.high) for p in found.pieces)


def test_only_what_is_over_a_wide_door_is_cut_for_it() -> None:
    """Over a door 96 in. high the strip is as high as the wall there, not as the course."""
    found = laid(over_block(400, 106, hole("door", 100, 300, 0, 96)))
    (strip,) = [p for p in found.pieces if inch(110) < p.left and p.right < inch(290)]
    assert (strip.low, strip.high) == (inch(96), inch(106))


def test_lath_is_cut_at_joints() -> None:
    found = laid(framed(192, 54, joints=(joint("a", (90, 0), (90, 54)), joint("b", (90, 30), (192, 30)))))
    assert {p.panel for p in found.pieces} == {1, 2, 3}
    for p in found.pieces:
        assert not p.left < inch(90) < p.right
        assert not (p.left >= inch(90) and p.low < inch(30) < p.high)


def test_joints_at_the_corners_of_an_opening_cut_only_what_they_pass() -> None:
    window = hole("window", 60, 96, 36, 72)
    ask = framed(160, 96, window, joints=(joint("up", (60, 72), (60, 96)), joint("down", (60, 0), (60, 36))))
    found, working = lay_lath(ask)
    assert "lath.joint-loose" not in codes(working)
    assert not [p for p in found.pieces if p.left < inch(60) < p.right]
    one, working = lay_lath(framed(160, 96, window, joints=(joint("up", (60, 72), (60, 96)),)))
    assert [p for p in one.pieces if p.left < inch(60) < p.right and p.high <= inch(53.5)]
    assert not [p for p in one.pieces if p.left < inch(60) < p.right and p.low > inch(72)]


def test_a_joint_that_ends_in_the_field_is_said() -> None:
    _, working = lay_lath(framed(160, 96, joints=(joint("half", (80, 0), (80, 50)),)))
    assert "lath.joint-loose" in codes(working)
    _, working = lay_lath(framed(160, 96, joints=(joint("whole", (80, 0), (80, 96)),)))
    assert "lath.joint-loose" not in codes(working)
    tee = (joint("whole", (80, 0), (80, 96)), joint("branch", (80, 50), (160, 50)))
    assert "lath.joint-loose" not in codes(lay_lath(framed(160, 96, joints=tee))[1])


def test_a_level_joint_that_ends_at_a_window_parts_the_lath_and_is_said() -> None:
    window = hole("window", 60, 96, 36, 72)
    _, working = lay_lath(framed(160, 96, window, joints=(joint("sill", (96, 36), (160, 36)),)))
    assert "lath.parted" in codes(working)
    whole = (joint("level", (0, 36), (160, 36)),)
    found, working = lay_lath(framed(160, 96, window, joints=whole))
    assert "lath.parted" not in codes(working)
    assert {p.panel for p in found.pieces} == {1, 2}


def test_sheets_go_round_a_corner_as_far_as_the_voice_says() -> None:
    """The Navy carries lath on 4 in.; Ontario 150 mm round outside corners."""
    corner = Corner("west", "left", "outside", "round")
    found = laid(framed(100, 27, corners=(corner,)))
    assert found.pieces[0].left == -inch(4)
    assert found.pieces[0].turn_left == inch(4)
    assert found.pieces[-1].turn_right == 0
    far = laid(framed(100, 27, corners=(corner,), book=following(lath_corner="ontario")))
    assert far.pieces[0].turn_left == Fraction(15, 100)
    assert sum(p.net for p in found.pieces) >= inch(100) * inch(27)


def test_corner_lath_is_as_long_as_the_corner() -> None:
    corner = Corner("north", "right", "inside", "strip")
    found, working = lay_lath(over_block(100, 120, corners=(corner,)))
    assert sizes(found) == [(97, 8), (24, 8)]
    assert {s.sheet for s in found.strips} == {None}
    assert found.corner_lath is not None
    assert found.corner_lath.value == inch(121)
    assert "lath.corner-strip" in codes(working)
    by_memory = laid(over_block(100, 96, corners=(corner,), book=following(lath_corner="c1063")))
    assert by_memory.strips[0].width == inch(4)
    assert laid(over_block(100, 96, corners=(Corner("x", "left", "outside"),))).strips == ()


def test_reveals_take_strips_out_of_what_is_left() -> None:
    """A reveal of 4 in. and 4 in. on the face: strips 8 in. wide, as long as the side."""
    window = hole("window", 48, 96, 27, 80, Reveal("left", inch(4)), Reveal("head", inch(4)))
    found, working = lay_lath(framed(144, 96, window))
    assert [(s.side, float(s.length / IN), float(s.width / IN), float(s.leg / IN)) for s in found.strips] == [
        ("left", 53, 8, 4),
        ("head", 48, 8, 4),
    ]
    assert all(s.sheet is not None for s in found.strips)
    assert "lath.reveal-strips" in codes(working)
    deep = hole("door", 48, 96, 0, 120, Reveal("right", inch(30)))
    wide = laid(over_block(144, 144, deep))
    assert sizes(wide) == [(97, 27), (24, 27), (97, 7.5), (24, 7.5)]


def test_a_gable_is_covered_to_its_tip() -> None:
    outline = points((0, 0), (288, 0), (288, 96), (144, 168), (0, 96))
    found = laid(LathAsk("bay/gable", outline, base="lath over block", sheet=(inch(27), inch(97))))
    assert found.area.value == (288 * 96 + 144 * 72) * IN**2
    assert max(p.high for p in found.pieces) == inch(168)
    assert sum(p.net for p in found.pieces) >= found.area.value


# --- counts ------------------------------------------------------------------------------------


def test_the_square_yard_rule_stands_beside_with_the_difference() -> None:
    """180 sq ft are ten sheets by the yard; studs, laps and courses ask more."""
    found, working = lay_lath(framed(240, 108))
    assert found.by_yard.value == 10
    assert found.more.value == found.sheets.value - 10 > 0
    assert "lath.more-than-rule" in codes(working)
    step = working.steps["crew/main/lath/sheets"]
    assert isinstance(step, Found)
    assert step.method == "lath.method.sheet-by-sheet"
    assert len(step.proof) == 2
    # 18 sheets and more: what is laid, cut into strips, left over and scrap are all that was bought
    by_sheet, by_part = (line.removesuffix(" sq ft").split(" sq ft = ") for line in step.proof)
    parts = [float(part) for part in by_part[0].split(" sq ft + ")]
    assert len(parts) == 4
    assert sum(parts) == pytest.approx(found.sheets.value * 27 * 97 / 144, abs=0.0002)
    assert by_part[1] == by_sheet[1]


def test_offcuts_are_used_before_a_new_sheet_is_begun() -> None:
    """Three panels of 32 in.: one sheet of 97 in. gives them all."""
    ask = over_block(96, 27, joints=(joint("a", (32, 0), (32, 27)), joint("b", (64, 0), (64, 27))))
    found = laid(ask)
    assert found.sheets.value == 1
    assert [p.reused for p in found.pieces] == [False, True, True]
    assert [p.sheet for p in found.pieces] == [1, 1, 1]
    assert found.offcuts == ()
    assert found.scrap.value == inch(1) * inch(27)


def test_equal_walls_multiply() -> None:
    found = laid(framed(96, 96, count=3))
    assert (found.sheets.value, found.all_sheets.value) == (4, 12)


def test_nothing_is_lost_of_a_sheet() -> None:
    found = laid(framed(171, 97, hole("window", 50, 90, 30, 70, Reveal("sill", inch(5)))))
    sheets = found.sheets.value * inch(27) * inch(97)
    laid_ = sum(p.area for p in found.pieces)
    strips = sum(s.length * s.width for s in found.strips if s.sheet is not None)
    left = sum(o.length * o.width for o in found.offcuts)
    assert sheets == laid_ + strips + left + found.scrap.value


@pytest.mark.parametrize(("voice", "side", "end"), [("c1063", 0.5, 1), ("merritt", 1, 2)])
def test_laps_by_voice(voice: str, side: float, end: float) -> None:
    found = laid(framed(180, 54, book=following(lath_lap=voice)))
    rows = [[p for p in found.pieces if p.course == n] for n in (1, 2)]
    assert rows[0][0].high - rows[1][0].low == inch(side)
    assert rows[0][0].right - rows[0][1].left == inch(end)


def test_his_own_laps_come_first_and_short_ones_are_a_caution() -> None:
    found, working = lay_lath(framed(180, 54, side_lap=inch(2), end_lap=IN / 2))
    rows = [[p for p in found.pieces if p.course == n] for n in (1, 2)]
    assert rows[0][0].high - rows[1][0].low == inch(2)
    assert rows[0][0].right - rows[0][1].left == IN / 2
    grades = [n.grade for n in working.notes if n.code == "lath.own-lap"]
    assert grades == ["fact", "caution"]


def test_assumptions_are_said() -> None:
    said = set(codes(lay_lath(LathAsk("a/main", box(0, 100, 0, 50)))[1]))
    assert {"lath.assumed.sheet", "lath.assumed.studs", "lath.assumed.first-stud", "lath.assumed.paper-width"} <= said
    assert not {c for c in codes(lay_lath(framed(100, 50, roll=None))[1]) if c.startswith("lath.assumed.s")}


def test_sheets_nobody_named_are_the_books() -> None:
    found = laid(LathAsk("a/main", box(0, 96, 0, 27), base="block"))
    assert placed(found) == [(0, 96, 0, 27)]
    assert laid(LathAsk("a/main", box(0, 97, 0, 27), base="block")).sheets.value == 2
    by = following(lath_sheet="c847-10")
    assert laid(LathAsk("a/main", box(0, 97, 0, 27), base="block", book=by)).sheets.value == 1


def test_the_weight_of_the_lath_is_for_supports_16_in_apart() -> None:
    _, working = lay_lath(framed(96, 96))
    (note,) = [n for n in working.notes if n.code == "lath.weight"]
    assert dict(note.values)["weight"].number / unit("lb/sq yd").scale == pytest.approx(3.4)  # type: ignore[attr-defined]
    assert "lath.weight" not in codes(lay_lath(framed(96, 96, studs=inch(24)))[1])


def test_side_laps_are_tied() -> None:
    _, working = lay_lath(over_block(96, 96))
    (note,) = [n for n in working.notes if n.code == "lath.ties"]
    assert dict(note.values)["apart"].number == pytest.approx(float(9 * IN))  # type: ignore[attr-defined]


def test_equal_asks_are_equal() -> None:
    assert framed(96, 96) == framed(96, 96)
    assert hash(framed(96, 96)) == hash(framed(96, 96))
    assert FT == 12 * IN
