"""lceted.com, 2020 and 2022: a plastering rate and painting materials."""

from __future__ import annotations

import pytest

from darby.measure.units import GAL, unit
from darby.quantities import Buy, by_dry_volume
from tests.published import checked
from tests.published.plaster_sums import LITRE, bought, exact, laid, of, page_says, shown

LITRES = LITRE / GAL
"""Gallons in a litre."""


@checked("worked elsewhere", "lceted.com 2022: Rate analysis for plastering work, step 1")
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("running 1 m3", 0.165, 1e-4),
        ("dry m3", 0.2013, 1e-4),
        ("cement m3", 0.0287, 1e-4),
        ("cement kg", 41.328, 0.1),
        ("cement bags", 0.82, 0.01),
        ("whole bags", 1, 0),
        ("sand m3", 0.1725, 1e-4),
    ],
)
def test_10m2_of_15mm_1_to_6(what: str, printed: float, within: float) -> None:
    found = of(
        by_dry_volume(
            10 * exact("0.015"), exact("1.22"), (1, 6), before=(exact("0.1"),), cement_density=1440, bag_kg=50
        )
    )
    assert found[what] == pytest.approx(printed, abs=within)


@checked("worked elsewhere", "lceted.com 2022: Rate analysis for plastering work, step 1, sand in cubic feet")
def test_sand_in_cubic_feet() -> None:
    """The page takes 35.31 cubic feet to a cubic metre."""
    found = of(by_dry_volume(10 * exact("0.015"), exact("1.22"), (1, 6), before=(exact("0.1"),)))
    assert found["sand m3"] * 35.31 == pytest.approx(6.0909, abs=0.002)


@checked("worked elsewhere", "lceted.com 2020: How much painting material do I need, steps 1 to 4")
@pytest.mark.parametrize(
    ("item", "litres", "whole"),
    [("primer", 1.67, 2), ("paint", 2.5, 3)],
)
def test_200_square_feet_of_primer_and_paint(item: str, litres: float, whole: int) -> None:
    """120 sq ft a litre for one coat of primer; 80 for two coats of paint, which is 160 a coat."""
    book = page_says(
        coating__spread__prime=f"{float(120 / LITRES)} sq ft/gal",
        coating__spread__second=f"{float(160 / LITRES)} sq ft/gal",
        coating__spread__third=f"{float(160 / LITRES)} sq ft/gal",
    )
    wall = laid(20 * 10 * unit("sq ft").scale, primer=1, paint=2, book=book)
    tins = [Buy(x, unit("L").scale, unit("L"), "tin") for x in ("primer", "paint")]
    line = bought(wall, buys=tins, book=book)[item]
    assert float(line.needed) * 1000 == pytest.approx(litres, abs=0.005)
    assert shown(line.packages) == whole
