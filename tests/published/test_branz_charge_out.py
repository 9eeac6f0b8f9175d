"""Setting charge-out rates, BRANZ Build 133, table 1. Percentages of the wage, not of the price.

One printed yearly cell (11940.07) is 1.00 low; the yearly total is right, so only the weekly column is tested.
The table rounds overheads to the cent an hour (5.14) before it goes on, and so does this check.
"""

from decimal import Decimal
from fractions import Fraction

import pytest

from darby.measure.units import unit
from darby.price import hour_must_bring
from darby.price.hourly import AYear, OnWages, Paid
from tests.published import checked

SOURCE = "BRANZ Build 133: Setting charge-out rates, table 1"
WEEKS = 52 - Fraction(39, 5)
HOURS = WEEKS * 44


@pytest.fixture(scope="module")
def answer():
    return hour_must_bring(
        [Paid("worked", HOURS, Decimal(30))],
        [
            OnWages("leave", Fraction(39, 5) / WEEKS),
            OnWages("other", Fraction("0.0721")),
            OnWages("profit and idle", Fraction(1, 5)),
        ],
        [AYear("overheads", Decimal("5.14") * Decimal("1944.8")), AYear("tools", Decimal(1) * Decimal("1944.8"))],
        chargeable=HOURS,
    )[0]


@checked("worked elsewhere", f"{SOURCE}: lines of a week")
def test_lines_of_a_week(answer):
    assert float(WEEKS) == pytest.approx(44.2, abs=0.001) and float(HOURS) == pytest.approx(1945, abs=0.5)
    assert 30_000 / 3 / float(HOURS) == pytest.approx(5.14, abs=0.005)
    week = {name: float(amount.value) / float(WEEKS) for name, amount in answer.lines}
    assert week["leave"] == pytest.approx(232.94, abs=0.01)
    assert week["other"] == pytest.approx(95.17, abs=0.01)
    assert week["profit and idle"] == pytest.approx(264.0, abs=0.01)
    assert week["overheads"] + week["tools"] == pytest.approx(270.16, abs=0.01)
    assert float(answer.year.value) / float(WEEKS) == pytest.approx(2182.27, abs=0.02)


@checked("worked elsewhere", f"{SOURCE}: the rate")
def test_thirty_dollars_have_to_bring_in_49_60(answer):
    assert float(unit("$/h").from_si(Fraction(answer.hour.value))) == pytest.approx(49.60, abs=0.005)
