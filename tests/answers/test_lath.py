"""Stages "lath" and "sheets" of the example: the crew room on lath, one hollow on lath over block."""

from fractions import Fraction

import pytest

import darby
from darby.measure.units import FT, IN
from tests.answers.jobs import firehall as example

CREW = ("crew-1", "crew-2", "crew-3")
NEXT = '[[ordered]]\nitem = "portland"'


def saying(text, firm=()):
    """The example with a table more."""
    return darby.answer(example((NEXT, f"{text}\n\n{NEXT}"), firm=firm))


def zones(answers, at):
    return dict(answers.of("lath", at).zones)


def test_walls_straight_on_block_take_none(firehall):
    for at in ("bay-east", "bay-north", "parapet"):
        assert firehall.of("lath", at).zones == ()


def test_the_net_of_all_pieces_is_the_wall_and_its_laps(firehall):
    # 14 x 8 ft less a window of 3 x 4 ft
    (lath,) = zones(firehall, "crew-1").values()
    assert lath.area.value == 100 * FT**2
    laps = sum(p.net for p in lath.pieces) - lath.area.value
    assert 0 < laps < 10 * FT**2


def test_the_hollow_is_laid_by_itself_with_strips_into_the_plastered_reveals(firehall):
    found = zones(firehall, "bay-south")
    assert set(found) == {"hollow"}
    lath = found["hollow"]
    assert {p.left for p in lath.pieces} == {Fraction(56) * IN}
    assert {p.right for p in lath.pieces} == {9 * FT}
    assert {(s.of, s.side) for s in lath.strips} == {("door-1", "right"), ("engine-door", "left")}
    assert lath.paper is None


def test_the_wall_over_a_zone_is_not_the_zones(firehall):
    assert max(p.high for p in zones(firehall, "bay-south")["hollow"].pieces) == 102 * IN


def test_sheets_are_the_firms_and_joints_are_cut():
    answers = saying('[[joints]]\nsurface = "crew-1"\nupright = ["6\'"]')
    (lath,) = zones(answers, "crew-1").values()
    assert max(p.right - p.left for p in lath.pieces) <= 97 * IN
    assert not any(p.left < 6 * FT < p.right for p in lath.pieces)
    assert {p.panel for p in lath.pieces} == {1, 2}


def test_lath_runs_on_behind_a_one_piece_joint_where_the_firm_follows_who_lets_it():
    follow = ("[follow] ", '[follow]\n"joint.lath" = "sma" ')
    answers = saying('[[joints]]\nsurface = "crew-1"\nupright = ["6\'"]', firm=(follow,))
    (lath,) = zones(answers, "crew-1").values()
    assert {p.panel for p in lath.pieces} == {1}


def test_what_is_said_of_lath_is_followed():
    house = '[[lath]]\nsurface = "crew"\nfirst_stud = "8 in"\npaper = 1\noutside = "round"\n'
    answers = saying(house + '[[lath]]\nsurface = "crew-2"\nside_lap = "1 in"')
    for at in CREW:
        (lath,) = zones(answers, at).values()
        assert (lath.supports[1] - 8 * IN) % (16 * IN) == 0
        assert lath.paper.layers == 1
    one, two = (next(iter(zones(answers, at).values())) for at in ("crew-1", "crew-2"))
    # round the corner that two walls share on one of them only: the other ends there
    turned = [sum(p.turn_left + p.turn_right for p in lath.pieces) > 0 for lath in (one, two)]
    assert turned.count(True) >= 1
    assert "lath.own-lap" in [n.code for n in answers.kept[("lath", "crew-2")].working.notes]
    assert "lath.own-lap" not in [n.code for n in answers.kept[("lath", "crew-1")].working.notes]


def test_the_inside_corner_gets_corner_lath_once(firehall):
    # crew-1 stands against the block bay: two beads part them; crew-3 ends at other work: corner lath
    corners = {at: [s.of for lath in zones(firehall, at).values() for s in lath.strips] for at in CREW}
    assert corners == {"crew-1": [], "crew-2": [], "crew-3": ["right"]}


def test_laid_and_ordered_stand_side_by_side(firehall):
    sheets = firehall.of("sheets")
    each = [lath.all_sheets.value for at in (*CREW, "bay-south") for lath in zones(firehall, at).values()]
    (line,) = [line for line in firehall.of("order").lines if line.item == "lath"]
    assert sheets.laid.value == sum(each)
    assert sheets.ordered.value == line.packages.value
    assert sheets.more.value == sum(each) - line.packages.value
    (said,) = firehall.kept[("sheets", "job")].working.notes
    assert (said.code, said.grade) == ("answers.lath.short", "caution")


def test_a_job_without_lath_counts_no_sheets():
    from tests.answers.jobs import walls

    assert darby.answer(walls(2)).of("sheets").laid is None


def test_a_sheet_too_short_for_the_framing_is_said_and_takes_no_other_wall_with_it():
    answers = saying('[[lath]]\nsurface = "crew-1"\nsheet = "6 x 6 in sheet"')
    notes = answers.kept[("lath", "crew-1")].working.notes
    assert "lath.between-framing" in [n.code for n in notes]
    assert zones(answers, "crew-2")


@pytest.mark.parametrize("at", CREW)
def test_every_end_joint_of_the_example_stands_over_framing(firehall, at):
    (lath,) = zones(firehall, at).values()
    assert all(joint.over_framing for joint in lath.joints)


def test_joints_that_cannot_be_laid_leave_the_wall_in_the_order_and_say_so():
    answers = saying('[[joints]]\nsurface = "crew-1"\nupright = ["1\'"]')
    assert answers.of("joints", "crew-1").code == "joints.pins-too-close"
    assert answers.left_out == ()
    assert [n.at for n in answers.notes if n.code == "answers.without-joints"] == ["crew-1"]
    assert "crew-1" in {a.at.partition("/")[0] for a in answers.of("price").quote if a.kind == "surface"}
    # the sheets of the other walls are counted all the same
    assert answers.of("sheets").laid.value == sum(
        lath.all_sheets.value for at in ("crew-2", "crew-3", "bay-south") for lath in zones(answers, at).values()
    )
