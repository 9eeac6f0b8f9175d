"""Areas, zones, reveals and perimeters: exact where every side is straight, in closed form where it is an arc."""

from __future__ import annotations

from fractions import Fraction as Fr
from itertools import pairwise
from math import atan, pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure import (
    faces,
    gross_area,
    net_area,
    opening,
    opening_area,
    perimeter,
    reveal_areas,
    wall,
    zone,
    zone_areas,
)
from darby.measure.outline import (
    CHORD_ERROR,
    area_in_both,
    area_of,
    distance,
    flat,
    perimeter_of,
    side_length,
    signed_area,
)
from darby.measure.surface import Corner, Surface
from darby.measure.units import FT, IN

SQFT = FT**2
EIGHTHS = st.integers(1, 40 * 12 * 8).map(lambda n: Fr(n, 8) * IN)


def outline(*points, bulge=0.0):
    return tuple(Corner(f"p{n}", Fr(u), Fr(v), bulge) for n, (u, v) in enumerate(points))


def test_a_rectangle_and_a_gable_are_exact():
    plain = wall("w", "Wall", 12 * FT, 12 * FT)
    assert gross_area(plain) == 144 * SQFT
    assert perimeter(plain) == 48 * FT
    gable = wall("w", "Wall", 24 * FT, 12 * FT, gable=5 * FT)
    assert gross_area(gable) == (288 + 60) * SQFT
    assert perimeter(gable) == (24 + 12 + 13 + 13 + 12) * FT  # 5, 12, 13 comes out even
    assert gross_area(faces(plain, 2)) == 144 * SQFT  # of one of them


@given(EIGHTHS, EIGHTHS, EIGHTHS)
def test_walls_of_any_eighths_are_exact(length, height, rise):
    made = wall("w", "Wall", length, height, gable=rise)
    assert gross_area(made) == length * height + length * rise / 2
    assert perimeter(made) - 2 * height - length == 2 * distance((Fr(0), Fr(0)), (length / 2, rise))


@given(st.integers(-50, 50), st.integers(-50, 50), st.sampled_from([(3, 4, 5), (8, 15, 17), (0, 7, 7)]), EIGHTHS)
def test_a_slope_that_comes_out_even_is_exact(u, v, triple, unit):
    start = (u * unit, v * unit)
    assert distance(start, (start[0] + triple[0] * unit, start[1] - triple[1] * unit)) == triple[2] * unit


def test_a_slope_that_does_not_is_as_near_as_a_float():
    assert float(distance((Fr(0), Fr(0)), (Fr(1), Fr(1)))) == sqrt(2)


def test_either_way_round():
    square = outline((0, 0), (2, 0), (2, 3), (0, 3))
    assert signed_area(square) == 6
    assert signed_area(tuple(reversed(square))) == -6
    assert area_of(tuple(reversed(square))) == 6


def test_arcs_in_closed_form():
    circle = outline((-2, 0), (2, 0), bulge=1.0)
    assert float(area_of(circle)) == pytest.approx(4 * pi, rel=1e-14)
    assert float(perimeter_of(circle)) == pytest.approx(4 * pi, rel=1e-14)
    bitten = (
        Corner("a", Fr(0), Fr(0)),
        Corner("b", Fr(4), Fr(0)),
        Corner("c", Fr(4), Fr(4), -1.0),
        Corner("d", Fr(0), Fr(4)),
    )
    assert float(area_of(bitten)) == pytest.approx(16 - 2 * pi, rel=1e-14)


