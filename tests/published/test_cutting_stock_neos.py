"""The four widths of Chvátal's chapter 13, as the NEOS guide prints them."""

from __future__ import annotations

from fractions import Fraction

from darby.quantities import cut_list
from tests.published import checked

IN = Fraction(254, 10_000)


@checked("our arithmetic", "NEOS Guide, The Cutting Stock Problem: rolls of 100 in.; 452.25 in parts, so 453 whole")
def test_four_hundred_and_fifty_three_rolls() -> None:
    found = cut_list([(45 * IN, 97), (36 * IN, 610), (31 * IN, 395), (14 * IN, 211)], [(100 * IN, 1)])
    assert found.cost == 453
    assert found.proved_best
    assert found.first_fit > 453
