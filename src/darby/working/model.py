"""A number and its working are one thing: what is printed is what was computed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from numbers import Rational
from typing import Literal

from quicktions import Fraction

from darby.measure.units import UNITS, Unit
from darby.rulebook.model import Figure
from darby.working.formula import FormulaError, compiled, exact, to_cents

Real = float | int | Fraction


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number in SI, the unit it is to be shown in, and the step it came from ("" = it was given)."""

    value: Real
    unit: Unit = UNITS[""]
    key: str = ""

    def __float__(self) -> float:
        return float(self.value)


@dataclass(frozen=True, slots=True)
class Amount:
    """Money, or money per something, in SI of ``unit``; exact. A plain "$" amount is in whole cents."""

    value: Decimal
    unit: Unit = UNITS["$"]
    key: str = ""


Given = Quantity | Amount | Figure | Real
"""What a formula may be given: a quantity, money, a figure of the book (its id is noted), or a bare count."""


@dataclass(frozen=True, slots=True)
class Step:
    """One line of working. ``given`` holds (name, SI value, unit); ``after`` the keys of the steps it used."""

    key: str
    says: str
    formula: str
    given: tuple[tuple[str, Real | Decimal, Unit], ...]
    value: float | Decimal
    unit: Unit
    rules: tuple[str, ...] = ()
    after: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Found:
    """A solver's result: what it found, by what method, and a proof whose lines a reader can check."""

    key: str
    says: str
    value: float
    unit: Unit
    method: str
    proof: tuple[str, ...]
    rules: tuple[str, ...] = ()
    after: tuple[str, ...] = ()


Grade = Literal["fact", "assumed", "caution", "stop"]


@dataclass(frozen=True, slots=True)
class Note:
    """Every reason, caution, departure and assumption. ``code`` is a sentence in words/; ``at`` a place."""

    code: str
    grade: Grade
    at: str
    values: tuple[tuple[str, object], ...] = ()
    rules: tuple[str, ...] = ()


def note(code: str, grade: Grade, at: str, *, rules: Iterable[str] = (), **values: object) -> Note:
    """A Note with its values in the order given."""
    return Note(code, grade, at, tuple(values.items()), tuple(rules))


class _StepDraft:
    """Becomes a Step: a frozen dataclass sets its fields one by one from outside, which takes four times as long."""

    __slots__ = ("after", "formula", "given", "key", "rules", "says", "unit", "value")

    def __init__(
        self,
        key: str,
        says: str,
        formula: str,
        given: tuple[tuple[str, Real | Decimal, Unit], ...],
        value: float | Decimal,
        unit: Unit,
        rules: tuple[str, ...],
        after: tuple[str, ...],
    ) -> None:
        self.key = key
        self.says = says
        self.formula = formula
        self.given = given
        self.value = value
        self.unit = unit
        self.rules = rules
        self.after = after
        self.__class__ = Step  # type: ignore[assignment]


class _QuantityDraft:
    """Becomes a Quantity, for the same reason."""

    __slots__ = ("key", "unit", "value")

    def __init__(self, value: Real, unit: Unit, key: str) -> None:
        self.value = value
        self.unit = unit
        self.key = key
        self.__class__ = Quantity  # type: ignore[assignment]


