"""What an hour must bring in, and break-even."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure.units import unit
from darby.price import break_even, hour_must_bring
from darby.price.hourly import AYear, OnWages, Paid


def test_by_hand():
    """2000 h x 30 + bonus 1000 = 61000 wages; 10 % on 7000 at most = 700; truck 6000; over 1600 h: 42.3125."""
    answer, _ = hour_must_bring(
        [Paid("time", Fraction(2000), Decimal(30))],
        [OnWages("capped", Fraction(1, 10), Decimal(7000))],
        [AYear("bonus", Decimal(1000), wage=True), AYear("truck", Decimal(6000))],
        chargeable=Fraction(1600),
    )
    assert (answer.wages.value, answer.year.value) == (61_000, 67_700)
    assert answer.lines[0][1].value == 700
    assert float(unit("$/h").from_si(Fraction(answer.hour.value))) == pytest.approx(42.3125)


@given(st.integers(1, 3000), st.decimals(1, 200, places=2), st.integers(1, 3000))
def test_fewer_chargeable_hours_cost_more(hours, rate, chargeable):
    paid = [Paid("time", Fraction(hours), rate)]
    one, two = (hour_must_bring(paid, chargeable=Fraction(c))[0].hour.value for c in (chargeable, chargeable + 100))
    assert one >= two


@given(st.integers(0, 10**6), st.integers(1, 1000), st.integers(0, 999))
def test_break_even_just_pays(fixed, price, cost):
    if price <= cost:
        with pytest.raises(ValueError, match="never"):
            break_even(Decimal(fixed), Decimal(price), Decimal(cost))
        return
    units = break_even(Decimal(fixed), Decimal(price), Decimal(cost))
    assert units * (price - cost) >= fixed > (units - 1) * (price - cost) or units == fixed == 0
