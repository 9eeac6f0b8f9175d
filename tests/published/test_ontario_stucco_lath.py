"""Ontario Building Code, application of stucco lath: laps of 50 mm, ends over framing and staggered, corners 150 mm."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.lath import Corner, lay_lath
from darby.rulebook import default
from tests.lath.asking import following, framed
from tests.published import checked

MM = Fraction(1, 1000)


@checked("copied figure", "Ontario Building Code, stucco lath: laps not under 50 mm")
def test_laps() -> None:
    book = default()
    assert book["lath.lap.side.ontario"].number == pytest.approx(0.050)
    assert book["lath.lap.end.ontario"].number == pytest.approx(0.050)


@checked("copied figure", "Ontario Building Code, stucco lath: 150 mm each side of an outside corner")
def test_corners() -> None:
    assert default()["lath.corner.return.ontario"].number == pytest.approx(0.150)


@checked("our arithmetic", "Ontario Building Code, stucco lath: ends staggered and over framing, 16 ft, two courses")
def test_ends_over_framing_and_staggered() -> None:
    found, working = lay_lath(framed(192, 50, book=following(lath_lap="ontario")))
    rows = [[p for p in found.pieces if p.course == n] for n in (1, 2)]
    assert rows[0][0].high - rows[1][0].low == 50 * MM
    assert rows[0][0].right - rows[0][1].left == 50 * MM
    assert all(j.over_framing for j in found.joints)
    assert not {j.u for j in found.joints if j.course == 1} & {j.u for j in found.joints if j.course == 2}
    assert "lath.in-line" not in {n.code for n in working.notes}


@checked("our arithmetic", "Ontario Building Code, stucco lath: the lath itself 150 mm round an outside corner")
def test_the_lath_itself_round_the_corner() -> None:
    corner = Corner("west", "left", "outside", "round")
    found, _ = lay_lath(framed(60, 27, corners=(corner,), book=following(lath_corner="ontario")))
    assert [p.turn_left for p in found.pieces] == [150 * MM]
