"""A solved examination question: cement for 100 m2 of 12 mm plaster, 1:4."""

from __future__ import annotations

import pytest

from darby.quantities import by_dry_volume
from tests.published import checked
from tests.published.plaster_sums import exact, of


@checked("worked elsewhere", "sarthaks.com; itiscivilengineering.com: cement for 100 m2 of 12 mm plastering, solution")
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("wet m3", 1.2, 0.001),
        ("running 1 m3", 1.56, 0.001),
        ("dry m3", 1.95, 0.001),
        ("cement m3", 0.39, 0.001),
        ("cement kg", 561.6, 0.1),
        ("cement bags", 11.23, 0.005),
        ("whole bags", 12, 0),
    ],
)
def test_100m2_of_12mm_1_to_4(what: str, printed: float, within: float) -> None:
    found = of(
        by_dry_volume(exact("1.2"), exact("1.25"), (1, 4), before=(exact("0.3"),), cement_density=1440, bag_kg=50)
    )
    assert found[what] == pytest.approx(printed, abs=within)


@checked("worked elsewhere", "itiscivilengineering.com: second key to the same question, a bag of 0.0335 m3")
@pytest.mark.parametrize(("what", "printed", "within"), [("cement bags", 11.64, 0.005), ("whole bags", 12, 0)])
def test_second_key(what: str, printed: float, within: float) -> None:
    found = of(by_dry_volume(exact("1.2"), exact("1.25"), (1, 4), before=(exact("0.3"),), bag_m3=exact("0.0335")))
    assert found[what] == pytest.approx(printed, abs=within)
