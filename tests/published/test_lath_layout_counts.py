"""Lath counts of the standards' figures, sheet by sheet: C1063 laps, C847 sheets, fasteners by IRC, UFGS and SMA."""

from __future__ import annotations

import pytest

from darby.lath import LathAsk, Roll, lay_lath
from darby.measure.units import FT, IN
from darby.rulebook import default
from tests.lath.asking import box, following, framed, inch, over_block
from tests.published import checked


@checked("our arithmetic", "C1063 laps on a C847 sheet: 26 1/2 x 95 in. each; two and their lap reach 191 in.")
def test_two_sheets_and_their_lap() -> None:
    found, _ = lay_lath(LathAsk("w/z", box(0, 2 * 95 + 1, 0, 27), base="block"))
    assert found.sheets.value == 2
    assert lay_lath(LathAsk("w/z", box(0, 192, 0, 27), base="block"))[0].sheets.value == 3


@checked("our arithmetic", "C1063 laps on a C847 sheet: two courses and their lap reach 53 1/2 in.")
def test_two_courses_and_their_lap() -> None:
    found, _ = lay_lath(LathAsk("w/z", box(0, 96, 0, 53.5), base="block"))
    assert found.sheets.value == 2
    assert [p.area for p in found.pieces] == [inch(96) * inch(27)] * 2


@checked("our arithmetic", "UFGS 09225: every 8 in. up and 16 in. across, 100 sq ft")
def test_fasteners_on_masonry() -> None:
    assert lay_lath(over_block(120, 120))[0].fasteners.value == 113


@checked("our arithmetic", "SMA, Stucco over CMU 2020: no wider than one a square foot, 100 sq ft")
def test_fasteners_on_block_by_the_makers() -> None:
    assert lay_lath(over_block(120, 120, book=following(lath_fastener="sma")))[0].fasteners.value == 100


@checked("our arithmetic", "IRC 2018 R703.7.1: 6 in. along studs 16 in. apart, 100 sq ft")
def test_fasteners_on_studs_by_area() -> None:
    found, _ = lay_lath(framed(120, 120, book=following(lath_fastener="irc-2018")))
    assert found.fasteners_by_area.value == 150
    assert found.fasteners.value == 9 * 21  # eight studs and the end post, each 20 spaces and both ends


@checked("our arithmetic", "C1063-17 section 7.9: every 7 in. along framing, ends included: an 8 ft stud")
def test_fasteners_on_one_stud() -> None:
    assert lay_lath(framed(1, 96))[0].fasteners.value == 15


@checked("copied figure", "structawire technical note on C1063 7.8.1: laps tied at 9 in. or less")
def test_ties() -> None:
    assert default().number("lath.tie").number == pytest.approx(float(9 * IN))


@checked("copied figure", "Merritt and Ricketts, article on stucco: 3.4 lb lath on supports 16 in. apart")
def test_weight() -> None:
    assert default().number("lath.weight").number == pytest.approx(3.4 * 0.45359237 / 0.83612736)


@checked("our arithmetic", "Uniform Building Code 1402: paper laps 2 in. level and 6 in. upright")
def test_paper_laps() -> None:
    found, _ = lay_lath(framed(144, 78, paper=1, roll=Roll(40 * IN, 10 * FT)))
    assert found.paper is not None
    first = [s for s in found.paper.strips if s.course == 1]
    second = [s for s in found.paper.strips if s.course == 2]
    assert first[0].high - second[0].low == 2 * IN
    assert first[0].right - first[1].left == 6 * IN
