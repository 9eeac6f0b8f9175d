"""The paper rolls of the encyclopaedia's article on cutting stock: 13 widths, 219 pieces, 73 rolls."""

from __future__ import annotations

from fractions import Fraction

from darby.quantities import CutList, cut_list
from tests.published import checked

MM = Fraction(1, 1000)
WIDTHS = [1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200]
WANTED = [22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20]


def rolls() -> CutList:
    return cut_list([(w * MM, n) for w, n in zip(WIDTHS, WANTED, strict=True)], [(5600 * MM, 1)])


@checked("worked elsewhere", "Wikipedia, Cutting-stock problem: paper rolls of 5,600 mm, 73 are the least")
def test_seventy_three_rolls() -> None:
    found = rolls()
    assert found.cost == 73
    assert found.proved_best


@checked("our arithmetic", "Wikipedia, Cutting-stock problem: what 73 rolls of 5,600 mm leave over, as a share")
def test_what_is_left_over() -> None:
    found = rolls()
    bought = 73 * 5600 * MM
    assert sum(bar.waste for bar in found.bars) == bought - found.length
    assert abs(float(sum(bar.waste for bar in found.bars) / bought) - 0.0040117) < 1e-5
