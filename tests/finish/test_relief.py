"""Depth readings: mean, spread, how sure the mean is; film of paint, and what was there before it."""

from statistics import mean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.finish.relief import student
from tests.finish.asking import BOOK, MIL, codes, matched, mils, run, said

TEN = (85, 110, 72, 95, 120, 64, 101, 90, 78, 106)


def test_mean_spread_and_valley():
    relief = matched(mils=TEN).relief
    assert (relief.count, mils(relief.mean), mils(relief.valley)) == (10, pytest.approx(92.1), pytest.approx(56))
    assert mils(relief.spread) == pytest.approx(stdev(TEN))


def test_the_span_is_students():
    relief = matched(mils=TEN).relief
    half = 2.262 * stdev(TEN) / 10**0.5  # t of nine, 95 %, from the printed table
    assert mils(relief.low) == pytest.approx(mean(TEN) - half, abs=0.02)
    assert mils(relief.high) == pytest.approx(mean(TEN) + half, abs=0.02)
    assert relief.sure.written == "95 %"


@pytest.mark.parametrize(("count", "t"), [(2, 12.706), (3, 4.303), (5, 2.776), (10, 2.262), (31, 2.042), (1001, 1.962)])
def test_students_t(count, t):
    assert student(BOOK.number("match.confidence"), count) == pytest.approx(t, abs=0.0006)


def test_a_depth_is_not_below_nought():
    assert mils(matched(mils=(1, 90)).relief.low) == 0


def test_one_reading_has_no_spread_and_is_said():
    found = matched(mils=(80,))
    assert found.relief.spread is None
    assert mils(found.relief.low) == mils(found.relief.high) == 80
    assert "one-reading" in codes(found.notes)


def test_few_readings_are_said_and_ten_are_enough():
    assert said(matched(mils=TEN[:9]).notes, "few-readings")["count"] == 9
    assert "few-readings" not in codes(matched(mils=TEN).notes)


def test_no_reading_is_said():
    found = matched()
    assert found.relief is None
    assert found.before_least is None
    assert "no-relief" in codes(found.notes)


@pytest.mark.parametrize("by", ["micrometer", "putty"])
def test_no_sand_patch_on_a_wall(by):
    (note,) = (n for n in matched(mils=TEN, read_by=by).notes if n.code == f"finish.read-by-{by}")
    assert note.rules == ("match.no-patch.ampp",)
    assert "putty replica or a depth micrometer" in BOOK[note.rules[0]].written


def test_film_by_coats():
    # first coat 150 to 300 sq ft/gal, second 300 to 400, third 350 to 450; 30 to 50 % stays; 1604 mil sq ft in a gallon
    paint = matched(paint_coats=3).paint
    assert mils(paint.least) == pytest.approx(0.3 * 1604.17 * (1 / 300 + 1 / 400 + 1 / 450), rel=1e-4)
    assert mils(paint.most) == pytest.approx(0.5 * 1604.17 * (1 / 150 + 1 / 300 + 1 / 350), rel=1e-4)


def test_every_coat_past_the_third_is_as_the_third():
    three, five = matched(paint_coats=3).paint, matched(paint_coats=5).paint
    assert mils(five.most) - mils(three.most) == pytest.approx(2 * 0.5 * 1604.17 / 350, rel=1e-4)


def test_textured_and_elastomeric_by_their_published_film():
    textured = matched(paint_coats=2, paint_kind="textured").paint
    assert (mils(textured.least), mils(textured.most)) == (pytest.approx(40), pytest.approx(60))
    rubber = matched(paint_coats=2, paint_kind="elastomeric").paint
    assert (mils(rubber.least), mils(rubber.most)) == (pytest.approx(20), pytest.approx(20))
    assert mils(matched(paint_coats=3, paint_kind="elastomeric").paint.most) == pytest.approx(30)


def test_a_chip_that_was_measured_needs_no_guess():
    found, working = run(film=12 * MIL, mils=TEN)
    assert (mils(found.paint.least), mils(found.paint.most), found.paint.measured) == (12, 12, True)
    assert not [k for k in working.steps if "/paint/" in k]


def test_before_paint_is_a_span_from_what_reads_to_all_of_the_film():
    found = matched(mils=TEN, paint_coats=3)
    assert mils(found.before_least) == mils(found.relief.low)
    assert mils(found.before_most) == pytest.approx(mils(found.relief.high) + mils(found.paint.most))
    assert {"film-model", "paint-over-sand", "lead-chips"} <= codes(found.notes)
    assert said(found.notes, "lead-chips")["year"] == "1978"


def test_bare_needs_no_span_for_paint():
    found = matched(mils=TEN)
    assert (found.before_least, found.before_most) == (found.relief.low, found.relief.high)
    assert {"film-model", "paint-over-sand", "lead-chips"}.isdisjoint(codes(found.notes))


@given(st.lists(st.integers(0, 500), min_size=2, max_size=30), st.integers(0, 8))
def test_the_span_holds_the_mean_and_grows_with_paint(readings, coats):
    found = matched(mils=readings, paint_coats=coats)
    relief = found.relief
    assert 0 <= mils(relief.low) <= mils(relief.mean) + 1e-9
    assert mils(relief.mean) <= mils(relief.high) + 1e-9
    assert mils(relief.mean) == pytest.approx(mean(readings))
    assert mils(relief.valley) == pytest.approx(max(readings) - min(readings))
    assert (mils(found.before_most) > mils(relief.high)) is (coats > 0)