class Working:
    """Steps and notes in the order they came. Built by a trade room, merged by ``answers``."""

    __slots__ = ("notes", "steps")

    def __init__(self) -> None:
        self.steps: dict[str, Step | Found] = {}
        self.notes: list[Note] = []

    def step(
        self, key: str, formula: str, unit: Unit | str, says: str, *, rules: Iterable[str] = (), **given: Given
    ) -> Quantity:
        """Compute ``formula`` from ``given``, keep the line, hand back the quantity (SI).

        Parameters
        ----------
        key
            "bay-south/brown/volume": stable, unique in this working.
        formula
            names, + - * / **, min, max, ceil and nothing else.
        unit
            what the result is shown in; its dimension must be the formula's.
        says
            code of a sentence in words/.

        Raises
        ------
        FormulaError
            if the formula is not allowed or its dimensions do not agree.
        ValueError
            if the key is taken.
        """
        shown = UNITS[unit] if unit.__class__ is str else unit
        steps = self.steps
        if key in steps:
            raise ValueError(f"the working already has a step {key!r}")
        kept, values, units, used, after = _unpacked(given, rules)
        try:
            function = compiled(formula, tuple(given), units, shown)
            value = function(*values)
            if value.__class__ is not float:
                value = float(value)
        except TypeError:
            value = float(function(*map(float, values)))  # money or exact numbers among floats
        except ArithmeticError:
            raise FormulaError(f"{key}: {formula!r} divides by nothing, or its result is past all bounds") from None
        if not -_HUGE < value < _HUGE:
            raise FormulaError(f"{key}: {formula!r} gives {value}")
        steps[key] = _StepDraft(key, says, formula, kept, value, shown, used, after)  # type: ignore[assignment, arg-type]
        return _QuantityDraft(value, shown, key)  # type: ignore[return-value, arg-type]

    def money(
        self, key: str, formula: str, says: str, *, unit: Unit | str = "$", rules: Iterable[str] = (), **given: Given
    ) -> Amount:
        """Like ``step`` for money: exact, then rounded half up to the cent once, so a column adds up as printed."""
        shown = UNITS[unit] if isinstance(unit, str) else unit
        kept, values, units, used, after = _unpacked(given, rules)
        certain = [exact(v, u) for v, u in zip(values, units, strict=True)]
        try:
            value = to_cents(compiled(formula, tuple(given), units, shown)(*certain), shown)
        except ArithmeticError:
            raise FormulaError(f"{key}: {formula!r} divides by nothing, or its result is past all bounds") from None
        self._keep(Step(key, says, formula, kept, value, shown, used, after))
        return Amount(value, shown, key)

    def found(
        self,
        key: str,
        value: Real,
        unit: Unit | str,
        says: str,
        *,
        method: str,
        proof: tuple[str, ...],
        rules: Iterable[str] = (),
        after: Iterable[str] = (),
    ) -> Quantity:
        """Enter a solver's result with its method and a proof that is arithmetic a reader can check."""
        shown = UNITS[unit] if isinstance(unit, str) else unit
        self._keep(Found(key, says, float(value), shown, method, proof, tuple(rules), tuple(after)))
        return Quantity(value, shown, key)

    def note(self, code: str, grade: Grade, at: str, *, rules: Iterable[str] = (), **values: object) -> None:
        """Add a Note."""
        self.notes.append(note(code, grade, at, rules=rules, **values))

    def add(self, other: Working) -> None:
        """Take over another working's steps and notes."""
        for step in other.steps.values():
            self._keep(step)
        self.notes.extend(other.notes)

    def _keep(self, step: Step | Found) -> None:
        if step.key in self.steps:
            raise ValueError(f"the working already has a step {step.key!r}")
        self.steps[step.key] = step


_HUGE = 1e300
"""No wall, bag or bill comes near it: what does is infinite or no number."""

_COUNT = UNITS[""]

Unpacked = tuple[
    tuple[tuple[str, "Real | Decimal", Unit], ...],
    "list[Real | Decimal]",
    tuple[Unit, ...],
    tuple[str, ...],
    tuple[str, ...],
]


def _unpacked(given: Mapping[str, Given], rules: Iterable[str]) -> Unpacked:
    """(name, SI value, unit) of each, values, units, ids of the figures used, keys of the steps used."""
    kept: list[tuple[str, Real | Decimal, Unit]] = []
    values: list[Real | Decimal] = []
    units: list[Unit] = []
    ids: tuple[str, ...] = (*rules,) if rules else ()
    after: tuple[str, ...] = ()
    for name, thing in given.items():
        if thing.__class__ is Quantity or thing.__class__ is Amount:
            value: Real | Decimal = thing.value
            unit: Unit = thing.unit
            key: str = thing.key
            if key and key not in after:
                after += (key,)
        elif thing.__class__ is Figure:
            value, unit = thing.number, thing.unit
            if thing.id not in ids:
                ids += (thing.id,)
        elif isinstance(thing, (float, int, Rational)):
            value, unit = thing, _COUNT
        else:
            raise TypeError(f"{name}: a formula takes quantities, money, figures and counts, not {thing!r}")
        kept.append((name, value, unit))
        values.append(value)
        units.append(unit)
    return tuple(kept), values, tuple(units), ids, after
