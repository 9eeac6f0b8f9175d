"""Fine Homebuilding forum, 2002: materials for a stucco house by rules of thumb."""

from __future__ import annotations

import pytest

from darby.measure.units import IN, unit
from darby.quantities import Buy, quick_sum
from tests.published import checked
from tests.published.plaster_sums import bought, laid, shown

SOURCE = "Fine Homebuilding forum 2002: Calculating materials needed to stucco, question of 23 July and replies"
HOUSE = 400 * unit("sq yd").scale


@checked("worked elsewhere", SOURCE)
def test_rolls_of_mesh() -> None:
    """Fifty square yards a roll; the rule counts no laps, and darby says so."""
    roll = Buy("lath", 50 * unit("sq yd").scale, unit("sq yd"), "roll")
    assert shown(bought(laid(HOUSE, lathed=True), buys=(roll,))["lath"].packages) == 8


@checked("worked elsewhere", SOURCE)
@pytest.mark.parametrize(("what", "printed", "within"), [("square yards a yard", 36, 0), ("yards of sand", 11, 0.2)])
def test_an_inch_of_sand(what: str, printed: float, within: float) -> None:
    """324 sq ft to a cubic yard is one inch of sand over the wall."""
    found, _ = quick_sum(HOUSE, IN)
    got = {"square yards a yard": shown(found.cover) * 3, "yards of sand": shown(found.sand_by_rule) / 27}
    assert got[what] == pytest.approx(printed, abs=within or 1e-9)
