"""Builder 3 and 2 (NAVEDTRA 14044): lath bent round corners and carried on 4 in.; ten sheets to 20 sq yd."""

from __future__ import annotations

import pytest

from darby.lath import Corner, lay_lath
from darby.measure.units import IN
from darby.rulebook import default
from tests.lath.asking import framed, over_block
from tests.published import checked


@checked("copied figure", "NAVEDTRA 14044, chapter 7: lath carried on at least 4 in. past corners")
def test_four_inches() -> None:
    assert default()["lath.corner.return.navy"].number == pytest.approx(float(4 * IN))


@checked("our arithmetic", "NAVEDTRA 14044, chapter 7: inside and outside corners, sheets 8 in. longer than the wall")
def test_both_kinds_of_corner() -> None:
    corners = (Corner("w", "left", "outside", "round"), Corner("e", "right", "inside", "round"))
    found, _ = lay_lath(framed(80, 27, corners=corners))
    assert [p.right - p.left for p in found.pieces] == [88 * IN]


@checked("our arithmetic", "NAVEDTRA 14044, chapter 7: 180 sq ft are ten sheets by the yard")
def test_ten_sheets_by_the_yard() -> None:
    found, _ = lay_lath(over_block(240, 108))
    assert found.by_yard.value == 10
