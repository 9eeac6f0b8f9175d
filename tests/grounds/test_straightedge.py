"""The straightedge, rolled over readings and over faces that are known throughout."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.grounds import rolling_straightedge
from darby.grounds.straightedge import Line, worst_of_readings
from darby.measure.faults import Unreadable

from .asking import FOOT, INCH, inches

CLOSE = 1e-9


def line(*rows):
    """(feet along, inches out)."""
    return [(along * FOOT, out * INCH) for along, out in rows]


def test_a_hollow_between_two_readings():
    found = rolling_straightedge(line((0, 0), (2, -0.25), (5, 0)), 5 * FOOT, INCH / 4)
    assert inches(found.worst.gap) == pytest.approx(0.25)
    assert found.worst.bend == "hollow"
    assert found.worst.at[0] / float(FOOT) == pytest.approx(2)
    assert (found.worst.start[0] / float(FOOT), found.worst.end[0] / float(FOOT)) == pytest.approx((0, 5))
    assert found.keeps is True


def test_a_crown_counts_as_a_hollow_does():
    found = rolling_straightedge(line((0, 0), (2.5, 0.3), (5, 0)), 5 * FOOT, INCH / 4)
    assert inches(found.worst.gap) == pytest.approx(0.3)
    assert found.worst.bend == "crown"
    assert found.keeps is False


def test_five_feet_see_less_than_ten():
    # a bow of 1/2 in. in 10 ft, read every 2 1/2 ft: x (10 - x) / 50 in.; under 5 ft a quarter of it shows
    bow = line(*((x, x * (10 - x) / 50) for x in (0, 2.5, 5, 7.5, 10)))
    assert inches(rolling_straightedge(bow, 10 * FOOT).worst.gap) == pytest.approx(0.5)
    assert inches(rolling_straightedge(bow, 5 * FOOT).worst.gap) == pytest.approx(0.125)


def test_a_reading_under_the_end_of_the_straightedge_is_not_under_it():
    # two readings at one place: neither lies between two others
    assert worst_of_readings(np.array([0, 0, 1.0]), np.array([0, 1, 0.0]), 2).off == 0
    assert worst_of_readings(np.array([0, 1, 1.0]), np.array([0, 0, 1.0]), 2).off == 0


def test_a_slope_shows_nothing():
    found = rolling_straightedge(line(*((x, x / 7) for x in range(11))), 10 * FOOT, INCH / 8)
    assert inches(found.worst.gap) == pytest.approx(0, abs=1e-9)
    assert found.worst.bend is None
    assert found.keeps is True


def test_readings_too_far_apart_tell_nothing():
    found = rolling_straightedge(line((0, 0), (4, 1), (8, 0)), 5 * FOOT, INCH / 4)
    assert found.worst is None
    assert found.keeps is None
    assert found.lines == ()


def test_order_does_not_matter_and_no_allowance_gives_no_verdict():
    rows = line((5, 0), (0, 0), (2, -0.25))
    assert rolling_straightedge(rows, 5 * FOOT).worst == rolling_straightedge(sorted(rows), 5 * FOOT).worst
    assert rolling_straightedge(rows, 5 * FOOT).keeps is None


def test_over_a_grid_every_level_and_every_plumb_line_is_rolled():
    out = {(4, 4): -0.25, (8, 2): 0.2}
    rows = [(u * FOOT, v * FOOT, out.get((u, v), 0) * INCH) for u in range(0, 11, 2) for v in range(0, 7, 2)]
    found = rolling_straightedge(rows, 5 * FOOT, INCH / 4)
    assert len(found.lines) == 4 + 6
    assert inches(found.worst.gap) == pytest.approx(0.25)
    assert tuple(x / float(FOOT) for x in found.worst.at) == pytest.approx((4, 4))


def test_an_exact_length_of_the_straightedge_reaches():
    # 0.1 + 0.2 is not 0.3 to a computer; it is to a straightedge
    found = rolling_straightedge([(0.0, 0.0), (0.1, 0.002), (0.1 + 0.2, 0.0)], 0.3)
    assert found.worst is not None


@pytest.mark.parametrize(
    ("rows", "code"),
    [([(0, 0), (1, 1)], "grounds.few"), ([(0, 0, 0, 0)] * 3, "grounds.no-number"),
     ([(0, 0), (1, float("nan")), (2, 0)], "grounds.no-number")],
)  # fmt: skip
def test_what_cannot_be_rolled_is_refused(rows, code):
    with pytest.raises(Unreadable) as error:
        rolling_straightedge(rows, 1)
    assert error.value.fault.code == code


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(-40, 40), min_size=3, max_size=9), st.integers(2, 9))
def test_against_every_triple_written_out(outs, reach):
    """Brute force over all triples of readings a foot apart."""
    rows = [(float(n), out / 100) for n, out in enumerate(outs)]
    best = 0.0
    for p, q, r in combinations(range(len(outs)), 3):
        if r - p <= reach:
            chord = outs[p] + (outs[r] - outs[p]) * (q - p) / (r - p)
            best = max(best, abs(outs[q] - chord) / 100)
    found = rolling_straightedge(rows, float(reach))
    assert (0.0 if found.worst is None else float(found.worst.gap)) == pytest.approx(best, abs=1e-12)


# --- faces known throughout -------------------------------------------------------------------------


def test_a_single_fold_is_worst_with_the_straightedge_centred_on_it():
    # two straight pieces of 10 ft that meet at an angle of 1 in. in 10 ft: 5 ft, centred: 1 x 2.5 x 2.5 / 5 / 10
    fold = Line(np.array([0.0, 10.0, 20.0]), 5.0)
    sag = fold.worst(np.array([0.0, 0.0, 1.0]))
    assert sag.off == pytest.approx(-0.125)
    assert (sag.p, sag.q, sag.r) == pytest.approx((7.5, 10, 12.5))


def test_a_straightedge_longer_than_the_line_spans_all_of_it():
    sag = Line(np.array([0.0, 1.0, 4.0]), 9.0).worst(np.array([0.0, 1.0, 0.0]))
    assert sag.off == pytest.approx(1)
    assert (sag.p, sag.r) == (0, 4)


def test_between_two_folds_the_worst_place_is_found_though_no_end_lies_on_a_knot():
    # folds at 3 and 4 of 10: the worst window of 5 slides between knots; looked for in steps of a thousandth
    along, heights = np.array([0.0, 3.0, 4.0, 10.0]), np.array([3.0, 0.0, 0.2, 5.0])
    sag = Line(along, 5.0).worst(heights)
    best = 0.0
    for p in np.arange(0, 5.0005, 0.001):
        for q in (3.0, 4.0):
            if p < q < p + 5:
                ends = np.interp([p, q, p + 5], along, heights)
                best = max(best, abs(ends[1] - (ends[0] * (p + 5 - q) + ends[2] * (q - p)) / 5))
    assert abs(sag.off) == pytest.approx(best, abs=1e-6)
    assert abs(sag.off) >= best - 1e-12


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(-30, 30), min_size=3, max_size=7), st.sampled_from([1.5, 2.0, 2.7, 4.0]))
def test_no_finer_sampling_finds_a_worse_gap(outs, length):
    along = np.arange(len(outs), dtype=float)
    heights = np.array(outs) / 10
    sag = Line(along, length).worst(heights)
    fine = np.arange(0, len(outs) - 1 + 1e-9, 0.05)
    read = np.interp(fine, along, heights)
    rows = list(zip(fine, read, strict=True))
    found = rolling_straightedge(rows, length).worst
    assert abs(sag.off) >= float(found.gap) - 1e-9


def test_the_rows_read_the_gap_off_the_knots():
    fold = Line(np.array([0.0, 2.0, 5.0, 9.0]), 6.0)
    heights = np.array([1.0, 3.0, 0.0, 2.0])
    for row, p, q, r in zip(fold.triples, fold.p, fold.q, fold.r, strict=True):
        ends = np.interp([p, q, r], fold.along, heights)
        assert row @ heights == pytest.approx(ends[1] - (ends[0] * (r - q) + ends[2] * (q - p)) / (r - p))
        assert r - p <= 6 + 1e-6
