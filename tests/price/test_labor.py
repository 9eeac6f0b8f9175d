"""What an hour costs."""

from decimal import Decimal
from fractions import Fraction

import pytest

from darby.measure.faults import Unreadable
from darby.measure.units import unit
from darby.price.labor import burden_of, hour_of
from darby.price.model import Crew, Share
from darby.working import Working
from tests.price.build import BURDEN, CREW

PER_HOUR = unit("$/h")


def dollars(amount):
    return round(float(PER_HOUR.from_si(Fraction(amount.value))), 4)


def test_the_crew_s_hour_by_hand():
    hour = hour_of(CREW, BURDEN, Working())
    assert dollars(hour.crew) == 213.0 and dollars(hour.person) == 42.6
    assert [(role, dollars(a)) for role, a in hour.by_role] == [("plasterer", 48.28), ("tender", 34.08)]
    assert hour.of("") == hour.person and dollars(hour.of("tender")) == 34.08


def test_without_burden_an_hour_is_the_wage():
    assert dollars(hour_of((Crew("mason", 1, Decimal("31.07")),), (), Working()).crew) == 31.07


def test_parts_of_the_burden_are_added_not_compounded():
    parts = [Share("a", Fraction(1, 10), "wage"), Share("b", Fraction(1, 5), "wage")]
    assert burden_of(parts, Working()).value == pytest.approx(0.3)


def test_a_burden_is_of_the_wage():
    with pytest.raises(Unreadable) as error:
        burden_of([Share("a", Fraction(1, 10), "cost")], Working())
    assert error.value.fault.code == "price.burden-of"


def test_two_of_one_role_are_two_lines():
    crew = (Crew("plasterer", 1, Decimal("40")), Crew("plasterer", 1, Decimal("30")))
    working = Working()
    assert dollars(hour_of(crew, (), working).crew) == 70
    assert {"job/plasterer-1/hour", "job/plasterer-2/hour"} <= set(working.steps)
