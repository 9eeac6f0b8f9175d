"""Steps, notes, and what a working keeps."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from decimal import Decimal
from fractions import Fraction

import pytest

from darby.measure.units import UNITS
from darby.rulebook.model import Figure
from darby.working import Amount, Quantity, Step, Working

FT = UNITS["ft"]


def figure(value: float | None = 0.0127) -> Figure:
    return Figure(
        id="thickness.block.invented", subject="thickness.block", kind="number" if value else "rule", low=None,
        value=value, high=None, unit=UNITS["in"], written="1/2 in", says="invented", source="x", where="y",
        edition="", standing="trial",
    )  # fmt: skip


def feet(x: float, key: str = "") -> Quantity:
    return Quantity(FT.to_si(float(x)), FT, key)


def test_a_step_keeps_what_it_was_given() -> None:
    working = Working()
    area = working.step("wall/area", "w * h", "sq ft", "x.area", w=feet(24), h=feet(12))
    volume = working.step("wall/volume", "a * t", "cu ft", "x.volume", rules=("also.this",), a=area, t=figure())
    step = working.steps["wall/volume"]
    assert isinstance(step, Step)
    assert step.rules == ("also.this", "thickness.block.invented")
    assert step.after == ("wall/area",)
    assert step.given[1] == ("t", 0.0127, UNITS["in"])
    assert volume == Quantity(step.value, UNITS["cu ft"], "wall/volume")
    assert volume.value == pytest.approx(24 * 12 * 0.3048**2 * 0.0127)


def test_a_figure_or_step_used_twice_is_named_once() -> None:
    working = Working()
    a = working.step("a", "x", FT, "x.y", x=feet(1))
    working.step("b", "p + q + r + s", FT, "x.y", p=a, q=a, r=figure(), s=figure(), rules=("thickness.block.invented",))
    step = working.steps["b"]
    assert isinstance(step, Step)
    assert step.after == ("a",) and step.rules == ("thickness.block.invented",)


def test_a_rule_in_words_is_no_number() -> None:
    with pytest.raises(TypeError, match="is a rule, not a number"):
        Working().step("k", "t", "in", "x.y", t=figure(None))


def test_what_is_no_given_is_named() -> None:
    with pytest.raises(TypeError, match="t: "):
        Working().step("k", "t", "in", "x.y", t="1/2 in")  # type: ignore[arg-type]


def test_a_key_is_taken_once() -> None:
    working = Working()
    working.step("k", "a", FT, "x.y", a=feet(1))
    with pytest.raises(ValueError, match="already has a step 'k'"):
        working.step("k", "a", FT, "x.y", a=feet(2))
    with pytest.raises(ValueError, match="already"):
        working.money("k", "a", "x.y", a=Amount(Decimal(1)))
    with pytest.raises(ValueError, match="already"):
        working.found("k", 1, "", "x.y", method="", proof=())
    other = Working()
    other.step("k", "a", FT, "x.y", a=feet(1))
    with pytest.raises(ValueError, match="already"):
        working.add(other)
    assert working.steps["k"].value == FT.to_si(1.0)


def test_add_takes_steps_and_notes() -> None:
    one, two = Working(), Working()
    one.step("a", "x", FT, "x.y", x=feet(1))
    two.step("b", "x", FT, "x.y", x=feet(1))
    two.note("x.told", "caution", "wall", rules=("id",), depth=feet(2))
    one.add(two)
    assert list(one.steps) == ["a", "b"]
    assert one.notes[0].values == (("depth", feet(2)),) and one.notes[0].rules == ("id",)


def test_exact_lengths_among_floats_and_money_in_a_step() -> None:
    working = Working()
    mixed = working.step("k", "a * b", "sq ft", "x.y", a=Quantity(Fraction(3048, 10000), FT), b=feet(2.0))
    assert mixed.value == pytest.approx(2 * 0.3048**2)
    share = working.step(
        "s", "part / all * n", "%", "x.y", part=Amount(Decimal("2.50")), all=Amount(Decimal(10)), n=1.0
    )
    assert share.value == 0.25
    assert type(share.value) is float


def test_all_exact_is_computed_exactly() -> None:
    tenth = Quantity(Fraction(1, 10), UNITS["m"])
    assert Working().step("k", "a + a + a - b", "m", "x.y", a=tenth, b=Quantity(Fraction(3, 10), UNITS["m"])).value == 0


def test_steps_and_quantities_are_what_the_dataclasses_say() -> None:
    # they are made a quicker way than through their own __init__
    working = Working()
    got = working.step("k", "a", FT, "x.y", a=feet(1))
    step = working.steps["k"]
    assert type(got) is Quantity and type(step) is Step
    assert step == Step("k", "x.y", "a", (("a", FT.to_si(1.0), FT),), FT.to_si(1.0), FT)
    assert hash(got) == hash(Quantity(got.value, FT, "k"))
    assert dataclasses.replace(step, key="j").key == "j"
    assert pickle.loads(pickle.dumps(step)) == step == copy.deepcopy(step)
    with pytest.raises(dataclasses.FrozenInstanceError):
        step.value = 1.0  # type: ignore[misc]
