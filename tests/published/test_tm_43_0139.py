"""TM 43-0139, Painting Instructions, US Army, 1988: spreading rates."""

from __future__ import annotations

import pytest

from darby.measure.units import unit
from tests.published import checked
from tests.published.plaster_sums import bought, laid, shown


@checked("our arithmetic", "TM 43-0139, table 3-2: prime and second coat on 2400 sq ft of concrete")
@pytest.mark.parametrize(("end", "gallons"), [("most", 24), ("least", 14)])
def test_2400_square_feet_in_two_coats(end: str, gallons: float) -> None:
    lines = bought(laid(2400 * unit("sq ft").scale, primer=1, paint=1))
    both = (lines["primer"], lines["paint"])
    found = {"most": sum(shown(x.needed) for x in both), "least": sum(shown(x.also[0].amount) for x in both)}
    assert found[end] == pytest.approx(gallons, abs=0.01)
