"""Construction Civil Engineering: cement and sand for plastering."""

from __future__ import annotations

import pytest

from darby.quantities import by_dry_volume
from tests.published import checked
from tests.published.plaster_sums import exact, of


@checked(
    "worked elsewhere",
    "constructioncivilengineering.com: How to calculate the cement, sand quantity for plastering, worked sum",
)
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("dry m3", 0.0156, 1e-5),
        ("cement kg", 3.21, 0.005),
        ("cement bags", 0.064, 0.0005),
        ("sand m3", 0.0133, 1e-4),
        ("sand ft3", 0.47, 0.005),
    ],
)
def test_1m2_of_12mm_1_to_6(what: str, printed: float, within: float) -> None:
    # the page then calls 0.064 bag "approximately 1 bag": whole bags make sense on the job's total only
    found = of(by_dry_volume(exact("0.012"), exact("1.3"), (1, 6), cement_density=1440, bag_kg=50))
    assert found[what] == pytest.approx(printed, abs=within)
