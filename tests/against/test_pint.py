"""Every unit's exact size against Pint, an independent table of units."""

from __future__ import annotations

from fractions import Fraction as Fr

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure import length, temperature
from darby.measure.reading import area, duration, mass, volume
from darby.measure.units import COUNTS, UNITS, Unit

REGISTRY = pint.UnitRegistry(non_int_type=Fr)

THEIRS = {
    "in": "inch", "ft": "foot", "ft-in": "foot", "yd": "yard", "mil": "mil_length", "um": "micrometer",
    "mm": "millimeter", "cm": "centimeter", "m": "meter", "sq in": "inch**2", "sq ft": "foot**2",
    "sq yd": "yard**2", "m2": "meter**2", "cu in": "inch**3", "cu ft": "foot**3", "cu yd": "yard**3",
    "gal": "gallon", "qt": "quart", "fl oz": "fluid_ounce", "L": "liter", "mL": "milliliter", "m3": "meter**3",
    "lb": "pound", "oz": "ounce", "ton": "short_ton", "g": "gram", "kg": "kilogram", "t": "metric_ton",
    "s": "second", "min": "minute", "h": "hour", "day": "day", "mph": "mile/hour", "km/h": "kilometer/hour",
    "": "dimensionless", "%": "percent", "$": "dimensionless",
    "F deg": "delta_degree_Fahrenheit", "C deg": "delta_degree_Celsius",
    "/F deg": "1/delta_degree_Fahrenheit", "/C deg": "1/delta_degree_Celsius",
}  # fmt: skip
"""Our name to Pint's. Money has no unit there: a price per pound is checked by its pound."""

SI = ("meter", "kilogram", "second")


def theirs(name: str) -> str:
    if name in THEIRS:
        return THEIRS[name]
    top, _, bottom = name.partition("/")
    return f"({theirs(top)})/({theirs(bottom)})"


SCALED = [u for u in UNITS.values() if u.name not in COUNTS and not u.name.startswith("deg ")]


@pytest.mark.parametrize("unit", SCALED, ids=lambda u: u.name or "none")
def test_one_of_each_unit(unit: Unit):
    quantity = REGISTRY.Quantity(Fr(1), theirs(unit.name)).to_base_units()
    assert float(unit.scale) == pytest.approx(float(quantity.magnitude), rel=1e-15)
    # and exactly, where Pint's own definition is an exact decimal
    if not isinstance(quantity.magnitude, float):
        assert unit.scale == Fr(quantity.magnitude)
    assert unit.dim[:3] == tuple(int(quantity.dimensionality.get(f"[{d}]", 0)) for d in ("length", "mass", "time"))


def test_no_unit_was_left_out():
    assert len(SCALED) == len(UNITS) - len(COUNTS) - 2


@given(st.fractions(min_value=-100, max_value=500))
def test_temperatures(x):
    ours = UNITS["deg F"].to_si(x)
    assert float(ours) == pytest.approx(float(REGISTRY.Quantity(float(x), "degF").to("degC").magnitude), abs=1e-9)
    assert UNITS["deg F"].from_si(ours) == x
    assert UNITS["deg C"].to_si(x) == x


@pytest.mark.parametrize(
    ("read", "text", "quantity", "unit"),
    [
        (length, "7' 10 1/2\"", "94.5 inch", "meter"),
        (length, "5'6\"", "66 inch", "meter"),  # a general library reads this silently as something else
        (area, "20 sq yd", "20 yard**2", "meter**2"),
        (volume, "10.1 fl oz", "10.1 fluid_ounce", "meter**3"),
        (mass, "94 lb", "94 pound", "kilogram"),
        (duration, "7 days", "168 hour", "second"),
    ],
)
def test_what_is_read_is_what_pint_says(read, text, quantity, unit):
    assert float(read(text)) == pytest.approx(float(REGISTRY(quantity).to(unit).magnitude), rel=1e-14)


def test_a_reading_of_a_temperature():
    assert float(temperature("40 F")) == pytest.approx(REGISTRY.Quantity(40.0, "degF").to("degC").magnitude)
