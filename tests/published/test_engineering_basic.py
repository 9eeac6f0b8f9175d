"""Engineering Basic: bags of cement for an area of plastering."""

from __future__ import annotations

import pytest

from darby.quantities import by_dry_volume
from tests.published import checked
from tests.published.plaster_sums import exact, of


@checked(
    "worked elsewhere",
    "Engineering Basic: Calculating total bags of cement required per unit area for plastering, worked sum",
)
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("wet m3", 1.2, 0.001),
        ("cement m3", 0.265, 0.001),
        ("cement bags", 7.67, 0.03),
    ],
)
def test_100m2_of_12mm_1_to_6_allowances_added(what: str, printed: float, within: float) -> None:
    # bulking 35 % and waste 20 % are added, 1.55, where others compound them to 1.62
    found = of(
        by_dry_volume(
            exact("1.2"), exact("1.35"), (1, 6), before=(exact("0.2"),), how="added", cement_density=1440, bag_kg=50
        )
    )
    assert found[what] == pytest.approx(printed, abs=within)


@checked(
    "worked elsewhere", "Engineering Basic: Calculating total bags of cement required per unit area, share of cement"
)
def test_share_of_cement() -> None:
    assert of(by_dry_volume(exact("1.2"), 1, (1, 6)))["cement m3"] == pytest.approx(0.171, abs=0.001)
