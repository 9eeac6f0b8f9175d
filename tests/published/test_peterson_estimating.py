"""Estimating in Building Construction, Peterson and Dagostino, example 7-5: a mason at 29 an hour for a year."""

from decimal import Decimal
from fractions import Fraction

import pytest

from darby.measure.units import unit
from darby.price import hour_must_bring
from darby.price.hourly import AYear, OnWages, Paid
from tests.published import checked

SOURCE = "Peterson and Dagostino: Estimating in Building Construction, example 7-5"
PRINTED = {
    "social security": 4385, "medicare": 1025, "futa": 56, "suta": 810, "workers' compensation": 5127, "liability": 530,
    "health": 3600,
}  # fmt: skip


@pytest.fixture(scope="module")
def answer():
    return hour_must_bring(
        [
            Paid("straight time", Fraction(52 * 40), Decimal(29)),
            Paid("overtime", Fraction(20 * 10), Decimal(29) * Decimal("1.5")),
        ],
        [
            OnWages("social security", Fraction("0.062")),
            OnWages("medicare", Fraction("0.0145")),
            OnWages("futa", Fraction("0.008"), Decimal(7_000)),
            OnWages("suta", Fraction("0.045"), Decimal(18_000)),
            OnWages("workers' compensation", Fraction("0.0725")),
            OnWages("liability", Fraction("0.0075")),
            OnWages("retirement", Fraction("0.045")),
        ],
        [
            AYear("gas", Decimal(12 * 100), wage=True),
            AYear("bonus", Decimal(500), wage=True),
            AYear("health", Decimal(12 * 300)),
        ],
        chargeable=Fraction(20 * 50 + 29 * 40),
    )[0]


@checked("worked elsewhere", f"{SOURCE}: wages of the year, with overtime, allowance and bonus")
def test_wages(answer):
    assert float(answer.wages.value) == pytest.approx(70_720, abs=0.6)


@pytest.mark.parametrize("name", sorted(PRINTED))
@checked("worked elsewhere", f"{SOURCE}: burden, line by line")
def test_burden_line(answer, name):
    assert float(dict(answer.lines)[name].value) == pytest.approx(PRINTED[name], abs=0.6)


@checked("our arithmetic", f"{SOURCE}: retirement and the rate over billable hours, whose printed result was not seen")
def test_the_burdened_rate(answer):
    assert float(dict(answer.lines)["retirement"].value) == pytest.approx(3182.4, abs=0.01)
    assert float(unit("$/h").from_si(Fraction(answer.hour.value))) == pytest.approx(41.41, abs=0.005)
