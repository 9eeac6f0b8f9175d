"""Markup and margin, Contracting Business (2024) and Hardwood Floors Magazine: the same percentage is two prices."""

from decimal import Decimal
from fractions import Fraction

import pytest

from darby.price import loaded, margin_of, markup_of
from darby.price.loading import Cost, shares_of
from darby.price.model import Profit
from darby.working import Amount, Working
from tests.published import checked

CONTRACTING = "Contracting Business 2024: Contracting 101, mark-up and margin, 20 % on 100"
FLOORS = "Hardwood Floors Magazine: Price your work with the right markup, 30 % on 1000"


def priced(cost, profit):
    working = Working()
    answer = loaded("x", Cost(rest=Amount(Decimal(cost))), (), profit, working)
    _, margin = shares_of(answer.profit, answer.built, "x", working)
    return float(answer.built.value), margin.value


@checked("worked elsewhere", f"{CONTRACTING}: price by markup and its margin")
def test_twenty_percent_markup():
    built, margin = priced(100, Profit("markup", Fraction(1, 5), "cost"))
    assert built == 120 and margin == pytest.approx(0.166667, abs=1e-6)


@checked("worked elsewhere", f"{CONTRACTING}: price by margin")
def test_twenty_percent_margin():
    assert priced(100, Profit("margin", Fraction(1, 5), "price"))[0] == 125


@checked("worked elsewhere", f"{FLOORS}: price by markup and its margin of 23 %")
def test_thirty_percent_markup():
    built, margin = priced(1000, Profit("markup", Fraction(3, 10), "cost"))
    assert built == 1300 and margin == pytest.approx(0.23, abs=0.005)
    assert float(margin_of(Fraction(3, 10))) == pytest.approx(0.230769, abs=1e-6)


@checked("worked elsewhere", f"{FLOORS}: the markup of 42.8 % that a margin of 30 % needs")
def test_the_markup_that_a_margin_needs():
    assert float(markup_of(Fraction(3, 10))) == pytest.approx(0.428, abs=0.001)


@checked("our arithmetic", f"{FLOORS}: price by margin")
def test_thirty_percent_margin():
    assert priced(1000, Profit("margin", Fraction(3, 10), "price"))[0] == pytest.approx(1428.57, abs=0.005)
