"""What cannot be trued is refused with its place and what would do; and said in both languages."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.measure.faults import Unreadable
from darby.words import LANGUAGES, say

from .asking import FOOT, INCH, feet, grid, opening, outline, rectangle, up

THREE = [(0, 0, 0), (20, 0, 0), (10, 10, 0)]
DOOR = (opening("door", 3, 7, 4, 0),)


def refused(readings, walls=None, **fields):
    with pytest.raises(Unreadable) as error:
        up(readings, walls, **fields)
    fault = error.value.fault
    values = {"place": fault.place, "found": fault.found, "allowed": fault.allowed}
    for language in LANGUAGES:
        sentence = say(fault.code, values, language)
        assert fault.place in sentence
        assert "{" not in sentence
    return fault.code, fault.place, fault.found, fault.allowed


@pytest.mark.parametrize(
    ("rows", "fields", "fault"),
    [
        (THREE[:2], {}, ("grounds.few", "bay-south", "2", "3 ...")),
        ([], {}, ("grounds.few", "bay-south", "0", "3 ...")),
        ([*THREE, (21, 1, 0)], {}, ("grounds.off-wall", "bay-south, reading 4", "at 21', up 1'",
                                    "at 0\" to 20', up 0\" to 10'")),
        ([*THREE, (5, 3, 0)], {"openings": DOOR}, ("grounds.in-opening", "bay-south, reading 4", "at 5', up 3'",
                                                   "door")),
        ([*THREE, (20, 0, "1/4")], {}, ("grounds.disagree", "bay-south, reading 2, 4", '0", 1/4"',
                                        "at 20', up 0\"")),
        ([(0, 1, 0), (10, 1, 0), (20, 1, 0)], {}, ("grounds.in-line", "bay-south", "3", "3 ...")),
        ([(0, 0, 0), (9, 0, 0), (5, 10, 0)], {}, ("grounds.one-side", "bay-south", "0\" to 9'", "... 10' ...")),
        (THREE, {"spacing": 23 * INCH}, ("grounds.close", "bay-south", '1\' 11"', "2 ft ...")),
        (THREE, {"least": -INCH}, ("grounds.least", "bay-south", '-1"', '0" ...')),
    ],
)  # fmt: skip
def test_what_cannot_be_trued(rows, fields, fault):
    assert refused(feet(rows), **fields) == fault


def test_a_reading_that_is_no_number():
    rows = [*feet(THREE), (Fraction(1), Fraction(1), float("nan"))]
    assert refused(rows)[:2] == ("grounds.no-number", "bay-south, reading 4")
    assert refused([*feet(THREE), (1.0, 2.0)])[0] == "grounds.no-number"
    assert refused(feet(THREE), fixed=((1.0, 2.0, float("inf")),))[:2] == ("grounds.no-number", "bay-south, fixed 1")


def test_a_fixed_point_off_the_wall_and_two_that_disagree():
    assert refused(feet(THREE), fixed=feet([(-1, 0, 0)]))[:2] == ("grounds.off-wall", "bay-south, fixed 1")
    two = feet([(1, 1, 0), (1, 1, 1)])
    assert refused(feet(THREE), fixed=two)[:2] == ("grounds.disagree", "bay-south, fixed 1, 2")
    assert up(grid(20, 10), fixed=feet([(1, 1, 1), (1, 1, 1)])).chosen.misses is None


def test_a_frame_may_stand_in_its_opening():
    assert up(feet([*THREE, (2, 5, 0)]), openings=DOOR, fixed=feet([(5, 3, "3/8")])).chosen.misses is None


def test_no_wall():
    assert refused(feet(THREE), outline((0, 0), (20, 0), (10, 0)))[0] == "grounds.no-wall"
    bow_tie = outline((0, 0), (20, 10), (20, 0), (0, 10))
    assert refused(feet(THREE), bow_tie)[0] == "grounds.no-wall"
    assert refused(feet(THREE), openings=(opening("all", 20, 10, 0, 0),))[0] == "grounds.no-wall"


def test_a_hair_off_the_edge_is_on_the_wall():
    rows = [*feet(THREE), (Fraction(20) * FOOT + INCH / 2000, Fraction(5) * FOOT, Fraction(0))]
    assert up(rows, rectangle(20, 10)).chosen.holds


def test_frames_hold_a_face_where_readings_do_not_reach():
    rows = feet([(0, 0, 0), (9, 0, 0), (5, 10, 0)])
    found = up(rows, fixed=feet([(0, 5, "3/8"), (20, 5, "3/8")]))
    assert found.chosen.misses is None
