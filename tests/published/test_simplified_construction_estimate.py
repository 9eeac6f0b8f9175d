"""Simplified Construction Estimate (M. Fajardo): a boundary wall plastered on both faces."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.measure.units import unit
from darby.quantities import Buy, Material, Mortar, Sand
from darby.working import Quantity
from tests.published import checked
from tests.published.plaster_sums import bought, exact, laid, shown

SOURCE = "Simplified Construction Estimate, illustration 2-11, parts A to C"


@checked("worked elsewhere", SOURCE)
@pytest.mark.parametrize(("what", "printed", "within"), [("bags", 73, 0), ("exact bags", 73, 0.1), ("sand", 6.1, 0.03)])
def test_fence(what: str, printed: float, within: float) -> None:
    """95 m, 2 m of it above ground, both faces; 0.192 bag of 40 kg and 16 mm of sand a square metre, nothing added."""
    length = 3 * exact(25) + 4 * exact(5)
    wall = laid(length * 2 * 2, exact("0.016"), faces=2)
    cement = exact("0.192") * 40 / exact("0.016")
    mortar = Mortar(
        "mix",
        (Material("portland", Quantity(cement, unit("kg/m3"))),),
        Sand(Quantity(Fraction(1)), "damp loose"),
    )
    lines = bought(wall, mortar, (Buy("portland", exact(40), unit("kg"), "bag"),))
    found = {
        "bags": shown(lines["portland"].packages),
        "exact bags": shown(lines["portland"].exact),
        "sand": float(lines["sand"].needed),
    }
    assert found[what] == pytest.approx(printed, abs=within or 1e-9)
