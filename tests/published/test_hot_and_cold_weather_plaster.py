"""Building Enclosure, Hot / cold weather stucco applications."""

import pytest

from darby.buildup import care
from darby.measure.units import unit
from tests.buildup.asking import BOOK, codes, printed
from tests.published import checked

SOURCE = "Building Enclosure, Hot / cold weather stucco applications"


@checked("copied figure", SOURCE)
@pytest.mark.parametrize(("figure", "value"), [("hot-still", 100), ("hot-windy", 90), ("hot-wind", 8)])
def test_the_figures_stand_in_the_book(figure, value):
    assert printed(f"cure.{figure}.enclosure") == (value,)


@checked("our arithmetic", SOURCE)
@pytest.mark.parametrize(("deg_f", "mph", "hot"), [(95, 10, True), (95, 5, False), (101, 0, True)])
def test_when_hot_weather_care_starts(deg_f, mph, hot):
    air, wind = unit("deg F").to_si(float(deg_f)), unit("mph").to_si(float(mph))
    assert bool(codes(care(BOOK, "job", air_c=float(air), wind=float(wind)))) == hot
