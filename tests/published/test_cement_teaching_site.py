"""A cement teaching site: 100 sq ft of plaster at four thicknesses."""

from __future__ import annotations

import pytest

from darby.quantities import by_dry_volume
from tests.published import checked
from tests.published.plaster_sums import exact, of

SOURCE = "wbcsdcement.org: How much sand and cement is required for 100 sq foot plaster, table of thicknesses"


def at(millimetres: int) -> dict[str, float]:
    wet = exact("9.29") * millimetres / 1000
    return of(by_dry_volume(wet, exact("1.35"), (1, 4), before=(exact("0.2"),), cement_density=1440))


@checked("worked elsewhere", SOURCE)
@pytest.mark.parametrize(
    ("millimetres", "wet", "with_waste"),
    [(6, 0.056, 0.0672), (12, 0.111, 0.133), (18, 0.167, 0.2), (23, 0.214, 0.257)],
)
def test_volumes(millimetres: int, wet: float, with_waste: float) -> None:
    found = at(millimetres)
    assert found["wet m3"] == pytest.approx(wet, abs=0.0006)
    assert found["running 1 m3"] == pytest.approx(with_waste, abs=0.001)


@checked("worked elsewhere", SOURCE)
@pytest.mark.parametrize(
    ("millimetres", "what", "printed", "within"),
    [
        (23, "cement kg", 100, 0.5),
        (6, "sand ft3", 2.56, 0.02),
    ],
)
def test_materials(millimetres: int, what: str, printed: float, within: float) -> None:
    assert at(millimetres)[what] == pytest.approx(printed, abs=within)


@checked("our arithmetic", f"{SOURCE}, cement at 6 mm, corrected")
def test_cement_at_6_mm() -> None:
    """Printed 27 kg: the page's own figures give 26.0 to 26.1, 3 % less."""
    assert at(6)["cement kg"] == pytest.approx(26.1, abs=0.1)
