"""Layouts on lath: limits first, corners next, lined through, even; every slack; what is drawn and ordered."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from darby.joints import Forbidden, Ground, JointsAsk, Pin, lay_out, lay_out_joints
from darby.joints.allowed import Allowed
from darby.joints.lines import Line, thinned
from darby.measure import faces, net_area, zone
from darby.measure.units import FT
from tests.joints.asking import BOOK, SQ_FT, best, codes, feet, ft, hole, lines, own, plain, run, sizes

F = Fraction


# --- limits, exactly ----------------------------------------------------------------------------------


@pytest.mark.parametrize(("wide", "high"), [(12, 12), (6, 15), (15, 6), (F("14.4"), 10), (18, 8)])
def test_a_panel_just_at_a_limit_needs_no_joint(wide: Fraction, high: Fraction) -> None:
    # 144 sq ft; 15 to 6 is 2.5 : 1; 18 ft and 144 sq ft at once
    answer, _ = run(plain(wide, high))
    assert answer.chosen.laid == 0 and answer.chosen.holds and len(answer.chosen.panels) == 1
    assert "joints.none-needed" in codes(answer)
    panel = answer.chosen.panels[0]
    assert min(float(panel.area_slack), float(panel.side_slack), float(panel.ratio_slack)) == pytest.approx(
        0, abs=1e-12
    )  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("wide", "high", "joints"), [(24, 12, 1), (24, 6, 1), (6, 24, 1), (36, 8, 1), (30, 6, 1), (24, 24, 2)]
)
def test_panels_just_at_a_limit_are_not_cut_again(wide: int, high: int, joints: int) -> None:
    # 12 x 12, 12 x 6, 6 x 12, 18 x 8, 15 x 6; four of 12 x 12
    assert best(plain(wide, high)).laid == joints


@pytest.mark.parametrize(("wide", "high"), [(12, F("12.001")), (F("15.001"), 6), (F("18.001"), 7)])
def test_a_hair_past_a_limit_needs_one(wide: Fraction, high: Fraction) -> None:
    assert best(plain(wide, high)).laid == 1


def test_plaster_counts_not_the_hole() -> None:
    # 16 x 10 ft less a window of 4 x 4 is 144 sq ft, just within
    assert best(plain(16, 10, hole("o", 6, 3, 4, 4))).laid == 0
    assert best(plain(16, 10, hole("o", 6, 3, 4, F("3.99")))).laid == 1


def test_a_gable_is_measured_as_it_stands() -> None:
    # 14 x 9 ft with a peak of 5 ft: 126 + 35 = 161 sq ft; each half 80.5 sq ft, 7 x 14 ft
    layout = best(plain(14, 9, gable=ft(5)))
    assert lines(layout) == [("v", 7)]
    assert [p.area / SQ_FT for p in layout.panels] == [F("80.5"), F("80.5")]
    assert [(feet(p.height), p.ratio) for p in layout.panels] == [(14, 2), (14, 2)]
    assert layout.length == ft(14)


def test_soffits_and_curves_have_the_smaller_panel() -> None:
    assert best(plain(12, 12)).laid == 0
    for position in ("horizontal", "curved"):
        layout = best(plain(12, 12), position=position)
        assert layout.laid == 1 and {p.area / SQ_FT for p in layout.panels} == {72}
        assert best(plain(10, 10), position=position).laid == 0


def test_his_own_limits_hold_and_say_what_they_leave() -> None:
    answer, _ = run(plain(12, 12), limits=own(area=100))
    assert answer.chosen.laid == 1 and "joints.own-limit" in codes(answer, "fact")
    answer, _ = run(plain(20, 12), limits=own(area=240, side=20))
    assert answer.chosen.laid == 0
    assert codes(answer, "caution") == ["joints.own-limit-past", "joints.own-limit-past"]
    (area, side) = (n for n in answer.notes if n.code == "joints.own-limit-past")
    assert (area.rules, side.rules) == (("parting.panel-area.c1063",), ("parting.panel-side.c1063",))


# --- corners, lined through, even, short --------------------------------------------------------------


def test_a_joint_goes_to_a_corner_rather_than_half_way() -> None:
    layout = best(plain(30, 9, hole("window", 12, 3, 4, 4)))
    # at 16 ft it meets the window, and 16 x 9 less 16 sq ft is 128 sq ft; half way it would run into the window
    assert lines(layout) == [("v", 16)]
    assert (layout.off_corner, layout.into, layout.bare) == (0, 0, ())
    assert layout.joints[0].corners == ("window",) and layout.joints[0].origin == "corner"
    assert [feet(b[1] - a[1]) for a, b in layout.joints[0].pieces] == [3, 2]
    assert layout.joints[0].length == ft(5)


def test_openings_without_a_joint_are_named() -> None:
    answer, _ = run(plain(30, 9, hole("window", 6, 3, 3, 4), hole("other", 13, 3, 4, 4)))
    assert answer.chosen.bare == ("window",)
    (note,) = (n for n in answer.notes if n.code == "joints.bare-openings")
    assert dict(note.values)["openings"] == ("window",) and note.rules == ("joint.corners.practice",)
    # one that reaches the top of the wall has corners at its sill alone
    assert run(plain(12, 9, hole("window", 5, 4, 3, 5)))[0].chosen.bare == ("window",)


def test_lines_run_through_rather_than_stop() -> None:
    # 60 x 30 ft: 12 x 12 below and 7.5 x 18 above would be fewer panels, but twice as many lines
    layout = best(plain(60, 30))
    assert lines(layout) == [("v", 12), ("v", 24), ("v", 36), ("v", 48), ("h", 10), ("h", 20)]
    assert layout.through and layout.stops == 0 and all(j.through for j in layout.joints)
    assert set(sizes(layout)) == {(12, 10)}


def test_even_before_uneven() -> None:
    assert lines(best(plain(40, 9))) == [("v", F(40, 3)), ("v", F(80, 3))]
    assert set(sizes(best(plain(32, 8)))) == {(16, 8)}


def test_a_wide_door_with_little_above_it() -> None:
    # nothing stands beside or over the door that could be a panel by itself: one joint over its middle
    layout = best(plain(24, 9, hole("door", 4, 0, 16, 7)))
    assert lines(layout) == [("v", 12)] and (layout.off_corner, layout.into) == (1, 1)
    assert layout.joints[0].length == ft(2)


def test_a_door_that_parts_the_wall_needs_no_joint() -> None:
    # the opening goes from base to top: two walls of 16 x 9 = 144 sq ft
    layout = best(plain(36, 9, hole("gap", 16, 0, 4, 9)))
    assert layout.laid == 0 and sizes(layout) == [(16, 9), (16, 9)] and layout.joints == ()


def test_a_parapet_on_lath_is_parted_every_five_feet() -> None:
    # 2 ft high: no more than 2.5 times as long
    assert set(sizes(best(plain(45, 2)))) == {(5, 2)}


def test_two_storeys_share_their_uprights_and_part_at_the_floor() -> None:
    windows = [hole(f"w{n}", u, v, 4, 4) for n, (u, v) in enumerate([(9, 3), (9, 13), (33, 3), (33, 13)])]
    answer, _ = run(plain(48, 20, *windows), floor_lines=(ft(10),))
    layout = answer.chosen
    floor = next(j for j in layout.joints if j.axis == "horizontal")
    assert (floor.kind, floor.origin, floor.length) == ("expansion", "floor line", ft(48))
    assert layout.laid == 3 == sum(j.axis == "vertical" for j in layout.joints)
    assert all(j.through for j in layout.joints)
    assert "joints.kind.expansion" in codes(answer)
    # a solid wall does not shrink at a floor: there the floor is a line like another
    assert all(
        j.kind == "control" for j in best(plain(48, 20, *windows), "lath over block", floor_lines=(ft(10),)).joints
    )


# --- layouts that differ ------------------------------------------------------------------------------


def test_one_more_joint_stands_beside_where_nothing_else_differs() -> None:
    answer, _ = run(plain(30, 9))
    assert [x.name for x in answer.layouts] == ["best", "smaller"]
    assert lines(answer.layouts[1]) == [("v", 10), ("v", 20)]
    assert "joints.other.smaller" in codes(answer)


def test_fewest_joints_stand_beside_where_the_corners_ask_for_more() -> None:
    # half way is one joint in the open; 11 and 20 ft are corners, and two
    windows = [hole("a", 2, 3, 3, 3), hole("b", 11, 3, 2, 3), hole("c", 18, 3, 2, 3), hole("d", 24, 3, 3, 3)]
    answer, _ = run(plain(32, 9, *windows))
    first, fewest = answer.layouts[:2]
    assert (first.off_corner, first.laid) == (0, 2) and (fewest.name, fewest.laid, fewest.off_corner) == (
        "fewest",
        1,
        1,
    )
    assert all(x.holds for x in answer.layouts)


def test_lined_through_stands_beside_where_the_best_is_not() -> None:
    answer, _ = run(plain(34, 19, hole("wide", 11, 3, 12, 4)), "lath over block")
    assert [x.name for x in answer.layouts] == ["best", "fewest", "through"]
    first, fewest, through = answer.layouts
    assert (first.through, fewest.through, through.through) == (False, True, True)
    assert all(x.holds for x in answer.layouts)
    # the best has fewer ends in the middle of the opening, for one that stops on another joint
    assert first.off_corner == through.off_corner and (first.into, through.into) == (0, 2) and first.stops == 1
    assert fewest.laid == through.laid - 1 and fewest.off_corner == through.off_corner + 1


def test_he_may_choose_another() -> None:
    answer, _ = run(plain(30, 9), choose="smaller")
    assert answer.chosen.name == "smaller" and answer.layouts[0].name == "best"
    assert "joints.other.best" in codes(answer)
    assert [r.length for r in answer.runs] == [ft(9), ft(9)]


# --- what is drawn, checked and ordered ---------------------------------------------------------------


def test_every_panel_has_its_slack_as_a_step() -> None:
    answer, w = run(plain(30, 9))
    panel = answer.chosen.panels[0]
    slack = panel.area_slack, panel.side_slack, panel.ratio_slack
    assert [float(q) for q in slack if q] == pytest.approx([9 * float(SQ_FT), 3 * float(FT), 2.5 - 15 / 9])
    assert {q.key for q in slack if q} <= set(w.steps)


def test_the_proof_is_arithmetic() -> None:
    _, w = run(plain(30, 9))
    found = w.steps["w/joints/best/laid"]
    assert found.value == 1
    assert found.proof == (  # type: ignore[union-attr]
        "p1: 15' × 9'; 135 sq ft ≤ 144 sq ft; 15' ≤ 18'; 15' / 9' = 1.67 ≤ 2.5",
        "p2: 15' × 9'; 135 sq ft ≤ 144 sq ft; 15' ≤ 18'; 15' / 9' = 1.67 ≤ 2.5",
        "135 + 135 = 270 sq ft",
    )


def test_what_was_looked_at_is_counted() -> None:
    answer, _ = run(plain(30, 9))
    values = dict(next(n for n in answer.notes if n.code == "joints.claim").values)
    assert values["rectangles"] == (values["uprights"] + 1) * (values["uprights"] + 2) // 2 * (  # type: ignore[operator]
        (values["levels"] + 1) * (values["levels"] + 2) // 2  # type: ignore[operator]
    )


def test_panels_are_drawn_with_their_holes() -> None:
    layout = best(plain(14, 9, hole("o", 3, 3, 4, 4), hole("door", 10, 0, 3, 7), gable=ft(1)))
    (panel,) = layout.panels
    outline, window = panel.rings
    assert {(feet(u), feet(v)) for u, v in outline} == {
        (0, 0), (10, 0), (10, 7), (13, 7), (13, 0), (14, 0), (14, 9), (7, 10), (0, 9)
    }  # fmt: skip
    assert {(feet(u), feet(v)) for u, v in window} == {(3, 3), (7, 3), (7, 7), (3, 7)}


def test_runs_are_what_is_ordered() -> None:
    answer, _ = run(faces(plain(60, 20), 2), floor_lines=(ft(10),))
    assert {r.count for r in answer.runs} == {2}
    assert sum(r.length for r in answer.runs) == answer.chosen.length
    assert {(r.kind, r.beads) for r in answer.runs} == {("control", 1), ("expansion", 1)}
    assert [r.id for r in answer.runs] == [f"w/joint/{j.id}" for j in answer.chosen.joints]


def test_a_long_panel_with_a_pier_is_one_piece_only_if_it_hangs_together() -> None:
    # between sill and head of a row of windows stand piers of 1 x 6 ft: never a panel of their own
    row = [hole(f"o{n}", 1 + 6 * n, 2, 5, 6) for n in range(6)]
    layout = best(plain(37, 10, *row))
    assert layout.holds and all(p.ratio <= F(5, 2) for p in layout.panels)
    assert all(len(p.rings) >= 1 for p in layout.panels)
    assert sum((p.area for p in layout.panels), F(0)) == net_area(plain(37, 10, *row))


def test_zones_of_one_base_are_parted_together() -> None:
    left = zone("a", "frame", [(ft(0), ft(0)), (ft(10), ft(0)), (ft(10), ft(9)), (ft(0), ft(9))])
    layout = best(plain(30, 9, zones=(left, zone("b", "frame"))))
    assert lines(layout) == [("v", 15)]
    assert {p.zones for p in layout.panels} == {("a", "b", "")}


# --- lines --------------------------------------------------------------------------------------------


def test_forbidden_lines_are_not_used() -> None:
    forbidden = (Forbidden("vertical", ft(15)),)
    layout = best(plain(30, 9), forbidden=forbidden)
    assert ("v", 15) not in lines(layout) and layout.holds
    layout = best(plain(30, 9), forbidden=(Forbidden("vertical", ft(9), ft(19)),))
    assert layout.holds and all(not 9 <= at <= 19 for axis, at in lines(layout) if axis == "v")


def test_pins_are_obeyed() -> None:
    layout = best(plain(30, 9), pinned=(Pin("vertical", ft(14)), Pin("horizontal", ft(3))))
    assert {("v", 14), ("h", 3)} < set(lines(layout)) and layout.holds
    moved = best(plain(30, 9), pinned=(Pin("vertical", ft(14), "framing"),)).joints[0]
    assert (moved.kind, moved.origin) == ("expansion", "framing")


def test_too_many_lines_are_thinned_where_they_stand_closest() -> None:
    row = [Line("vertical", ft(x), "even") for x in (3, 6, F("6.1"), 9)] + [
        Line("horizontal", ft(4), "even", must=True)
    ]
    assert [x.at / FT for x in thinned(row, 60)] == [3, 6, F("6.1"), 9, 4]
    # 45 rectangles; 6.1 stands 3 ft from its neighbours, both together, the others 3.1 and more: 30 without it
    assert [x.at / FT for x in thinned(row, 30)] == [3, 6, 9, 4]
    assert len(thinned(row, 1)) == 1  # a must stays


def test_left_out_lines_are_said() -> None:
    local = [f for f in BOOK if f.id == "joint.search.trial"]
    assert local[0].standing == "trial"
    few = BOOK.with_local([replace(local[0], value=2000.0, written="2000", why="an old telephone", id="local.search")])
    answer, _ = run(plain(60, 9, hole("a", 3, 3, 3, 3), hole("b", 20, 3, 3, 3)), "frame")
    assert "joints.lines-left-out" not in codes(answer)
    wall = plain(60, 9, hole("a", 3, 3, 3, 3), hole("b", 20, 3, 3, 3))
    answer, _ = lay_out_joints(JointsAsk(few, wall, (Ground("", "frame", True),)))
    assert answer.chosen.holds and "joints.lines-left-out" in codes(answer, "caution")


def test_limits_are_read_once_for_all() -> None:
    allowed = Allowed(144 * SQ_FT, 18 * FT, F(5, 2))
    assert allowed.reach(ft(9)) == ft(16) and allowed.reach(ft(2)) == ft(5) and allowed.reach(ft(7)) == ft("35/2")
    assert (allowed.parts(ft(30), ft(9)), allowed.parts(ft(32), ft(9)), allowed.parts(ft(33), ft(9))) == (2, 2, 3)
    assert allowed.broken(ft(9) * ft(17), ft(17), ft(9)) == ("area",)
    assert allowed.broken(ft(19) * ft(7), ft(19), ft(7)) == ("side", "ratio")


def test_the_public_verb() -> None:
    answer = lay_out(plain(30, 9), own(area=100))
    assert lines(answer.chosen) == [("v", 10), ("v", 20)]
    assert answer.layout("best") is answer.layouts[0] and answer.layout("none") is None
