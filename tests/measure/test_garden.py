"""A garden wall: what it measures, worked by hand, and what it cannot be."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction as Fr
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure import Cap, Pilasters, Unreadable, WallSide, edge_runs, faults_of, garden_wall, gross_area, net_area
from darby.measure.geometry import reveal_areas
from darby.measure.shapes import opening
from darby.measure.units import FT, IN

TENS = Pilasters(tuple(n * FT for n in (10, 20, 30, 40, 50)), 16 * IN, 4 * IN)
DRIP = Cap("drip")


def made(length=60, height=6, cap=DRIP, **more):
    return garden_wall("gw", "Garden wall", length * FT, height * FT, 8 * IN, cap, **more)


def feet2(surfaces, *ids):
    return sum(gross_area(s) * s.count for s in surfaces if not ids or s.id in ids) / FT**2


def lengths(surfaces):
    """Feet of each kind of edge, every corner once."""
    found = Counter()
    for run in edge_runs(surfaces):
        if run.counted:
            found[run.kind] += run.length * run.count
    return {kind: length / FT for kind, length in found.items()}


def fault(**more):
    with pytest.raises(Unreadable) as refused:
        made(**more)
    return refused.value.fault


def test_sixty_by_six_with_five_pilasters_on_each_face():
    wall = made(pilasters=TENS, facing=180)
    assert [s.id for s in wall] == ["gw-front", "gw-back", "gw-left", "gw-right", "gw-front-returns", "gw-back-returns"]
    assert feet2(wall, "gw-front", "gw-back") == 720  # 2 x 60 x 6
    assert feet2(wall, "gw-front-returns", "gw-back-returns") == 40  # 10 pilasters x 2 sides x 4 in. x 6 ft
    assert feet2(wall, "gw-left", "gw-right") == 8  # 2 x 8 in. x 6 ft
    assert feet2(wall) == 768
    assert lengths(wall) == {
        "outside corner": 144,  # 20 at pilasters and 4 at the ends, 6 ft each
        "inside corner": 120,  # where the 20 sides meet the face
        "drip": 120 + Fr(4, 3) + Fr(20, 3),  # both faces, two ends of 8 in., twenty sides of 4 in.
        "grade": 128,
    }
    assert [s.count for s in wall] == [1, 1, 1, 1, 10, 10]
    assert [s.facing for s in wall] == [180, 0, 270, 90, None, None]
    assert all(not faults_of(s) for s in wall)


def test_each_corner_of_the_wall_has_one_name():
    wall = made(pilasters=TENS)
    names = Counter(e.shared for s in wall for e in s.edges if e.shared)
    assert names == dict.fromkeys(("gw-front|gw-left", "gw-front|gw-right", "gw-back|gw-left", "gw-back|gw-right"), 2)
    edges = {s.id: {e.id: e.shared for e in s.edges} for s in wall}
    assert edges["gw-back"]["left"] == "gw-back|gw-right"  # the back shows the ends the other way round
    assert edges["gw-right"]["left"] == "gw-front|gw-right"


def test_pilasters_stand_out_of_both_faces_mirrored():
    front, back = made(pilasters=Pilasters((5 * FT,), 2 * FT, 4 * IN))[:2]
    for surface, left in ((front, 4), (back, 54)):
        (pilaster,) = surface.projections
        assert [(c.u / FT, c.v / FT) for c in pilaster.outline] == [
            (left, 0), (left + 2, 0), (left + 2, 6), (left, 6)
        ]  # fmt: skip
        assert pilaster.out == 4 * IN


def test_one_face_and_one_free_end():
    wall = made(pilasters=TENS, faces=1, right=WallSide("inside corner"))
    assert [s.id for s in wall] == ["gw-front", "gw-left", "gw-front-returns"]
    # front 360, one end 4, ten returns 20; arris: 10 at pilasters, two at the end
    assert feet2(wall) == 384
    assert lengths(wall)["outside corner"] == 72
    assert lengths(wall)["inside corner"] == 66  # ten returns, and the end against something


def test_a_pilaster_flush_with_the_end_makes_the_end_wider():
    piers = Pilasters((8 * IN, 30 * FT, 60 * FT - 8 * IN), 16 * IN, 4 * IN)
    wall = made(pilasters=piers)
    # ends 16 in. wide; of twelve sides of pilasters four lie in the ends
    assert feet2(wall, "gw-left", "gw-right") == 16
    assert feet2(wall, "gw-front-returns", "gw-back-returns") == 8 * Fr(4, 12) * 6
    # around the wall: 4 at the ends, 4 inner ones of the piers, 4 in the middle, 6 ft each
    assert lengths(wall)["outside corner"] == 72
    assert lengths(wall)["inside corner"] == 48


def test_a_plastered_top_that_falls_to_one_side():
    wall = made(pilasters=TENS, cap=Cap("slope", 6 * IN, "back"))
    # 8 in. across and 6 in. down is 10 in. along the slope; ten pilasters go on for 4 in. at the same pitch, 5 in.
    assert feet2(wall, "gw-top") == 60 * Fr(10, 12) + 10 * Fr(16, 12) * Fr(5, 12)
    assert feet2(wall, "gw-front") == 60 * Fr(13, 2)
    assert feet2(wall, "gw-back") == 360
    assert feet2(wall, "gw-left") == Fr(8, 12) * Fr(25, 4)  # 6 ft behind, 6 1/2 ft in front
    top = next(s for s in wall if s.id == "gw-top")
    assert top.tilt == pytest.approx(36.87, abs=0.01)
    assert not faults_of(top)
    # arris upright: in front 12 of 6 1/2 ft, behind 12 of 6; level: both faces 60 ft; ends 10 in.; twenty sides 5 in.
    assert lengths(wall)["outside corner"] == 12 * Fr(13, 2) + 72 + 120 + 2 * Fr(10, 12) + 20 * Fr(5, 12)


def test_a_plastered_top_with_a_ridge():
    wall = made(cap=Cap("slope", 3 * IN, "both"))
    # 4 in. across and 3 in. down is 5 in. along
    assert [s.id for s in wall][-2:] == ["gw-top-front", "gw-top-back"]
    assert feet2(wall, "gw-top-front", "gw-top-back") == 2 * 60 * Fr(5, 12)
    assert feet2(wall, "gw-left") == 4 + Fr(8, 12) * Fr(3, 12) / 2
    # 24 ft upright at the ends, 120 along the faces, the ridge 60, four slopes of 5 in.
    assert lengths(wall)["outside corner"] == 24 + 120 + 60 + 4 * Fr(5, 12)


def test_a_ridge_over_a_pier_on_one_face_stays_over_the_middle_of_the_wall():
    pier = Pilasters((8 * IN,), 16 * IN, 4 * IN, frozenset({"front"}))
    left = next(s for s in made(pilasters=pier, cap=Cap("slope", 3 * IN, "both")) if s.id == "gw-left")
    peak = next(c for c in left.outline if c.id == "peak")
    assert (peak.u, left.outline[1].u) == (4 * IN, 12 * IN)  # the back is at the left of this end


def test_earth_behind_takes_the_foot_of_the_back_up():
    wall = made(pilasters=TENS, retains=4 * FT, foot=FT)
    by = {s.id: s for s in wall}
    assert (by["gw-back"].foot, gross_area(by["gw-back"])) == (5 * FT, 120 * FT**2)
    assert gross_area(by["gw-back-returns"]) == 2 * FT * 4 * IN
    assert by["gw-front"].foot == FT
    assert next(e.kind for e in by["gw-back"].edges if e.id == "base") == "grade"


def test_an_opening_goes_through_both_faces():
    gate = opening("gate", "gate", 4 * FT, 5 * FT, 12 * FT, Fr(0), reveal=4 * IN, plastered=("head", "left", "right"))
    hatch = opening("hatch", "hatch", 2 * FT, 2 * FT, 3 * FT, 3 * FT, rise=IN, reveal=4 * IN, plastered=("left",))
    front, back, *_ = made(openings=[gate, hatch])
    assert net_area(front) == net_area(back)
    assert min(c.u for c in back.openings[0].outline) == 44 * FT  # 60 - 12 - 4
    assert back.openings[1].plastered == {"right"}
    assert [c.id for c in back.openings[1].outline] == ["base-left", "base-right", "top-right", "top-left"]
    assert [c.bulge > 0 for c in back.openings[1].outline] == [False, False, True, False]
    # both halves of the reveals make the wall's 8 in.: gate head 4 and jambs 5 each, 23 in. of the hatch's jamb
    deep = sum(r.area for s in (front, back) for r in reveal_areas(s)) / FT**2
    assert deep == (14 + Fr(23, 12)) * Fr(8, 12)


def test_pilasters_that_cannot_stand_so():
    assert fault(pilasters=Pilasters((10 * FT, 11 * FT), 16 * IN, 4 * IN)).code == "measure.pilasters-overlap"
    assert fault(pilasters=Pilasters((10 * FT, 11 * FT + 4 * IN), 16 * IN, 4 * IN)).allowed == "> 1' 4\""
    past = fault(pilasters=Pilasters((60 * FT,), 16 * IN, 4 * IN))
    assert (past.code, past.place, past.found) == ("measure.pilaster-outside", "pilasters", "60'")
    assert past.allowed == '8" … 59\' 4"'
    assert fault(length=1, pilasters=TENS).allowed == "-"
    assert fault(pilasters=Pilasters((), 16 * IN, 4 * IN)).code == "measure.pilaster-outside"
    assert fault(pilasters=Pilasters((FT,), Fr(0), 4 * IN)).code == "measure.pilaster-size"
    door = opening("door", "door", 3 * FT, 6 * FT, 9 * FT, Fr(0))
    cut = fault(pilasters=TENS, openings=[door])
    assert (cut.code, cut.place) == ("measure.opening-at-pilaster", 'opening "door"')
    clear = opening("door", "door", 3 * FT, 6 * FT, 10 * FT + 8 * IN, Fr(0))
    assert made(pilasters=TENS, openings=[clear])


def test_earth_as_high_as_the_wall_and_a_slope_that_does_not_fall():
    assert fault(retains=6 * FT).code == "measure.retains"
    assert fault(cap=Cap("slope")).code == "measure.cap-fall"


@given(
    st.integers(1, 6), st.integers(1, 30), st.integers(1, 12), st.sampled_from(["front", "back", "both", None]),
    st.booleans(), st.booleans(),
)  # fmt: skip
def test_any_pilasters_make_a_wall_whose_corners_are_counted_once(count, width, out, to, flush, one_face):
    """Arris and area follow from counting alone, whatever stands where."""
    every = 4 * FT
    centres = tuple(every * n for n in range(1, count + 1))
    length = every * (count + 1)
    if flush:
        centres = (width * IN / 2, *centres, length - width * IN / 2)
    cap = Cap("slope", 2 * IN, to) if to else DRIP
    on = frozenset({"front"} if one_face else {"front", "back"})
    pilasters = Pilasters(centres, width * IN, out * IN, on)
    if flush and width * IN / 2 + width * IN >= every:
        return
    wall = garden_wall("gw", "G", length, 6 * FT, 8 * IN, cap, pilasters=pilasters)
    assert all(not faults_of(s) for s in wall)
    sides = 2 * count * len(on) + 2 * flush * len(on)
    assert sum(s.count for s in wall if s.id.endswith("returns")) == sides
    upright = [r for r in edge_runs(wall) if r.counted and r.kind == "outside corner" and r.side in ("left", "right")]
    upright = [r for r in upright if not r.surface.removeprefix("gw-").startswith("top")]
    assert sum(r.count for r in upright) == sides + 4
    plan = sum(gross_area(s) for s in wall if s.id.startswith("gw-top"))
    if to:
        run = 8 if to != "both" else 4
        flat = length * 8 * IN + len(centres) * len(on) * width * IN * out * IN
        assert float(plan) == pytest.approx(float(flat) * hypot(run, 2) / run)