@given(st.floats(0.01, 3), st.floats(0.05, 20), st.sampled_from([1, -1]), st.floats(1e-4, 0.01))
def test_chords_keep_within_the_stated_error(bulge, chord, sign, error):
    here, there = Corner("a", Fr(0), Fr(0), sign * bulge), Corner("b", Fr(chord), Fr(0))
    shape = (here, there, Corner("c", Fr(chord) / 2, Fr(-sign) * Fr(chord) * 20 * -1))
    points = [(float(u), float(v)) for u, v in flat(shape, error)]
    angle, radius = 4 * atan(bulge), chord * (1 + bulge**2) / (4 * bulge)
    arc = points[: points.index((chord, 0.0)) + 1]
    middle = (chord / 2, sign * chord * (1 - bulge**2) / (4 * bulge))
    for (u0, v0), (u1, v1) in pairwise(arc):
        assert sqrt((u0 - middle[0]) ** 2 + (v0 - middle[1]) ** 2) == pytest.approx(radius, rel=1e-6, abs=1e-9)
        mid = ((u0 + u1) / 2, (v0 + v1) / 2)
        assert radius - sqrt((mid[0] - middle[0]) ** 2 + (mid[1] - middle[1]) ** 2) <= error * 1.0001
    assert float(side_length(here, there)) == pytest.approx(radius * angle, rel=1e-12)
    assert min(v for _, v in arc) * sign <= 1e-9  # a positive bulge lies to the right of the way, here below


def test_the_chord_error_is_the_one_that_is_stated():
    assert CHORD_ERROR == 0.0005


DOOR = opening(
    "door", "door", 3 * FT, 7 * FT, 2 * FT, Fr(0), reveal=4 * IN, plastered=("head", "left", "right", "sill")
)
WINDOW = opening("window", "window", 4 * FT, 3 * FT, 10 * FT, 3 * FT, reveal=6 * IN, plastered=("sill",))


def surface(**more) -> Surface:
    return wall("w", "Wall", 20 * FT, 10 * FT, openings=(DOOR, WINDOW), **more)


def test_openings_come_off_in_full():
    assert opening_area(DOOR) == 21 * SQFT
    assert net_area(surface()) == (200 - 21 - 12) * SQFT


def test_a_surface_without_zones_is_one_part():
    (only,) = zone_areas(surface())
    assert (only.zone, only.gross, only.openings, only.net) == ("", 200 * SQFT, 33 * SQFT, 167 * SQFT)
    assert dict(only.cut) == {"door": 21 * SQFT, "window": 12 * SQFT}


def test_an_opening_on_two_zones_is_parted_between_them():
    left = zone("left", "block", [(Fr(0), Fr(0)), (12 * FT, Fr(0)), (12 * FT, 10 * FT), (Fr(0), 10 * FT)])
    parts = {z.zone: z for z in zone_areas(surface(zones=(left, zone("rest", "frame"))))}
    assert parts["left"].gross == 120 * SQFT
    assert dict(parts["left"].cut) == {"door": 21 * SQFT, "window": 6 * SQFT}
    assert dict(parts["rest"].cut) == {"window": 6 * SQFT}
    assert (parts["left"].base, parts["rest"].base) == ("block", "frame")
    assert sum(z.net for z in parts.values()) == net_area(surface())


def test_what_no_zone_covers_is_named():
    left = zone("left", "block", [(Fr(0), Fr(0)), (12 * FT, Fr(0)), (12 * FT, 10 * FT), (Fr(0), 10 * FT)])
    assert [z.zone for z in zone_areas(surface(zones=(left,)))] == ["left", ""]
    right = zone("right", "frame", [(12 * FT, Fr(0)), (20 * FT, Fr(0)), (20 * FT, 10 * FT), (12 * FT, 10 * FT)])
    assert [z.zone for z in zone_areas(surface(zones=(left, right)))] == ["left", "right"]


