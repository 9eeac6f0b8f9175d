"""Whatever the wall: all of it is covered, laps hold, nothing is larger than a sheet, nothing crosses a joint."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from darby.lath import Joint, LathAsk, Opening, lay_lath
from darby.lath.courses import bands
from darby.lath.face import Face, Rect
from darby.lath.paper import courses
from darby.measure.units import IN
from tests.lath.asking import box, inch, points

SIDE, END = IN / 2, inch(1)


@st.composite
def walls(draw: st.DrawFn) -> LathAsk:
    """A wall, with a gable or without, up to three openings in a row, joints from edge to edge, framed or not."""
    length, height = draw(st.integers(30, 420)), draw(st.integers(12, 150))
    gable = draw(st.integers(0, 60))
    outline = box(0, length, 0, height)
    if gable:
        outline = points((0, 0), (length, 0), (length, height), (Fraction(length, 2), height + gable), (0, height))
    openings: list[Opening] = []
    start = 0
    for n in range(draw(st.integers(0, 3))):
        left = start + draw(st.integers(3, 80))
        right = left + draw(st.integers(10, 150))
        low = draw(st.integers(0, height // 2))
        high = low + draw(st.integers(4, 90))
        if right < length - 2 and high < height - 1:
            openings.append(Opening(f"o{n}", box(left, right, low, high)))
            start = right
    joints = []
    for n, share in enumerate(draw(st.lists(st.integers(1, 7), max_size=2, unique=True))):
        u = inch(Fraction(length * share, 8))
        joints.append(Joint(f"u{n}", (u, Fraction(0)), (u, inch(height + gable))))
    if draw(st.booleans()):
        v = inch(Fraction(height * draw(st.integers(1, 7)), 8))
        joints.append(Joint("v", (Fraction(0), v), (inch(length), v)))
    frame = draw(st.booleans())
    return LathAsk(
        "w/z",
        outline,
        tuple(openings),
        base="frame" if frame else "lath over block",
        joints=tuple(joints),
        studs=inch(draw(st.sampled_from([12, 16, 24]))) if frame else None,
        first_stud=inch(draw(st.integers(-20, 20))),
        sheet=(inch(27), inch(draw(st.sampled_from([96, 97, 120])))),
        paper=1,
    )


def shape(ask: LathAsk) -> shapely.Geometry:
    wall = Polygon([(float(u), float(v)) for u, v in ask.outline])
    for opening in ask.openings:
        wall = wall.difference(Polygon([(float(u), float(v)) for u, v in opening.outline]))
    return wall


def rect(left: Fraction, right: Fraction, low: Fraction, high: Fraction) -> shapely.Geometry:
    return shapely.box(float(left), float(low), float(right), float(high))


@settings(max_examples=60, deadline=None)
@given(walls())
def test_the_wall_is_covered_and_nothing_is_lost(ask: LathAsk) -> None:
    found, working = lay_lath(ask)
    wall = shape(ask)
    cover = shapely.union_all([rect(p.left, p.right, p.low, p.high) for p in found.pieces])
    assert wall.difference(cover).area < 1e-9
    assert abs(float(found.area.value) - wall.area) < 1e-9

    assert ask.sheet is not None
    width, length = ask.sheet
    for p in found.pieces:
        assert p.right - p.left <= length
        assert p.high - p.low <= width
        assert 0 < p.net <= p.area
        assert abs(float(p.net) - wall.intersection(rect(p.left, p.right, p.low, p.high)).area) < 1e-9
    sheets = found.sheets.value * width * length
    kept = sum(o.length * o.width for o in found.offcuts)
    assert sheets == sum(p.area for p in found.pieces) + kept + found.scrap.value
    assert {p.sheet for p in found.pieces} == set(range(1, int(found.sheets.value) + 1))
    for p in found.pieces:
        first = next(q for q in found.pieces if q.sheet == p.sheet)
        assert p.reused == (p is not first)

    for joint in ask.joints:
        (u, v), (far, _) = joint.start, joint.end
        for p in found.pieces:
            crosses = p.left < u < p.right if u == far else p.low < v < p.high
            assert not crosses
    in_line = [n for n in working.notes if n.code == "lath.in-line"]
    assert bool(in_line) == any(stands_over(ask, a.u, b.u) for a, b in above(found.joints))


def above(joints: object) -> list[tuple[object, object]]:
    every = list(joints)  # type: ignore[call-overload]
    return [(a, b) for a in every for b in every if a.panel == b.panel and a.course == b.course + 1]


def stands_over(ask: LathAsk, one: Fraction, other: Fraction) -> bool:
    assert ask.sheet is not None
    apart = ask.studs if ask.studs is not None else ask.sheet[1] / 4
    return abs(one - other) < apart


@settings(max_examples=60, deadline=None)
@given(walls(), st.lists(st.integers(1, 997), min_size=1, max_size=6))
def test_laps_are_never_less_than_the_rule(ask: LathAsk, places: list[int]) -> None:
    found, _ = lay_lath(ask)
    for j in found.joints:
        meet = [p for p in found.pieces if (p.panel, p.course) == (j.panel, j.course) and p.left <= j.u <= p.right]
        left = next(p for p in meet if p.right == j.u + END / 2)
        right = next(p for p in meet if p.left == j.u - END / 2)
        assert left.right - right.left == END
        assert (j.low, j.high) == (max(left.low, right.low), min(left.high, right.high))
        if ask.studs is not None:
            assert ask.first_stud is not None
            assert j.over_framing == ((j.u - ask.first_stud) % ask.studs == 0)
            assert j.over_framing  # 12, 16 and 24 in. all go into these sheets
    face = Face(ask.outline, [o.outline for o in ask.openings])
    levels = {j.start[1] for j in ask.joints if j.start[1] == j.end[1]}
    for place in places:
        u = face.box.left + (face.box.right - face.box.left) * Fraction(place, 1009)
        here = [p for p in found.pieces if p.left <= u <= p.right]
        for low, high in face.spans_at(u):
            stops = [low, *sorted(v for v in levels if low < v < high), high]
            for bottom, top in pairwise(stops):
                stack = sorted((p for p in here if p.low < top and p.high > bottom), key=lambda p: (p.course, p.low))
                by_course = [max(q.high for q in stack if q.course == c) for c in sorted({q.course for q in stack})]
                lows = [min(q.low for q in stack if q.course == c) for c in sorted({q.course for q in stack})]
                for reached, start in zip(by_course, lows[1:], strict=False):
                    assert reached - start >= SIDE or reached >= top or start <= bottom


@settings(max_examples=40, deadline=None)
@given(walls())
def test_paper_covers_the_wall_and_every_course_laps_the_one_below(ask: LathAsk) -> None:
    found, _ = lay_lath(ask)
    if ask.base != "frame":
        assert found.paper is None
        return
    assert found.paper is not None
    cover = shapely.union_all([rect(s.left, s.right, s.low, s.high) for s in found.paper.strips])
    assert shape(ask).difference(cover).area < 1e-9
    face = Face(ask.outline, [o.outline for o in ask.openings])
    rows = courses(face, inch(40), inch(2))
    assert rows[0][0] == face.box.low
    assert rows[-1][1] == face.box.high
    assert all(above - low == inch(2) for (_, above), (low, _) in pairwise(rows))
    assert [s.course for s in found.paper.strips] == sorted(s.course for s in found.paper.strips)


@settings(max_examples=40, deadline=None)
@given(walls(), st.integers(0, 400), st.integers(0, 200))
def test_areas_by_slabs_are_areas(ask: LathAsk, right: int, high: int) -> None:
    face = Face(ask.outline, [o.outline for o in ask.openings])
    window = Rect(inch(-10), inch(right), inch(-5), inch(high))
    judged = shape(ask).intersection(rect(window.left, window.right, window.low, window.high)).area
    assert abs(float(face.area(window)) - judged) < 1e-9


@settings(max_examples=100, deadline=None)
@given(st.integers(1, 400), st.sampled_from([Fraction(1, 2), Fraction(1), Fraction(2)]))
def test_courses_reach_the_top_and_lap(height: int, lap: Fraction) -> None:
    from darby.lath.courses import Rules

    rules = Rules(inch(27), inch(97), inch(lap), inch(1), inch(6), None)
    found = bands(Fraction(0), inch(height), rules)
    assert found[0][0] == 0
    assert found[-1][1] == inch(height)
    assert all(high - low <= inch(27) for low, high in found)
    assert all(above - low >= inch(lap) for (_, above), (low, _) in pairwise(found))
    assert all(above - low == inch(lap) for (_, above), (low, _) in pairwise(found[:-1]))
    assert len(found) == 1 or found[-1][1] - found[-1][0] >= inch(6)
