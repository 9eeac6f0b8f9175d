"""Every edge length lands in exactly one run, and a corner that two surfaces share is counted once."""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction as Fr

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure import WallSide, corner_line, edge_runs, faces, house, opening, perimeter, wall, zone
from darby.measure.outline import side_length, sides
from darby.measure.surface import Corner, Edge, Surface
from darby.measure.units import FT, IN

NO = Fr(0)


def box(id, at, up, width, height, **more):
    return opening(id, id, width * FT, height * FT, at * FT, up * FT, **more)


def rect(id, base, u0, v0, u1, v1, **more):
    return zone(id, base, [(u0 * FT, v0 * FT), (u1 * FT, v0 * FT), (u1 * FT, v1 * FT), (u0 * FT, v1 * FT)], **more)


def feet(runs):
    return {run.id: run.length / FT for run in runs}


def test_a_plain_wall_has_its_four_edges():
    runs = edge_runs(wall("w", "Wall", 24 * FT, 12 * FT, base="grade"))
    assert feet(runs) == {"w/base": 24, "w/right": 12, "w/top": 24, "w/left": 12}
    assert [(r.side, r.kind, r.where) for r in runs] == [
        ("bottom", "grade", "wall"),
        ("right", "outside corner", "wall"),
        ("top", "top", "wall"),
        ("left", "outside corner", "wall"),
    ]
    assert all(r.counted and r.zone == "" and r.pieces == (r.length,) and r.edge == r.id[2:] for r in runs)


def test_a_door_cuts_the_base_in_two_pieces_and_its_sill_is_no_edge_of_plaster():
    runs = {r.id: r for r in edge_runs(wall("w", "Wall", 24 * FT, 12 * FT, openings=[box("door", 5, 0, 3, 7)]))}
    assert runs["w/base"].length == 21 * FT
    assert runs["w/base"].pieces == (5 * FT, 16 * FT)
    assert (runs["w/base/bare"].length, runs["w/base/bare"].counted) == (3 * FT, False)
    assert (runs["w/door/sill"].bare, runs["w/door/head"].bare) == (True, False)
    assert [runs[f"w/door/{s}"].kind for s in ("head", "sill", "left", "right")] == ["head", "sill", "jamb", "jamb"]
    assert runs["w/door/left"].length == 7 * FT


def test_two_openings_side_by_side_have_no_plaster_between_them():
    made = wall("w", "Wall", 24 * FT, 12 * FT, openings=[box("a", 5, 3, 3, 4), box("b", 8, 4, 3, 3)])
    runs = {r.id: r for r in edge_runs(made)}
    assert runs["w/b/left"].bare
    assert (runs["w/a/right"].length, runs["w/a/right/bare"].length) == (FT, 3 * FT)
    assert not runs["w/a/left"].bare


def test_edges_are_parted_where_zones_change():
    made = wall("w", "Wall", 24 * FT, 12 * FT, openings=[box("window", 8, 2, 4, 4)],
                zones=[rect("low", "block", 0, 0, 10, 6), zone("rest", "frame")])  # fmt: skip
    runs = {r.id: r for r in edge_runs(made)}
    assert feet(runs.values()) == {
        "w/base/low": 10, "w/base/rest": 14, "w/right": 12, "w/top": 24, "w/left/rest": 6, "w/left/low": 6,
        "w/window/sill/low": 2, "w/window/sill/rest": 2, "w/window/right": 4, "w/window/left": 4, "w/window/head": 4,
        "w/low/c2": 2, "w/low/c3": 8,
    }  # fmt: skip
    change = [r for r in runs.values() if r.kind == "change of base"]
    assert {(r.id, r.length / FT, r.zone, r.beyond, r.side) for r in change} == {
        ("w/low/c2", 2, "low", "rest", "field"),
        ("w/low/c3", 8, "low", "rest", "field"),
    }
    assert runs["w/window/left"].zone == "low"
    assert runs["w/window/right"].zone == "rest"
    assert runs["w/window/head"].zone == "rest"  # the head lies on the boundary: what stands above it counts


