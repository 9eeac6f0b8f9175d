"""Walls and houses: outlines, ids, edges and which way they face."""

from __future__ import annotations

from fractions import Fraction as Fr

import pytest

from darby.measure import Unreadable, WallSide, corner_line, faces, house, opening_line, opening_of, wall, zone
from darby.measure.shapes import opening
from darby.measure.surface import Meets
from darby.measure.units import FT, IN


def points(outline):
    return [(c.u / FT, c.v / FT) for c in outline]


def kinds(surface):
    return {e.id: (e.kind, e.start) for e in surface.edges}


def test_a_plain_wall():
    made = wall("w", "Wall", 24 * FT, 12 * FT, base="grade", facing=180, foot=2 * FT)
    assert points(made.outline) == [(0, 0), (24, 0), (24, 12), (0, 12)]
    assert kinds(made) == {
        "base": ("grade", "base-left"),
        "right": ("outside corner", "base-right"),
        "top": ("top", "top-right"),
        "left": ("outside corner", "top-left"),
    }
    assert (made.facing, made.tilt, made.foot, made.count) == (180, 90, 2 * FT, 1)
    assert faces(made, 2).count == 2


def test_a_gable_has_its_peak_midway_and_both_slopes_are_top():
    made = wall("w", "Wall", 24 * FT, 12 * FT, gable=3 * FT, top="soffit")
    assert points(made.outline) == [(0, 0), (24, 0), (24, 12), (12, 15), (0, 12)]
    assert kinds(made)["top-right"] == ("soffit", "top-right")
    assert kinds(made)["top-left"] == ("soffit", "peak")


def test_a_side_that_meets_old_work_only_part_of_the_way_up():
    old = Meets("old plaster", Fr("0.875") * IN, Fr("0.875") * IN)
    side = WallSide("meets old work", meets=old, up_to=9 * FT + 4 * IN)
    made = wall("w", "Wall", 24 * FT, 12 * FT, left=side, right=side)
    assert points(made.outline) == [(0, 0), (24, 0), (24, Fr(28, 3)), (24, 12), (0, 12), (0, Fr(28, 3))]
    assert kinds(made) == {
        "base": ("base", "base-left"),
        "right": ("meets old work", "base-right"),
        "right-above": ("outside corner", "right-break"),
        "top": ("top", "top-right"),
        "left-above": ("outside corner", "top-left"),
        "left": ("meets old work", "left-break"),
    }
    assert {e.id: e.meets for e in made.edges}["left"] == old
    whole = wall("w", "Wall", 24 * FT, 12 * FT, left=WallSide("meets old work", up_to=12 * FT))
    assert len(whole.edges) == 4


@pytest.mark.parametrize("up_to", [Fr(0), -FT, 13 * FT])
def test_a_side_cannot_change_off_the_wall(up_to):
    with pytest.raises(Unreadable) as refused:
        wall("w", "Wall", 24 * FT, 12 * FT, left=WallSide("meets old work", up_to=up_to))
    assert (refused.value.fault.code, refused.value.fault.place) == ("measure.up-to", "left")


def test_openings_stand_where_the_line_says():
    made = opening_of("o", "door", opening_line('door 3068 at 1\'-8", reveal 4"'), ("head", "left"))
    assert points(made.outline) == [(Fr(5, 3), 0), (Fr(14, 3), 0), (Fr(14, 3), Fr(20, 3)), (Fr(5, 3), Fr(20, 3))]
    assert (made.reveal, made.frame_depth, made.plastered) == (4 * IN, None, {"head", "left"})
    assert opening_of("o", "window", opening_line("window 3' x 4' at 5' up 3'")).reveal == 0


def test_an_arched_opening():
    made = opening("o", "arch", 4 * FT, 6 * FT, FT, Fr(0), rise=2 * FT)
    assert points(made.outline) == [(1, 0), (5, 0), (5, 4), (1, 4)]
    assert [c.bulge for c in made.outline] == [0, 0, 1, 0]  # a half circle
    for rise in (-FT, 3 * FT):
        with pytest.raises(Unreadable, match="rise"):
            opening("o", "arch", 4 * FT, 6 * FT, FT, Fr(0), rise=rise)


