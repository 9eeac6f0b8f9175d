"""Builder 3 and 2, Volume 2 (NAVEDTRA 14044): a bundle of metal lath."""

from __future__ import annotations

import pytest

from darby.measure.units import unit
from tests.published import checked
from tests.published.plaster_sums import bought, laid, shown


@checked("our arithmetic", "NAVEDTRA 14044, ch. 7: ten sheets of 27 x 96 in. are 180 sq ft, sold as 20 sq yd")
def test_a_bundle_by_the_square_yard() -> None:
    line = bought(laid(10 * 27 * 96 * unit("sq in").scale, lathed=True))["lath"]
    assert shown(line.needed) == pytest.approx(180)
    assert shown(line.by_rule) == 10
