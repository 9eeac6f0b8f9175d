"""Portland Cement Association: stucco questions answered, repair booklet IS526, corner for masonry contractors."""

import pytest

from darby.buildup import care
from tests.buildup.asking import BOOK, chosen, codes, following, option, printed, sixteenths, weight_psf
from tests.published import checked


@checked("copied figure", "PCA Stucco FAQ, correct thickness (reports C926 Table 1)")
@pytest.mark.parametrize(
    ("figure", "inches"),
    [("block.two-coat", 0.5), ("block.three-coat", 0.625), ("concrete.three-coat", 0.625), ("concrete.two-coat", 0.375),
     ("lath.three-coat", 0.875)],
)  # fmt: skip
def test_nominal_totals(figure, inches):
    assert printed(f"thickness.{figure}.c926") == (inches,)


@checked("copied figure", "PCA IS526, Repair of Portland Cement Plaster, 2001")
@pytest.mark.parametrize(
    ("figure", "inches"), [("block.two-coat", 0.5), ("concrete.two-coat", 0.5), ("lath.three-coat", 0.875)]
)
def test_the_repair_booklet(figure, inches):
    assert printed(f"thickness.{figure}.pca") == (inches,)


@checked("our arithmetic", "PCA IS526: a firm that follows the booklet")
def test_who_follows_the_booklet_gets_half_an_inch_on_concrete_too():
    book = following(thickness="pca")
    assert sixteenths(option("two-coat", base="concrete", book=book).nominal) == ("1/2",)
    assert sixteenths(chosen(base="frame", book=book).nominal) == ("7/8",)


@checked("copied figure", "PCA Stucco FAQ, curing, temperatures, installed weight")
@pytest.mark.parametrize(
    ("figure", "values"),
    [("cure.moist.pca", (3, 7)), ("cure.humidity.pca", (70,)), ("cure.cold.pca", (40,)),
     ("thickness.weight.pca", (142,))],
)  # fmt: skip
def test_the_answers_stand_in_the_book(figure, values):
    assert printed(figure) == values


@checked("our arithmetic", "PCA Stucco FAQ, curing: at 75 % humidity")
def test_at_three_quarters_humidity_no_water_is_added():
    assert codes(care(BOOK, "job", air_c=20.0, humidity=0.75)) == {"damp-air"}


@checked("our arithmetic", "PCA Stucco FAQ, installed weight: 142 lb/cu ft at 7/8 in.")
def test_seven_eighths_weighs_ten_and_a_third_pounds_a_square_foot():
    # 142 x 0.875 / 12; the association prints 10.4
    assert weight_psf(chosen(base="frame").weight) == pytest.approx(10.35, abs=0.005)
