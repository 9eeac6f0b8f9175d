"""What is wrong with a surface: every fault at once, with place, found and allowed."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as Fr

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure import faults_of, opening, wall, zone
from darby.measure.geometry import same_ids
from darby.measure.surface import Corner, Edge, Opening
from darby.measure.units import FT

NO = Fr(0)


def box(id, at, up, width, height, **more):
    return opening(id, id, width * FT, height * FT, at * FT, up * FT, **more)


def rect(id, u0, v0, u1, v1):
    return zone(id, "block", [(u0 * FT, v0 * FT), (u1 * FT, v0 * FT), (u1 * FT, v1 * FT), (u0 * FT, v1 * FT)])


def made(**more):
    return wall("w", "Wall", 24 * FT, 12 * FT, gable=3 * FT, **more)


def codes(surface):
    return [(f.code.removeprefix("measure."), f.place) for f in faults_of(surface)]


def test_a_sound_wall_has_no_fault():
    sound = made(
        openings=[box("door", 2, 0, 3, 7), box("window", 5, 3, 4, 4), box("vent", 11, 12, 2, 1, rise=FT / 2)],
        zones=[rect("a", 0, 0, 10, 12), rect("b", 10, 0, 24, 6), zone("rest", "frame")],
    )
    assert faults_of(sound) == ()


@pytest.mark.parametrize(
    ("hole", "found", "allowed"),
    [
        (box("o", 22, 0, 3, 7), "at 25'", "at 0\" … 24'"),
        (box("o", -1, 0, 3, 7), "at -1'", "at 0\" … 24'"),
        (box("o", 2, -1, 3, 7), "up -1'", "up 0\" … 15'"),
        (box("o", 2, 10, 3, 6), "up 16'", "up 0\" … 15'"),
        (box("o", 16, 12, 4, 2), "at 20', up 12'", None),  # above the slope, though not above the peak
    ],
)
def test_an_opening_outside_the_wall(hole, found, allowed):
    (fault,) = faults_of(made(openings=[hole]))
    assert (fault.code, fault.place) == ("measure.opening-outside", 'opening "o"')
    if allowed:
        assert (fault.found, fault.allowed) == (found, allowed)


def test_an_opening_above_the_slope_is_told_how_high_the_wall_is_there():
    (fault,) = faults_of(made(openings=[box("o", 16, 10, 4, 4)]))
    assert (fault.found, fault.allowed) == ("at 20', up 14'", "up 0\" … 13'")


def test_an_opening_across_an_inward_corner_though_its_corners_are_inside():
    notch = [(0, 0), (24, 0), (24, 12), (14, 12), (14, 4), (10, 4), (10, 12), (0, 12)]
    corners = tuple(Corner(f"k{n}", u * FT, v * FT) for n, (u, v) in enumerate(notch))
    edges = tuple(Edge(f"e{n}", "top", c.id) for n, c in enumerate(corners))
    (fault,) = faults_of(replace(made(openings=[box("o", 8, 6, 8, 4)]), outline=corners, edges=edges))
    assert (fault.code, fault.found) == ("measure.opening-outside", "8' x 4'")
    assert fault.allowed == "at 0\" … 24', up 0\" … 12'"


def test_lengths_in_faults_can_be_metric():
    (fault,) = faults_of(wall("w", "Wall", Fr(6), Fr(3), openings=[box("o", 22, 0, 3, 7)]), "m")
    assert (fault.found, fault.allowed) == ("at 6.7060 m", "at 0 m … 6 m")


def test_openings_and_zones_over_each_other():
    assert codes(made(openings=[box("a", 2, 0, 3, 7), box("b", 4, 0, 3, 7), box("c", 7, 0, 3, 7)])) == [
        ("openings-overlap", 'opening "b"')
    ]
    zones = [rect("a", 0, 0, 10, 12), rect("b", 9, 0, 12, 6)]
    assert codes(made(zones=zones)) == [("zones-overlap", 'zone "b"')]


def test_a_zone_outside_the_wall():
    (fault,) = faults_of(made(zones=[rect("z", 20, 0, 30, 6)]))
    assert (fault.code, fault.place, fault.found) == ("measure.zone-outside", 'zone "z"', "at 30'")


def test_two_zones_that_are_the_rest():
    assert codes(made(zones=[zone("a", "block"), zone("b", "frame")])) == [("two-rests", 'zone "b"')]


def test_outlines_that_cross_themselves():
    bow = [(NO, NO), (4 * FT, 4 * FT), (4 * FT, NO), (NO, 4 * FT)]
    (fault,) = faults_of(made(zones=[zone("bow", "block", bow)]))
    assert (fault.code, fault.place, fault.found) == ("measure.outline-crosses", 'zone "bow"', "at 2', up 2'")
    hole = Opening("bow", "bow", tuple(Corner(str(n), u, v) for n, (u, v) in enumerate(bow)))
    assert codes(made(openings=[hole])) == [("outline-crosses", 'opening "bow"')]
    crossed = wall("w", "Wall", 24 * FT, 12 * FT, gable=NO)
    turned = replace(crossed, outline=(crossed.outline[0], crossed.outline[2], crossed.outline[1], crossed.outline[3]))
    assert codes(turned) == [("outline-crosses", "")]


def test_outlines_without_area():
    assert codes(wall("w", "Wall", 24 * FT, NO)) == [("no-area", "")]
    assert codes(made(openings=[box("o", 2, 2, 3, 0)])) == [("no-area", 'opening "o"')]
    assert codes(made(zones=[zone("z", "block", [(NO, NO), (FT, FT)])])) == [("too-few-corners", 'zone "z"')]


def test_ids_that_stand_twice():
    twice = made(openings=[box("a", 2, 0, 3, 7), box("a", 12, 0, 3, 7)], zones=[rect("z", 0, 0, 1, 1), zone("z", "x")])
    assert codes(twice) == [("same-id", 'opening "a"'), ("same-id", 'zone "z"')]
    assert [f.place for f in same_ids([made(), made(), replace(made(), id="x")])] == ['surface "w"']
    sound = made()
    doubled = replace(sound, edges=(*sound.edges, sound.edges[0]))
    assert [code for code, _ in codes(doubled)] == ["same-id", "edges"]


def test_edges_that_do_not_start_at_each_corner():
    sound = made()
    (fault,) = faults_of(replace(sound, edges=(*sound.edges[:-1], Edge("left", "top", "nowhere"))))
    assert (fault.code, fault.found, fault.nearest) == ("measure.edges", "nowhere", "top-left")


def test_all_faults_come_at_once():
    bad = made(
        openings=[box("a", 30, 0, 3, 7), box("b", 2, 0, 3, 7), box("c", 4, 0, 3, 7)],
        zones=[rect("z", -1, 0, 4, 4), zone("r1", "x"), zone("r2", "x")],
    )
    assert [code for code, _ in codes(bad)] == ["two-rests", "opening-outside", "openings-overlap", "zone-outside"]


NUMBERS = st.integers(-20, 60).map(lambda n: n * FT / 4)


@given(
    st.lists(st.tuples(NUMBERS, NUMBERS), max_size=7),
    st.lists(st.tuples(NUMBERS, NUMBERS), max_size=7),
    st.floats(-3, 3),
)
def test_any_outline_gives_faults_and_never_an_exception(one, other, bulge):
    hole = Opening("o", "o", tuple(Corner(str(n), u, v, bulge if n == 1 else 0.0) for n, (u, v) in enumerate(one)))
    for fault in faults_of(made(openings=[hole], zones=[zone("z", "block", other)])):
        assert fault.code.startswith("measure.")
        assert fault.place
