"""Fasteners support by support, by edition and base; paper in courses, layers and rolls."""

from __future__ import annotations

import pytest

from darby.lath import LathAsk, Roll, lay_lath
from darby.measure.units import FT, IN, unit
from darby.working import Found, line
from tests.lath.asking import box, following, framed, hole, inch, joint, over_block


def test_every_stud_is_counted_with_both_its_ends() -> None:
    """96 x 96 in.: seven studs, 96 / 7 is 14 spaces, 15 fasteners each."""
    found, working = lay_lath(framed(96, 96))
    assert [float(u / IN) for u in found.supports] == [0, 16, 32, 48, 64, 80, 96]
    assert found.fasteners.value == 7 * 15
    step = working.steps["crew/main/lath/fasteners"]
    assert isinstance(step, Found)
    assert step.proof == ("7 × (⌈8' / 7\"⌉ + 1) = 105",)
    assert step.rules == ("lath.fastener.along-studs.c1063",)


@pytest.mark.parametrize(("voice", "each"), [("c1063", 15), ("irc-2018", 17), ("irc", 15)])
def test_spacing_along_the_studs_by_edition(voice: str, each: int) -> None:
    found, _ = lay_lath(framed(96, 96, book=following(lath_fastener=voice)))
    assert found.fasteners.value == 7 * each


def test_posts_beside_openings_and_at_ends_count_where_no_stud_is_near() -> None:
    found, _ = lay_lath(framed(100, 96, hole("window", 34, 70, 24, 72)))
    assert [float(u / IN) for u in found.supports] == [0, 16, 32, 48, 64, 70, 80, 96, 100]
    # the studs at 48 and 64 stop under the window and start over it, the post at 70 runs through beside it
    per = {0: 15, 16: 15, 32: 15, 48: 2 * 5, 64: 2 * 5, 70: 15, 80: 15, 96: 15, 100: 15}
    assert found.fasteners.value == sum(per.values())


def test_a_level_joint_makes_two_ends_of_a_stud() -> None:
    whole, _ = lay_lath(framed(96, 96))
    cut, _ = lay_lath(framed(96, 96, joints=(joint("a", (0, 48), (96, 48)),)))
    assert cut.fasteners.value == 5 * 2 * 8 + 2 * 2 * 8
    assert whole.fasteners.value == 7 * 15


def test_the_first_stud_may_stand_anywhere() -> None:
    found, _ = lay_lath(framed(60, 96, first_stud=inch(8)))
    assert [float(u / IN) for u in found.supports] == [0, 8, 24, 40, 56, 60]
    same, _ = lay_lath(framed(60, 96, first_stud=inch(8 - 32)))
    assert same.supports == found.supports


@pytest.mark.parametrize(("voice", "count"), [("ufgs", 113), ("sma", 100)])
def test_on_masonry_by_voice(voice: str, count: int) -> None:
    found, working = lay_lath(over_block(120, 120, book=following(lath_fastener=voice)))
    assert found.fasteners.value == count
    assert found.supports == ()
    assert "lath.fasteners-masonry" in {s.says for s in working.steps.values()}


def test_the_rule_by_area_stands_beside() -> None:
    found, working = lay_lath(framed(120, 120))
    assert found.fasteners_by_area.value == 129  # 14,400 / (16 x 7) = 128.6
    assert line(working.steps["crew/main/lath/fasteners-by-area"]).endswith("rounded up = 129 pieces")


# --- paper -------------------------------------------------------------------------------------


def test_paper_goes_up_in_courses_of_40_in_that_lap_2() -> None:
    found, _ = lay_lath(framed(96, 96, paper=1))
    assert found.paper is not None
    rows = [(float(s.low / IN), float(s.high / IN)) for s in found.paper.strips]
    assert rows == [(0, 40), (38, 78), (76, 96)]
    assert found.paper.length.value == pytest.approx(float(3 * 96 * IN))
    assert found.paper.area.value == pytest.approx(float(3 * 96 * 40 * IN**2))
    assert found.paper.rolls is None


def test_layers_are_hung_one_by_one() -> None:
    found, _ = lay_lath(framed(96, 96, paper=2))
    assert found.paper is not None
    assert [(s.layer, s.course) for s in found.paper.strips] == [(1, 1), (1, 2), (1, 3), (2, 1), (2, 2), (2, 3)]


def test_layers_by_the_sheathing_where_nobody_said() -> None:
    found, working = lay_lath(framed(96, 96, paper=None, sheathing="wood"))
    assert found.paper is not None
    assert found.paper.layers == 2
    assert "lath.paper-layers" in {n.code for n in working.notes}
    assert lay_lath(framed(96, 96, paper=0))[0].paper is None


def test_no_paper_on_masonry() -> None:
    found, working = lay_lath(over_block(96, 96))
    assert found.paper is None
    assert "lath.no-paper-on-masonry" in {n.code for n in working.notes}


def test_a_roll_that_ends_in_a_run_laps_6_in() -> None:
    """Rolls of 10 ft on a wall of 12 ft: 10 ft, then from 9 ft 6 in. on with the next."""
    found, _ = lay_lath(framed(144, 40, paper=1, roll=Roll(40 * IN, 10 * FT)))
    assert found.paper is not None
    assert [(float(s.left / FT), float(s.right / FT), s.roll) for s in found.paper.strips] == [(0, 10, 1), (9.5, 12, 2)]
    assert found.paper.rolls is not None
    assert found.paper.rolls.value == 2


def test_what_is_left_of_a_roll_goes_on_the_next_course() -> None:
    found, _ = lay_lath(framed(96, 78, paper=1, roll=Roll(40 * IN, 20 * FT)))
    assert found.paper is not None
    assert [s.roll for s in found.paper.strips] == [1, 1]
    assert found.paper.rolls is not None
    assert found.paper.rolls.value == 1


def test_a_two_ply_roll_hangs_two_layers_at_once() -> None:
    found, _ = lay_lath(framed(96, 40, paper=2, roll=Roll(40 * IN, 20 * FT, plies=2)))
    assert found.paper is not None
    assert len(found.paper.strips) == 1
    assert found.paper.layers == 2


def test_paper_stops_at_a_door_and_runs_over_it() -> None:
    found, _ = lay_lath(framed(144, 120, hole("door", 48, 84, 0, 80), paper=1))
    assert found.paper is not None
    rows = [(s.course, float(s.left / IN), float(s.right / IN), float(s.low / IN)) for s in found.paper.strips]
    assert rows == [(1, 0, 48, 0), (1, 84, 144, 0), (2, 0, 48, 38), (2, 84, 144, 38), (3, 0, 144, 76), (4, 0, 144, 114)]


def test_the_width_nobody_said_is_remembered_and_said_so() -> None:
    ask = LathAsk("a/main", box(0, 96, 0, 50), paper=1, studs=inch(16))
    found, working = lay_lath(ask)
    assert found.paper is not None
    (note,) = [n for n in working.notes if n.code == "lath.assumed.paper-width"]
    assert dict(note.values)["width"].number == pytest.approx(float(40 * IN))  # type: ignore[attr-defined]
    assert found.paper.area.unit is unit("sq ft")
