"""Rate analysis for plaster work, Civil Concept, steps 3 and 4: day rates per 10 m2 scaled to both faces, 200 m2.

The printed working lines for the masons do not lead to the printed results; the results are right.
"""

from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest

from darby.days import visits
from darby.days.model import CoatTime, SurfaceTime, VisitsAsk
from darby.measure.units import unit
from darby.price.columns import column
from darby.rulebook import default
from darby.working import Amount, Quantity, Working
from tests.published import checked

SOURCE = "civilconcept: Rate analysis for plaster work, step 3, people for 200 m2"
DAY = 8 * 3600
PER_10_M2 = {"head mason": ("0.5", 10), "mason": ("1", 20), "mazdoor": ("2", 40), "coolie": ("2", 40),
             "water carrier": ("0.75", 15)}  # fmt: skip


@checked("worked elsewhere", SOURCE)
def test_days_of_each_trade():
    for trade, (days, printed) in PER_10_M2.items():
        pace = Quantity(Fraction(10) / (Fraction(days) * DAY), unit("m2/h"))
        surface = SurfaceTime("wall", (CoatTime(trade, Quantity(Fraction(200), unit("m2")), pace),))
        answer, _ = visits(VisitsAsk(default(), date(2026, 6, 1), 1, DAY, (surface,)))
        assert float(answer.hours.value) / DAY == pytest.approx(printed, abs=0.001), trade
        assert (answer.count.value, answer.alone.value) == (printed, printed)


@checked("worked elsewhere", "civilconcept: Rate analysis for plaster work, step 4, cost")
def test_material_and_labour_add_up():
    assert column("cost", [Amount(Decimal(15388)), Amount(Decimal(44750))], "price.cost", Working()).value == 60138