def test_a_boundary_between_two_outlined_zones_is_counted_once():
    zones = [rect("a", "block", 0, 0, 10, 12), rect("b", "frame", 10, 0, 24, 6), zone("rest", "concrete")]
    runs = [r for r in edge_runs(wall("w", "Wall", 24 * FT, 12 * FT, zones=zones)) if r.kind == "change of base"]
    assert {(r.id, r.length / FT, r.beyond) for r in runs} == {
        ("w/a/c2/b", 6, "b"),
        ("w/a/c2/rest", 6, "rest"),
        ("w/b/c3", 14, "rest"),
    }


def test_zones_alike_in_base_and_traits_part_nothing():
    alike = [rect("a", "block", 0, 0, 10, 12, traits=["dense"]), zone("rest", "block", traits=["dense"])]
    unlike = [rect("a", "block", 0, 0, 10, 12, traits=["dense"]), zone("rest", "block", traits=["lightweight"])]
    for zones, length in ((alike, 0), (unlike, 12 * FT)):
        runs = edge_runs(wall("w", "Wall", 24 * FT, 12 * FT, zones=zones))
        assert sum(r.length for r in runs if r.kind == "change of base") == length


def test_a_shared_corner_is_counted_once():
    made = house("h", "House", (30 * FT, 20 * FT, 30 * FT, 20 * FT), 9 * FT)
    runs = edge_runs(made)
    corners = [r for r in runs if r.kind == "outside corner"]
    assert len(corners) == 8
    assert sum(r.length for r in corners if r.counted) == 4 * 9 * FT
    assert {r.id: r.elsewhere for r in corners if r.elsewhere} == {
        "h-2/left": "h-1", "h-3/left": "h-2", "h-4/left": "h-3", "h-4/right": "h-1",
    }  # fmt: skip


def test_the_longer_one_of_two_counts_a_shared_corner():
    line = corner_line("low", "high")
    low = wall("low", "Low", 10 * FT, 8 * FT, right=WallSide(shared=line))
    high = wall("high", "High", 10 * FT, 12 * FT, left=WallSide(shared=line))
    for order in ((low, high), (high, low)):
        counted = {r.id: r.counted for r in edge_runs(order) if r.shared}
        assert counted == {"low/right": False, "high/left": True}


def test_a_corner_shared_with_a_surface_that_is_not_there_is_counted_here():
    runs = edge_runs(wall("w", "Wall", 10 * FT, 8 * FT, left=WallSide(shared="w|x")))
    assert all(r.counted for r in runs)


def test_five_equal_pilasters_say_five():
    assert {r.count for r in edge_runs(faces(wall("p", "Pilaster", 2 * FT, 6 * FT), 5))} == {5}


def test_an_arched_head_is_one_run_as_long_as_its_arc():
    from math import pi

    arch = box("arch", 8, 0, 4, 6, rise=2 * FT)
    runs = {r.id: r for r in edge_runs(wall("w", "Wall", 20 * FT, 10 * FT, openings=[arch]))}
    assert float(runs["w/arch/head"].length / FT) == pytest.approx(2 * pi, rel=1e-12)
    half = rect("half", "block", 0, 0, 10, 10)
    made = wall("w", "Wall", 20 * FT, 10 * FT, openings=[arch], zones=[half, zone("rest", "frame")])
    parts = {r.id: float(r.length / FT) for r in edge_runs(made) if r.where == "arch" and r.side == "head"}
    assert parts == {"w/arch/head/half": pytest.approx(pi, rel=1e-3), "w/arch/head/rest": pytest.approx(pi, rel=1e-3)}
    assert sum(parts.values()) == pytest.approx(2 * pi, rel=1e-12)


def test_an_opening_of_many_sides_names_its_edges_by_corner():
    points = [(0, 2), (1, 0), (3, 0), (4, 2), (3, 4), (1, 4)]
    six = tuple(Corner(f"k{n}", (8 + u) * FT, (2 + v) * FT) for n, (u, v) in enumerate(points))
    from darby.measure.surface import Opening

    runs = edge_runs(wall("w", "Wall", 20 * FT, 10 * FT, openings=[Opening("six", "six", six)]))
    found = {r.edge: r.side for r in runs if r.where == "six"}
    assert found == {
        "left@k0": "left", "sill": "sill", "right@k2": "right", "right@k3": "right", "head": "head", "left@k5": "left",
    }  # fmt: skip


