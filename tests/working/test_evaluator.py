"""The pocket calculator itself: it must catch a line that is not true."""

from fractions import Fraction

import pytest

from tests.working.evaluator import Unreadable, evaluate, true


@pytest.mark.parametrize(
    "line",
    [
        "189 sq ft × 1/2 in. / 12 = 7.88 cu ft",
        "1.5 gal × 3 bags × 231 / 1728 = 0.602 cu ft",
        "(the greater of 24.29 ft and 5 ft × 2) × 8 ft = 194.3 sq ft",
        "the lesser of 3 ft, 4 ft and 5 ft = 3 ft",
        "189 sq ft / 24 sq ft rounded up = 8 sheets",
        "2.5 h × $34.00/h = $85.00",
        "10 1/2 in. + 1/2 in. = 11 in.",
        "800 sq ft / 110 sq ft/gal = 7.27 gal",
        "(30 in. / 12) ^ 2 = 6.25 sq ft",
        "-5 °C − (-3 °C) = -2 °C",
        "24.29 ft − 5 ft = 19.29 ft = 19' 3 1/2\"",
        "2.5/sq ft × 4 sq ft = 10",
        "1,250 sq ft × 2 = 2,500 sq ft",
        "2 days' work × $100.00/day = $200.00",
    ],
)
def test_true_lines(line: str) -> None:
    assert true(line)


@pytest.mark.parametrize(
    "line",
    [
        "189 sq ft × 1/2 in. / 12 = 7.89 cu ft",
        "189 sq ft × 1/2 in. = 7.88 cu ft",
        "8.2 bags rounded up = 8 bags",
        "the lesser of 3 ft and 4 ft = 4 ft",
        "0.33 h × $2.50/h = $0.82",
        "24.29 ft − 5 ft = 19.29 ft = 19' 4 1/2\"",
        "1 in. / 3 = 5/16 in.",
    ],
)
def test_untrue_lines(line: str) -> None:
    assert not true(line)


def test_rounding_up_forgives_a_billionth_and_no_more() -> None:
    assert evaluate("20.0000000001 rounded up") == 20
    assert evaluate("20.000001 rounded up") == 21


def test_strokes() -> None:
    assert evaluate("1 / 2 / 4") == Fraction(1, 8)
    assert evaluate("1 / (1/2 in.)") == 2


@pytest.mark.parametrize("text", ["", "3 ft ×", "(3 ft", "3 ft 4 ft", "the greater of 3 ft", "* 3"])
def test_what_is_no_line(text: str) -> None:
    with pytest.raises(Unreadable):
        evaluate(text)
