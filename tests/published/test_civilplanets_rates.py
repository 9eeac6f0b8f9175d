"""Rate analysis of plastering, Civil Planets: everything taken on one subtotal. Money is rupees there, dollars here.

A day stands for the hour, so that day wages keep their figures. The mason's line is printed 210; the printed subtotal
carries 700 (one day at 700), so 210 is a slip.
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

SOURCE = "civilplanets: Rate analysis of plastering, table, 10 m2 of 15 mm 1:3"
HOUR = 3600
DAYS = {"supervisor": ("0.05", 800), "mason": ("1", 700), "helper": ("1.2", 600), "water carrier": ("0.1", 450)}
ON_SUBTOTAL = {"tools": "1", "power": "2.5", "sundries": "3", "overhead and profit": "10"}


@pytest.fixture(scope="module")
def answer():
    ask = PriceAsk(
        book=default(),
        crew=tuple(Crew(role, 1, Decimal(wage)) for role, (_, wage) in DAYS.items()),
        also=tuple(Also(role, hours=Fraction(days) * HOUR, role=role) for role, (days, _) in DAYS.items()),
        order=(
            Item("cement", Quantity(Fraction("1.63")), Decimal(350)),
            Item("sand", Quantity(Fraction("0.174")), Decimal(1500)),
        ),
        overheads=tuple(Share(name, Fraction(p) / 100, "cost") for name, p in ON_SUBTOTAL.items()),
        places=(Place("wall", Quantity(Fraction(10), unit("m2"))),),
    )
    return price(ask)[0]


@checked("worked elsewhere", f"{SOURCE}: subtotal and total")
def test_subtotal_total_and_price_of_a_square_metre(answer):
    assert float(answer.loaded.cost.value) == pytest.approx(2337, abs=0.6)
    assert float(answer.total.value) == pytest.approx(2722, abs=1)
    assert float(answer.per_area.value) == pytest.approx(272, abs=0.5)


@checked("worked elsewhere", f"{SOURCE}: percentages, each on the same subtotal")
def test_each_percentage_is_of_the_same_subtotal(answer):
    amounts = {row.name: float(row.amount.value) for row in answer.loaded.loadings}
    printed = {"tools": 23, "power": 58, "sundries": 70, "overhead and profit": 234}
    assert amounts == pytest.approx(printed, abs=0.5)


@checked("worked elsewhere", f"{SOURCE}: mason's line (printed 210, a slip: the subtotal carries 700)")
def test_the_mason_s_line_is_700_not_the_printed_210(answer):
    assert next(x.amount.value for x in answer.lines if x.what == "mason") == 700
