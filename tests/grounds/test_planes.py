"""Planes whose answer is known in closed form."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from darby.grounds import set_grounds

from .asking import (
    FOOT,
    INCH,
    LEAST,
    ask,
    at,
    cubic_feet,
    feet,
    grid,
    inches,
    opening,
    outline,
    rectangle,
    run,
    square_feet,
    up,
)

CLOSE = 1e-6
"""Inches, square feet and cubic feet: the solver is sure of a billionth of a metre."""


def test_three_readings_are_the_plane():
    # a wall that leans 1/8 in. in its 10 ft, within 1/4 in. in 10 ft, and turns 1/2 in. over its 20 ft
    found = up(feet([(0, 0, 0), (20, 0, "1/2"), (10, 10, "3/8")]))
    leaning = found.face("leaning")
    assert at(leaning, 0, 0) == pytest.approx(3 / 8, abs=CLOSE)
    assert at(leaning, 20, 0) == pytest.approx(7 / 8, abs=CLOSE)
    assert at(leaning, 10, 10) == pytest.approx(3 / 4, abs=CLOSE)
    assert leaning.holds == (1, 2, 3)
    assert inches(leaning.lean) == pytest.approx(1 / 8, abs=CLOSE)
    # all over the least: 200 sq ft of 3/8 in.
    assert cubic_feet(leaning.volume) == pytest.approx(200 * 3 / 8 / 12, abs=CLOSE)


def test_plumb_over_the_same_three():
    # no rise up the wall: in plan (10, 3/8) stands 1/8 in. past the line from (0, 0) to (20, 1/2), and the middle of
    # the wall is at 10 ft: a face over it alone stands out 3/8 + 3/8 in. there, and no face less
    plumb = up(feet([(0, 0, 0), (20, 0, "1/2"), (10, 10, "3/8")])).face("plumb")
    assert at(plumb, 10, 5) == pytest.approx(3 / 4, abs=CLOSE)
    assert at(plumb, 10, 0) == pytest.approx(at(plumb, 10, 10), abs=CLOSE)
    assert 3 in plumb.holds
    assert inches(plumb.lean) == 0


def test_two_high_spots_hold_a_plumb_face():
    # spots 1/4 in. out at 5 ft and 1/2 in. out at 15 ft: the face is the line over both, 3/8 in. out in the middle
    found = up((*grid(20, 10), *feet([(5, 3, "1/4"), (15, 7, "1/2")])), face="plumb")
    plumb = found.chosen
    assert at(plumb, 5, 0) == pytest.approx(1 / 4 + 3 / 8, abs=CLOSE)
    assert at(plumb, 15, 10) == pytest.approx(1 / 2 + 3 / 8, abs=CLOSE)
    assert at(plumb, 10, 5) == pytest.approx(3 / 8 + 3 / 8, abs=CLOSE)
    assert {s.number for s in found.spots} == {67, 68}


def test_one_high_spot_in_the_middle_holds_the_whole_face_out():
    found = up((*grid(20, 10), *feet([(10, 5, "1/4")])))
    for face in found.faces[:2]:
        assert face.holds == (67,)
        assert at(face, 10, 5) == pytest.approx(5 / 8, abs=CLOSE)
        for corner in ((0, 0), (20, 0), (0, 10), (20, 10)):
            assert at(face, *corner) == pytest.approx(5 / 8, abs=1e-4)  # it is not turned on the spot like a gate
    # 200 sq ft of 5/8 in., less the spot's own bulk: a pyramid on the 4 x 2 ft of readings around it
    assert cubic_feet(found.chosen.volume) == pytest.approx(200 * 5 / 8 / 12 - 8 * (1 / 4) / 12 / 3, abs=CLOSE)


def test_a_wall_past_the_tolerance_leans_only_as_far_as_is_allowed():
    # the wall leans in 1 in. in 10 ft at its head; 1/4 in. in 10 ft is allowed, so the head is 3/4 in. thicker
    found = up(grid(20, 10, lambda u, v: -Fraction(v, 10)))
    leaning, plumb = found.face("leaning"), found.face("plumb")
    assert inches(leaning.lean) == pytest.approx(1 / 4, abs=CLOSE)
    assert inches(leaning.most) == pytest.approx(3 / 8 + 3 / 4, abs=CLOSE)
    assert inches(leaning.mean) == pytest.approx(3 / 8 + 3 / 8, abs=CLOSE)
    assert inches(plumb.mean) == pytest.approx(3 / 8 + 1 / 2, abs=CLOSE)
    assert cubic_feet(plumb.volume) == pytest.approx(200 * (7 / 8) / 12, abs=CLOSE)
    assert cubic_feet(found.untrued) == pytest.approx(200 * (3 / 8) / 12, abs=CLOSE)
    assert cubic_feet(found.truing) == pytest.approx(200 * (1 / 2) / 12, abs=CLOSE)


def test_openings_do_not_count():
    # a wall that bends back 1/2 in. to either side of its middle, as seen in plan; a door 8 ft wide in the right half
    # draws the middle of the net wall to 10 - 80 x 5 / 120 = 6 2/3 ft, so the face lies on the left half
    door = opening("door", 8, 10, 11, 0)
    bend = grid(20, 10, lambda u, v: -abs(u - 10) / 20)
    readings = [r for r in bend if not Fraction(11) * FOOT < r[0] < Fraction(19) * FOOT]
    found = up(readings, openings=(door,))
    assert square_feet(found.net) == pytest.approx(120, abs=CLOSE)
    assert at(found.chosen, 0, 5) == pytest.approx(-1 / 2 + 3 / 8, abs=CLOSE)
    assert at(found.chosen, 20, 5) == pytest.approx(1 / 2 + 3 / 8, abs=CLOSE)


def test_a_gable_counts_with_its_own_middle():
    # wall 20 x 10 with a gable of 6 ft: 200 + 60 sq ft; leans 1/8 in. in 10 ft
    walls = outline((0, 0), (20, 0), (20, 10), (10, 16), (0, 10))
    readings = (*grid(20, 10, lambda u, v: Fraction(v, 80)), *feet([(10, 16, "1/5")]))
    found = up(readings, walls)
    assert cubic_feet(found.face("leaning").volume) == pytest.approx(260 * 3 / 8 / 12, abs=CLOSE)
    # plumb: out to the head, 1/5 + 3/8 in.; mean of the wall: 1/80 in. a foot times the height of the middle,
    # (200 x 5 + 60 x 12) / 260 = 6.615 ft
    mean = 1 / 5 + 3 / 8 - Fraction(200 * 5 + 60 * 12, 260) / 80
    assert inches(found.face("plumb").mean) == pytest.approx(float(mean), abs=CLOSE)


def test_fixed_points_are_flush():
    # a frame 1 in. out at either end, wall flat: the face is 1 in. out all over
    fixed = feet([(0, 5, 1), (20, 5, 1)])
    found = up(grid(20, 10), fixed=fixed)
    plumb = found.face("plumb")
    assert at(plumb, 10, 5) == pytest.approx(1, abs=CLOSE)
    assert plumb.misses is None
    assert cubic_feet(plumb.volume) == pytest.approx(200 / 12, abs=CLOSE)


def test_a_plane_misses_what_no_plane_can_meet_by_as_little_as_can_be():
    # three frames along a level at 0, 10, 20 ft, 1, 1 1/2 and 1 in. out: the best line misses each by 1/4 in.
    found = up(grid(20, 10), fixed=feet([(0, 5, 1), (10, 5, "3/2"), (20, 5, 1)]))
    for name in ("plumb", "leaning"):
        assert inches(found.face(name).misses) == pytest.approx(1 / 4, abs=CLOSE)
        assert at(found.face(name), 10, 5) == pytest.approx(5 / 4, abs=CLOSE)
    # a face that wanders can: 1/2 in. over 20 ft shows 1/4 in. under 10 ft... at 10 ft, between 5 and 15
    assert found.face("wandering").misses is None
    assert at(found.face("wandering"), 10, 5) == pytest.approx(3 / 2, abs=CLOSE)
    assert [n.code for n in found.notes].count("grounds.not-flush") == 2


def test_a_reading_in_front_of_a_fixed_point_makes_the_face_miss_it():
    # the frame is flush with the wall, and the wall wants its least: 3/8 in.
    found = up(grid(20, 10), fixed=feet([(10, 0, 0)]))
    for face in found.faces:
        assert inches(face.misses) == pytest.approx(3 / 8, abs=CLOSE)


def test_money_is_volume_times_price():
    found, working = run(grid(20, 10), price=Decimal("1000"))
    # 200 sq ft x 3/8 in. = 6.25 cu ft = 0.176980... m3
    assert found.chosen.cost.value == Decimal("176.98")
    assert working.steps[found.chosen.cost.key].value == Decimal("176.98")
    assert up(grid(20, 10)).chosen.cost is None


def test_depths_are_to_a_sixteenth_and_less_the_finish():
    finish = Fraction(1, 8) * INCH
    readings = grid(20, 10, lambda u, v: -Fraction(u, 100), step=5)
    found = up(readings, finish=finish, face="plumb", fixed=feet([(0, 0, "3/8"), (20, 0, "3/8")]))
    # the face is 3/8 in. out; at 5 ft the wall is 1/20 in. back: 0.425 in., to a sixteenth 7/16; the ground 0.3, 5/16
    ground = {g.id: g for g in found.grounds}
    assert [f"{column}-{row}" for row in (1, 2, 3) for column in (1, 2, 3, 4, 5)] == list(ground)
    assert inches(ground["2-1"].depth) == pytest.approx(7 / 16, abs=CLOSE)
    assert inches(ground["2-1"].ground) == pytest.approx(5 / 16, abs=CLOSE)
    assert inches(ground["2-1"].line) == pytest.approx(1 / 4, abs=CLOSE)
    assert ground["5-3"].known
    assert [c.id for c in found.corners] == ["c1", "c2", "c3", "c4"]
    assert inches(found.corners[1].depth) == pytest.approx(9 / 16, abs=CLOSE)  # 0.575


def test_grounds_stand_no_farther_apart_than_asked_and_not_in_openings():
    door = opening("door", 4, 7, 8, 0)
    readings = [r for r in grid(20, 10) if not (8 * FOOT < r[0] < 12 * FOOT and r[1] < 7 * FOOT)]
    found = up(readings, openings=(door,), spacing=4 * FOOT)
    across = sorted({round(g.u / float(FOOT), 6) for g in found.grounds})
    assert across == [0, 4, 8, 12, 16, 20]
    up_ = sorted({round(g.v / float(FOOT), 4) for g in found.grounds})
    assert up_ == pytest.approx([0, 10 / 3, 20 / 3, 10], abs=1e-3)
    spaced = up(readings, openings=(opening("window", 2, 2, 9, 4),))
    assert all(not (9 < g.u / float(FOOT) < 11 and 4 < g.v / float(FOOT) < 6) for g in spaced.grounds)
    assert len(spaced.grounds) == 5 * 3 - 1
    assert [c.id for c in found.corners][4:] == [f"door/c{n}" for n in (1, 2, 3, 4)]


def test_the_default_spacing_is_five_feet():
    # common practice, no source
    found = up(grid(20, 10))
    assert sorted({round(g.u / float(FOOT), 6) for g in found.grounds}) == [0, 5, 10, 15, 20]


def test_the_convenience_takes_plain_numbers():
    readings = [(0.0, 0.0, 0.0), (6.0, 0.0, 0.0), (6.0, 3.0, 0.0), (0.0, 3.0, 0.0)]
    found = set_grounds(
        readings, [(0, 0), (6, 0), (6, 3), (0, 3)], least=0.01, openings=[[(2, 0), (3, 0), (3, 2), (2, 2)]]
    )
    assert float(found.net) == pytest.approx(16)
    assert float(found.chosen.volume) == pytest.approx(0.16)
    with pytest.raises(TypeError):
        set_grounds(readings, [(0, 0), (6, 0), (6, 3)], least=0.01, colour="red")


def test_an_answer_is_the_same_every_time_and_an_ask_has_a_hash():
    readings = grid(20, 10, lambda u, v: Fraction(int(u * 7 + v * 3) % 5, 16))
    assert run(readings)[0] == run(readings)[0]
    assert hash(ask(readings)) == hash(ask(readings))
    assert ask(readings) == ask(readings) != ask(readings, least=LEAST + INCH)


def test_a_reading_written_twice_and_alike_counts_once():
    readings = grid(20, 10)
    again = up((*readings, readings[0]))
    assert again.chosen.volume == up(readings).chosen.volume
    assert again.chosen.holds == up(readings).chosen.holds


def test_a_wall_of_another_size_than_the_hull_of_its_readings():
    walls = rectangle(20, 10)
    inner = feet((u, v, "1/8") for u in (2, 10, 18) for v in (1, 5, 9))
    assert cubic_feet(up(inner, walls).chosen.volume) == pytest.approx(200 * 3 / 8 / 12, abs=CLOSE)
