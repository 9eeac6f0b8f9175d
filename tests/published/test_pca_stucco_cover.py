"""Portland Cement Association, stucco questions: what plaster covers and weighs."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.measure.units import IN, unit
from darby.quantities import quick_sum
from tests.published import checked
from tests.published.plaster_sums import laid, shown


@checked("worked elsewhere", "PCA stucco FAQ, installed weight of portland cement plaster: cover at 7/8 in.")
def test_a_cubic_foot_covers_13_7_square_feet_at_seven_eighths() -> None:
    found, _ = quick_sum(unit("sq ft").scale, Fraction(7, 8) * IN)
    assert shown(found.cover) == pytest.approx(13.7, abs=0.06)


@checked("worked elsewhere", "PCA stucco FAQ, installed weight of portland cement plaster: weight at 7/8 in.")
def test_seven_eighths_weigh_10_4_pounds_a_square_foot() -> None:
    weight = laid(unit("sq ft").scale, Fraction(7, 8) * IN).areas[0].weight
    assert shown(weight) == pytest.approx(10.4, abs=0.06)


@checked("our arithmetic", "cover is 12 over the thickness in inches; 36 over it in square yards a cubic yard")
@pytest.mark.parametrize(("inches", "feet", "yards"), [("3/8", 32, 96), ("1/2", 24, 72), ("3/4", 16, 48)])
def test_cover_at_other_thicknesses(inches: str, feet: float, yards: float) -> None:
    found, _ = quick_sum(unit("sq ft").scale, Fraction(inches) * IN)
    assert shown(found.cover) == pytest.approx(feet)
    assert shown(found.cover) * 27 / 9 == pytest.approx(yards)


@checked("copied figure", "Trowel Tips: Mortar Sand, PCA in Masonry Magazine, August 1993, p. 17")
def test_nearly_a_foot_of_sand_in_a_foot_of_mortar() -> None:
    found, _ = quick_sum(288 * unit("sq ft").scale, Fraction(1, 2) * IN)
    assert shown(found.sand_by_rule) == pytest.approx(12)