@given(st.integers(0, 160), st.integers(1, 80), st.integers(0, 80), st.integers(1, 40), st.integers(0, 24))
def test_zones_and_openings_never_lose_an_area(at, width, up, height, rise):
    half = FT / 8
    low = [(0, 0), (9, 0), (9, 4), (3, 6), (0, 4)]
    ell = [(11, 0), (20, 0), (20, 9), (18, 9), (18, 2), (11, 2)]
    left, foot = min(at, 160 - width) * half, min(up, 80 - height) * half
    made = wall(
        "w",
        "Wall",
        20 * FT,
        10 * FT,
        gable=rise * half,
        openings=[opening("o", "o", width * half, height * half, left, foot)],
        zones=[
            zone("rest", "block"),
            zone("low", "frame", [(u * FT, v * FT) for u, v in low]),
            zone("ell", "frame", [(u * FT, v * FT) for u, v in ell]),
        ],
    )
    parts = zone_areas(made)
    assert [z.zone for z in parts] == ["rest", "low", "ell"]
    assert sum(z.gross for z in parts) == gross_area(made)
    assert sum(z.net for z in parts) == net_area(made)
    assert all(z.net == z.gross - z.openings and z.openings == sum(a for _, a in z.cut) for z in parts)
    assert all(0 <= z.openings <= z.gross for z in parts)


def test_an_arched_opening_within_a_zone_keeps_its_closed_form():
    arch = opening("a", "arch", 4 * FT, 6 * FT, 8 * FT, Fr(0), rise=2 * FT)
    made = wall("w", "Wall", 20 * FT, 10 * FT, openings=[arch], zones=[zone("rest", "block")])
    assert float(opening_area(arch) / SQFT) == pytest.approx(16 + 2 * pi, rel=1e-12)
    mid = zone("mid", "frame", [(6 * FT, Fr(0)), (14 * FT, Fr(0)), (14 * FT, 8 * FT), (6 * FT, 8 * FT)])
    parts = {z.zone: z for z in zone_areas(wall("w", "Wall", 20 * FT, 10 * FT, openings=[arch], zones=[mid]))}
    assert parts["mid"].openings == opening_area(arch)
    assert gross_area(made) - net_area(made) == opening_area(arch)
    half = zone("half", "frame", [(Fr(0), Fr(0)), (10 * FT, Fr(0)), (10 * FT, 10 * FT), (Fr(0), 10 * FT)])
    parts = {z.zone: z for z in zone_areas(wall("w", "Wall", 20 * FT, 10 * FT, openings=[arch], zones=[half]))}
    assert float(parts["half"].openings / opening_area(arch)) == pytest.approx(0.5, abs=1e-3)


def test_two_shapes_neither_of_which_is_convex():
    ell = outline((0, 0), (4, 0), (4, 1), (1, 1), (1, 4), (0, 4))
    other = outline((0, 0), (4, 0), (4, 4), (3, 4), (3, 1), (0, 1))
    assert float(area_in_both(ell, other)) == pytest.approx(4)
    assert area_in_both(ell, outline((10, 10), (11, 10), (11, 11), (10, 11))) == 0


def test_reveals():
    found = {(r.opening, r.side): r for r in reveal_areas(surface())}
    assert set(found) == {("door", "head"), ("door", "left"), ("door", "right"), ("window", "sill")}
    assert found["door", "head"].area == 3 * FT * 4 * IN
    assert found["door", "left"].area == 7 * FT * 4 * IN
    assert found["window", "sill"].area == 4 * FT * 6 * IN


def test_reveals_are_parted_by_zone_and_an_arch_by_its_own_length():
    half = zone("half", "frame", [(Fr(0), Fr(0)), (20 * FT, Fr(0)), (20 * FT, 5 * FT), (Fr(0), 5 * FT)])
    found = [r for r in reveal_areas(surface(zones=(half, zone("rest", "block")))) if r.side == "left"]
    assert {r.zone: r.length for r in found} == {"half": 5 * FT, "rest": 2 * FT}
    arch = opening("a", "arch", 4 * FT, 6 * FT, 8 * FT, Fr(0), rise=2 * FT, reveal=FT, plastered=("head",))
    (head,) = reveal_areas(wall("w", "Wall", 20 * FT, 10 * FT, openings=[arch]))
    assert float(head.area / SQFT) == pytest.approx(2 * pi, rel=1e-9)
