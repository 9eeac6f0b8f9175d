"""Stucco News, twelve points for reducing cracking: a working plasterer on thickness and waiting."""

import pytest

from tests.buildup.asking import following, option, printed, sixteenths
from tests.published import checked

SOURCE = "Stucco News, twelve points for reducing cracking, points 5 and 8"


@checked("copied figure", SOURCE)
@pytest.mark.parametrize(
    ("figure", "value"), [("thickness.block.two-coat.plasterer", 0.75), ("cure.wait.plasterer", 7)]
)
def test_the_figures_stand_in_the_book(figure, value):
    assert printed(figure) == (value,)


@checked("our arithmetic", f"{SOURCE}: three quarters with a finish of 1/8 in.")
def test_his_base_coat_is_five_eighths():
    o = option("two-coat", book=following(thickness="plasterer"))
    assert sixteenths(*(c.nominal for c in o.coats)) == ("5/8", "1/8")
