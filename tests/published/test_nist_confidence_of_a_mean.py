"""NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.2: how sure a mean is, and 1.3.6.7.2: Student's t.

As remembered: the pages were not at hand. The worked limits agree with their own mean, deviation and t.
"""

import pytest

from darby.finish.relief import student
from tests.finish.asking import BOOK
from tests.published import checked

NIST = "NIST/SEMATECH e-Handbook, 1.3.5.2, 195 heat-flow readings: mean 9.261460, deviation 0.022789, from memory"
TABLE = "NIST/SEMATECH e-Handbook, 1.3.6.7.2, critical values of Student's t, 0.975 column, from memory"


@checked("worked elsewhere", NIST)
@pytest.mark.parametrize(("sign", "limit"), [(-1, 9.258242), (1, 9.264679)])
def test_limits_of_a_mean(sign, limit):
    t = student(BOOK.number("match.confidence"), 195)
    assert t == pytest.approx(1.9723, abs=5e-5)
    assert 9.261460 + sign * t * 0.022789 / 195**0.5 == pytest.approx(limit, abs=1.5e-6)


@checked("copied figure", TABLE)
@pytest.mark.parametrize(("free", "t"), [(1, 12.706), (4, 2.776), (9, 2.262), (29, 2.045), (100, 1.984)])
def test_students_t(free, t):
    assert student(BOOK.number("match.confidence"), free + 1) == pytest.approx(t, abs=5e-4)
