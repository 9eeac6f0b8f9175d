"""Unified Facilities Guide Specification 09225, Stucco."""

from datetime import date, timedelta

import pytest

from tests.buildup.asking import chosen, days, following, option, printed, sixteenths
from tests.published import checked

SOURCE = "UFGS 09225, 3.3.2 to 3.7.5"


@checked("copied figure", SOURCE)
@pytest.mark.parametrize(
    ("figure", "value"),
    [("thickness.block.three-coat.ufgs", 1), ("thickness.concrete.three-coat.ufgs", 1),
     ("thickness.lath.three-coat.ufgs", 1), ("thickness.scratch.ufgs", 0.375), ("thickness.coats.solid.ufgs", 3),
     ("cure.moist.ufgs", 72), ("cure.moist.finish.ufgs", 48)],
)  # fmt: skip
def test_the_figures_stand_in_the_book(figure, value):
    assert printed(figure) == (value,)


@checked("our arithmetic", f"{SOURCE}: 1 in. with a scratch coat of 3/8 in.")
@pytest.mark.parametrize(("base", "choose"), [("frame", "lath-three-coat"), ("block", "three-coat")])
def test_an_inch_leaves_half_an_inch_of_brown(base, choose):
    o = option(choose, base=base, book=following(thickness="ufgs"))
    assert sixteenths(*(c.nominal for c in o.coats)) == ("3/8", "1/2", "1/8")


@checked("our arithmetic", f"{SOURCE}: scratch on 1 June 2026, fog cure and the code's seven days")
def test_fog_curing_from_the_first_of_june():
    scratch, brown, finish = chosen(base="frame", cure="ufgs").coats
    on = date(2026, 6, 1) + timedelta(days=days(scratch.wait_least))
    assert on == date(2026, 6, 4)
    assert on + timedelta(days=days(brown.moist)) == date(2026, 6, 7)
    # the guide's fog cure is over on the 7th; the code's seven days still govern the finish
    assert on + timedelta(days=days(brown.wait_least)) == date(2026, 6, 11)
    assert days(finish.moist) == 2
