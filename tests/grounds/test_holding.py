"""Past what may hang without lath: hollows of known size, and what each way of holding them comes to."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
import shapely

from .asking import BOOK, FOOT, INCH, cubic_feet, feet, grid, inches, rectangle, run, square_feet, up

CLOSE = 1e-5


def hollow(depth=0.5, at=(10, 4)):
    """Flat but for one reading of a 2 ft grid: a pyramid turned in, on 4 x 4 ft."""
    return grid(20, 10, lambda u, v: -depth if (u, v) == at else 0)


def test_a_pyramid_of_hollow():
    # the plaster is 7/8 in. at its tip; thicker than 5/8 in. within half its width: 2 x 2 ft, a pyramid of 1/4 in.
    found = up(hollow())
    (patch,) = found.patches
    assert found.limit.written == "5/8 in"
    assert square_feet(patch.area) == pytest.approx(4, abs=CLOSE)
    assert square_feet(found.chosen.past) == pytest.approx(4, abs=CLOSE)
    assert inches(patch.deepest) == pytest.approx(7 / 8, abs=CLOSE)
    assert cubic_feet(patch.excess) == pytest.approx(4 * (1 / 4) / 12 / 3, abs=CLOSE)
    assert (patch.u / float(FOOT), patch.v / float(FOOT)) == pytest.approx((10, 4))
    assert shapely.Polygon(patch.outlines[0]).area == pytest.approx(float(patch.area))
    # the whole: 200 sq ft of 3/8 in., and the hollow, 16 x 1/2 in. / 3
    assert cubic_feet(found.chosen.volume) == pytest.approx(200 * (3 / 8) / 12 + 16 * (1 / 2) / 12 / 3, abs=CLOSE)


def test_each_way_of_holding_it():
    found = up(hollow(depth=1.0), price=Decimal("1000"))
    lath, follow, dub = found.holdings
    assert [h.how for h in found.holdings] == ["lath", "follow", "dub out"]
    # 1 3/8 in. at the tip: on lath three lifts of 1/2 in.; 3/4 in. past the limit: two lifts to fill it
    assert (lath.lifts.value, dub.lifts.value) == (3, 2)
    assert follow.lifts.value == 2  # 5/8 in. of plaster
    assert inches(follow.off) == pytest.approx(3 / 4, abs=CLOSE)
    # past the limit within three quarters of 4 ft: 3 x 3 ft, a pyramid of 3/4 in.
    assert square_feet(lath.area) == pytest.approx(9, abs=CLOSE)
    whole = 200 * (3 / 8) / 12 + 16 / 12 / 3
    assert cubic_feet(lath.volume) == cubic_feet(dub.volume) == pytest.approx(whole, abs=CLOSE)
    assert cubic_feet(follow.volume) == pytest.approx(whole - 9 * (3 / 4) / 12 / 3, abs=CLOSE)
    assert follow.cost.value < lath.cost.value == dub.cost.value == found.chosen.cost.value
    assert lath.most.written == "1/2 in"


def test_nobody_has_said_so_he_is_asked():
    found = up(hollow())
    codes = [n.code for n in found.notes]
    assert codes.count("grounds.hollow") == 1
    assert "grounds.how-held" in codes
    assert found.volume == found.chosen.volume


@pytest.mark.parametrize("held", ["lath", "follow", "dub out"])
def test_on_his_word(held):
    found = up(hollow(), held=held)
    codes = {n.code: n.grade for n in found.notes}
    assert "grounds.how-held" not in codes
    code = f"grounds.held.{held.replace(' ', '-')}"
    assert codes[code] == ("caution" if held == "dub out" else "fact")
    way = next(h for h in found.holdings if h.how == held)
    assert found.volume == way.volume


def test_where_the_face_follows_the_wall_the_grounds_go_back_with_it():
    at = {"5-3": (16, 8)}
    found = up(hollow(depth=1.0, at=(16, 8)), held="follow", spacing=4 * FOOT)
    straight = up(hollow(depth=1.0, at=(16, 8)), spacing=4 * FOOT)
    ground = {(round(g.u / float(FOOT)), round(g.v / float(FOOT))): g for g in found.grounds}
    before = {(round(g.u / float(FOOT)), round(g.v / float(FOOT))): g for g in straight.grounds}
    assert inches(ground[0, 0].depth) == inches(before[0, 0].depth) == pytest.approx(3 / 8)
    deep = min(found.grounds, key=lambda g: np.hypot(g.u / float(FOOT) - 16, g.v / float(FOOT) - 8))
    assert at
    assert inches(deep.depth) <= 5 / 8 + CLOSE


def test_two_hollows_the_deepest_first_and_hollows_that_touch_are_one():
    two = up(grid(20, 10, lambda u, v: {(4, 4): -0.5, (16, 6): -0.75}.get((u, v), 0)))
    assert [round(inches(p.deepest), 4) for p in two.patches] == [1.125, 0.875]
    assert sum(n.code == "grounds.hollow" for n in two.notes) == 2
    # a ridge between them that does not reach the limit
    ridge = {(8, 4): -0.75, (10, 4): -0.125, (12, 4): -0.75}
    assert len(up(grid(20, 10, lambda u, v: ridge.get((u, v), 0))).patches) == 2
    # one that just does: they touch in a point, and are one
    ridge[10, 4] = -0.25
    assert len(up(grid(20, 10, lambda u, v: ridge.get((u, v), 0))).patches) == 1
    joined = {(8, 4): -0.75, (10, 4): -0.5, (12, 4): -0.75}
    assert len(up(grid(20, 10, lambda u, v: joined.get((u, v), 0))).patches) == 1


def test_what_is_on_lath_anyway_is_no_question():
    found = up(hollow(), lathed=(rectangle(4, 4, 8, 2),))
    assert found.patches == ()
    assert found.holdings == ()
    half = up(hollow(), lathed=(rectangle(2, 4, 8, 2),))
    assert square_feet(half.chosen.past) == pytest.approx(2, abs=CLOSE)


@pytest.mark.parametrize(("base", "limit"), [("block", "5/8 in"), ("concrete", "5/8 in")])
def test_solid_bases_have_a_limit(base, limit):
    assert up(hollow(), base=base).limit.written == limit


@pytest.mark.parametrize("base", ["brick", "stone", "painted block", "old plaster"])
def test_other_solid_bases_are_taken_as_block_and_it_is_said(base):
    found = up(hollow(), base=base)
    assert found.limit.id == "thickness.no-lath.sma"
    assert [n.grade for n in found.notes if n.code == "grounds.limit-as-block"] == ["assumed"]


@pytest.mark.parametrize("base", ["frame", "lath over block"])
def test_on_lath_and_wood_there_is_none(base):
    found = up(hollow(depth=2.0), base=base)
    assert found.limit is None
    assert found.patches == ()
    assert float(found.chosen.past) == 0


def test_the_steeper_the_face_the_more_is_past_the_limit():
    found = up(grid(20, 10, lambda u, v: -v / 10))
    past = {f.name: square_feet(f.past) for f in found.faces}
    # plumb: 3/8 at the foot, 1 3/8 in. at the head: past 5/8 from 2 1/2 ft up
    assert past["plumb"] == pytest.approx(20 * 7.5, abs=CLOSE)
    # leaning 1/4 in.: 3/4 in. over 10 ft more: past 5/8 from 3 1/3 ft up
    assert past["leaning"] == pytest.approx(20 * (10 - 10 / 3), abs=CLOSE)


def test_the_area_past_the_limit_is_what_a_fine_raster_finds():
    random = np.random.default_rng(4)
    readings = feet((u, v, float(random.normal(0, 0.2))) for u in range(0, 21, 2) for v in range(0, 11, 2))
    found = up(readings)
    points, trios = np.array(found.map.points), found.map.triangles
    n, past = 250, 0
    for trio in trios:
        (a, b, c), t = points[list(trio)], np.array([found.map.thickness[k] for k in trio])
        area = abs((b - a)[0] * (c - a)[1] - (b - a)[1] * (c - a)[0]) / 2
        s = (np.indices((n, n)).reshape(2, -1) + 0.5) / n
        s = np.where(s.sum(axis=0) > 1, 1 - s, s)
        past += area * np.mean(t[0] + s[0] * (t[1] - t[0]) + s[1] * (t[2] - t[0]) > 5 / 8 * float(INCH))
    assert float(found.chosen.past) == pytest.approx(past, rel=2e-3)
    assert sum(float(p.area) for p in found.patches) == pytest.approx(float(found.chosen.past), rel=1e-6)


def test_the_map_has_every_reading_and_its_thickness():
    found, _ = run(hollow())
    assert len(found.map.points) == len(found.map.thickness) == 66
    assert inches(max(found.map.thickness)) == pytest.approx(7 / 8, abs=CLOSE)
    area = 0.0
    for trio in found.map.triangles:
        area += shapely.Polygon([found.map.points[n] for n in trio]).area
    assert area == pytest.approx(float(found.net))


def test_hollows_that_no_rule_shows_are_gathered_into_one_sentence():
    # 0.63 in. of plaster at two spots and 0.9 in. at one: 5/8 in. is passed by five thousandths there
    deep = [(4, 4, Fraction(-255, 1000)), (16, 4, Fraction(-255, 1000)), (10, 6, Fraction(-525, 1000))]
    others = [(u, v, 0) for v in range(0, 11, 2) for u in range(0, 21, 2) if (u, v) not in {(x, y) for x, y, _ in deep}]
    found = up(feet([*others, *deep]))
    assert [p.slight for p in found.patches] == [False, True, True]
    assert [dict(n.values)["number"] for n in found.notes if n.code == "grounds.hollow"] == [1]
    (together,) = [dict(n.values) for n in found.notes if n.code == "grounds.hollows-slight"]
    assert together["count"] == 2
    # each a pyramid over 4 x 4 ft, 0.255 in. deep: past 1/4 in. within 5/255 of its sides
    assert square_feet(together["area"]) == pytest.approx(2 * 16 * (5 / 255) ** 2, rel=1e-6)


def test_a_pocket_that_a_trowel_fills_is_no_line_of_its_own():
    """Deep enough for a rule, but 3 in. wide: past the limit by some thousandths of a cubic foot."""
    assert BOOK.number("grounds.least-fill").number == pytest.approx(0.01 * float(FOOT) ** 3)
    near = [(10 + x, 4 + y, 0) for x, y in ((-0.25, 0), (0.25, 0), (0, -0.25), (0, 0.25))]
    flat_wall = [(u, v, 0) for v in range(0, 11, 2) for u in range(0, 21, 2) if (u, v) != (10, 4)]
    (patch,) = up(feet([*flat_wall, *near, (10, 4, -1)])).patches
    assert inches(patch.deepest) == pytest.approx(1 + 3 / 8)
    assert cubic_feet(patch.excess) < 0.01
    assert patch.slight is True
