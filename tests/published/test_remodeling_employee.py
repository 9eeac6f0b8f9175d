"""How much does an employee cost?, Remodeling magazine: percentages added up and put on the wage."""

from decimal import Decimal
from fractions import Fraction

import pytest

from darby.measure.units import unit
from darby.price.labor import burden_of, hour_of
from darby.price.model import Crew, Share
from darby.working import Working
from tests.published import checked

SOURCE = "Remodeling: How much does an employee cost?, table, a wage of 20"
PARTS = {
    "social security and medicare": "7.65", "unemployment": "1", "workers' compensation": "10", "health": "12",
    "vacation": "4", "holidays": "2", "personal": "2", "tools": "1", "escalation": "2.5",
}  # fmt: skip
BURDEN = tuple(Share(name, Fraction(part) / 100, "wage") for name, part in PARTS.items())


@checked("worked elsewhere", f"{SOURCE}: burden in all")
def test_the_parts_are_added():
    assert burden_of(BURDEN, Working()).value * 100 == pytest.approx(42.15, abs=0.001)


@checked("worked elsewhere", f"{SOURCE}: cost of an hour")
def test_twenty_dollars_cost_28_43():
    hour = hour_of((Crew("carpenter", 1, Decimal(20)),), BURDEN, Working())
    assert float(unit("$/h").from_si(Fraction(hour.person.value))) == pytest.approx(28.43, abs=0.005)
