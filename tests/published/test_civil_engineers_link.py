"""Civil Engineers Link, 2021: mortar for wall plaster."""

from __future__ import annotations

import pytest

from darby.quantities import by_dry_volume
from tests.published import checked
from tests.published.plaster_sums import exact, of


@checked("worked elsewhere", "civilengineerslink.com 2021: Cement mortar calculation, section b")
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("wet m3", 1.2, 0.001),
        ("running 1 m3", 1.56, 0.001),
        ("dry m3", 1.872, 0.001),
        ("cement m3", 0.374, 0.001),
        ("sand m3", 1.496, 0.002),
    ],
)
def test_100m2_of_12mm_1_to_4(what: str, printed: float, within: float) -> None:
    found = of(by_dry_volume(exact("1.2"), exact("1.3"), (1, 4), after=(exact("0.2"),), bag_m3=1 / exact("28.8")))
    assert found[what] == pytest.approx(printed, abs=within)


@checked("our arithmetic", "civilengineerslink.com 2021: Cement mortar calculation, section b, bags, corrected")
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("cement bags", 10.78, 0.005),
    ],
)
def test_bags_for_100m2(what: str, printed: float, within: float) -> None:
    # bags are printed 0.374 x 30 = 10.77: that product is 11.22, and 10.77 is 0.374 x 28.8
    found = of(by_dry_volume(exact("1.2"), exact("1.3"), (1, 4), after=(exact("0.2"),), bag_m3=1 / exact("28.8")))
    assert found[what] == pytest.approx(printed, abs=within)


@checked("worked elsewhere", "civilengineerslink.com 2021: Cement mortar calculation, section b, the two allowances")
@pytest.mark.parametrize(("n", "printed"), [(1, 0.36), (2, 0.312)])
def test_each_allowance(n: int, printed: float) -> None:
    """Bulking on the wet volume, then waste on the sum of both."""
    found = of(by_dry_volume(exact("1.2"), exact("1.3"), (1, 4), after=(exact("0.2"),)))
    assert found[f"running {n} m3"] - found[f"running {n - 1} m3"] == pytest.approx(printed, abs=0.001)


@checked("our arithmetic", "civilengineerslink.com 2021: Cement mortar calculation, bags as stated, corrected")
def test_at_thirty_bags_a_cubic_metre_as_stated() -> None:
    """Printed 10.77; the stated 30 bags a cubic metre make 11.23."""
    found = of(by_dry_volume(exact("1.2"), exact("1.3"), (1, 4), after=(exact("0.2"),), bag_m3=exact("1/30")))
    assert found["cement bags"] == pytest.approx(11.23, abs=0.005)
