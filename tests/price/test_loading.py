"""Overhead of what, markup or margin, and what an offer leaves."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure.faults import Unreadable
from darby.price.loading import Cost, left_at, loaded, margin_of, markup_of, shares_of
from darby.price.model import Profit, Share
from darby.words import say
from darby.working import Amount, Working

COST = Cost(Amount(Decimal("3000")), Amount(Decimal("6000")), Amount(Decimal("1000")))


def share(percent, of):
    return Share("overhead", Fraction(percent, 100), of)


def run(overheads=(), profit=None, cost=COST):
    return loaded("x", cost, overheads, profit, Working())


@given(st.fractions(0, 10))
def test_markup_and_margin_undo_each_other(markup):
    assert markup_of(margin_of(markup)) == markup
    assert margin_of(markup) <= markup


@given(st.fractions(0, Fraction(99, 100)))
def test_margin_and_markup_undo_each_other(margin):
    assert margin_of(markup_of(margin)) == margin


@pytest.mark.parametrize(
    ("of", "overhead"),
    [("labor", 300), ("material", 600), ("labor and material", 900), ("cost", 1000), ("running total", 1000)],
)
def test_ten_percent_of_what(of, overhead):
    assert run([share(10, of)]).overhead.value == overhead


def test_the_second_of_a_running_total_takes_the_first_along():
    rows = run([share(10, "cost"), share(10, "running total"), share(10, "cost")]).loadings
    assert [r.amount.value for r in rows] == [1000, 1100, 1000]


def test_overhead_of_the_price_is_worked_back():
    answer = run([share(20, "price")])
    assert (answer.built.value, answer.overhead.value, answer.profit.value) == (12_500, 2_500, 0)


def test_margin_and_overhead_of_the_price_together():
    answer = run([share(20, "price")], Profit("margin", Fraction(1, 10), "price"))
    assert answer.built.value == Decimal("14285.71")  # 10000 / 0.7
    assert answer.overhead.value == Decimal("2857.14") and answer.profit.value == Decimal("1428.57")


@pytest.mark.parametrize(("of", "built"), [("cost", 13_750), ("cost and overhead", Decimal("14102.56"))])
def test_markup_beside_an_overhead_of_the_price(of, built):
    answer = run([share(20, "price")], Profit("markup", Fraction(1, 10), of))
    assert answer.built.value == built  # 11000 / 0.8; 11000 / (1 - 0.2 x 1.1)
    base = answer.cost.value + (answer.overhead.value if of == "cost and overhead" else 0)
    assert float(answer.profit.value) == pytest.approx(float(base) / 10, abs=0.02)


@pytest.mark.parametrize(
    ("overheads", "profit", "code"),
    [
        ([share(10, "wage")], None, "price.overhead-of-what"),
        ([share(10, "cost and overhead")], None, "price.overhead-of-what"),
        ([], Profit("markup", Fraction(1, 10), "price"), "price.markup-of"),
        ([], Profit("margin", Fraction(1, 10), "cost"), "price.margin-of"),
        ([share(60, "price")], Profit("margin", Fraction(2, 5), "price"), "price.shares-too-big"),
        ([share(100, "price")], None, "price.shares-too-big"),
    ],
)
def test_percentages_of_the_wrong_thing_are_refused(overheads, profit, code):
    with pytest.raises(Unreadable) as error:
        run(overheads, profit)
    assert error.value.fault.code == code
    assert say(code, {"found": error.value.fault.found, "allowed": error.value.fault.allowed})


def test_a_whole_margin_has_no_markup():
    with pytest.raises(Unreadable):
        markup_of(Fraction(1))


@given(
    st.decimals(0, 10**6, places=2),
    st.decimals(0, 10**6, places=2),
    st.fractions(0, Fraction(2, 5)),
    st.fractions(0, 1),
)
def test_an_offer_at_the_price_leaves_the_profit(labor, material, of_price, of_cost):
    cost = Cost(Amount(labor), Amount(material))
    shares = (Share("a", of_price, "price"), Share("b", of_cost, "cost"))
    built = run(shares, Profit("margin", Fraction(1, 10), "price"), cost)
    assert left_at(built.built, cost, shares, Working()).value == built.profit.value


def test_one_profit_said_in_two_ways():
    markup, margin = shares_of(Amount(Decimal(20)), Amount(Decimal(120)), "x", Working())
    assert markup.value == pytest.approx(0.2) and margin.value == pytest.approx(1 / 6)
