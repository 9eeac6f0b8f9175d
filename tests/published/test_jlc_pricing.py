"""Journal of Light Construction, three articles on markup, shares of sales and break-even."""

from decimal import Decimal
from fractions import Fraction

import pytest

from darby.price import break_even, loaded, margin_of
from darby.price.loading import Cost, left_at, shares_of
from darby.price.model import Profit, Share
from darby.working import Amount, Working
from tests.published import checked


def cost(dollars):
    return Cost(rest=Amount(Decimal(dollars)))


@checked("worked elsewhere", "JLC: The mistake of markup, opening example, a gross profit of 20 % of the price")
def test_divide_by_one_less_the_margin():
    by_margin = loaded("x", cost(10_000), (), Profit("margin", Fraction(1, 5), "price"), Working())
    assert by_margin.built.value == 12_500


@checked("our arithmetic", "JLC: The mistake of markup, the same cost times 1.2")
def test_times_one_point_two_is_not_the_same():
    by_markup = loaded("x", cost(10_000), (), Profit("markup", Fraction(1, 5), "cost"), Working())
    assert by_markup.built.value == 12_000
    assert float(margin_of(Fraction(1, 5))) == pytest.approx(0.1667, abs=0.00005)


@checked("worked elsewhere", "JLC: Three ways to price yourself out of business, mistake 1, shares of 800000 in sales")
def test_shares_of_sales():
    sales, overhead = Amount(Decimal(800_000)), (Share("overhead", Fraction(1, 4), "price"),)
    working = Working()
    left = left_at(sales, cost(575_000), overhead, working)
    _, margin = shares_of(left, sales, "x", working)
    assert margin.value * 100 == pytest.approx(3.13, abs=0.006)
    assert 100 - 25 - margin.value * 100 == pytest.approx(71.88, abs=0.006)
    back = loaded("y", cost(575_000), overhead, Profit("margin", Fraction(1, 32), "price"), working)
    assert back.built.value == 800_000


@checked("our arithmetic", "JLC: Three ways to price yourself out of business, the shares put on cost as a markup")
def test_shares_of_sales_put_on_cost_fall_short():
    added = loaded("x", cost(575_000), (), Profit("markup", Fraction("0.2813"), "cost"), Working())
    assert added.built.value == Decimal("736747.50")


@checked("worked elsewhere", "JLC: Strategic budgeting and your break-even volume, squares a month")
def test_break_even_in_squares():
    """Contribution 0.316 of 250 is 79 a square; 11770 over it is 148.99, printed 149."""
    contribution = Decimal(250) * Decimal("0.316")
    assert contribution == 79
    assert break_even(Decimal(11_770), Decimal(250), 250 - contribution) == 149
