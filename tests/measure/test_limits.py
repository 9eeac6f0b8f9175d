"""The two doors through which a measure meets a limit or a ceiling."""

from __future__ import annotations

from fractions import Fraction as Fr
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure import at_most, gross_area, length, wall, whole
from darby.measure.units import FT, YD

LIMIT = 144 * FT**2


@pytest.mark.parametrize(("across", "up"), [("12'", "12'"), ("6'", "24'"), ("24'", "6'"), ("3 yd", "16'")])
def test_a_panel_of_144_square_feet_passes(across, up):
    panel = wall("p", "Panel", length(across), length(up))
    assert gross_area(panel) == LIMIT
    assert at_most(gross_area(panel), LIMIT)
    assert at_most(float(length(across)) * float(length(up)), float(LIMIT))
    assert at_most(float(length(across)) * float(length(up)), LIMIT)


@pytest.mark.parametrize(("across", "up"), [("12' 1/16\"", "12'"), ("24.001'", "6'")])
def test_a_panel_that_is_larger_does_not(across, up):
    panel = wall("p", "Panel", length(across), length(up))
    assert not at_most(gross_area(panel), LIMIT)
    assert not at_most(float(gross_area(panel)), float(LIMIT))


def test_a_fraction_is_held_to_its_limit_exactly():
    assert not at_most(LIMIT + Fr(1, 10**30), LIMIT)
    assert at_most(-1, 0)
    assert at_most(0.0, 0)


def test_every_whole_square_yard_up_to_forty_by_thirty_feet_orders_itself():
    """Each wall of whole feet up to 40 x 30 that is whole square yards: exact, in floats, and by way of feet."""
    seen = 0
    for across in range(1, 41):
        for up in range(1, 31):
            yards, rest = divmod(across * up, 9)
            if rest:
                continue
            seen += 1
            exact = gross_area(wall("w", "Wall", across * FT, up * FT)) / YD**2
            in_floats = float(across * FT) * float(up * FT) / float(YD) ** 2
            by_feet = (across * 0.3048) * (up * 0.3048) / 0.83612736
            assert whole(exact) == whole(in_floats) == whole(by_feet) == yards
            assert whole(exact + Fr(1, 10**6)) == yards + 1
            assert whole(in_floats + 1e-6) == yards + 1
    assert seen == 4 * 30 + 9 * 10 + 27 * 3  # feet across that nine, only three, or neither divides


@given(st.integers(0, 10**6), st.integers(1, 400))
def test_shares_of_a_whole_number_add_up_to_it(count, parts):
    assert whole(sum([count / parts] * parts)) == count
    assert whole(Fr(count, parts)) == ceil(Fr(count, parts))


@given(st.fractions(min_value=-1000, max_value=1000))
def test_whole_is_the_least_that_is_not_less(x):
    assert whole(x) - 1 < x <= whole(x)
    assert abs(whole(float(x)) - whole(x)) <= 1
