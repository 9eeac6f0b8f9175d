"""What people write on a job, read exactly or refused with a code."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction as Fr

import pytest

from darby.measure import (
    Unreadable,
    area,
    duration,
    length,
    mass,
    money,
    share,
    speed,
    temperature,
    volume,
)
from darby.measure.amounts import lengths_by
from darby.measure.units import FT, GAL, IN, LB, YD

L94 = Fr("94.5") * IN


@pytest.mark.parametrize(
    "text",
    [
        "7' 10 1/2\"",
        "7' 10-1/2\"",
        "7-10 1/2",
        '7-10 1/2"',
        "7'-10 1/2\"",
        "7' - 10 1/2\"",
        "7'10 1/2\"",
        "7' 10 1/2",
        "7'10.5\"",
        "7-10.5",
        "7 ft 10 1/2 in",
        "7 ft. 10 1/2 in.",
        "7ft 10-1/2in",
        "7 feet 10 1/2 inches",
        "7 Ft 10 1/2 In",
        '94 1/2"',
        '94-1/2"',
        "94.5 in",
        "94 1/2 inches",
        "7.875 ft",
        "7 7/8 ft",
        "7.875'",
        "2.4003 m",
        "2400.3 mm",
        "2400,3 mm",
        "240.03 cm",
        "7’ 10 ½”",
        "7′ 10½″",
        "7' 10½''",
        "7'\u00a010\u20091/2\"",
        "7'\u201110\u00bd\"",
        "7\u201310 1/2",
        "  7'   10  1/2 \"  ",
    ],
)
def test_one_length_in_many_spellings(text):
    assert length(text) == L94


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("5/8 in", Fr("0.625") * IN),
        ('5/8"', Fr("0.625") * IN),
        ('⅝"', Fr("0.625") * IN),
        ("5⁄8 in", Fr("0.625") * IN),
        ('10½"', Fr("10.5") * IN),
        ("10 ft", 10 * FT),
        ("6.5 ft", Fr("6.5") * FT),
        ("24'", 24 * FT),
        ('0"', Fr(0)),
        ("0'-8\"", 8 * IN),
        ("12 mm", Fr("0.012")),
        ("1.2 m", Fr("1.2")),
        ("1,25 m", Fr("1.25")),
        ("0.125 m", Fr("0.125")),
        ("0,125 m", Fr("0.125")),
        (".5 m", Fr("0.5")),
        ("1.2000 m", Fr("1.2")),
        ("12345.678 m", Fr("12345.678")),
        ("1,234.5 mm", Fr("1.2345")),
        ("1.234,5 mm", Fr("1.2345")),
        ("1,234,567 mm", Fr("1234.567")),
        ("1.125 in", Fr("1.125") * IN),  # in inches a point cannot part thousands
        ("-1/2 in", -IN / 2),
        ("−12 mm", Fr("-0.012")),
        ("- 3' 6\"", -Fr("3.5") * FT),
        ("20 mils", Fr("0.02") * IN),
        ("12 yd", 12 * YD),
        ("60 lf", 60 * FT),
        ("250 µm", Fr("0.00025")),
    ],
)
def test_lengths(text, metres):
    assert length(text) == metres


@pytest.mark.parametrize(
    ("text", "units", "metres"),
    [
        ("12", "ft", 12 * FT),
        (12, "ft", 12 * FT),
        (12.5, "in", Fr("12.5") * IN),
        (Decimal("1.25"), "m", Fr("1.25")),
        (0.1, "m", Fr("0.1")),
        (-3, "mm", Fr("-0.003")),
        ("7-10 1/2", "m", L94),
        ("7-1/2", "in", Fr("7.5") * IN),
        ("8 in", "ft", 8 * IN),
        ("1/2", "in", IN / 2),
    ],
)
def test_bare_numbers_where_the_document_says_units(text, units, metres):
    assert length(text, units) == metres


@pytest.mark.parametrize(
    ("text", "code", "allowed"),
    [
        ("12", "no-unit", None),
        (12, "no-unit", None),
        ("1/2", "no-unit", None),
        ("", "empty", None),
        (" \t ", "empty", None),
        ("1,200", "ambiguous", "1200, 1.2"),
        ("1,200 mm", "ambiguous", "1200 mm, 1.2 mm"),
        ("1.200 m", "ambiguous", "1200 m, 1.2 m"),
        ("12.345 m", "ambiguous", "12345 m, 12.345 m"),
        ("1,200 ft", "ambiguous", "1200', 1.2'"),
        ("1,250'", "ambiguous", "1250', 1.25'"),
        ("7-1/2", "ambiguous", '7 1/2", 7\' 1/2"'),
        ("1.2.3 m", "number", None),
        ("1,23,456 m", "number", None),
        ("1.234,567,8 m", "number", None),
        ("12,3456.7 m", "number", None),
        ("1/0 in", "fraction", None),
        ("1 3/2 in", "fraction", None),
        ("7.5' 3\"", "feet-not-whole", None),
        ("7 1/2' 3\"", "feet-not-whole", None),
        ("7' 12\"", "inches", None),
        ("7-14", "inches", None),
        ("about 7'", "unreadable", None),
        ("7' 10\" 3", "unknown-unit", None),
        ("--3 in", "unreadable", None),
        ("12 furlongs", "unknown-unit", None),
        ("12 lb", "unknown-unit", None),
        ("1 m 20 cm", "unknown-unit", None),
        ("7' 10 1/2\" tall", "unknown-unit", None),
        ("1" * 121, "too-long", None),
        (None, "not-text", None),
        (True, "not-text", None),
        (float("nan"), "not-text", None),
        (float("inf"), "not-text", None),
        ([1], "not-text", None),
        ("٣ m", "unreadable", None),
    ],
)
def test_lengths_refused(text, code, allowed):
    with pytest.raises(Unreadable) as refused:
        length(text)
    fault = refused.value.fault
    assert fault.code == f"measure.{code}"
    assert fault.allowed
    if allowed is not None:
        assert fault.allowed == allowed


@pytest.mark.parametrize(
    ("text", "nearest"), [("12 milimeter", "millimeter"), ("3 inchs", "inches"), ("4 metrs", "metres")]
)
def test_a_slip_of_the_pen_is_offered_the_nearest_unit(text, nearest):
    with pytest.raises(Unreadable) as refused:
        length(text)
    assert refused.value.fault.nearest == nearest


def test_several_lengths_with_an_x_between():
    assert lengths_by("3' x 4'") == (3 * FT, 4 * FT)
    assert lengths_by("27 x 97 in") == (27 * IN, 97 * IN)
    assert lengths_by("60' × 6' by 2'") == (60 * FT, 6 * FT, 2 * FT)
    assert lengths_by("900x2100 mm") == (Fr("0.9"), Fr("2.1"))
    assert lengths_by("3 x 4", "ft") == (3 * FT, 4 * FT)
    assert lengths_by("3' x 4\"") == (3 * FT, 4 * IN)
    for text in ("3'", "3 x 4", "3' x", "x"):
        with pytest.raises(Unreadable):
            lengths_by(text)


@pytest.mark.parametrize(
    ("read", "text", "value"),
    [
        (area, "189 sq ft", 189 * FT**2),
        (area, "189 Sq. Ft.", 189 * FT**2),
        (area, "189 ft²", 189 * FT**2),
        (area, "189 square feet", 189 * FT**2),
        (area, "20 sq yd", 20 * YD**2),
        (area, "17.5 m2", Fr("17.5")),
        (area, "17,5 m²", Fr("17.5")),
        (area, "4 sq m", Fr(4)),
        (volume, "9 cu ft", 9 * FT**3),
        (volume, "2 1/2 cubic yards", Fr("2.5") * YD**3),
        (volume, "1.5 gal", Fr("1.5") * GAL),
        (volume, "10.1 fl oz", Fr("10.1") * GAL / 128),
        (volume, "20 L", Fr("0.02")),
        (volume, "500 mL", Fr("0.0005")),
        (volume, "0.5 m³", Fr("0.5")),
        (mass, "94 lb", 94 * LB),
        (mass, "94 lbs.", 94 * LB),
        (mass, "2 tons", 4000 * LB),
        (mass, "25 kg", Fr(25)),
        (mass, "1 t", Fr(1000)),
        (temperature, "40 F", Fr(40, 9)),
        (temperature, "40°F", Fr(40, 9)),
        (temperature, "40 º f", Fr(40, 9)),
        (temperature, "−5 deg C", Fr(-5)),
        (temperature, "4.5 degrees Celsius", Fr("4.5")),
        (temperature, "-40 F", Fr(-40)),
        (duration, "48 h", Fr(48 * 3600)),
        (duration, "7 days", Fr(7 * 86400)),
        (duration, "1 day", Fr(86400)),
        (duration, "90 min", Fr(5400)),
        (duration, "1 h 30 min", Fr(5400)),
        (duration, "1.5 h", Fr(5400)),
        (duration, "1 1/2 hours", Fr(5400)),
        (duration, "30 sec", Fr(30)),
        (speed, "10 mph", Fr("4.4704")),
        (speed, "5 m/s", Fr(5)),
        (speed, "36 km/h", Fr(10)),
    ],
)
def test_other_kinds(read, text, value):
    assert read(text) == value


@pytest.mark.parametrize(
    ("read", "text", "code"),
    [
        (area, "189 ft", "unknown-unit"),
        (area, "189", "no-unit"),
        (area, "1,250 sq ft", "ambiguous"),
        (volume, "9 lb", "unknown-unit"),
        (mass, "9 gal", "unknown-unit"),
        (temperature, "40", "no-unit"),
        (temperature, "40 K", "unknown-unit"),
        (temperature, "warm", "unreadable"),
        (duration, "48", "no-unit"),
        (duration, "48 m", "unknown-unit"),
        (duration, "30 min 1 h", "unreadable"),
        (duration, "1 h 30", "unreadable"),
        (duration, "soon", "unreadable"),
        (speed, "10", "no-unit"),
        (speed, "10 knots", "unknown-unit"),
        (speed, "calm", "unreadable"),
        (money, "16.80", "no-unit"),
        (money, 16.8, "no-unit"),
        (money, "$1.450", "ambiguous"),
        (money, "$16.8055", "cents"),
        (money, "$-", "unreadable"),
        (money, "16 euros", "unreadable"),
        (share, "0.12", "no-unit"),
        (share, 0.12, "no-unit"),
        (share, "12 of cost", "unreadable"),
        (share, "twelve %", "unreadable"),
    ],
)
def test_other_kinds_refused(read, text, code):
    with pytest.raises(Unreadable) as refused:
        read(text)
    assert refused.value.fault.code == f"measure.{code}"


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("$16.80", "16.80"),
        ("$1,450.00", "1450.00"),
        ("$1,450", "1450.00"),
        ("$ 34", "34.00"),
        ("-$5", "-5.00"),
        ("$0.05", "0.05"),
        ("12 dollars", "12.00"),
        ("$1/2", "0.50"),
    ],
)
def test_money(text, value):
    assert str(money(text)) == value


def test_bare_money_where_the_document_says_so():
    assert money(16.8, "$") == Decimal("16.80")
    assert money("16.80", "$") == Decimal("16.80")
    assert money("-16.80", "$") == Decimal("-16.80")
    assert temperature(40, "F") == Fr(40, 9)
    assert duration(2, "h") == 7200
    assert area("12", "sq ft") == 12 * FT**2
    assert speed(3, "m/s") == 3
    with pytest.raises(Unreadable, match="cents"):
        money(16.805, "$")


@pytest.mark.parametrize(
    ("text", "value", "of"),
    [
        ("12 % of cost", Fr(3, 25), "cost"),
        ("12% of cost and overhead", Fr(3, 25), "cost and overhead"),
        ("42 percent of Wage", Fr(42, 100), "wage"),
        ("10 %", Fr(1, 10), ""),
        ("12.5%", Fr(1, 8), ""),
        ("-5 %", Fr(-1, 20), ""),
        ("1/2 %", Fr(1, 200), ""),
    ],
)
def test_share(text, value, of):
    assert share(text) == (value, of)
