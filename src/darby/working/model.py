"""A number and its working are one thing: what is printed is what was computed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from darby.measure.units import UNITS, Unit
from darby.rulebook.model import Figure
from darby.working.formula import compiled, to_cents

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
        shown = UNITS[unit] if isinstance(unit, str) else unit
        names, values, units, ids, after = _unpacked(given)
        value = float(compiled(formula, names, units, shown)(*values))
        self._keep(Step(key, says, formula, tuple(zip(names, values, units, strict=True)), value, shown,
                        (*rules, *ids), after))  # fmt: skip
        return Quantity(value, shown, key)

    def money(
        self, key: str, formula: str, says: str, *, unit: Unit | str = "$", rules: Iterable[str] = (), **given: Given
    ) -> Amount:
        """Like ``step`` for money: exact, then rounded half up to the cent once, so a column adds up as printed."""
        shown = UNITS[unit] if isinstance(unit, str) else unit
        names, values, units, ids, after = _unpacked(given)
        exact = compiled(formula, names, units, shown)(*(Fraction(v) for v in values))
        value = to_cents(exact, shown)
        self._keep(Step(key, says, formula, tuple(zip(names, values, units, strict=True)), value, shown,
                        (*rules, *ids), after))  # fmt: skip
        return Amount(value, shown, key)

    def found(
        self, key: str, value: Real, unit: Unit | str, says: str, *, method: str, proof: tuple[str, ...]
    ) -> Quantity:
        """Enter a solver's result with its method and a proof that is arithmetic a reader can check."""
        shown = UNITS[unit] if isinstance(unit, str) else unit
        self._keep(Found(key, says, float(value), shown, method, proof))
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


def _unpacked(
    given: Mapping[str, Given],
) -> tuple[tuple[str, ...], tuple[Real | Decimal, ...], tuple[Unit, ...], tuple[str, ...], tuple[str, ...]]:
    values: list[Real | Decimal] = []
    units: list[Unit] = []
    ids: list[str] = []
    after: list[str] = []
    for thing in given.values():
        if isinstance(thing, (Quantity, Amount)):
            values.append(thing.value)
            units.append(thing.unit)
            if thing.key:
                after.append(thing.key)
        elif isinstance(thing, Figure):
            values.append(thing.number)
            units.append(thing.unit)
            ids.append(thing.id)
        else:
            values.append(thing)
            units.append(UNITS[""])
    return tuple(given), tuple(values), tuple(units), tuple(ids), tuple(after)
