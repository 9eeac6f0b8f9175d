"""After the work: a straightedge of 5 and of 10 ft rolled over readings of the finished face, by hand."""

from __future__ import annotations

import pytest

from darby.grounds import FinishedAsk, Straightedge, check_finished
from darby.measure.faults import Unreadable

from .asking import BOOK, FOOT, INCH, feet, inches


def check(rows, **more):
    return check_finished(FinishedAsk(BOOK, "bay-east", feet(rows), **more))


def test_each_rule_of_the_book_is_rolled_and_its_worst_place_is_said():
    # 5 ft: a crown of 1/8 in. at 3 ft between 0 and -1/4 in. = 1/4 in.
    # 10 ft: from 3 ft (1/8) to 9 ft (0); at 5 ft the straight stands at 1/12 in. and the face at -1/4 in.: 1/3 in.
    found, working = check([(1, 4, 0), (3, 4, "1/8"), (5, 4, "-1/4"), (9, 4, 0), (14, 4, "1/8")])
    short, long = found.rolled
    assert inches(short.worst.gap) == pytest.approx(1 / 4)
    assert short.keeps is True
    assert inches(long.worst.gap) == pytest.approx(1 / 3)
    assert long.keeps is False
    assert long.worst.bend == "hollow"
    assert [n.code for n in found.notes] == [
        "grounds.finished-between",
        "grounds.finished-keeps",
        "grounds.finished-over",
    ]
    assert [n.grade for n in found.notes] == ["fact", "fact", "caution"]
    assert [step.value for step in working.steps.values()] == [float(short.worst.gap), float(long.worst.gap)]


def test_a_line_too_thin_for_the_short_one_is_said():
    found, _ = check([(0, 4, 0), (4, 4, "1/16"), (8, 4, 0)])
    assert found.rolled[0].worst is None
    assert [n.code for n in found.notes][1:] == ["grounds.finished-unknown", "grounds.finished-keeps"]


def test_a_face_that_leans_and_is_straight_shows_nothing():
    found, _ = check([(2, v, f"{v}/4") for v in range(5)])
    assert [n.code for n in found.notes][1:] == ["grounds.finished-true"] * 2


def test_his_own_rule_takes_the_place_of_the_books():
    found, _ = check([(0, 4, 0), (2, 4, "1/8"), (4, 4, 0)], straightedges=(Straightedge(6 * FOOT, INCH / 16),))
    (one,) = found.rolled
    assert one.keeps is False
    assert found.notes[1].rules == ()


def test_two_readings_are_too_few():
    with pytest.raises(Unreadable, match="few"):
        check([(0, 0, 0), (1, 0, 0)])
