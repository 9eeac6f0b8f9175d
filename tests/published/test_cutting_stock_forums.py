"""Cutting questions asked in public forums."""

from __future__ import annotations

from darby.measure.units import FT
from darby.quantities import cut_list
from tests.published import checked


@checked(
    "worked elsewhere", "forum thread on bridge-crane steel, 2009: 19 pieces of 3 ft from 10 ft: 7 bars, 13 ft scrap"
)
def test_nineteen_pieces_of_three_feet() -> None:
    found = cut_list([(3 * FT, 19)], [(10 * FT, 1)])
    assert found.cost == 7
    assert sum(bar.stock for bar in found.bars) == 70 * FT
    assert sum(bar.waste for bar in found.bars) == 13 * FT


STEEL = [(16 * FT, 2), (12 * FT, 3), (5 * FT, 5)]


@checked(
    "our arithmetic", "engineering forum, W16x19 members from 20, 25 and 40 ft: 93 ft are needed, 95 cannot be cut"
)
def test_steel_from_three_lengths() -> None:
    found = cut_list(STEEL, [(x * FT, None) for x in (20, 25, 40)])
    assert found.cost == 100 * FT
    assert found.proved_best


@checked("our arithmetic", "engineering forum, W16x19 members from 20 ft alone, 25 ft alone, 40 ft alone")
def test_steel_from_one_length_each() -> None:
    assert [cut_list(STEEL, [(x * FT, None)]).cost for x in (20, 25, 40)] == [120 * FT, 125 * FT, 120 * FT]
