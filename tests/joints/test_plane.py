"""The plaster's true shape as slabs: areas, extents, stretches, borders."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.joints.base import borders
from darby.joints.field import field
from darby.joints.plane import HOLE, Plane, meet, plane
from darby.measure import edge_runs, gross_area, net_area, opening_area, wall, zone, zone_areas
from darby.measure.outline import distance
from darby.measure.surface import Corner, Surface
from darby.measure.units import FT
from tests.joints.asking import ft, hole, plain


def area_of(p: Plane, ground: int) -> Fraction:
    twice = Fraction(0)
    for s in p.slabs:
        for x in s.pieces:
            if x.ground == ground:
                twice += (s.right - s.left) * ((x.top - x.low) + (x.top_right - x.low_right))
    return twice / 2 / p.scale**2


def test_a_gable_with_a_door_and_a_window() -> None:
    s = plain(24, 12, hole("door", 2, 0, 3, 7), hole("window", 14, 4, 4, 3), gable=ft(3))
    p = plane(s, [0])
    assert area_of(p, 0) == net_area(s)
    assert area_of(p, HOLE) == sum(opening_area(o) for o in s.openings)
    assert p.extent(0) == (0, 0, 24 * FT * p.scale, 15 * FT * p.scale)
    assert p.corners[14 * FT * p.scale, 7 * FT * p.scale] == "window"


def test_an_arch_stands_as_chords_within_half_a_millimetre() -> None:
    s = plain(20, 10, hole("arch", 6, 0, 8, 8, rise=2))
    p = plane(s, [0])
    short = float(area_of(p, 0) - net_area(s))
    assert 0 < short < 0.0005 * 9 * 0.3048  # chords lie within the arch, its length is about nine feet


def test_inside_corners_of_the_outline_and_corners_of_zones_are_corners() -> None:
    step = [(0, 0), (20, 0), (20, 8), (12, 8), (12, 14), (0, 14)]
    corners = tuple(Corner(f"c{n}", ft(u), ft(v)) for n, (u, v) in enumerate(step))
    s = Surface("w", "w", corners, (), zones=(zone("z", "block", [(ft(2), ft(2)), (ft(5), ft(2)), (ft(5), ft(6))]),))
    for way in (s, Surface("w", "w", corners[::-1], (), zones=s.zones)):
        p = plane(way, [0, 1])
        assert set(p.corners) == {
            (u * FT * p.scale, v * FT * p.scale) for u, v in ((12, 8), (2, 2), (5, 2), (5, 6))
        }  # fmt: skip
        assert set(p.corners.values()) == {""}


def test_a_slope_that_crosses_a_zone_and_an_opening() -> None:
    slant = zone("slant", "block", [(ft(0), ft(0)), (ft(20), ft(0)), (ft(0), ft(10))])
    s = plain(20, 10, hole("door", 8, 0, 4, 7), zones=(slant, zone("rest", "frame")))
    p = plane(s, [0, 1, 1])
    areas = {z.zone: z.net for z in zone_areas(s)}
    assert (area_of(p, 0), area_of(p, 1)) == (areas["slant"], areas["rest"])


def test_borders_are_the_changes_of_base_as_measured() -> None:
    patch = zone("patch", "lath over block", [(ft(4), ft(0)), (ft(9), ft(0)), (ft(9), ft(8)), (ft(4), ft(8))])
    s = plain(24, 12, hole("small", 2, 0, 3, 7), hole("big", 9, 0, 12, 10), zones=(patch, zone("rest", "block")))
    p = plane(s, [0, 1, 1])
    runs = [r for r in edge_runs(s) if r.kind == "change of base"]
    found = borders(p)
    assert len(found) == 2  # up from the small door's head, and level to the big door
    lengths = sum((distance(b.start, b.end) for b in found), Fraction(0)) / p.scale
    assert lengths == sum((r.length for r in runs), Fraction(0)) == ft(1 + 5)


def test_a_slanting_border_is_one_line_whatever_stands_beside_it() -> None:
    slant = zone("slant", "block", [(ft(0), ft(0)), (ft(20), ft(0)), (ft(0), ft(10))])
    s = plain(20, 10, hole("window", 2, 1, 2, 2), zones=(slant, zone("rest", "frame")))
    (border,) = borders(plane(s, [0, 1, 1]))
    assert border.grounds == (0, 1)


def test_stretches_end_at_openings() -> None:
    s = plain(24, 12, hole("window", 8, 4, 4, 3))
    p = plane(s, [0])
    at = {x: x * FT * p.scale for x in range(25)}
    both, holes = p.upright(0, at[10])
    assert both == [(0, at[4]), (at[7], at[12])] and holes == {at[4], at[7]}
    assert p.upright(0, at[8])[0] == [(0, at[4]), (at[7], at[12])]  # along the jamb there is no joint
    assert p.level(0, at[5])[0] == [(0, at[8]), (at[12], at[24])]
    assert p.level(0, at[8])[0] == [(0, at[24])]


@given(st.data())
@settings(deadline=None, max_examples=50)
def test_cells_add_up_to_the_plaster_wherever_the_lines_are(data: st.DataObject) -> None:
    wide, high, gable = (data.draw(st.integers(a, b)) for a, b in ((4, 20), (3, 12), (0, 5)))
    at = data.draw(st.integers(1, wide - 3))
    up = data.draw(st.integers(0, high - 2))
    s = wall("w", "w", ft(wide), ft(high), gable=ft(gable), openings=[hole("o", at, up, 2, 2)])
    p = plane(s, [0])
    fine = p.scaled(p.scale * 6)
    box = fine.extent(0)
    assert box is not None
    inside = [data.draw(st.sets(st.integers(1, 59), max_size=4)) for _ in range(2)]
    us = sorted({box[0], box[2], *(box[0] + (box[2] - box[0]) * Fraction(k, 60) for k in inside[0])})
    vs = sorted({box[1], box[3], *(box[1] + (box[3] - box[1]) * Fraction(k, 60) for k in inside[1])})
    f = field(fine, 0, us, vs)
    assert f.area(0, len(us) - 1, 0, len(vs) - 1) == net_area(s) == gross_area(s) - 4 * FT**2
    for i, (left, right) in enumerate(pairwise(us)):
        for j, (low, top) in enumerate(pairwise(vs)):
            cell = f.boxes[i][j]
            assert (cell is None) == (f.areas[i][j] == 0)
            if cell is not None:
                assert left <= cell.left < cell.right <= right and low <= cell.bottom < cell.top <= top


@pytest.mark.parametrize(
    ("one", "other", "both"),
    [([(0, 4)], [(2, 6)], [(2, 4)]), ([(0, 2), (2, 5)], [(1, 4)], [(1, 4)]), ([(0, 1)], [(1, 2)], []),
     ([(0, 9)], [(1, 2), (4, 5)], [(1, 2), (4, 5)])],
)  # fmt: skip
def test_meet(one: list[tuple[int, int]], other: list[tuple[int, int]], both: list[tuple[int, int]]) -> None:
    assert meet(one, other) == meet(other, one) == both
