"""How to calculate plaster quantity (external), Civil at Work, price table: every percentage on the running total.

Printed slip: the lines add up to 11308, printed 11708.50 (400.50 too much); the error runs through to a grand total of
15077.64 and 150.77 a square metre, where the same lines give 14561.88 and 145.62.
"""

from decimal import Decimal
from fractions import Fraction

import pytest

from darby.measure.units import unit
from darby.price import price
from darby.price.model import Also, Crew, Item, Place, PriceAsk, Share
from darby.rulebook import default
from darby.working import Quantity
from tests.published import checked

SOURCE = "civilatwork-2019: How to calculate plaster quantity (external), price table, 100 m2 of 20 mm"
HOUR = 3600


@pytest.fixture(scope="module")
def answer():
    ask = PriceAsk(
        book=default(),
        crew=(Crew("mason", 1, Decimal(200)), Crew("helper", 1, Decimal(90))),
        also=(
            Also("mason", hours=8 * HOUR, role="mason"),  # a day stands for the hour
            Also("helper", hours=12 * HOUR, role="helper"),
            Also("scaffold", cost=Decimal(550)),
        ),
        order=(
            Item("sand", Quantity(Fraction("2.56")), Decimal(1300)),
            Item("cement", Quantity(19), Decimal(250)),
        ),
        overheads=tuple(Share("more", Fraction(p, 100), "running total") for p in (1, 2, 25)),
        places=(Place("wall", Quantity(Fraction(100), unit("m2"))),),
    )
    return price(ask)[0]


@checked("worked elsewhere", f"{SOURCE}: lines")
def test_lines(answer):
    assert {x.what: x.amount.value for x in answer.lines} == {
        "sand": 3328, "cement": 4750, "mason": 1600, "helper": 1080, "scaffold": 550,
    }  # fmt: skip


@checked("worked elsewhere", f"{SOURCE}: totals, corrected for the slip in the sum")
def test_compound_percentages(answer):
    assert answer.loaded.cost.value == 11308  # printed 11708.50
    assert answer.total.value == Decimal("14561.88")  # printed 15077.64
    assert float(answer.per_area.value) == pytest.approx(145.62, abs=0.005)  # printed 150.77
