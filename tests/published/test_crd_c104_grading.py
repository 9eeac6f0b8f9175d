"""CRD-C 104-80, section 4.1: cumulative percentages of a fine aggregate, read as what went through."""

from fractions import Fraction

import pytest

from darby.finish import OnSieve
from darby.measure.units import unit
from darby.working import Quantity
from tests.finish.asking import matched, sieve
from tests.published import checked

RETAINED = {"4": 4, "8": 21, "16": 46, "30": 74, "50": 89, "100": 95}


@checked(
    "our arithmetic", "CRD-C 104-80, 4.1: 4, 21, 46, 74, 89, 95 % retained; the differences are what each sieve kept"
)
def test_what_went_through_to_what_stayed():
    percent = unit("%")
    rows = tuple(OnSieve(sieve(n), Quantity(Fraction(100 - kept, 100), percent)) for n, kept in RETAINED.items())
    sand = matched(by="passing", sand=rows).sand
    assert [round(float(g.share) * 100, 6) for g in sand.grades] == [4, 17, 25, 28, 15, 6, 5]
    assert (sand.largest.fine.name, sand.common.fine.name) == ("No. 8", "No. 30")
    assert float(sand.median) * 1000 == pytest.approx(0.6 + 0.58 * (50 - 26) / 28)
