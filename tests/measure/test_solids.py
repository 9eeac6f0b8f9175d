"""Boxes on roofs, strips and rings: worked by hand, and what they cannot be."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction as Fr
from math import hypot

import pytest

from darby.measure import Cap, Roof, Unreadable, box, edge_runs, faults_of, gross_area, net_area, pitch, ring, strip
from darby.measure.shapes import opening
from darby.measure.surface import Meets
from darby.measure.units import FT, IN

DRIP = Cap("drip")


def chimney(sides=(3, 2), height=5, cap=DRIP, **more):
    return box("ch", "Chimney", [s * FT for s in sides], height * FT, cap, **more)


def areas(surfaces):
    return [gross_area(s) / FT**2 for s in surfaces]


def lengths(surfaces):
    found = Counter()
    for run in edge_runs(surfaces):
        if run.counted:
            found[run.kind] += run.length * run.count
    return {kind: float(length / FT) for kind, length in found.items()}


def refused(do, **more):
    with pytest.raises(Unreadable) as caught:
        do(**more)
    return caught.value.fault


# --- boxes -------------------------------------------------------------------------------------------------


def test_a_box_on_the_ground():
    column = chimney(facing=180)
    assert [s.id for s in column] == ["ch-1", "ch-2", "ch-3", "ch-4"]
    assert areas(column) == [15, 10, 15, 10]
    assert lengths(column) == {"outside corner": 20, "grade": 10, "drip": 10}
    assert [s.facing for s in column] == [180, 90, 0, 270]


def test_a_chimney_that_looks_down_a_roof_of_six_in_twelve():
    # 2 ft up the roof it rises 1 ft: the side that looks up it is 4 ft high, those beside 5 and 4
    made = chimney(roof=Roof(Fr(1, 2), 1), facing=180, foot=14 * FT)
    assert areas(made) == [15, 9, 12, 9]
    assert [s.foot / FT for s in made] == [14, 14, 15, 14]
    found = lengths(made)
    assert found["outside corner"] == 18  # 5 + 5 + 4 + 4
    assert found["roof line"] == pytest.approx(3 + 3 + 2 * hypot(2, 1))
    assert all(not faults_of(s) for s in made)
    corners = {e.shared for s in made for e in s.edges if e.shared}
    assert corners == {"ch-1|ch-2", "ch-2|ch-3", "ch-3|ch-4", "ch-1|ch-4"}


@pytest.mark.parametrize(
    ("down", "expected"),
    [
        (1, [15, 9, 12, 9]),
        (2, [Fr(51, 4), 10, Fr(51, 4), 7]),  # 3 ft up the roof it rises 1 1/2 ft
        (3, [12, 9, 15, 9]),
        (4, [Fr(51, 4), 7, Fr(51, 4), 10]),
    ],
)
def test_whichever_side_looks_down_the_roof(down, expected):
    made = chimney(roof=Roof(Fr(1, 2), down))
    assert areas(made) == expected
    for run in edge_runs(made):  # a corner is as long on one side as on the other
        if run.shared:
            assert run.length in {r.length for r in edge_runs(made) if r.shared == run.shared and r is not run}


def test_a_chimney_on_the_ridge_peaks_in_the_middle_of_two_sides():
    # 1 ft to each side of the ridge it rises 6 in.
    made = chimney(roof=Roof(Fr(1, 2), 1, ridge=True))
    assert areas(made) == [15, 10 - Fr(1, 2), 15, 10 - Fr(1, 2)]
    assert lengths(made)["outside corner"] == 20
    assert lengths(made)["roof line"] == pytest.approx(6 + 4 * hypot(1, 0.5))


def test_three_sides_against_a_wall():
    made = chimney(sides=(2, 3, 2), roof=Roof(Fr(1, 2), 2), facing=270)
    assert [s.id for s in made] == ["ch-1", "ch-2", "ch-3"]
    assert areas(made) == [9, 15, 9]
    assert [s.facing for s in made] == [270, 180, 90]
    assert lengths(made)["inside corner"] == 8  # the roof has risen 1 ft at the wall
    assert areas(chimney(sides=(2, 3, 2), roof=Roof(Fr(1, 2), 3))) == [10 - Fr(3, 2) * 2, 15 - Fr(9, 4), 10]


def test_a_plastered_top_falls_to_the_front():
    made = chimney(sides=(3, 4), cap=Cap("slope", 3 * FT, "front"))
    # 4 ft deep and 3 ft down is 5 ft along; the back is 8 ft high, the sides 5 and 8
    assert areas(made) == [15, 26, 24, 26, 15]
    assert made[-1].id == "ch-top"
    assert lengths(made)["outside corner"] == 5 + 5 + 8 + 8 + 3 + 3 + 5 + 5
    back = chimney(sides=(3, 4), cap=Cap("slope", 3 * FT, "back"))
    assert areas(back) == [24, 26, 15, 26, 15]
    leaning = chimney(sides=(4, 3, 4), cap=Cap("slope", 3 * FT, "front"))
    assert areas(leaning) == [26, 15, 26, 15]
    assert [e.kind for e in leaning[-1].edges] == [
        "outside corner",
        "outside corner",
        "inside corner",
        "outside corner",
    ]


def test_openings_and_what_a_box_cannot_be():
    hole = opening("vent", "vent", FT, FT, FT, FT)
    assert net_area(chimney(openings={1: [hole]})[0]) == 14 * FT**2
    for sides in ((), (3,), (1, 2, 3, 4)):
        assert refused(chimney, sides=sides).code == "measure.box-sides"
    assert refused(chimney, openings={5: [hole]}).code == "measure.no-such-wall"
    assert refused(chimney, roof=Roof(Fr(1, 2), 5)).place == "roof"
    never = refused(chimney, height=1, roof=Roof(Fr(1, 2), 1))
    assert (never.code, never.found, never.allowed) == ("measure.slope-past-top", "1'", "< 1'")
    for cap in (Cap("slope"), Cap("slope", FT, "both")):
        assert refused(chimney, cap=cap).code == "measure.cap-fall"


# --- pitches -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "rise"),
    [("6 in 12", Fr(1, 2)), ("6:12", Fr(1, 2)), ("6/12", Fr(1, 2)), ("7 1/2 in 12", Fr(5, 8)), ("4 on 12", Fr(1, 3))],
)
def test_a_pitch(text, rise):
    assert pitch(text) == rise


def test_a_pitch_in_degrees():
    assert float(pitch("45 deg")) == pytest.approx(1)
    assert float(pitch("26.565°")) == pytest.approx(0.5, abs=1e-4)


@pytest.mark.parametrize(
    ("text", "code"),
    [("6", "pitch"), ("6 in", "pitch"), ("steep", "pitch"), ("90 deg", "pitch"), ("6 in 0", "pitch"),
     ("0 in 12", "not-positive"), ("", "empty"), (6, "not-text")],
)  # fmt: skip
def test_what_is_no_pitch(text, code):
    assert refused(pitch, text=text).code == f"measure.{code}"


# --- strips and rings --------------------------------------------------------------------------------------


def test_strips():
    soffit = strip("s", "Soffit", 24 * FT, 2 * FT, "soffit")
    assert (soffit.tilt, gross_area(soffit)) == (180, 48 * FT**2)
    assert {e.id: e.kind for e in soffit.edges} == {
        "base": "inside corner", "right": "inside corner", "top": "drip", "left": "inside corner",
    }  # fmt: skip
    face = strip("f", "Foundation", 30 * FT, FT, "foundation")
    assert (face.tilt, [e.kind for e in face.edges][::2]) == (90, ["grade", "floor line"])
    raked = strip("r", "Rake", 10 * FT, FT, "soffit", tilt=150.0, outer="soffit")
    assert (raked.tilt, raked.edges[2].kind) == (150, "soffit")


@pytest.mark.parametrize(("width", "area"), [(6, 8), (12, 18), (14, Fr(196, 9))])
def test_a_ring_round_a_three_by_four_foot_window(width, area):
    # (3 + 2w)(4 + 2w) - 12: 4 x 5, 5 x 6, 5 1/3 x 6 1/3
    made = ring("r", "Patch", 3 * FT, 4 * FT, width * IN)
    assert net_area(made) == area * FT**2
    assert round(float(area), 1) in (8, 18, 21.8)
    assert not faults_of(made)
    assert {e.kind for e in made.edges} == {"meets old work"}


def test_a_ring_round_a_door_stands_on_its_base():
    old = Meets("old plaster", IN, IN)
    made = ring("r", "Patch", 3 * FT, 7 * FT, 6 * IN, sides=("head", "left", "right"), base="grade", meets=old)
    assert net_area(made) == (4 * Fr(15, 2) - 21) * FT**2
    assert lengths(made) == {"grade": 1, "meets old work": 19, "jamb": 14, "head": 3}
    assert [e.meets for e in made.edges] == [None, old, old, old]


def test_where_it_is_says_how_high_it_is_worked():
    assert ring("r", "Patch", 3 * FT, 4 * FT, 6 * IN, up=10 * FT, foot=FT).foot == 10 * FT + 6 * IN
    assert ring("r", "Patch", 3 * FT, 4 * FT, 6 * IN, foot=FT).foot == FT


@pytest.mark.parametrize(
    ("more", "found"),
    [
        ({"at": 4 * IN}, 'left 6"'),
        ({"up": 4 * IN}, 'sill 6"'),
        ({"wall_length": 3 * FT}, "4'"),
        ({"wall_height": 4 * FT + 11 * IN}, "5'"),
        ({"at": 6 * FT, "wall_length": 9 * FT + 5 * IN}, 'right 6"'),
        ({"up": 3 * FT, "wall_height": 7 * FT + 5 * IN}, 'head 6"'),
    ],
)
def test_a_ring_larger_than_its_wall(more, found):
    fault = refused(lambda: ring("r", "Patch", 3 * FT, 4 * FT, 6 * IN, **more))
    assert (fault.code, fault.place, fault.found) == ("measure.ring-outside", "width", found)


def test_a_ring_that_just_fits():
    made = ring("r", "P", 3 * FT, 4 * FT, 6 * IN, at=6 * IN, up=6 * IN, wall_length=4 * FT, wall_height=5 * FT)
    assert net_area(made) == 8 * FT**2


def test_a_ring_with_no_side_or_no_width():
    assert refused(lambda: ring("r", "P", FT, FT, IN, sides=())).code == "measure.ring-sides"
    assert refused(lambda: ring("r", "P", FT, FT, Fr(0))).code == "measure.not-positive"
