"""Which assumptions move the price most."""

from dataclasses import replace
from decimal import Decimal

import pytest

from darby.price import price, ranked, sensitivity
from darby.price.what_if import what_ifs
from darby.rulebook import default
from darby.words import catalogue
from tests.price.build import ask_of


def test_the_largest_move_comes_first_whichever_way_it_goes():
    moves = ranked(Decimal(100), [("a", Decimal(105)), ("b", Decimal(90)), ("c", Decimal(100)), ("d", Decimal(95))])
    assert [(m.name, m.change) for m in moves] == [("b", -10), ("a", 5), ("d", -5), ("c", 0)]


def test_each_assumption_alone_makes_it_dearer_and_each_is_named():
    moves = sensitivity(ask_of())
    assert {m.name for m in moves} == {"pace", "material", "wage", "trip", "burden"}
    assert all(m.change > 0 for m in moves)
    assert all(f"price.move.{m.name}" in catalogue("es") for m in moves)


def test_ten_percent_dearer_material_by_hand():
    """29.98 more material; with 22 % and 12 % on it 40.96 more price."""
    move = next(m for m in sensitivity(ask_of()) if m.name == "material")
    assert move.change == pytest.approx(Decimal("40.96"), abs=Decimal("0.02"))


def test_the_step_is_the_book_s():
    assert default().number("price.what-if").number == pytest.approx(0.1)
    wage = dict(what_ifs(ask_of()))["wage"].crew[0].wage
    assert wage == Decimal("37.40")


def test_his_own_variations():
    cheap = replace(ask_of(), hires=())
    (move,) = sensitivity(ask_of(), [("no scaffold", cheap)])
    assert move.price == price(cheap)[0].total.value and move.change < 0


def test_a_job_without_trips_has_no_trip_to_add():
    assert "trip" not in dict(what_ifs(ask_of(trips=(), alone=None, burden=())))
