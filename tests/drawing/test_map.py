"""The map of thickness on walls whose lines are known: a slope, a hollow, a wall with a hole."""

from __future__ import annotations

import pytest

from darby.drawing.grounds import Set, grounds_on
from darby.drawing.map import EIGHTH, thickness_map
from darby.measure.surface import Corner, Opening, Surface
from darby.measure.units import FT

F = float(FT)


def corners(*places: tuple[int, int]) -> tuple[Corner, ...]:
    return tuple(Corner(f"c{n}", u * FT, v * FT) for n, (u, v) in enumerate(places, 1))


WALL = Surface("wall", "Wall", corners((0, 0), (16, 0), (16, 8), (0, 8)), (), (), (), 180.0, 90.0, 0 * FT)
POINTS = [(0.0, 0.0), (16 * F, 0.0), (16 * F, 8 * F), (0.0, 8 * F)]
TWO = [(0, 1, 2), (0, 2, 3)]


def lines(marks: tuple) -> list[list[tuple[float, float]]]:
    return [[(u / F, v / F) for u, v in m.points] for m in marks if m.role == "contour"]


def test_on_a_slope_the_lines_are_plumb_and_evenly_apart() -> None:
    # from 1/16 to 9/16 in. over 16 ft: 1/8 at 2 ft, 1/4 at 6, 3/8 at 10, 1/2 at 14
    thin, thick = EIGHTH / 2, EIGHTH * 4.5
    marks = thickness_map(WALL, POINTS, [thin, thick, thick, thin], TWO)
    found = sorted(lines(marks))
    assert [{round(u, 6) for u, _ in line} for line in found] == [{2.0}, {6.0}, {10.0}, {14.0}]
    assert all({round(v, 6) for _, v in line} >= {0.0, 8.0} for line in found)
    lettered = {m.text: m.points[0] for m in marks if m.role == "figure"}
    assert {text: round(u / F, 6) for text, (u, _) in lettered.items()} == {"1/8": 2, "1/4": 6, "3/8": 10, "1/2": 14}


def test_in_millimetres_a_line_stands_for_every_three() -> None:
    marks = thickness_map(WALL, POINTS, [0.010, 0.016, 0.016, 0.010], TWO, system="metric")
    assert {m.text for m in marks if m.role == "figure"} == {"12", "15"}


def test_no_line_crosses_an_opening() -> None:
    hole = Opening("door", "door", corners((4, 0), (8, 0), (8, 6), (4, 6)))
    pierced = Surface("wall", "Wall", WALL.outline, (), (hole,), (), 180.0, 90.0, 0 * FT)
    marks = thickness_map(pierced, POINTS, [EIGHTH / 2, EIGHTH * 4.5, EIGHTH * 4.5, EIGHTH / 2], TWO)
    (over,) = [line for line in lines(marks) if round(line[0][0], 6) == 6.0]
    assert {round(v, 6) for _, v in over} >= {6.0, 8.0}
    assert min(v for _, v in over) == pytest.approx(6)


def test_what_is_past_unread_and_read_is_drawn_by_line_and_hatch() -> None:
    ring = ((F, F), (2 * F, F), (2 * F, 2 * F))
    marks = thickness_map(WALL, POINTS, [0.01] * 4, TWO, past=[ring], unread=[ring], readings=[(F, F)])
    assert [(m.kind, m.role) for m in marks if m.role in ("past", "unread", "dot")] == [
        ("hatch", "past"), ("polygon", "unread"), ("symbol", "dot")
    ]  # fmt: skip


def test_a_corner_beside_a_ground_is_drawn_once_and_what_is_not_read_says_so() -> None:
    sets = [Set(0.0, 0.0, EIGHTH * 4), Set(0.05, 0.0, EIGHTH * 4), Set(5 * F, 0.0, EIGHTH * 7, past=True, known=False)]
    marks = [m for m in grounds_on(WALL, sets) if m.role.startswith("ground")]
    assert [(m.role, m.text) for m in marks] == [("ground", "1/2"), ("ground past", "7/8?")]
