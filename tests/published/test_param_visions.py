"""Param Visions, 2020: calculating quantity of materials for plastering."""

from __future__ import annotations

import pytest

from darby.quantities import by_dry_volume
from tests.published import checked
from tests.published.plaster_sums import exact, of


@checked("worked elsewhere", "Param Visions 2020: Calculating quantity of materials for plastering, worked example")
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("wet m3", 0.18, 1e-4),
        ("running 1 m3", 0.216, 1e-4),
        ("dry m3", 0.2873, 1e-4),
        ("cement m3", 0.05746, 1e-5),
        ("cement kg", 82.7424, 0.01),
        ("cement bags", 1.6548, 0.001),
        ("sand m3", 0.22984, 1e-4),
        ("sand ft3", 8.116, 0.002),
    ],
)
def test_5_by_3m_of_12mm_1_to_4(what: str, printed: float, within: float) -> None:
    found = of(
        by_dry_volume(
            15 * exact("0.012"), exact("1.33"), (1, 4), before=(exact("0.2"),), cement_density=1440, bag_kg=50
        )
    )
    assert found[what] == pytest.approx(printed, abs=within)


@checked("worked elsewhere", "Param Visions 2020: Calculating quantity of materials for plastering, for 100 m2")
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("cement bags", 11.03, 0.01),
    ],
)
def test_100m2_of_12mm_1_to_4(what: str, printed: float, within: float) -> None:
    found = of(
        by_dry_volume(
            100 * exact("0.012"), exact("1.33"), (1, 4), before=(exact("0.2"),), cement_density=1440, bag_kg=50
        )
    )
    assert found[what] == pytest.approx(printed, abs=within)


@checked(
    "our arithmetic", "Param Visions 2020: Calculating quantity of materials for plastering, sand for 100 m2, corrected"
)
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("sand m3", 1.5323, 0.0005),
    ],
)
def test_sand_for_100m2(what: str, printed: float, within: float) -> None:
    # printed 1.5346 m3; four times the printed cement volume is 1.5323
    found = of(by_dry_volume(100 * exact("0.012"), exact("1.33"), (1, 4), before=(exact("0.2"),)))
    assert found[what] == pytest.approx(printed, abs=within)
