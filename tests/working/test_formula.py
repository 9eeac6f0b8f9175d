"""What a formula may hold, and that dimensions are checked before anything is computed."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from darby.measure.units import UNITS
from darby.working import Amount, FormulaError, Quantity, Working
from darby.working.formula import exact, to_cents

FT, SQ_FT, CU_FT, LB = UNITS["ft"], UNITS["sq ft"], UNITS["cu ft"], UNITS["lb"]


def feet(x: float) -> Quantity:
    return Quantity(FT.to_si(x), FT)


@pytest.mark.parametrize(
    "formula",
    [
        "a.real", "a[0]", "(lambda: a)()", "abs(a)", "round(a)", "a if a else a", "a and a", "a < a", "[a]", "a // a",
        "a % a", "a @ a", "a ** b", "a ** 0.5", "a ** -1", "~a", "+a", "not a", "f'{a}'", "'x'", "True * a", "None",
        "1j * a", "__import__('os')", "min(a)", "max(*[a])", "ceil(a, a)", "min(a, a, key=abs)", "(a := a)", "a; a",
        "a = a", "", "a +", "open('x')", "a(a)", "sum([a])",
    ],
)  # fmt: skip
def test_a_formula_holds_nothing_else(formula: str) -> None:
    given = {name: 2.0 for name in ("a", "b") if name in formula.replace("abs", "").replace("lambda", "")}
    with pytest.raises(FormulaError):
        Working().step("k", formula, "", "x.y", **given)


@pytest.mark.parametrize(
    ("formula", "unit"),
    [
        ("a + n", "ft"), ("a - a * a", "ft"), ("a * a", "ft"), ("a", "sq ft"), ("min(a, n)", "ft"),
        ("max(a, a * a, a)", "ft"), ("ceil(a)", ""), ("a / a", "ft"), ("1 + a", "ft"), ("a ** 2", "cu ft"),
    ],
)  # fmt: skip
def test_dimensions_must_agree(formula: str, unit: str) -> None:
    given = {"a": feet(2), "n": 3}
    with pytest.raises(FormulaError):
        Working().step("k", formula, unit, "x.y", **{n: v for n, v in given.items() if n in formula})


def test_given_and_used_must_be_the_same_names() -> None:
    with pytest.raises(FormulaError):
        Working().step("k", "a", FT, "x.y", a=feet(1), b=feet(2))
    with pytest.raises(FormulaError):
        Working().step("k", "a + b", FT, "x.y", a=feet(1))


def test_the_same_formula_with_other_units_is_checked_anew() -> None:
    working = Working()
    assert working.step("1", "a * b", SQ_FT, "x.y", a=feet(2), b=feet(3)).value == pytest.approx(6 * 0.3048**2)
    with pytest.raises(FormulaError):
        working.step("2", "a * b", SQ_FT, "x.y", a=feet(2), b=Quantity(1, SQ_FT))


@pytest.mark.parametrize("formula", ["a / b", "a / (b - b)", "a * (1 / b)"])
@pytest.mark.parametrize("zero", [0, 0.0, Fraction(0)])
def test_dividing_by_nothing_names_the_step(formula: str, zero: float) -> None:
    with pytest.raises(FormulaError, match="bay/net"):
        Working().step("bay/net", formula, "", "x.y", a=3, b=zero)


def test_what_is_infinite_or_no_number_is_refused() -> None:
    for bad in (float("inf"), float("nan")):
        with pytest.raises(FormulaError):
            Working().step("k", "a", "", "x.y", a=bad)
    with pytest.raises(FormulaError):
        Working().step("k", "a * a", "", "x.y", a=1e200)


def test_ceil_goes_through_whole() -> None:
    # 7 × 0.1 = 0.7000000000000001; a tenth of it seven times over is one piece, not two
    assert Working().step("k", "ceil(a * 7 / b)", "pieces", "x.y", a=0.1, b=0.7).value == 1


def test_cents_half_up() -> None:
    assert to_cents(Fraction(825, 1000), UNITS["$"]) == Decimal("0.83")
    assert to_cents(Fraction(-825, 1000), UNITS["$"]) == Decimal("-0.83")


def test_a_price_per_something_keeps_a_hundredth_of_a_cent_of_its_own_unit() -> None:
    per_foot = to_cents(Fraction(1, 3) * UNITS["$/sq ft"].scale, UNITS["$/sq ft"])
    assert exact(per_foot, UNITS["$/sq ft"]) / UNITS["$/sq ft"].scale == Fraction("0.3333")


def test_a_float_is_read_in_its_own_unit() -> None:
    hour = UNITS["h"]
    assert exact(2.4999999999999996 * 3600, hour) == Fraction(5, 2) * 3600
    assert exact(Fraction(1, 3), hour) == Fraction(1, 3)
    assert exact(Decimal("0.1"), UNITS["$"]) == Fraction(1, 10)


def test_money_through_a_rate_does_not_lose_the_half_cent() -> None:
    rate = Amount(Decimal(33) / Decimal(100) / 3600, UNITS["$/h"])
    assert Working().money("k", "r * t", "x.y", r=rate, t=Quantity(2.5 * 3600, UNITS["h"])).value == Decimal("0.83")
