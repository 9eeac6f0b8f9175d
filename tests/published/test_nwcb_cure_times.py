"""Northwest Wall and Ceiling Bureau, as a plasterer reports it: how long before the finish."""

from datetime import date, timedelta

import pytest

from tests.buildup.asking import chosen, days, printed
from tests.published import checked

SOURCE = "Island Plasters, Cure times for stucco, reporting the NWCB"


@checked("copied figure", SOURCE)
@pytest.mark.parametrize(("figure", "values"), [("cure.wait.nwcb", (10,)), ("cure.better.nwcb", (14, 21))])
def test_the_figures_stand_in_the_book(figure, values):
    assert printed(figure) == values


@checked("our arithmetic", f"{SOURCE}: scratch on 1 June 2026")
def test_ten_days_from_the_brown_of_the_third_of_june():
    scratch, brown, _ = chosen(base="frame", cure="nwcb").coats
    on = date(2026, 6, 1) + timedelta(days=days(scratch.wait_least))
    assert on + timedelta(days=days(brown.wait_least)) == date(2026, 6, 13)
