"""UFGS 03372, UFGS 09210, CRD-C 104 and a sieve article: openings of sieves that are called by number."""

import pytest

from darby.finish import sieves
from darby.measure.units import unit
from tests.finish.asking import BOOK
from tests.published import checked

MM = unit("mm").scale


def opening(name):
    (found,) = (s.opening for s in sieves(BOOK) if s.name == name)
    return float(found / MM)


@checked("copied figure", "UFGS 03372, gradation of fine aggregate: Nos. 8, 16, 30, 50, 100, 200 with openings")
@pytest.mark.parametrize(
    ("name", "mm"),
    [("No. 8", 2.36), ("No. 16", 1.18), ("No. 30", 0.6), ("No. 50", 0.3), ("No. 100", 0.15), ("No. 200", 0.075)],
)
def test_sieves_of_fine_aggregate(name, mm):
    assert opening(name) == pytest.approx(mm)


@checked("copied figure", "UFGS 09210, 2.5.1 to 2.5.4: the No. 20 sieve of finish sand")
def test_the_sieve_of_finish_sand():
    assert opening("No. 20") == pytest.approx(0.85)


@checked("copied figure", "sieve sizes article: No. 4 is 4.75 mm and No. 40 0.425 mm")
@pytest.mark.parametrize(("name", "mm"), [("No. 4", 4.75), ("No. 40", 0.425)])
def test_sieves_of_the_article(name, mm):
    assert opening(name) == pytest.approx(mm)


@checked("copied figure", "CRD-C 104-80, section 3: the 9.5 mm (3/8 in.) sieve of the fineness modulus")
def test_the_sieve_over_no_4():
    assert opening("3/8 in.") == pytest.approx(9.5)


@checked("our arithmetic", "those openings against the float sands of UFGS 09210: 16/20 coarse, 20/30 fine")
@pytest.mark.parametrize(("sand", "low", "high"), [("16/20", "No. 20", "No. 16"), ("20/30", "No. 30", "No. 20")])
def test_float_sands_lie_between_their_sieves(sand, low, high):
    figure = BOOK.number("finish.sand", sand=sand)
    assert (figure.low / MM, figure.high / MM) == (pytest.approx(opening(low)), pytest.approx(opening(high)))
