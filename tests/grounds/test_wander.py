"""The face that wanders: its family, its rules, and walls whose best face is known."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.grounds import Straightedge, rolling_straightedge
from darby.grounds.faces import Grid
from darby.grounds.wander import needed, tracks, weights

from .asking import BOOK, FOOT, INCH, at, grid, inches, opening, outline, rectangle, run, up
from .walls import rough

CLOSE = 1e-6


def test_over_a_bay_it_dips_by_what_the_ten_foot_straightedge_allows():
    # 10 x 10 ft, an inch back along the middle: grounds at 0, 5, 10 ft; the straightedge over 0 and 10 ft shows 1/4 in.
    wander = up(grid(10, 10, lambda u, v: -(1 - abs(u - 5) / 5), step=5), rectangle(10, 10)).face("wandering")
    assert [at(wander, u, 5) for u in (0, 5, 10)] == pytest.approx([3 / 8, 1 / 8, 3 / 8], abs=CLOSE)
    assert inches(wander.gaps[1].gap) == pytest.approx(1 / 4, abs=CLOSE)
    assert wander.gaps[1].bend == "hollow"
    # under 5 ft, with the knot in its middle: half of it
    assert inches(wander.gaps[0].gap) == pytest.approx(1 / 8, abs=CLOSE)
    assert 5 in [pytest.approx(x / float(FOOT), abs=CLOSE) for x in wander.gaps[1].at]


def test_over_a_ridge_it_folds_back_by_as_much():
    # the wall bends back 1 in. to either side of its middle: the straightedge rocks on the fold, 1/4 in. at its ends
    wander = up(grid(10, 10, lambda u, v: -abs(u - 5) / 5, step=5), rectangle(10, 10)).face("wandering")
    assert [at(wander, u, 5) for u in (0, 5, 10)] == pytest.approx([1 / 8, 3 / 8, 1 / 8], abs=CLOSE)
    assert wander.gaps[1].bend == "crown"


def test_by_the_short_straightedge_alone_it_dips_deeper():
    # his rule: 1/4 in. under 5 ft, no other. With the knot in the middle of 5 ft it shows half of what 10 ft would
    rule = (Straightedge(5 * FOOT, INCH / 4),)
    readings = grid(10, 10, lambda u, v: -(1 - abs(u - 5) / 5), step=5)
    found = up(readings, rectangle(10, 10), straightedges=rule)
    assert at(found.face("wandering"), 5, 5) == pytest.approx(3 / 8 - 1 / 2, abs=CLOSE)
    assert "grounds.own-rule" in {n.code for n in found.notes}


def test_a_wall_within_the_rules_is_followed():
    # a bow of 1/8 in. in 10 ft at the grounds
    found = up(grid(20, 10, lambda u, v: -Fraction(1, 8) * (1 - abs(u % 10 - 5) / 5), step=5))
    assert inches(found.face("wandering").mean) == pytest.approx(3 / 8, abs=CLOSE)
    assert inches(found.face("plumb").mean) == pytest.approx(3 / 8 + 1 / 16, abs=CLOSE)


def test_between_the_readings_it_never_comes_nearer_than_the_least_or_the_leaning_plane():
    # nothing is read within 4 ft of the ends: the face must not dive there
    readings = [r for r in grid(20, 10, lambda u, v: Fraction(int(u + 2 * v) % 3, 16)) if 4 * FOOT <= r[0] <= 16 * FOOT]
    found = up(readings, face="wandering", price=None)
    leaning, wander = found.face("leaning"), found.face("wandering")
    depth = {c.id: inches(c.depth) for c in found.corners}
    straight = {c.id: inches(c.depth) for c in up(readings, face="leaning").corners}
    for name in depth:
        assert depth[name] >= min(straight[name], 3 / 8) - 1 / 16
    assert float(wander.volume) <= float(leaning.volume) + 1e-9


def test_the_rules_are_kept_under_every_straightedge_level_plumb_and_along_slants():
    wander = up(rough(20, 10, 7), spacing=4 * FOOT).face("wandering")
    for length, allowed in ((5, 1 / 4), (10, 1 / 4)):
        for line in sampled(wander):
            worst = rolling_straightedge(line, length * FOOT).worst if len(line) > 2 else None
            assert worst is None or inches(worst.gap) <= allowed + 1e-4
    assert inches(wander.gaps[1].gap) == pytest.approx(1 / 4, abs=1e-3)
    assert inches(wander.gaps[1].gap) <= 1 / 4 + 1e-9


@pytest.mark.parametrize("angle", [7, 20, 33, 51, 64, 80, 100, 118, 141, 163])
def test_between_the_slants_it_breaks_the_rule_by_a_quarter_at_the_most(angle):
    # not promised, and said so in the docs: straightedges at any other angle. Looked at, not proved
    wander = up(rough(20, 10, 11), spacing=5 * FOOT).face("wandering")
    worst = 0.0
    for offset in np.linspace(-9, 9, 13):
        line = across(wander, angle, offset)
        found = rolling_straightedge(line, 10 * FOOT).worst if len(line) > 2 else None
        worst = max(worst, inches(found.gap) if found else 0.0)
    assert worst <= 1 / 4 * 1.25


def sampled(face, count=41):
    """Lines over the face, level, plumb and along both slants of the grid, as (along, out)."""
    us, vs = (np.linspace(x[0], x[-1], count) for x in (face.us, face.vs))
    for v in vs[::4]:
        yield [(u, at(face, u / float(FOOT), v / float(FOOT)) * float(INCH)) for u in us]
    for u in us[::4]:
        yield [(v, at(face, u / float(FOOT), v / float(FOOT)) * float(INCH)) for v in vs]
    du, dv = face.us[1] - face.us[0], face.vs[1] - face.vs[0]
    slant = np.degrees(np.arctan2(dv, du))
    for angle in (slant, 180 - slant):
        for i in range(-2 * len(face.vs), 2 * len(face.us)):
            yield through(face, angle, face.us[0] + i * du / 2)


def through(face, angle, u0):
    """The line at ``angle`` that meets the foot of the wall at ``u0``, read at eighths of fields."""
    du, dv = face.us[1] - face.us[0], face.vs[1] - face.vs[0]
    sign = 1 if angle < 90 else -1
    steps = np.arange(0, (len(face.vs) - 1) * 2 + 1) / 2
    points = [(u0 + sign * s * du, face.vs[0] + s * dv) for s in steps]
    return readings_on(face, points)


def across(face, angle, offset):
    """A line at ``angle`` through a point ``offset`` feet along the level through the middle of the wall."""
    middle = np.array([(face.us[0] + face.us[-1]) / 2 + offset * float(FOOT), (face.vs[0] + face.vs[-1]) / 2])
    way = np.array([np.cos(np.radians(angle)), np.sin(np.radians(angle))])
    return readings_on(face, [middle + s * way for s in np.linspace(-8, 8, 161)])


def readings_on(face, points):
    inside = [
        p for p in points
        if face.us[0] - 1e-9 <= p[0] <= face.us[-1] + 1e-9 and face.vs[0] - 1e-9 <= p[1] <= face.vs[-1] + 1e-9
    ]  # fmt: skip
    return [
        (float(np.hypot(*(np.array(p) - inside[0]))), at(face, p[0] / float(FOOT), p[1] / float(FOOT)) * float(INCH))
        for p in inside
    ]


def test_from_foot_to_head_it_leans_no_more_than_a_plane_may():
    found = up(grid(20, 10, lambda u, v: -Fraction(v, 10) + Fraction(int(u) % 3, 16)))
    assert inches(found.face("wandering").lean) <= 1 / 4 + CLOSE


def test_the_weights_of_the_grounds_are_the_wall():
    wall = shapely.Polygon([(0, 0), (6, 0), (6, 3), (3, 4.4), (0, 3)])
    net = wall.difference(shapely.box(1.1, 0.4, 2.3, 2.2)).difference(shapely.box(4, 0, 5, 2))
    lines = Grid(np.linspace(0, 6, 5), np.linspace(0, 4.4, 4))
    found, fields = weights(lines, net)
    assert found.sum() == pytest.approx(net.area)
    assert found @ lines.nodes == pytest.approx(net.area * np.array([net.centroid.x, net.centroid.y]))
    assert not fields[2, 0] or net.intersects(shapely.box(0, lines.vs[2], 1.5, 4.4))
    # anything else: a bilinear field summed over a fine raster
    heights = np.random.default_rng(1).normal(size=lines.size)
    n = 600
    u, v = np.meshgrid((np.arange(n) + 0.5) * 6 / n, (np.arange(n) + 0.5) * 4.4 / n)
    on = shapely.contains_xy(net, u.ravel(), v.ravel())
    points = np.column_stack([u.ravel(), v.ravel()])[on]
    raster = (lines.rows(points) @ heights).sum() * 6 * 4.4 / n**2
    assert found @ heights == pytest.approx(raster, rel=3e-3)


def test_no_straightedge_is_laid_over_an_opening():
    # a door through most of the wall: the rows stop at it
    fields = np.ones((2, 4), dtype=bool)
    fields[0, 1:3] = False
    lines = Grid(np.arange(5) * 1.5, np.arange(3) * 1.5)
    rows = [t for t in tracks(lines, fields, 3.0) if t.way[1] == 0]
    spans = sorted((float(t.start[1]), float(t.start[0]), float(t.line.along[-1])) for t in rows)
    assert spans == [(1.5, 0.0, 6.0), (3.0, 0.0, 6.0)]


def test_a_rule_that_another_one_holds_is_left_out():
    short, long, tight = Straightedge(5, 2), Straightedge(10, 2), Straightedge(5, 1)
    assert needed((short, long)) == [1]
    assert needed((tight, long)) == [0, 1]
    assert needed((short, short)) == [0]


def test_the_books_two_rules():
    short, long = up(grid(20, 10)).chosen.gaps
    assert (float(short.length) / float(FOOT), float(long.length) / float(FOOT)) == pytest.approx((5, 10))
    assert [BOOK.number(f"grounds.{w}-gap").written for w in ("short", "long")] == ["1/4 in", "1/4 in"]


def test_a_firm_that_follows_the_tighter_voice_gets_half_the_dip():
    tight = BOOK.following({"grounds": "ufgs"})
    readings = grid(10, 10, lambda u, v: -(1 - abs(u - 5) / 5), step=5)
    wander = up(readings, rectangle(10, 10), book=tight).face("wandering")
    assert at(wander, 5, 5) == pytest.approx(3 / 8 - 1 / 8, abs=CLOSE)


@pytest.mark.parametrize(("subject", "voice"), [("grounds.long-gap", "c926"), ("grounds.short-gap", "ubc")])
def test_the_voice_that_is_followed_stands_behind_the_face(subject, voice):
    working = run(grid(20, 10), book=BOOK.following({subject: voice}))[1]
    assert f"{subject}.{voice}" in working.steps["bay-south/grounds/wandering/out"].rules


@settings(max_examples=8, deadline=None)
@given(st.integers(0, 10_000), st.sampled_from([3, 4, 5]))
def test_every_reading_has_its_least_and_no_rule_is_broken(seed, spacing):
    walls = outline((0, 0), (22, 0), (22, 9), (11, 13), (0, 9))
    holes = (opening("door", 3, 7, 4, 0), opening("window", 4, 4, 12, 3))
    found = up(rough(22, 9, seed, holes=holes), walls, openings=holes, spacing=spacing * FOOT)
    for face in found.faces:
        assert inches(face.least) >= 3 / 8 - 1e-9
        for gap in face.gaps:
            assert inches(gap.gap) <= 1 / 4 + 1e-6
    assert float(found.face("wandering").volume) <= float(found.face("leaning").volume) + 1e-9
