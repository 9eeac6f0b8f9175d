from __future__ import annotations

from itertools import pairwise
from math import atan, hypot, isclose, pi

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from darby.drawing.geometry import BLOCK, arc, courses_in, flat, lines_in, pieces, scattered_in, turns_left
from darby.measure.units import FT

coordinate = st.floats(-20, 20).map(lambda x: round(x, 3))
point = st.tuples(coordinate, coordinate)
bulge = st.floats(-3, 3).filter(lambda b: abs(b) > 0.01)


@given(point, point, bulge)
def test_an_arc_runs_through_both_ends_and_its_crown(a: tuple[float, float], b: tuple[float, float], k: float) -> None:
    chord = hypot(b[0] - a[0], b[1] - a[1])
    if chord < 0.01:
        return
    turn = arc(a, b, k)
    # the crown stands bulge * half the chord to the right of the chord's middle (open DXF's rule)
    right = ((b[1] - a[1]) / chord, (a[0] - b[0]) / chord)
    crown = tuple((p + q) / 2 + r * k * chord / 2 for p, q, r in zip(a, b, right, strict=True))
    for place in (a, b, crown):
        assert isclose(hypot(place[0] - turn.centre[0], place[1] - turn.centre[1]), turn.radius, rel_tol=1e-6)
    assert isclose(turn.sweep, 4 * atan(k))


@given(bulge, st.floats(0.1, 10))
def test_chords_stay_within_their_error(k: float, long: float) -> None:
    error = 0.001
    line = flat([(0.0, 0.0), (long, 0.0)], [k, 0.0], closed=False, error=error)
    turn = arc((0.0, 0.0), (long, 0.0), k)
    for (x0, y0), (x1, y1) in pairwise(line):
        middle = hypot((x0 + x1) / 2 - turn.centre[0], (y0 + y1) / 2 - turn.centre[1])
        assert turn.radius - middle <= error * 1.001


def test_a_half_circle_has_its_length() -> None:
    line = flat([(0.0, 0.0), (2.0, 0.0)], [1.0, 0.0], closed=False, error=1e-6)
    assert isclose(sum(hypot(c - a, d - b) for (a, b), (c, d) in pairwise(line)), pi, rel_tol=1e-5)
    assert min(y for _, y in line) == pytest.approx(-1)


def test_counterclockwise_is_known() -> None:
    square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]
    assert turns_left(square)
    assert not turns_left(square[::-1])


@given(st.floats(0.05, 0.5), st.floats(0, 179))
def test_hatch_lines_stay_inside_and_keep_their_pitch(pitch: float, angle: float) -> None:
    area = Polygon([(0, 0), (3, 0), (3, 2), (0, 2)], [[(1, 0.5), (2, 0.5), (2, 1.5), (1, 1.5)]])
    lines = lines_in(area, pitch, angle)
    near = area.buffer(1e-6)
    assert all(near.covers(shapely.LineString(line)) for line in lines)
    # area is about length of lines times their pitch
    total = sum(hypot(c - a, d - b) for (a, b), (c, d) in lines)
    assert abs(total * pitch - area.area) < 0.75 * area.area * pitch + 3.7 * pitch


def test_coursing_is_eight_by_sixteen_from_the_lower_left() -> None:
    foot = float(FT)
    long, tall = BLOCK
    assert (long, tall) == pytest.approx((foot * 16 / 12, foot * 8 / 12))
    area = Polygon([(1, 1), (1 + 24 * foot, 1), (1 + 24 * foot, 1 + 12 * foot), (1, 1 + 12 * foot)])
    lines = courses_in(area, BLOCK, (1.0, 1.0))
    level = {round((a[1] - 1) / tall) for a, b in lines if a[1] == b[1]}
    assert level == set(range(19))
    first = sorted(
        round((a[0] - 1) / long, 3) for a, b in lines if a[0] == b[0] and min(a[1], b[1]) == pytest.approx(1)
    )
    assert first == pytest.approx(list(range(19)))
    second = sorted(
        (a[0] - 1) / long for a, b in lines if a[0] == b[0] and min(a[1], b[1]) == pytest.approx(1 + tall)
    )  # fmt: skip
    assert second == pytest.approx([k + 0.5 for k in range(18)])


def test_scatter_is_the_same_every_time_and_stays_inside() -> None:
    area = Polygon([(0, 0), (2, 0), (1, 2)])
    spots = scattered_in(area, 0.05, "old")
    assert spots == scattered_in(area, 0.05, "old") != scattered_in(area, 0.05, "older")
    assert all(area.covers(shapely.Point(at)) for at, _, _ in spots)
    assert len(spots) == pytest.approx(area.area / 0.05**2, rel=0.15)


def test_slivers_are_left_out() -> None:
    two = shapely.union_all([shapely.box(0, 0, 1, 1), shapely.box(2, 0, 2.0001, 1)])
    assert len(pieces(two)) == 1
