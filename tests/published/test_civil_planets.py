"""Civil Planets: rate analysis of plastering."""

from __future__ import annotations

import pytest

from darby.quantities import by_dry_volume
from tests.published import checked
from tests.published.plaster_sums import exact, of


@checked("worked elsewhere", "civilplanets.com: Rate analysis of plastering, step 1")
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("cement m3", 0.058, 0.0005),
        ("cement bags", 1.67, 0.005),
        ("sand m3", 0.174, 0.0005),
    ],
)
def test_10m2_of_15mm_1_to_3(what: str, printed: float, within: float) -> None:
    # the price table on the same page carries 1.63 bags for the same wall
    found = of(by_dry_volume(10 * exact("0.015"), exact("1.55"), (1, 3), cement_density=1440, bag_kg=50))
    assert found[what] == pytest.approx(printed, abs=within)