def test_a_zone():
    made = zone("z", "block", [(Fr(0), Fr(0)), (FT, Fr(0)), (FT, FT)], traits=["dense"], out_of_plane=IN)
    assert [c.id for c in made.outline] == ["c1", "c2", "c3"]
    assert (made.traits, made.out_of_plane) == ({"dense"}, IN)
    assert zone("rest", "block").outline is None


def test_a_closed_house_names_each_corner_once():
    door = opening("o", "door", 3 * FT, 7 * FT, FT, Fr(0))
    made = house("h", "House", (30 * FT, 20 * FT, 30 * FT, 20 * FT), 9 * FT, facing=180, gables={2: 4 * FT, 4: 4 * FT},
                 openings={1: [door]})  # fmt: skip
    assert [s.id for s in made] == ["h-1", "h-2", "h-3", "h-4"]
    assert [s.facing for s in made] == [180, 90, 0, 270]
    assert [len(s.outline) for s in made] == [4, 5, 4, 5]
    assert [len(s.openings) for s in made] == [1, 0, 0, 0]
    assert {s.shape for s in made} == {"h"}
    lines = [{e.id: e.shared for e in s.edges if e.shared} for s in made]
    assert lines == [
        {"left": "h-1|h-4", "right": "h-1|h-2"},
        {"left": "h-1|h-2", "right": "h-2|h-3"},
        {"left": "h-2|h-3", "right": "h-3|h-4"},
        {"left": "h-3|h-4", "right": "h-1|h-4"},
    ]
    assert {e.kind for s in made for e in s.edges if e.shared} == {"outside corner"}


def test_three_walls_against_another_building():
    line = corner_line("h-1", "bay")
    made = house("h", "House", (14 * FT, 12 * FT, 14 * FT), 8 * FT, closed=False, facing=270,
                 left=WallSide("inside corner", line))  # fmt: skip
    assert [s.facing for s in made] == [270, 180, 90]
    ends = [{e.id: (e.kind, e.shared) for e in s.edges} for s in made]
    assert ends[0]["left"] == ("inside corner", "bay|h-1")
    assert ends[2]["right"] == ("inside corner", None)
    assert ends[0]["right"] == ends[1]["left"] == ("outside corner", "h-1|h-2")


def test_an_l_shaped_plan_is_told_from_its_lengths():
    # right 10, up 20, left 4, down 12, left 6 (that is where it turns inward), down 8
    made = house("l", "L", [Fr(n) for n in (10, 20, 4, 12, 6, 8)], Fr(3), facing=0)
    inside = [e.shared for s in made for e in s.edges if e.kind == "inside corner"]
    assert inside == ["l-4|l-5", "l-4|l-5"]
    assert [s.facing for s in made] == [0, 270, 180, 90, 180, 90]


def test_what_a_plan_cannot_be():
    for walls, keywords in (
        ([FT] * 2, {}),
        ([FT] * 5, {}),
        ([FT, FT, FT, FT, FT, 9 * FT], {}),
        ([FT] * 4, {"turns": (90, 90, 90)}),
        ([FT] * 4, {"turns": (90, 90, 90, -90)}),
        ([FT] * 4, {"gables": {5: FT}}),
        ([FT] * 4, {"openings": {0: []}}),
        ([], {"closed": False}),
    ):
        with pytest.raises(Unreadable):
            house("h", "House", walls, FT, **keywords)
    hexagon = house("h", "House", [FT] * 6, FT, turns=[60] * 6, facing=0)
    assert [s.facing for s in hexagon] == [0, 300, 240, 180, 120, 60]


def test_a_room_is_a_house_seen_from_inside():
    made = house("r", "Room", [5 * FT, 4 * FT] * 2, 8 * FT, turns=[-90] * 4, facing=180)
    assert [s.facing for s in made] == [180, 270, 0, 90]
    assert {e.kind for s in made for e in s.edges if e.shared} == {"inside corner"}
