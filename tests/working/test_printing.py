"""Every printed line is true: the pocket calculator gets the printed result from the printed numbers."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from darby.measure.units import CASH, UNITS, Dim, System, Unit
from darby.measure.writing import shown
from darby.working import Amount, FormulaError, Quantity, Working
from darby.working.printing import explain, line
from tests.working.evaluator import true

SYSTEMS: tuple[System, ...] = ("us", "metric")


def quantity(value: float | Fraction, unit: str) -> Quantity:
    return Quantity(UNITS[unit].to_si(value), UNITS[unit])


def dollars(value: str, unit: str = "$") -> Amount:
    si = Fraction(value) * UNITS[unit].scale
    return Amount(Decimal(si.numerator) / Decimal(si.denominator), UNITS[unit])


def printed(formula: str, unit: str, system: System = "us", **values: Quantity | Amount | float) -> str:
    working = Working()
    if UNITS[unit].dim == CASH:
        working.money("k", formula, "x.y", unit=unit, **values)
    else:
        working.step("k", formula, unit, "x.y", **values)
    return line(working.steps["k"], system)


# --- lines written down beforehand -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("formula", "unit", "values", "us", "metric"),
    [
        (
            "a * t", "cu ft", {"a": quantity(189, "sq ft"), "t": quantity(Fraction(1, 2), "in")},
            "189 sq ft × 1/2 in. / 12 = 7.88 cu ft", "17.56 m² × 12.7 mm / 1,000 = 0.223 m³",
        ),
        (
            "a * t * (1 + k)", "cu ft",
            {"a": quantity(189, "sq ft"), "t": quantity(Fraction(1, 2), "in"), "k": quantity(10, "%")},
            "189 sq ft × 1/2 in. × (1 + 10 % / 100) / 12 = 8.66 cu ft", None,
        ),
        ("a + b", "in", {"a": quantity(0.5, "in"), "b": quantity(0.375, "in")}, "1/2 in. + 3/8 in. = 7/8 in.", None),
        ("w * h", "sq ft", {"w": quantity(27, "in"), "h": quantity(96, "in")},
 "27 in. × 96 in. / 144 = 18 sq ft", None),
        (
            "g * n", "cu ft", {"g": quantity(1.5, "gal"), "n": quantity(3, "bags")},
            "1.5 gal × 3 bags × 231 / 1,728 = 0.602 cu ft", None,
        ),
        ("g + n", "gal", {"g": quantity(1.5, "gal"), "n": quantity(3, "gal")}, "1.5 gal + 3 gal = 4.5 gal", None),
        (
            "ceil(a / b)", "sheets", {"a": quantity(189, "sq ft"), "b": quantity(18, "sq ft")},
            "189 sq ft / 18 sq ft rounded up = 11 sheets", None,
        ),
        (
            "ceil(a / b)", "bags", {"a": quantity(20 / 3, "cu ft"), "b": quantity(1 / 3, "cu ft")},
            "6 2/3 cu ft / (1/3 cu ft) rounded up = 20 bags", None,
        ),
        (
            "max(a, b * 2) * c", "sq ft",
            {"a": quantity(24, "ft"), "b": quantity(5, "ft"), "c": quantity(8, "ft")},
            "(the greater of 24 ft and 5 ft × 2) × 8 ft = 192 sq ft", None,
        ),
        (
            "h * r", "$", {"h": quantity(2.5, "h"), "r": dollars("34", "$/h")},
            "2.5 h × $34.00/h = $85.00", "2.5 h × $34.00/h = $85.00",
        ),
        (
            "v * r", "$", {"v": quantity(3, "cu yd"), "r": dollars("46", "$/cu yd")},
            "3 cu yd × $46.00/cu yd = $138.00", None,
        ),
        (
            "a - b", "ft-in", {"a": quantity(24, "ft-in"), "b": quantity(Fraction(9, 2), "ft-in")},
            "24 ft − 4.5 ft = 19.5 ft = 19' 6\"", "7.3152 m − 1.3716 m = 5.944 m",
        ),
        (
            "(a + b) / 2", "deg F", {"a": quantity(40, "deg F"), "b": quantity(61, "deg F")},
            "(40 °F + 61 °F) / 2 = 50.5 °F", None,
        ),
        (
            "a * 2", "deg C", {"a": quantity(10, "deg C")},
            "(50 °F − 32) × 2 + 32 = 68 °F", "10 °C × 2 = 20 °C",
        ),
        ("p * (1 - q)", "%", {"p": quantity(40, "%"), "q": quantity(10, "%")}, "40 % × (1 − 10 % / 100) = 36 %", None),
        ("p + q", "%", {"p": quantity(40, "%"), "q": quantity(10, "%")}, "40 % + 10 % = 50 %", "40 % + 10 % = 50 %"),
        ("a - (b - c)", "ft", {n: quantity(v, "ft") for n, v in zip("abc", (9, 4, 1), strict=True)},
         "9 ft − 4 ft + 1 ft = 6 ft", None),
        ("(a + b) ** 2", "sq ft", {"a": quantity(1, "ft"), "b": quantity(2, "ft")},
         "(1 ft + 2 ft) ^ 2 = 9 sq ft", None),
        ("s ** 2", "sq ft", {"s": quantity(6, "in")}, "6 in. × 6 in. / 144 = 0.25 sq ft", None),
        ("a * -1", "ft", {"a": quantity(3, "ft")}, "3 ft × (-1) = -3 ft", None),
    ],
)  # fmt: skip
def test_lines(formula: str, unit: str, values: dict[str, Quantity], us: str, metric: str | None) -> None:
    assert printed(formula, unit, "us", **values) == us
    assert true(us)
    in_metric = printed(formula, unit, "metric", **values)
    assert metric is None or in_metric == metric
    assert true(in_metric)


# --- any line ----------------------------------------------------------------------------------------

BY_DIM: dict[Dim, list[Unit]] = {}
for each in UNITS.values():
    BY_DIM.setdefault(each.dim, []).append(each)
PAIRS: dict[Dim, list[tuple[str, Dim, Dim]]] = {dim: [] for dim in BY_DIM}
for left in BY_DIM:
    for right in BY_DIM:
        if any(right):
            times = tuple(a + b for a, b in zip(left, right, strict=True))
            over = tuple(a - b for a, b in zip(left, right, strict=True))
            if times in PAIRS and any(left):
                PAIRS[times].append(("*", left, right))  # type: ignore[index]
            if over in PAIRS:
                PAIRS[over].append(("/", left, right))  # type: ignore[index]

NICE = st.sampled_from(
    [Fraction(n, d) for n, d in ((1, 2), (3, 8), (7, 16), (1, 3), (20, 1), (12, 1), (144, 1), (1, 1))]
)
ANY = st.one_of(
    NICE,
    NICE.map(float),
    st.integers(1, 5000),
    st.floats(1e-3, 1e5),
    st.fractions(Fraction(1, 400), 2000, max_denominator=400),
)


@st.composite
def formulas(draw: st.DrawFn, dim: Dim, depth: int, values: dict[str, Quantity]) -> str:
    """A formula of this dimension; what it is given goes into ``values``."""
    options = ["given"]
    if depth:
        options += ["sum", "scaled", "pick", *(["product"] * 3 if PAIRS[dim] else [])]
        options += ["up", "power"] if not any(dim) else []
        options += ["square"] if dim in ((2, 0, 0, 0, 0), (3, 0, 0, 0, 0)) else []

    def part(of: Dim) -> str:
        return draw(formulas(of, depth - 1, values))

    match draw(st.sampled_from(options)):
        case "given":
            name = f"x{len(values)}"
            unit = draw(st.sampled_from(BY_DIM[dim]))
            values[name] = Quantity(unit.to_si(draw(ANY)), unit)
            return name
        case "sum":
            return f"({part(dim)} {draw(st.sampled_from('+-'))} {part(dim)})"
        case "scaled":
            plain = (0, 0, 0, 0, 0)
            other = draw(st.sampled_from([part(plain), "2", "0.5", "(1 + 0.25)"]))
            return draw(st.sampled_from([f"({part(dim)} * {other})", f"({part(dim)} / {other})"]))
        case "pick":
            several = ", ".join(part(dim) for _ in range(draw(st.integers(2, 3))))
            return f"{draw(st.sampled_from(['min', 'max']))}({several})"
        case "product":
            op, one, two = draw(st.sampled_from(PAIRS[dim]))
            return f"({part(one)} {op} {part(two)})"
        case "up":
            return f"ceil({part(dim)})"
        case "power":
            return f"({part(dim)}) ** {draw(st.integers(0, 3))}"
    name = f"x{len(values)}"
    unit = draw(st.sampled_from(BY_DIM[(1, 0, 0, 0, 0)]))
    values[name] = Quantity(unit.to_si(draw(ANY)), unit)
    return f"{name} ** {dim[0]}"


@st.composite
def steps(draw: st.DrawFn) -> Working:
    dim = draw(st.sampled_from([d for d in BY_DIM if not d[-1]]))
    values: dict[str, Quantity] = {}
    formula = draw(formulas(dim, 3, values))
    names = [n for n in values if n in formula]
    working = Working()
    try:
        working.step("k", formula, draw(st.sampled_from(BY_DIM[dim])), "x.y", **{n: values[n] for n in names})
    except FormulaError:
        assume(False)
    return working


@settings(max_examples=300, deadline=None)
@given(working=steps(), system=st.sampled_from(SYSTEMS))
def test_any_line_is_true_and_prints_the_computed_result(working: Working, system: System) -> None:
    step = working.steps["k"]
    # beyond, a billionth (what writing.rounded forgives a float) is more than a printed digit
    assume(all(abs(step.unit.on(s).from_si(step.value)) < 1e7 for s in SYSTEMS))
    text = line(step, system)
    assert true(text)
    decimal = UNITS["ft"] if step.unit.on(system).name == "ft-in" else step.unit.on(system)
    result = text.split(" = ")[1]
    assert result == shown(step.value, decimal, system) or (abs(step.value) < 1e-9 and result.startswith("0"))


PRICES = [("$/h", "h"), ("$/sq ft", "sq ft"), ("$/cu yd", "cu yd"), ("$/ton", "ton"), ("$/day", "day"), ("$", "bags")]


@settings(max_examples=150, deadline=None)
@given(
    lines=st.lists(
        st.tuples(
            st.sampled_from(PRICES),
            st.integers(1, 99_999).map(lambda cents: Fraction(cents, 100)),
            st.floats(0.01, 500),
            st.sampled_from(
                ["price * amount", "price * amount * (1 + part)", "price * max(amount, 2 * amount - amount)"]
            ),
        ),
        min_size=1,
        max_size=6,
    ),
    system=st.sampled_from(SYSTEMS),
)
def test_any_line_of_money_is_true_and_the_column_adds_up(
    lines: list[tuple[tuple[str, str], Fraction, float, str]], system: System
) -> None:
    working = Working()
    amounts = {}
    for at, ((per, of), price, amount, formula) in enumerate(lines):
        more = {"part": quantity(22.5, "%")} if "part" in formula else {}
        amounts[f"a{at}"] = working.money(
            f"line {at}", formula, "x.y", price=dollars(str(price), per), amount=quantity(amount, of), **more
        )
    total = working.money("total", " + ".join(amounts), "x.sum", **amounts)
    assert total.value == sum(a.value for a in amounts.values())
    texts = [line(step, system) for step in working.steps.values()]
    assert all(true(text) for text in texts)
    column = [Decimal(text.split(" = $")[1].replace(",", "")) for text in texts]
    assert sum(column[:-1]) == column[-1]


def test_half_a_cent_falls_as_the_line_says() -> None:
    assert (
        printed("h * r", "$", h=quantity(2.4999999999999996, "h"), r=dollars("0.33", "$/h"))
        == "2.5 h × $0.33/h = $0.83"
    )


def test_half_a_cent_that_no_rounded_price_gives() -> None:
    # $299.73 × 500 × 1.225 = $183,584.625; a metric price has no last digit, and to the nearest it falls short
    text = printed(
        "price * area * (1 + part)", "$", "metric",
        price=dollars("299.73", "$/sq ft"), area=quantity(500.0, "sq ft"), part=quantity(22.5, "%"),
    )  # fmt: skip
    assert true(text) and text.endswith("= $183,584.63")


# --- words, solver's results, why ---------------------------------------------------------------------


def test_words_of_another_language() -> None:
    working = Working()
    step = working.steps
    working.step(
        "k",
        "ceil(max(a, b) / c)",
        "bags",
        "x.y",
        a=quantity(9, "sq ft"),
        b=quantity(7, "sq ft"),
        c=quantity(2, "sq ft"),
    )
    spanish = {
        "sq ft": "pies²",
        "bags": "bultos",
        "the greater of": "el mayor de",
        "and": "y",
        "rounded up": "redondeado",
    }
    assert line(step["k"], "us", spanish) == "(el mayor de 9 pies² y 7 pies²) / 2 pies² redondeado = 5 bultos"


def test_a_solvers_result_prints_value_method_and_proof() -> None:
    working = Working()
    working.found(
        "cut", 7, "pieces", "x.y", method="bound met", proof=("6 × 10 ft = 60 ft < 61 ft", "7 × 10 ft = 70 ft")
    )
    assert line(working.steps["cut"]) == "7 pieces: bound met\n6 × 10 ft = 60 ft < 61 ft\n7 × 10 ft = 70 ft"


def test_why_of_a_solvers_result() -> None:
    working = Working()
    cut = working.found("cut", 7, "pieces", "x.y", method="bound met", proof=("7 × 10 ft = 70 ft",), rules=("id",))
    working.step("cost", "n * 2", "pieces", "x.z", n=cut)
    found = explain(working, "cost", names={"bound met": "Schranke erreicht"}).after[0]
    assert found.line == "7 pieces: Schranke erreicht\n7 × 10 ft = 70 ft"
    assert (found.method, found.proof, found.rules) == ("bound met", ("7 × 10 ft = 70 ft",), ("id",))


def test_why_is_a_tree_without_repeats() -> None:
    working = Working()
    area = working.step("area", "w * h", "sq ft", "x.area", w=quantity(24, "ft"), h=quantity(12, "ft"))
    net = working.step("net", "area - 21 * one", "sq ft", "x.net", area=area, one=quantity(1, "sq ft"))
    working.step("share", "net / area", "%", "x.share", net=net, area=area)
    why = explain(working, "share")
    assert why.line == "267 sq ft / 288 sq ft × 100 = 92.7 %"
    assert [e.key for e in why.after] == ["net", "area"]
    assert [e.key for e in why.after[0].after] == ["area"]
    assert not why.after[0].after[0].again and why.after[0].after[0].line == "24 ft × 12 ft = 288 sq ft"
    assert why.after[1].again is False and why.after[1].after == ()
    with pytest.raises(KeyError):
        explain(working, "nothing")
