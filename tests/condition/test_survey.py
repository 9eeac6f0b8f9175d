"""What was found on a wall, and what each finding asks for."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.condition import Hollow, Loose
from darby.measure import Unreadable, length
from darby.measure.tapping import tap_grid
from darby.measure.units import unit

from .asking import WALL, box, codes, crack, found, surveyed

SQ_FT = unit("sq ft")
YEAR = ((0, 0.8, 0), (120, 0.8, 20), (240, 0.8, 10))


def sq_ft(quantity):
    return float(SQ_FT.from_si(float(quantity)))


# --- hollow ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("push", "lath", "does"),
    [("gives", None, "cut out"), ("gives", "loose", "cut out"), ("firm", None, "leave"), ("firm", "loose", "refasten"),
     (None, "loose", "refasten"), (None, "tight", "test first"), (None, None, "test first")],
)  # fmt: skip
def test_what_a_hollow_asks_for(push, lath, does):
    got, _ = surveyed(hollow=(Hollow("h", box(1, 1, 2, 3), push=push, lath=lath),))
    assert got.findings[0].does == does
    assert sq_ft(got.findings[0].size) == pytest.approx(6)
    assert (got.cut is not None) == (does == "cut out")


def test_it_is_cut_out_with_the_margin_but_not_past_the_wall_or_into_a_window():
    got, _ = surveyed(hollow=(Hollow("h", box(1, 1, 2, 3), push="gives"),))
    assert sq_ft(got.cut) == pytest.approx((2 + 4 / 12) * (3 + 4 / 12))
    corner, _ = surveyed(hollow=(Hollow("h", box(0, 0, 2, 3), push="gives"),))
    assert sq_ft(corner.cut) == pytest.approx((2 + 2 / 12) * (3 + 2 / 12))
    beside, _ = surveyed(hollow=(Hollow("h", box(11, 4, 1, 2), push="gives"),))  # right of the window
    assert sq_ft(beside.cut) == pytest.approx((1 + 2 / 12) * (2 + 4 / 12))


def test_the_share_is_of_the_wall_without_its_openings():
    got, working = surveyed(hollow=(Hollow("a", box(1, 1, 2, 3)), Hollow("b", box(15, 1, 3, 1))))
    assert sq_ft(got.wall) == pytest.approx(22 * 9 - 12)
    assert float(got.share) == pytest.approx(9 / 186)
    assert "condition.survey.share" in codes(working)
    assert surveyed()[0].share is None


# --- taps --------------------------------------------------------------------------------------------

ROWS = ["s" * 22] * 2 + ["s" * 8 + "..." + "s" * 11] * 4 + ["s" * 22] * 3


def test_a_tap_in_every_square_that_lies_on_the_wall():
    got, working = surveyed()
    assert len(got.taps) == 22 * 9 - 12  # a foot apart, by the book
    assert "condition.survey.grid" in codes(working)
    assert {tap.heard for tap in got.taps} == {None}
    assert (float(got.taps[0].u), float(got.taps[0].v)) == pytest.approx((0.1524, 0.1524))


def test_squares_that_sound_hollow_and_touch_are_one_area():
    rows = [*ROWS[:7], "sshhs" + "s" * 12 + "h" + "ssss", "ssshs" + "s" * 17]
    got, _ = surveyed(taps=tuple(rows), grid=length("1'"))
    hollow = got.of("hollow")
    assert sorted(sq_ft(f.size) for f in hollow) == pytest.approx([1, 3])
    assert {f.does for f in hollow} == {"test first"}
    assert sum(tap.heard == "hollow" for tap in got.taps) == 4


def test_what_he_drew_stands_over_the_taps():
    rows = (*ROWS[:7], "sshh" + "s" * 18, ROWS[8])
    got, _ = surveyed(taps=rows, grid=length("1'"), hollow=(Hollow("h", box(2, 1, 1.5, 1), push="firm"),))
    drawn, tapped = got.of("hollow") if len(got.of("hollow")) == 2 else (*got.of("hollow"), None)
    assert sq_ft(drawn.size) == pytest.approx(1.5)
    # the middle of the second square lies on its edge, at 3'-6": it is his area's
    assert tapped is None


@pytest.mark.parametrize(("grid", "good"), [("3 in", True), ("2-15/16 in", False)])
def test_nobody_taps_closer_than_a_hand(grid, good):
    if good:
        assert surveyed(grid=length(grid))[0].taps
        return
    with pytest.raises(Unreadable) as refused:
        surveyed(grid=length(grid))
    assert refused.value.fault.code == "condition.grid"


@given(st.integers(4, 40))
def test_squares_cover_the_wall_and_none_is_wider_than_said(inches):
    grid = tap_grid(WALL.outline, length(f"{inches} in"))
    for edges, whole in ((grid.columns, length("22'")), (grid.rows, length("9'"))):
        steps = [b - a for a, b in pairwise(edges)]
        assert sum(steps) == whole
        assert all(0 < step <= length(f"{inches} in") for step in steps)


# --- cracks ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("readings", "movement"),
    [
        ((), "too few readings"),
        (((0, 0.8, 0),), "too few readings"),
        (((0, 0.8, 0), (240, 0.8, 0)), "too few readings"),
        (((0, 0.8, 0), (30, 0.8, 0), (179, 0.8, 0)), "too few readings"),
        (((0, 0.8, 0), (30, 0.8, 0), (180, 0.8, 0)), "not moving so far"),
        (((0, 0.8, 0), (30, 0.9, 0), (180, 0.8, 0)), "not moving so far"),  # just what the gauge tells apart
        (((0, 0.8, 0), (30, 1.0, 0), (180, 0.8, 0)), "moving"),
        (((0, 0.8, 0), (1, 1.0, 0)), "moving"),  # two readings are enough to see it move
    ],
)
def test_moving_is_a_change_beyond_what_the_gauge_tells_apart(readings, movement):
    assert found(crack(*readings))[0].movement == movement


def test_a_gauge_that_nobody_described_tells_nothing():
    got, working = found(crack((0, 0.8, 0), (200, 3.0, 0), gauge=None))
    assert got.movement == "too few readings"
    assert "condition.survey.no-gauge" in codes(working)


@pytest.mark.parametrize(
    ("readings", "follows"),
    [
        (((0, 2.4, 3), (80, 2.1, 17), (160, 1.7, 33)), "cold"),
        (((0, 1.7, 3), (80, 2.1, 17), (160, 2.4, 33)), "warm"),
        (((0, 1.7, 3), (80, 2.1, None), (160, 2.4, 33)), "growing"),
        (((0, 1.7, 3), (80, 2.1, 17), (160, 2.4, 5)), "growing"),
        (((0, 1.7, 3), (80, 2.4, 17), (160, 1.7, 33)), ""),
    ],
)
def test_what_a_moving_crack_follows(readings, follows):
    assert found(crack(*readings))[0].follows == follows


@pytest.mark.parametrize(
    ("said", "readings", "does", "why"),
    [
        ({"width": "1/16 in"}, (), "leave", "fine"),
        ({"width": "5/64 in"}, (), "test first", "wide-unread"),
        ({"width": "5/64 in"}, YEAR, "fill", "wide-still"),
        ({"width": "1/64 in", "leaks": True}, (), "fill", "leaks"),
        ({"width": "1/64 in", "returned": True}, YEAR, "test first", "returned"),
        ({"width": "1/64 in"}, ((0, 0.2, 0), (9, 0.6, 0)), "test first", "moving"),
        ({"width": "1/64 in", "leaks": True}, ((0, 0.2, 0), (9, 0.6, 0)), "test first", "moving"),
        ({}, (), "test first", "not-measured"),
        ({}, YEAR, "leave", "fine"),  # the last reading is its width
    ],
)
def test_what_a_crack_asks_for(said, readings, does, why):
    said = said | ({"width": length(said["width"])} if "width" in said else {})
    got, _ = found(crack(*readings, **said))
    assert (got.does, got.why) == (does, f"condition.survey.crack.{why}")


def test_a_crack_is_as_long_as_it_runs():
    assert float(unit("ft").from_si(float(found(crack())[0].size))) == pytest.approx(5)


# --- paint -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("built", "does"), [(1977, "test first"), (1978, "take off"), (None, "test first")])
def test_old_paint_is_tested_before_it_is_touched(built, does):
    got, _ = surveyed(loose=(Loose("l", box(1, 1, 1, 1)),), built=built)
    assert got.findings[0].does == does


def test_tapping_takes_hours_where_he_says_how_fast():
    from darby.working import Quantity

    pace = Quantity(length("1 ft") ** 2 * 93 / 3600, unit("sq ft/h"))
    assert float(surveyed(pace=pace)[0].hours) == pytest.approx(2 * 3600)
    got, working = surveyed()
    assert got.hours is None and "condition.survey.no-pace" in codes(working)


def test_equal_asks_are_equal():
    from darby.condition import SurveyAsk

    from .asking import BOOK

    ask = SurveyAsk(BOOK, WALL, hollow=(Hollow("h", box(1, 1, 2, 3)),))
    assert ask == replace(ask)
    assert hash(ask) == hash(replace(ask))
