"""Engineering Discoveries, 2019: cement for one square metre of plastering."""

from __future__ import annotations

import pytest

from darby.quantities import by_dry_volume
from tests.published import checked
from tests.published.plaster_sums import exact, of


@checked(
    "worked elsewhere",
    "Engineering Discoveries 2019: How much cement is required for one square metre of plastering, steps 1 to 3",
)
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("running 1 m3", 0.0144, 1e-5),
        ("dry m3", 0.01944, 1e-5),
        ("cement m3", 0.003888, 1e-6),
        ("cement kg", 5.6, 0.005),
        ("cement bags", 0.112, 0.0005),
    ],
)
def test_1m2_of_12mm_1_to_4(what: str, printed: float, within: float) -> None:
    found = of(
        by_dry_volume(exact("0.012"), exact("1.35"), (1, 4), before=(exact("0.2"),), cement_density=1440, bag_kg=50)
    )
    assert found[what] == pytest.approx(printed, abs=within)
