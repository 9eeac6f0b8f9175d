"""Rounding and writing: what a person reads, to the last digit."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction as Fr

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure.units import FT, IN, LB, UNITS, unit
from darby.measure.writing import ONE, PRINTED, STYLES, between, mixed, number, rounded, short, shown, write


@pytest.mark.parametrize(
    ("style", "expected"),
    [
        ("ft-in", "7' 10 1/2\""),
        ("drawing", "7'-10 1/2\""),
        ("sentence", "7 ft 10 1/2 in."),
        ("in", '94 1/2"'),
        ("ft", "7.875 ft"),
        ("yd", "2.625 yd"),
        ("m", "2.4 m"),
        ("mm", "2400 mm"),
        ("cm", "240 cm"),
    ],
)
def test_one_length_in_every_style(style, expected):
    assert write(2.4003, style) == expected
    assert write(Fr(24003, 10000), style) == expected
    assert write(-2.4003, style) == "-" + expected


def test_every_style_is_tested():
    assert len(STYLES) == 9


@pytest.mark.parametrize(
    ("value", "style", "expected"),
    [
        (24 * FT, "ft-in", "24'"),
        (24 * FT, "drawing", "24'-0\""),
        (24 * FT, "sentence", "24 ft"),
        (24 * FT + IN / 2, "ft-in", "24' 1/2\""),
        (24 * FT + IN / 2, "drawing", "24'-0 1/2\""),
        (8 * IN, "ft-in", '8"'),
        (8 * IN, "drawing", '8"'),
        (IN / 2, "sentence", "1/2 in."),
        (Fr(0), "ft-in", '0"'),
        (Fr(0), "sentence", "0 in."),
        (Fr(0), "mm", "0 mm"),
        (12 * IN - IN / 100, "ft-in", "1'"),
        (IN / 2, "mm", "12.7 mm"),
        (Fr("0.09996"), "mm", "100 mm"),
        (Fr("2.401"), "m", "2.4010 m"),
        (Fr("0.401"), "m", "0.401 m"),
        (Fr("1.9999"), "m", "2 m"),
        (-IN / 100, "in", '0"'),
    ],
)
def test_lengths(value, style, expected):
    assert write(value, style) == expected


@pytest.mark.parametrize(("to", "expected"), [(1, '1"'), (2, '1/2"'), (8, '5/8"'), (16, '9/16"'), (32, '19/32"')])
def test_a_coarser_and_a_finer_rule(to, expected):
    assert write(Fr("0.59") * IN, "in", to) == expected


def test_halves_go_up_and_down_alike():
    assert write(IN / 32) == '1/16"'
    assert write(-IN / 32) == '-1/16"'
    assert write(float(IN / 32)) == '1/16"'


def test_a_style_or_a_part_that_does_not_exist():
    with pytest.raises(ValueError, match="furlong"):
        write(1, "furlong")  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="parted"):
        write(1, "in", 0)


@pytest.mark.parametrize(
    ("value", "places", "expected"),
    [
        (Fr(1, 8), 2, "0.13"),
        (Fr(-1, 8), 2, "-0.13"),
        (2.675, 2, "2.68"),  # the float lies a hair below the half; a person wrote the half
        (2.67499, 2, "2.67"),
        (Decimal("1449.995"), 2, "1,450.00"),
        (Fr(1, 3), 4, "0.3333"),
        (1_234_567, 0, "1,234,567"),
        (1_234_567, -3, "1,235,000"),
        (-0.001, 2, "0.00"),
        (999.999, 2, "1,000.00"),
    ],
)
def test_number(value, places, expected):
    assert number(value, places) == expected


def test_short_drops_only_noughts_after_the_point():
    assert [short(v, 2) for v in (100, Fr("7.50"), 0, 1200)] == ["100", "7.5", "0", "1,200"]


@given(st.fractions(min_value=-10_000, max_value=10_000), st.integers(0, 6))
def test_rounding_is_never_off_by_more_than_half(value, places):
    back = Fr(number(value, places).replace(",", ""))
    assert back == rounded(value, places)
    assert abs(back - value) * 10**places <= Fr(1, 2)
    if abs(back - value) * 10**places == Fr(1, 2):
        assert abs(back) > abs(value)


@given(st.decimals(min_value=-1_000_000, max_value=1_000_000, places=3))
def test_float_fraction_and_decimal_print_alike(value):
    assert number(value, 2) == number(Fr(value), 2) == number(float(value), 2)


U = UNITS
SQFT, CUFT = FT**2, FT**3


@pytest.mark.parametrize(
    ("value", "unit", "us", "metric"),
    [
        (189 * SQFT, "sq ft", "189 sq ft", "17.56 m²"),
        (Fr("7.875") * CUFT, "cu ft", "7.88 cu ft", "0.223 m³"),
        (7.875 * float(CUFT), "cu ft", "7.88 cu ft", "0.223 m³"),
        (Decimal("1450"), "$", "$1,450.00", "$1,450.00"),
        (Decimal("-5"), "$", "-$5.00", "-$5.00"),
        (Decimal(34) / 3600, "$/h", "$34.00/h", "$34.00/h"),
        (Fr("0.17961") / U["lb"].scale, "$/lb", "$0.1796/lb", "$0.3960/kg"),
        (8 / SQFT, "$/sq ft", "$8.00/sq ft", "$86.1113/m²"),
        (Fr(1, 10), "%", "10 %", "10 %"),
        (0.125, "%", "12.5 %", "12.5 %"),
        (0.001, "%", "0.1 %", "0.1 %"),
        (48 * 3600, "h", "48 h", "48 h"),
        (86_400, "day", "1 day", "1 day"),
        (7 * 86_400, "day", "7 days", "7 days"),
        (20, "bags", "20 bags", "20 bags"),
        (1, "bags", "1 bag", "1 bag"),
        (Fr(5, 2), "parts", "2.5 parts", "2.5 parts"),
        (IN / 2, "in", "1/2 in.", "12.7 mm"),
        (Fr(33, 2) * IN, "in", "16 1/2 in.", "419.1 mm"),
        (0.012, "in", "0.472 in.", "12 mm"),
        (Fr("0.0005") * IN, "in", "0.0005 in.", "0.0127 mm"),
        (-IN / 4, "in", "-1/4 in.", "-6.4 mm"),
        (Fr(0), "in", "0 in.", "0 mm"),
        (FT * Fr("7.875"), "ft", "7.875 ft", "2.4 m"),
        (FT * Fr(14, 3), "ft", "4.67 ft", "1.422 m"),
        (FT * Fr(14, 3), "ft-in", "4' 8\"", "1.422 m"),
        (Fr(40, 9), "deg F", "40 °F", "4.4 °C"),
        (0, "deg C", "32 °F", "0 °C"),
        (Fr("0.0005"), "m3", "0.0177 cu ft", "0.0005 m³"),
        (1 / SQFT / 144, "/sq ft", "0.00694/sq ft", "0.0747/m²"),
        (Fr(1_234_567), "", "1,234,567", "1,234,567"),
    ],
)
def test_shown(value, unit, us, metric):
    assert shown(value, U[unit]) == us
    assert shown(value, U[unit], "metric") == metric


def test_shown_without_a_unit_with_places_and_in_another_language():
    assert shown(20, None) == "20"
    assert shown(IN / 2, U["in"], places=2) == "0.50 in."
    assert shown(FT, U["ft-in"], places=2) == "1.00 ft"
    assert shown(Fr("2.3") * SQFT, U["sq ft"], places=0) == "2 sq ft"
    spanish = {"bags": "bultos", "bag": "bulto", "sq ft": "pies²", "h": "h", "to": "a"}
    assert shown(2, U["bags"], names=spanish) == "2 bultos"
    assert shown(1, U["bags"], names=spanish) == "1 bulto"
    assert shown(8 / SQFT, U["$/sq ft"], names=spanish) == "$8.00/pies²"
    assert between(2, 3, U["bags"], names=spanish) == "2 a 3 bultos"


@pytest.mark.parametrize(
    ("low", "high", "unit", "expected"),
    [
        (Fr(3, 8) * IN, IN / 2, "in", "3/8 to 1/2 in."),
        (8 / SQFT, 34 / SQFT, "$/sq ft", "$8.00 to $34.00/sq ft"),
        (86_400, 7 * 86_400, "day", "1 to 7 days"),
        (7 * FT, 8 * FT, "ft-in", "7' to 8'"),
        (1, 2, "", "1 to 2"),
    ],
)
def test_between(low, high, unit, expected):
    assert between(low, high, U[unit]) == expected


@pytest.mark.parametrize("name", sorted(UNITS))
def test_every_unit_prints_its_own_word(name):
    for system in ("us", "metric"):
        text = shown(U[name].on(system).scale * 2 + U[name].on(system).offset, U[name], system)
        word = PRINTED.get(U[name].on(system).name, U[name].on(system).name)
        if name == "ft-in" and system == "us":
            assert text == "2'"
        elif word.startswith("$"):
            assert text.startswith("$2.00")
            assert text.endswith(word[1:])
        else:
            assert text == (f"2{word}" if word.startswith("/") else f"2 {word}".strip())


def test_every_counted_thing_has_a_word_for_one():
    from darby.measure.units import COUNTS

    assert set(ONE) == {*COUNTS, "days", "tons"}


@pytest.mark.parametrize(
    ("value", "text"),
    [(Fr(15, 2), "7 1/2"), (Fr(3, 4), "3/4"), (5, "5"), (0.75, "3/4"), (Fr(-5, 2), "-2 1/2"), (Fr(1, 1000), "0.001")],
)
def test_a_bare_part_is_a_mixed_number(value, text):
    assert mixed(value) == text


def test_more_than_one_ton_is_tons():
    assert shown(2 * Fr(2000) * LB, unit("ton")) == "2 tons"
    assert shown(Fr(2000) * LB, unit("ton")) == "1 ton"
