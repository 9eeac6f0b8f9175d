"""Grounds against scipy's linprog: the same faces from programmes written out anew, with every window from the start.

The peer stands in ``benchmarks/grounds.py``. What it is given: readings, rules, and how far out the bare wall stands at
the crossings. Where the net wall's middle lies, what every crossing counts, and every row of the rules are its own.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from benchmarks.grounds import FOOT, INCH, apart, hats_over, invented, peer, peer_plane, peer_wander, question

from darby.grounds import Straightedge, true_up

NEAR = 1e-3 * INCH
"""A thousandth of an inch: between two of the peer's steps a straightedge may find a hair more."""


@pytest.mark.parametrize("seed", range(4))
def test_three_faces_and_what_spots_save(seed):
    ask = invented(60 + 40 * seed, seed)
    given, floor, spots, answer = question(ask)
    assert apart(ask, given, answer, peer(given, floor, spots)) < NEAR


@pytest.mark.parametrize("seed", range(10, 18))
def test_planes_to_a_billionth(seed):
    ask = invented(40, seed)
    given, _, _, answer = question(ask)
    u, v = given.middle
    for face, lean in zip(answer.faces[:2], (0.0, given.lean), strict=True):
        least, (c, a, b) = peer_plane(given, lean)
        here = [[c + a * x + b * y for x in face.us] for y in face.vs]
        assert np.array(face.out) == pytest.approx(np.array(here), abs=2e-8)
        s, t = (u - face.us[0]) / (face.us[1] - face.us[0]), (v - face.vs[0]) / (face.vs[1] - face.vs[0])
        low, high = ((1 - s) * row[0] + s * row[1] for row in face.out)
        assert (1 - t) * low + t * high == pytest.approx(least, abs=1e-8)


@pytest.mark.parametrize(
    "rules",
    [((5, 1 / 4),), ((10, 1 / 8),), ((5, 1 / 16), (10, 1 / 4)), ((3, 1 / 8),), ((16, 1 / 2),)],
)
def test_wandering_faces_by_other_rules(rules):
    edges = tuple(Straightedge(length * FOOT, gap * INCH) for length, gap in rules)
    ask = replace(invented(80, 7), straightedges=edges)
    given, floor, _, answer = question(ask)
    mean, heights = peer_wander(given, floor)
    face = answer.face("wandering")
    ours = (np.array(face.out) * shares(given)).sum()
    assert ours == pytest.approx(mean, abs=NEAR)
    assert ours >= mean - 1e-7  # the peer has some of the windows, darby keeps all
    assert heights.shape == np.array(face.out).shape


def shares(given):
    return (hats_over(given) / given.area).reshape(len(given.vs), len(given.us))


def test_the_peer_finds_what_a_spot_holds_out():
    ask = replace(invented(90, 3), face="plumb")
    answer = true_up(ask)[0]
    given, _, _, _ = question(ask)
    assert answer.spots
    for spot in answer.spots:
        lower = given.readings.copy()
        lower[spot.number - 1, 2] -= float(spot.by)
        saved = peer_plane(given, 0.0)[0] - peer_plane(replace(given, readings=lower), 0.0)[0]
        assert float(spot.knocked) == pytest.approx(saved * given.area, abs=1e-6)
