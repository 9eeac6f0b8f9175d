"""Student's t against scipy: the finite sums of `darby.finish` over all counts that anybody would measure."""

import pytest
from scipy.stats import t as students

from darby.finish.relief import student, within
from darby.rulebook import default


@pytest.mark.parametrize("count", [2, 3, 4, 5, 9, 10, 11, 30, 31, 100, 195])
def test_the_quantile_is_scipys(count):
    sure = default().number("match.confidence")
    expected = students.ppf(1 - (1 - sure.number) / 2, count - 1)
    assert student(sure, count) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("freedom", [1, 2, 3, 4, 7, 8, 20, 51])
@pytest.mark.parametrize("angle", [0.1, 0.5, 1.0, 1.5])
def test_the_share_within_is_scipys(freedom, angle):
    from math import sqrt, tan

    t = tan(angle) * sqrt(freedom)
    assert within(angle, freedom) == pytest.approx(students.cdf(t, freedom) - students.cdf(-t, freedom), rel=1e-12)
