"""What the customer reads adds up, and shows none of the firm's own figures."""

from decimal import Decimal
from fractions import Fraction

import pytest

from darby.price import price
from darby.price.model import Also, Place, Share, TripTerms, Work
from darby.working import Quantity
from tests.price.build import ask_of, hours, sq_ft


def rows(ask):
    return {(q.kind, q.at): q.amount.value for q in price(ask)[0].quote}


def test_a_line_for_each_surface_each_other_thing_and_access():
    assert list(rows(ask_of())) == [
        ("surface", "a"),
        ("surface", "b"),
        ("also", "job/protect"),
        ("also", "job/dispose"),
        ("access", "job/scaffold"),
    ]


def test_shares_by_hand():
    """Direct: a 1533.60 + 299.80 x 380/484.5, b 234.30 + the rest, 127.80, 180, 2179; the total goes with it."""
    got = rows(ask_of())
    a, b = Decimal("1768.74"), Decimal("298.96")
    whole = a + b + Decimal("127.80") + 180 + 2179
    assert got["surface", "a"] == pytest.approx(Decimal("7532.41") * a / whole, abs=Decimal("0.01"))
    assert got["surface", "b"] == pytest.approx(Decimal("7532.41") * b / whole, abs=Decimal("0.01"))
    assert sum(got.values()) == Decimal("7532.41")


def test_what_rounding_leaves_goes_on_the_largest_line():
    """Crew hours 6, 3, 2 at 213.00 and a thousandth on top: 2345.34. 3/11 and 2/11 are 639.64 and 426.43; 1279.27 is
    left for the first, where 6/11 by itself would round to 1279.28."""
    work = tuple(Work(at, "base", hours(h)) for at, h in (("a", 3), ("b", 6), ("c", 2)))
    thousandth = (Share("overhead", Fraction(1, 1000), "cost"),)
    got = rows(ask_of(work=work, places=(), order=(), also=(), hires=(), trips=(), alone=None, terms=TripTerms(),
                      least_charge=None, overheads=thousandth, profit=None))  # fmt: skip
    assert got == {
        ("surface", "a"): Decimal("639.64"),
        ("surface", "b"): Decimal("1279.27"),
        ("surface", "c"): Decimal("426.43"),
    }


def test_material_goes_by_weight_where_weights_are_given():
    heavy = (Place("a", sq_ft(100), Quantity(1.0)), Place("b", sq_ft(100), Quantity(3.0)))
    even = (Place("a", sq_ft(100)), Place("b", sq_ft(100)))
    assert rows(ask_of(places=heavy))["surface", "b"] > rows(ask_of(places=even))["surface", "b"]


def test_a_surface_without_a_place_is_not_lost():
    ask = ask_of(work=(Work("a", "base", hours(4)), Work("z", "base", hours(4))))
    got = rows(ask)
    assert got["surface", "z"] > 0 and sum(got.values()) == price(ask)[0].total.value


def test_the_same_work_twice_is_two_lines():
    got = rows(ask_of(also=(Also("wash", hours=3600), Also("wash", cost=Decimal(5)))))
    assert {("also", "job/wash"), ("also", "job/wash-2")} <= set(got)


def test_many_surfaces_add_up():
    many = tuple(Place(f"w{n}", sq_ft(100 + n)) for n in range(90))
    work = tuple(Work(p.at, "base", hours(1)) for p in many)
    answer = price(ask_of(places=many, work=work))[0]
    assert sum(q.amount.value for q in answer.quote) == answer.total.value and len(answer.quote) == 93
