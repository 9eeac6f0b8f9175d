"""How true plaster is held: the code's straightedge, the trade paper's, and voices from memory."""

from __future__ import annotations

import pytest

from darby.grounds import rolling_straightedge, set_grounds
from darby.rulebook import default
from tests.published import checked

BOOK = default()
FOOT, INCH = 0.3048, 0.0254


@checked("copied figure", "IBC 2018, 2512.5: 1/4 in. under a 5 ft straightedge, in any direction")
def test_the_code():
    gap, edge = BOOK["grounds.short-gap.ibc"], BOOK["grounds.short-edge.ibc"]
    assert (gap.number / INCH, edge.number / FOOT) == pytest.approx((1 / 4, 5))
    assert gap.standing == "read"


@checked("copied figure", "UBC, section 2508: brown coat, 1/4 in. under a straightedge")
def test_the_older_code():
    assert BOOK["grounds.short-gap.ubc"].number / INCH == pytest.approx(1 / 4)


@checked("copied figure", "Walls & Ceilings, Cracking the code: how flat is flat: 1/4 in. in 10 ft")
def test_the_trade_paper():
    gap, edge = BOOK["grounds.long-gap.industry"], BOOK["grounds.long-edge.industry"]
    assert (gap.number / INCH, edge.number / FOOT) == pytest.approx((1 / 4, 10))
    assert gap.standing == "second-hand"


@pytest.mark.parametrize(("voice", "inches"), [("c926", 1 / 4), ("ufgs", 1 / 8)])
def test_voices_from_memory_say_so_and_never_rule(voice, inches):
    # from memory, not checked against the standard
    figure = BOOK[f"grounds.long-gap.{voice}"]
    assert figure.number / INCH == pytest.approx(inches)
    assert figure.standing == "memory"
    assert BOOK.number("grounds.long-gap") is not figure


@checked("our arithmetic", "IBC 2018, 2512.5 and Walls & Ceilings: a bow of 1/4 in. in 10 ft keeps both rules")
def test_a_bow_that_is_just_within_both():
    bow = [(x * FOOT, x * (10 - x) / 100 * INCH) for x in (0, 1.25, 2.5, 3.75, 5, 6.25, 7.5, 8.75, 10)]
    long = rolling_straightedge(bow, 10 * FOOT, 1 / 4 * INCH)
    short = rolling_straightedge(bow, 5 * FOOT, 1 / 4 * INCH)
    assert float(long.worst.gap) / INCH == pytest.approx(1 / 4)
    assert float(short.worst.gap) / INCH == pytest.approx(1 / 16)  # 2.5 x 2.5 / 100
    assert long.keeps
    assert short.keeps


@checked("our arithmetic", "C926 5.2 by way of AWCI: bases true within 1/4 in. in 10 ft; so much a plane may lean")
@pytest.mark.parametrize(("lean", "left"), [(1 / 8, 0), (1 / 4, 0), (1 / 2, 1 / 4)])
def test_a_wall_ten_feet_high_that_leans(lean, left):
    """``left``: how much thicker the plaster gets from foot to head, of a wall that leans in at its head."""
    rows = [(u * FOOT, v * FOOT, -lean * v / 10 * INCH) for u in (0, 10, 20) for v in (0, 5, 10)]
    wall = [(0, 0), (20 * FOOT, 0), (20 * FOOT, 10 * FOOT), (0, 10 * FOOT)]
    face = set_grounds(rows, wall, least=3 / 8 * INCH).face("leaning")
    assert (float(face.most) - float(face.least)) / INCH == pytest.approx(left, abs=1e-6)
