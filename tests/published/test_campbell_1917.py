"""H. Colin Campbell, Practical Concrete Work for the School and Home, 1917."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.measure.units import IN, unit
from darby.quantities import quick_sum
from tests.published import checked
from tests.published.plaster_sums import shown


@checked("our arithmetic", "Campbell 1917, Surface Finish of Concrete, part 6: 17 sq ft a bag at 1-1/2 in.")
def test_stucco_to_a_bag() -> None:
    found, _ = quick_sum(17 * unit("sq ft").scale, Fraction(3, 2) * IN)
    assert shown(found.net) == pytest.approx(2.125, abs=0.001)
