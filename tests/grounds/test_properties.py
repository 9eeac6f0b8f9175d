"""What holds for every wall, openings and gables among them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.measure.surface import Corner, Opening

from .asking import FOOT, INCH, LEAST, opening, outline, up, wall_of
from .walls import rough

CLOSE = 2e-8
"""Metres: the solver is sure of a billionth in every row."""


def room(face):
    """Cubic metres: a wandering face is done when no rule is broken by more than a thirty-thousandth of its gap."""
    return 2e-5 if face.name == "wandering" else 1e-6


some = settings(max_examples=7, deadline=None)
seeds = st.integers(0, 100_000)

WALLS = outline((0, 0), (20, 0), (20, 9), (12, 13), (0, 9))
HOLES = (opening("door", 3, 7, 4, 0), opening("window", 4, 4, 11, 3))


def readings_of(seed, count=45):
    return rough(20, 9, seed, count=count, holes=HOLES)


def trued(readings, walls=WALLS, holes=HOLES, **fields):
    return up(readings, walls, openings=holes, **fields)


@some
@given(seeds)
def test_every_reading_has_its_least_and_the_freer_the_face_the_less_plaster(seed):
    readings = readings_of(seed)
    found = trued(readings)
    for face in found.faces:
        assert float(face.least) >= float(LEAST) - 1e-12
        assert len(face.holds) >= 1
    plumb, leaning, wandering = (float(f.volume) for f in found.faces)
    assert wandering <= leaning + CLOSE
    assert leaning <= plumb + CLOSE
    assert plumb >= float(found.untrued) - float(found.net) * 0.002  # a hull of few readings may be a little under it


@some
@given(seeds, st.integers(-200, 200), st.integers(-30, 30))
def test_another_line_to_measure_from_changes_nothing_but_the_offset(seed, off, turn):
    """Moved out by ``off`` mm and turned in plan by ``turn`` mm a metre."""
    readings = readings_of(seed)
    fixed = ((0.0, 0.3, 0.03),)
    moved = tuple((u, v, out + off / 1000 + turn / 1000 * u) for u, v, out in readings)
    flush = tuple((u, v, out + off / 1000 + turn / 1000 * u) for u, v, out in fixed)
    first, second = trued(readings, fixed=fixed), trued(moved, fixed=flush)
    for one, other in zip(first.faces, second.faces, strict=True):
        assert float(other.volume) == pytest.approx(float(one.volume), abs=room(one))
        shift = np.array(other.out) - np.array(one.out)
        expected = np.tile(off / 1000 + turn / 1000 * np.array(one.us), (len(one.vs), 1))
        if one.name != "wandering":  # a wandering face may tie with another
            assert float(other.lean) == pytest.approx(float(one.lean), abs=1e-6)
            assert shift == pytest.approx(expected, abs=1e-6)
    assert [w.number for w in first.wild] == [w.number for w in second.wild]
    assert [float(g.depth) for g in first.grounds] == pytest.approx([float(g.depth) for g in second.grounds], abs=1e-9)


def mirrored(corners):
    return tuple(Corner(c.id, 20 * FOOT - c.u, c.v) for c in reversed(corners))


@some
@given(seeds, st.booleans())
def test_a_mirror_image_is_trued_in_the_mirror(seed, squares):
    if squares:  # readings on a grid, where triangles have a choice
        random = np.random.default_rng(seed)
        readings = tuple((float(u * FOOT), float(v * FOOT), float(random.integers(-4, 5)) / 16 * float(INCH))
                         for v in (0, 2, 9) for u in (0, 2, 8, 10, 18, 20))  # fmt: skip
    else:
        readings = readings_of(seed)
    turned = tuple((float(20 * FOOT) - u, v, out) for u, v, out in readings)
    holes = tuple(Opening(o.id, o.name, mirrored(o.outline)) for o in HOLES)
    first, second = trued(readings, face="leaning"), trued(turned, mirrored(WALLS), holes, face="leaning")
    for one, other in zip(first.faces, second.faces, strict=True):
        assert float(other.volume) == pytest.approx(float(one.volume), abs=room(one))
        if one.name != "wandering":
            assert np.array(other.out)[:, ::-1] == pytest.approx(np.array(one.out), abs=1e-6)
    assert float(second.chosen.past) == pytest.approx(float(first.chosen.past), abs=1e-5)
    assert float(second.coverage.radius) == pytest.approx(float(first.coverage.radius), abs=1e-6)
    assert len(second.grounds) == len(first.grounds)


@some
@given(seeds, st.floats(0.05, 0.95), st.floats(0.05, 0.6), st.floats(-20, 20))
def test_one_more_reading_never_brings_a_plane_in(seed, across, up_, out):
    readings = readings_of(seed)
    more = (across * float(20 * FOOT), float(9 * FOOT) * (0.9 + 0.1 * up_), out / 1000)
    first, second = trued(readings), trued((*readings, more))
    for one, other in zip(first.faces[:2], second.faces[:2], strict=True):
        assert outness(other, second) >= outness(one, first) - CLOSE


def outness(face, found):
    """How far the face stands out in the middle of the net wall [m]: its mean thickness and the bare wall's mean."""
    us, vs, out = np.array(face.us), np.array(face.vs), np.array(face.out)
    wall = wall_of(readings_of(0), WALLS, openings=HOLES)
    s, t = (wall.middle[0] - us[0]) / (us[-1] - us[0]), (wall.middle[1] - vs[0]) / (vs[-1] - vs[0])
    assert found.net
    return float((out[0][0] * (1 - s) + out[0][-1] * s) * (1 - t) + (out[-1][0] * (1 - s) + out[-1][-1] * s) * t)


@some
@given(seeds, st.integers(0, 20), st.integers(0, 12))
def test_knocking_a_reading_down_never_costs(seed, which, by):
    readings = readings_of(seed)
    lower = tuple((u, v, out - by / 1000 * (n == which)) for n, (u, v, out) in enumerate(readings))
    first, second = trued(readings), trued(lower)
    for one, other in zip(first.faces[:2], second.faces[:2], strict=True):
        assert outness(other, second) <= outness(one, first) + CLOSE
    for face in ("plumb", "leaning", "wandering"):
        for spot in trued(readings, face=face).spots:
            assert float(spot.saves) >= float(spot.knocked) - CLOSE
            assert float(spot.knocked) >= 0


@some
@given(seeds, st.sampled_from([3, 4, 5, 7]))
def test_more_plaster_is_never_asked_for_by_a_wider_rule(seed, spacing):
    from darby.grounds import Straightedge

    readings = readings_of(seed)
    volumes = [
        float(
            trued(readings, spacing=spacing * FOOT, straightedges=(Straightedge(10 * FOOT, gap * INCH / 8),))
            .face("wandering")
            .volume
        )
        for gap in (1, 2, 4)
    ]
    assert volumes[0] + 2e-5 >= volumes[1] >= volumes[2] - 2e-5


@some
@given(seeds)
def test_thickness_and_volume_are_linear_in_the_least(seed):
    readings = readings_of(seed)
    thin, thick = trued(readings), trued(readings, least=LEAST + INCH / 4)
    for one, other in zip(thin.faces, thick.faces, strict=True):
        more = float(other.volume) - float(one.volume)
        assert more == pytest.approx(float(thin.net) * float(INCH) / 4, abs=room(one))
