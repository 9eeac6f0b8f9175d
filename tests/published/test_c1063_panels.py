"""ASTM C1063 panels on lath, as quoted from Walls & Ceilings: 144 sq ft (100 overhead), 18 ft, 2.5 : 1."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.joints.asking import BOOK, best, lines, plain, run, sizes
from tests.published import checked

SOURCE = "ASTM C1063 control-joint clauses as quoted from Walls & Ceilings magazine"


@checked("our arithmetic", f"{SOURCE}: 30 x 9 = 270 sq ft is past 144; 15 x 9 = 135, 1.67 : 1")
def test_thirty_by_nine() -> None:
    layout = best(plain(30, 9))
    assert lines(layout) == [("v", 15)] and sizes(layout) == [(15, 9)] * 2


@checked("our arithmetic", f"{SOURCE}: 20 ft sides fail 18 ft and 144 sq ft; 13.33 x 9 = 120, 1.48 : 1")
def test_forty_by_nine() -> None:
    layout = best(plain(40, 9))
    assert len(lines(layout, "vertical")) == 2 and sizes(layout) == [(Fraction(40, 3), 9)] * 3


@checked("our arithmetic", f"{SOURCE}: a height of 20 ft fails 18 ft; 12 x 10 = 120, 1.2 : 1")
def test_twenty_four_by_twenty() -> None:
    layout = best(plain(24, 20))
    assert (len(lines(layout, "vertical")), len(lines(layout, "horizontal"))) == (1, 1)
    assert sizes(layout) == [(12, 10)] * 4


@checked("our arithmetic", f"{SOURCE}: soffit of 24 x 4: 96 sq ft is within 100, but 24 > 18 and 6 : 1; 8 x 4 is 2 : 1")
def test_soffit_of_twenty_four_by_four() -> None:
    layout = best(plain(24, 4), position="horizontal")
    assert len(lines(layout)) == 2 and sizes(layout) == [(8, 4)] * 3


@checked("copied figure", f"{SOURCE}: back-to-back casing beads keep at least 1/8 in. apart")
def test_separation_stands_in_the_note() -> None:
    assert BOOK["parting.separation.c1063"].written == "1/8 in"


@checked("copied figure", "AWCI, Control joints in stucco (2015), quoting C1063 7.10.1.5; SMA TechTimes (2020)")
@pytest.mark.parametrize("name", ["joint.lath.c1063", "joint.lath.sma"])
def test_lath_behind_the_joint_has_two_voices(name: str) -> None:
    answer, _ = run(plain(30, 9))
    assert name in next(n for n in answer.notes if n.code == "joints.lath-cut").rules


@checked("copied figure", "Walls & Ceilings, control and expansion joints: a one-piece joint is no expansion joint")
def test_what_a_one_piece_joint_is_good_for() -> None:
    assert BOOK.rule("joint.one-piece").figure.id == "joint.one-piece.wc"
