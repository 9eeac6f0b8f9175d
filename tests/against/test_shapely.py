"""Our exact areas, cuts and edges against shapely's floating-point geometry."""

from __future__ import annotations

from fractions import Fraction as Fr
from math import cos, pi, sin

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from darby.measure import edge_runs, gross_area, perimeter, wall, zone
from darby.measure.outline import area_in_both, area_of, flat, perimeter_of, polygon
from darby.measure.surface import Corner, Opening, Surface
from darby.measure.units import FT, IN


@st.composite
def stars(draw, least=3, most=9, centre=(0, 0), reach=96):
    """A simple outline of whole eighths of an inch: points at growing angles round a centre."""
    count = draw(st.integers(least, most))
    turn = draw(st.floats(0, 2 * pi))
    corners = []
    for n in range(count):
        radius, angle = draw(st.integers(16, reach)), turn + 2 * pi * n / count
        u, v = round(radius * cos(angle)) + centre[0], round(radius * sin(angle)) + centre[1]
        corners.append(Corner(f"k{n}", u * IN / 8, v * IN / 8))
    return tuple(corners)


def theirs(outline) -> Polygon:
    return Polygon([(float(c.u), float(c.v)) for c in outline])


@given(stars())
def test_area_and_perimeter_of_any_outline(outline):
    shape = theirs(outline)
    assert float(area_of(outline)) == pytest.approx(shape.area, rel=1e-12, abs=1e-15)
    assert float(perimeter_of(outline)) == pytest.approx(shape.length, rel=1e-12)


@given(stars(), stars(centre=(20, -10)))
def test_area_that_two_outlines_share(one, other):
    a, b = theirs(one), theirs(other)
    if not (a.is_valid and b.is_valid):
        return
    assert float(area_in_both(one, other)) == pytest.approx(shapely.intersection(a, b).area, rel=1e-9, abs=1e-12)


@given(stars(most=3), stars(centre=(20, -10)))
def test_a_triangle_and_any_outline_share_an_exact_area(triangle, other):
    """A triangle is convex, so the cut is exact; a rectangle round both gives each whole area back."""
    a, b = theirs(triangle), theirs(other)
    if not (a.is_valid and b.is_valid and a.area and b.area):
        return
    common = area_in_both(triangle, other)
    assert common == area_in_both(other, triangle)
    assert float(common) == pytest.approx(shapely.intersection(a, b).area, rel=1e-9, abs=1e-12)
    around = tuple(Corner(str(n), Fr(u), Fr(v)) for n, (u, v) in enumerate([(-9, -9), (9, -9), (9, 9), (-9, 9)]))
    assert area_in_both(other, around) == area_of(other)
    assert area_in_both(triangle, around) == area_of(triangle)


@pytest.mark.parametrize("radius", [0.2, 1.0, 4.0])
def test_a_circle_against_a_buffer_and_the_closed_form(radius):
    r = Fr(radius)
    circle = (Corner("a", -r, Fr(0), 1.0), Corner("b", r, Fr(0), 1.0))
    assert float(area_of(circle)) == pytest.approx(pi * radius**2, rel=1e-13)
    assert float(area_of(circle)) == pytest.approx(Point(0, 0).buffer(radius, quad_segs=1000).area, rel=1e-6)
    ring, buffer = polygon(circle), Point(0, 0).buffer(radius, quad_segs=1000)
    assert shapely.hausdorff_distance(ring.exterior, buffer.exterior, densify=0.1) <= 0.0005 + 1e-6
    assert len(flat(circle, 0.005)) < len(flat(circle, 0.0005))


@pytest.mark.parametrize("bulge", [0.1, 0.41421356237309503, -0.3, 1.5])
def test_a_segment_against_a_circle_cut_by_its_chord(bulge):
    """A wall 4 m long whose top is an arc: the rectangle plus (or less) the segment, cut out of a fine circle."""
    outline = (
        Corner("a", Fr(0), Fr(0)),
        Corner("b", Fr(4), Fr(0)),
        Corner("c", Fr(4), Fr(6), bulge),
        Corner("d", Fr(0), Fr(6)),
    )
    radius, rise = 4 * (1 + bulge**2) / (4 * abs(bulge)), bulge * 2
    centre = (2, 6 + rise - radius) if bulge > 0 else (2, 6 + rise + radius)
    disc = Point(centre).buffer(radius, quad_segs=20000)
    half = shapely.box(-50, 6, 50, 60) if bulge > 0 else shapely.box(-50, -60, 50, 6)
    segment = shapely.intersection(disc, half).area
    assert float(area_of(outline)) == pytest.approx(24 + (segment if bulge > 0 else -segment), rel=1e-6)
    assert polygon(outline).area == pytest.approx(float(area_of(outline)), rel=1e-3)


@settings(max_examples=300)
@given(stars(least=3, most=6, centre=(96, 100), reach=80), stars(least=3, most=6, centre=(250, 96), reach=60))
def test_edges_against_lines_cut_by_shapely(hole, part):
    """Bare and zoned lengths of a wall's and an opening's edges, cut by shapely instead."""
    made = wall(
        "w", "Wall", 3 * FT, 2 * FT, zones=[zone("part", "block", [(c.u, c.v) for c in part]), zone("rest", "x")]
    )
    shape, inside, whole_wall = theirs(part), theirs(hole), theirs(made.outline)
    if not (shape.is_valid and inside.is_valid and inside.area > 1e-6 and shape.area > 1e-6):
        return
    made = Surface("w", "Wall", made.outline, made.edges, (Opening("o", "o", hole),), made.zones)
    runs = edge_runs(made)
    assert float(sum(r.length for r in runs if r.where == "o")) == pytest.approx(inside.length)
    if shapely.intersection(inside.exterior, shape.exterior).length > 1e-9:
        return  # they run along each other: whose zone it is, is ours to say (tests/measure/test_edges.py)
    in_wall = shapely.difference(shapely.intersection(inside.exterior, whole_wall), whole_wall.exterior)
    assert float(sum(r.length for r in runs if r.where == "o" and not r.bare)) == pytest.approx(
        in_wall.length, abs=1e-3
    )
    on_part = shapely.intersection(in_wall, shape).length
    assert float(sum(r.length for r in runs if r.where == "o" and r.zone == "part")) == pytest.approx(on_part, abs=1e-3)
    within = shapely.difference(shapely.intersection(shape.exterior, whole_wall), whole_wall.exterior)
    boundary = shapely.difference(within, inside)
    changed = float(sum(r.length for r in runs if r.kind == "change of base"))
    assert changed == pytest.approx(boundary.length, abs=1e-3)
    assert float(sum(r.length for r in runs if r.where == "wall" and r.kind != "change of base")) == pytest.approx(
        float(perimeter(made))
    )
    assert gross_area(made) == 6 * FT**2
