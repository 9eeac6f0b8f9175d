"""Any text gives a value or a refusal; what is written is read back."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction as Fr
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure import reading
from darby.measure.faults import Unreadable
from darby.measure.units import FT, IN
from darby.measure.writing import STYLES, Style, number, write

READERS = [
    reading.length, reading.lengths_by, reading.area, reading.volume, reading.mass, reading.temperature,
    reading.money, reading.duration, reading.share, reading.speed, reading.rate, reading.package, reading.counted,
    reading.opening_size, reading.opening_line,
]  # fmt: skip

TRADE = st.text("0123456789/.,-+'\"½⅜’” \u00a0xXftincmhdysqulbgak%$°of", max_size=25)
WORDS = (
    "1 2 10 3068 1,200 1.5 1/2 1/0 ½ ' \" - ft in mm m sq cu lb bag bags box of x at up reveal door window $ % F "
    "per / to h day 100 cost , . roll sheet tube"
)
PIECES = st.lists(st.sampled_from(WORDS.split()), max_size=9).map(" ".join)


@pytest.mark.parametrize("read", READERS, ids=lambda f: f.__name__)
@given(text=st.one_of(st.text(max_size=40), TRADE, PIECES))
def test_any_text_gives_a_value_or_a_refusal(read, text):
    try:
        read(text)
    except Unreadable as refused:
        assert refused.fault.code.startswith("measure.")
        assert refused.fault.allowed
        assert refused.fault.code.removeprefix("measure.") in reading.__doc__


@pytest.mark.parametrize("read", READERS, ids=lambda f: f.__name__)
@given(thing=st.one_of(st.none(), st.booleans(), st.floats(), st.integers(), st.decimals(), st.lists(st.none())))
def test_anything_else_gives_a_value_or_a_refusal(read, thing):
    with pytest.raises(Unreadable):
        read(thing)


LENGTHS = st.one_of(
    st.fractions(min_value=-400, max_value=400),
    st.floats(min_value=-400, max_value=400),
    st.integers(-200_000, 200_000).map(lambda n: Fr(n, 64) * IN),
    st.integers(-400_000, 400_000).map(lambda n: Fr(n, 1000)),
)


@given(LENGTHS, st.sampled_from(STYLES))
def test_what_is_written_is_read_back(x, style):
    text = write(x, style)
    back = reading.length(text)
    assert write(back, style) == text
    assert abs(back - Fr(x)) <= IN / 32 * (1 + Fr(1, 10**6))


@given(st.integers(0, 300), st.integers(0, 12 * 32 - 1), st.sampled_from([2, 4, 8, 16, 32]))
def test_exact_parts_of_an_inch_come_back_exactly(feet, parts, to):
    x = feet * FT + Fr(parts % (12 * to), to) * IN
    for style in ("ft-in", "drawing", "sentence", "in"):
        assert reading.length(write(x, style, to)) == x


@given(st.integers(-(10**9), 10**9).map(lambda n: Decimal(n) / 100))
def test_money_comes_back_to_the_cent(amount):
    text = number(abs(amount), 2)
    assert reading.money(("-$" if amount < 0 else "$") + text) == amount


@given(st.integers(1, 999), st.integers(0, 999))
def test_three_digits_after_a_comma_are_never_guessed(head, tail):
    with pytest.raises(Unreadable) as refused:
        reading.length(f"{head},{tail:03d} mm")
    one, other = refused.value.fault.allowed.split(", ")
    assert reading.length(one) == Fr(head * 1000 + tail, 1000)
    assert other in (f"{head}.{tail:03d} mm".replace("0 mm", " mm"), other)
    assert Fr(other.removesuffix(" mm")) == head + Fr(tail, 1000)


def test_the_styles_are_the_ones_that_were_fuzzed():
    assert set(get_args(Style)) == set(STYLES)


WITH_UNITS = [
    (reading.length, "ft"), (reading.length, "mm"), (reading.area, "sq ft"), (reading.volume, "gal"),
    (reading.mass, "lb"), (reading.temperature, "F"), (reading.money, "$"),
    (reading.duration, "h"), (reading.speed, "mph"),
    (reading.lengths_by, "in"), (reading.opening_size, "ft"), (reading.opening_line, "ft"),
]  # fmt: skip


@pytest.mark.parametrize(("read", "units"), WITH_UNITS, ids=lambda x: getattr(x, "__name__", x))
@given(thing=st.one_of(st.floats(), st.integers(), st.decimals(), st.fractions(), TRADE, PIECES))
def test_anything_where_the_document_says_units_gives_a_value_or_a_refusal(read, units, thing):
    try:
        read(thing, units)
    except Unreadable as refused:
        assert refused.fault.code.startswith("measure.")


@given(st.floats(min_value=-1e6, max_value=1e6))
def test_a_bare_number_is_read_as_it_was_written(x):
    try:
        assert reading.length(x, "m") == Fr(repr(x))
    except Unreadable as refused:  # 5e-324 has more digits than any measure
        assert refused.fault.code == "measure.too-long"
