"""A Treatise on Architecture and Building Construction, vol. 4, The Colliery Engineer Co., 1899."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.measure.units import IN, unit
from darby.quantities import Buy
from tests.published import checked
from tests.published.plaster_sums import bought, laid, page_says, shown

TREATISE = "Treatise on Architecture and Building Construction, vol. 4, 1899"
FEET = unit("sq ft").scale


def laths(square_feet: Fraction, gap: str) -> float:
    """Wooden laths for an area: a gap is a lap below nought, so the sheet of darby's own lath sum is a lath."""
    book = page_says(lath__lap__side=f"-{gap} in", lath__lap__end="0 in")
    sides = (Fraction(3, 2) * IN, 48 * IN)
    buys = (Buy("lath", sides[0] * sides[1], unit("sq in"), "piece", sides=sides),)
    return shown(bought(laid(square_feet * FEET, lathed=True, book=book), buys=buys, book=book)["lath"].exact)


@checked("worked elsewhere", f"{TREATISE}, article 69: laths for 100 square yards")
def test_1440_laths_to_a_hundred_square_yards() -> None:
    assert laths(Fraction(900), "3/8") == pytest.approx(1440, abs=0.5)


@checked("worked elsewhere", f"{TREATISE}, article 39: laths to cover a square foot")
def test_laths_to_a_square_foot() -> None:
    assert laths(Fraction(1), "1/4") == pytest.approx(1.75, abs=0.05)


@checked("our arithmetic", f"{TREATISE}, article 39: laths to a square foot with gaps of 3/8 in., corrected")
def test_laths_to_a_square_foot_with_wider_gaps() -> None:
    """Printed 1 1/2: it is 1.6, as the same book uses in its 1440 to 100 square yards."""
    assert laths(Fraction(1), "3/8") == pytest.approx(1.6, abs=0.001)
