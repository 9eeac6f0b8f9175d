"""Two Indian public works forms: the composite schedule (hours) and the analysis of rates, finishing (days)."""

from decimal import Decimal
from fractions import Fraction

import pytest

from darby.measure.units import unit
from darby.price import price
from darby.price.model import Also, Crew, Item, Place, PriceAsk, Share
from darby.rulebook import default
from darby.working import Quantity
from tests.published import checked

HOUR = 3600


def also(role, hours):
    return Also(role, hours=Fraction(hours) * HOUR, role=role)


@checked("worked elsewhere", "composite schedule, 2012: cement plaster, detail of cost for 10 m2, hours and water")
def test_hours_at_hourly_rates_each_line_rounded_first():
    ask = PriceAsk(
        book=default(),
        crew=(Crew("plasterer", 1, Decimal(8)), Crew("cooly", 1, Decimal("3.75")), Crew("bhishti", 1, Decimal("4.38"))),
        also=(also("plasterer", "6.5"), also("cooly", "4.5"), also("bhishti", "0.75")),
        order=(Item("mortar", Quantity(Fraction("0.143")), Decimal(661)),),
        overheads=(Share("water", Fraction(15, 1000), "material"),),
    )
    answer, _ = price(ask)
    lines = {x.what: float(x.amount.value) for x in answer.lines}
    assert lines == pytest.approx({"plasterer": 52.0, "cooly": 16.88, "bhishti": 3.29, "mortar": 94.52}, abs=0.006)
    assert float(answer.loaded.labor.value) == pytest.approx(72.17, abs=0.001)
    assert float(answer.loaded.overhead.value) == pytest.approx(1.42, abs=0.006)


@checked("worked elsewhere", "analysis of rates, sub head 13 Finishing, item before 13.19: 1 % water, then 15 %")
def test_water_on_the_total_then_fifteen_percent_on_both():
    """A day stands for the hour. What the page's total holds beside these three lines is one sum of materials."""
    materials = Decimal("366.82") - Decimal("126.09") - Decimal("99.36") - Decimal("13.94")
    ask = PriceAsk(
        book=default(),
        crew=(Crew("mason", 1, Decimal(467)), Crew("coolie", 1, Decimal(368))),
        also=(also("mason", "0.27"), also("coolie", "0.27"), Also("materials", cost=materials)),
        order=(Item("scaffold and sundries", Quantity(Fraction("8.06")), Decimal("1.73")),),
        overheads=(
            Share("water", Fraction(1, 100), "cost"),
            Share("profit and overheads", Fraction(15, 100), "running total"),
        ),
        places=(Place("wall", Quantity(Fraction(10), unit("m2"))),),
    )
    answer, _ = price(ask)
    lines = {x.what: x.amount.value for x in answer.lines}
    assert lines["mason"] == Decimal("126.09") and lines["coolie"] == Decimal("99.36")
    assert lines["scaffold and sundries"] == Decimal("13.94")
    assert [row.amount.value for row in answer.loaded.loadings] == [Decimal("3.67"), Decimal("55.57")]
    assert answer.loaded.cost.value + answer.loaded.loadings[0].amount.value == Decimal("370.49")
    assert answer.total.value == Decimal("426.06")
    assert float(answer.per_area.value) == pytest.approx(42.6, abs=0.007)
