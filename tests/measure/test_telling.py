"""A length with its ±: rounded no finer than it is known, and still true."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby import measure
from darby.measure.telling import HAIR, STEPS
from darby.measure.units import IN


@given(metres=st.floats(0, 60), give=st.floats(0, 0.5), system=st.sampled_from(["us", "metric"]))
def test_the_told_length_holds_the_true_one_and_reads_back(metres, give, system):
    said = measure.told(metres, give, system)
    assert said.value - said.give <= Fraction(metres) - Fraction(give) + HAIR
    assert Fraction(metres) + Fraction(give) <= said.value + said.give + HAIR
    assert measure.length(said.text) == said.value
    assert measure.length(said.give_text) == said.give
    # rounding adds a quarter at most, and what the finest step adds
    assert said.give <= Fraction(give) * Fraction(5, 4) + 2 * STEPS[system][0]


@pytest.mark.parametrize(
    ("give", "system", "text", "give_text"),
    [
        (Fraction(1, 2) * IN, "us", "3' 1/4\"", '1/2"'),
        (Fraction(1, 8) * IN, "us", "3' 1/4\"", '1/8"'),
        (2 * IN, "us", "3'", '2 1/4"'),
        (Fraction(1, 50), "metric", "920 mm", "21 mm"),
    ],
)
def test_three_feet_and_a_quarter_as_it_is_told(give, system, text, give_text):
    said = measure.told(float(36 * IN + Fraction(1, 4) * IN), float(give), system)
    assert (said.text, said.give_text) == (text, give_text)