def test_an_outline_drawn_clockwise_has_the_same_sides():
    made = wall("w", "Wall", 24 * FT, 12 * FT, zones=[rect("low", "block", 0, 0, 10, 6), zone("rest", "frame")])
    back = tuple(reversed(made.outline))
    starts = {"base-right": "base", "base-left": "left", "top-left": "top", "top-right": "right"}
    kinds = {e.id: e for e in made.edges}
    edges = tuple(Edge(kinds[name].id, kinds[name].kind, start) for start, name in starts.items())
    turned = Surface("w", "Wall", back, edges, zones=made.zones)
    assert {(r.id, r.side, r.length) for r in edge_runs(turned)} == {(r.id, r.side, r.length) for r in edge_runs(made)}


@st.composite
def walls(draw):
    """A wall with openings in columns (so that they never overlap) and zones that cut anything."""
    length, height, unit = draw(st.integers(8, 120)), draw(st.integers(8, 60)), FT / 4
    openings, at = [], 0
    for n in range(draw(st.integers(0, 4))):
        at += draw(st.integers(0, 6))
        width, up = draw(st.integers(1, 12)), draw(st.integers(0, height - 1))
        if at + width > length:
            break
        tall = draw(st.integers(1, height - up))
        rise = draw(st.sampled_from([NO, Fr(min(width, tall), 4)]))
        openings.append(opening(f"o{n}", "o", width * unit, tall * unit, at * unit, up * unit, rise=rise * unit))
        at += width
    zones = []
    if draw(st.booleans()):
        cut, top = draw(st.integers(1, length - 1)), draw(st.integers(1, height))
        tip = draw(st.integers(1, height))
        zones = [
            zone("a", "block", [(NO, NO), (cut * unit, NO), (cut * unit, top * unit), (NO, tip * unit)]),
            zone("rest", "frame"),
        ]
    gable = draw(st.integers(0, 12)) * unit
    breaks = draw(st.sampled_from([None, height * unit / 2]))
    side = WallSide("meets old work", up_to=breaks)
    return wall("w", "Wall", length * unit, height * unit, gable=gable, left=side, openings=openings, zones=zones)


@given(walls())
def test_runs_of_a_side_add_up_to_that_side(made):
    runs = edge_runs(made)
    assert len({r.id for r in runs}) == len(runs)
    along = defaultdict(Fr)
    for run in runs:
        assert run.length == sum(run.pieces)
        assert run.length > 0
        if run.kind != "change of base":
            along[run.where, run.edge] += run.length
    starts = {e.start: e.id for e in made.edges}
    for here, there in sides(made.outline):
        assert along["wall", starts[here.id]] == side_length(here, there)
    for hole in made.openings:
        total = sum(length for (where, _), length in along.items() if where == hole.id)
        assert abs(total - perimeter(hole)) < Fr(1, 10**12)
    assert sum(r.length for r in runs if r.where == "wall" and r.kind != "change of base") == perimeter(made)


@given(walls())
def test_bare_runs_of_wall_and_openings_match(made):
    """Where an opening reaches the outline, the wall's bare length there is the opening's bare length."""
    runs = edge_runs(made)
    wall_bare = sum(r.length for r in runs if r.where == "wall" and r.bare)
    openings_bare = sum(r.length for r in runs if r.where != "wall" and r.bare)
    between = openings_bare - wall_bare  # openings side by side: both sides are bare, the wall has none there
    still = Fr(1, 10**9)  # points of an arc are floats: a crown that touches the top may stand a hair over it
    assert between >= -still
    if len(made.openings) < 2:
        assert between <= still


def test_change_of_base_stops_at_openings_and_at_the_outline():
    zones = [rect("a", "block", 0, 0, 10, 12), zone("rest", "frame")]
    made = wall("w", "Wall", 24 * FT, 12 * FT, openings=[box("o", 8, 3, 4, 4)], zones=zones)
    (run,) = [r for r in edge_runs(made) if r.kind == "change of base"]
    assert run.pieces == (3 * FT, 5 * FT)
    assert run.length == 8 * FT


def test_inches_stay_exact():
    made = wall("w", "Wall", 24 * FT + IN / 16, 12 * FT, openings=[opening("o", "o", FT, FT, FT + IN / 8, NO)])
    runs = {r.id: r for r in edge_runs(made)}
    assert runs["w/base"].pieces == (FT + IN / 8, 22 * FT - IN / 16)
