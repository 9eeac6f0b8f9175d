"""The lowest access from which the top of the wall is in reach."""

from fractions import Fraction

import pytest

from darby.days import choose, platform
from darby.days.model import AccessRow
from darby.rulebook import default

FT = Fraction(3048, 10_000)
ROWS = (AccessRow("scaffold", 30 * FT), AccessRow("ground", 6 * FT), AccessRow("planks", 10 * FT))


@pytest.mark.parametrize(
    ("feet", "kind"), [(5, "ground"), (6, "ground"), (Fraction(61, 10), "planks"), (10, "planks"), (11, "scaffold")]
)
def test_the_lowest_that_reaches(feet, kind):
    row = choose(ROWS, feet * FT)
    assert row is not None and row.kind == kind


def test_out_of_reach():
    assert choose(ROWS, 31 * FT) is None
    assert choose((), FT) is None


def test_the_platform_is_what_is_past_a_man_s_reach():
    book = default()
    assert platform(ROWS, 15 * FT, book) == 9 * FT
    assert platform(ROWS, 5 * FT, book) == 0
    reach = book.number("access.ground-reach").number
    assert platform((), 15 * FT, book) == pytest.approx(float(15 * FT) - reach)
    assert reach == pytest.approx(float(6 * FT))  # common practice, no source
