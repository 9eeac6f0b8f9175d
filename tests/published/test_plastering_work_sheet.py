"""A work sheet of plastering calculations: one allowance used twice."""

from __future__ import annotations

import pytest

from darby.quantities import by_dry_volume
from tests.published import checked
from tests.published.plaster_sums import exact, of


@checked("worked elsewhere", "Plastering calculations (work sheet, Scribd 606518233), second reckoning")
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("wet m3", 1.5, 0.001),
        ("cement m3", 0.58125, 1e-5),
        ("cement bags", 16.74, 0.005),
        ("sand m3", 1.74375, 1e-5),
    ],
)
def test_second_reckoning(what: str, printed: float, within: float) -> None:
    found = of(by_dry_volume(100 * exact("0.015"), exact("1.55"), (1, 3), cement_density=1440, bag_kg=50))
    assert found[what] == pytest.approx(printed, abs=within)


@checked("our arithmetic", "Plastering calculations (work sheet, Scribd 606518233), first reckoning, corrected")
@pytest.mark.parametrize(("what", "corrected"), [("cement bags", 14.04), ("sand m3", 1.4625)])
def test_first_reckoning(what: str, corrected: float) -> None:
    """Printed 21.06 bags and 2.19 m3: 1.95 m3 already holds the 1.5 m3 of mortar, and is multiplied by it again."""
    found = of(by_dry_volume(exact("1.5"), exact("1.3"), (1, 3), cement_density=1440, bag_kg=50))
    assert found[what] == pytest.approx(corrected, abs=0.005)
