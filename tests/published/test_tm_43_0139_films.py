"""TM 43-0139, table 3-2, concrete and brick: spreading rates put into films over an old finish."""

import pytest

from tests.finish.asking import matched, mils
from tests.published import checked

TM = "TM 43-0139, table 3-2: 150-300, 300-400, 350-450 sq ft/gal; 30 to 50 % of it stays (from memory)"


@checked("our arithmetic", TM)
@pytest.mark.parametrize(("coats", "least", "most"), [(1, 1.60, 5.35), (2, 2.81, 8.02), (3, 3.88, 10.31)])
def test_film_of_so_many_coats(coats, least, most):
    # 1604 mil sq ft are in a gallon: 1604 x 0.3 / 300 = 1.60
    paint = matched(paint_coats=coats).paint
    assert (mils(paint.least), mils(paint.most)) == (pytest.approx(least, abs=0.006), pytest.approx(most, abs=0.006))
