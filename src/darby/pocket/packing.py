"""Values as the page reads them: exact numbers as text ("3/8"), floats as numbers; alike things stand once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from quicktions import Fraction

from darby.rulebook import Figure
from darby.working import Amount, Note, Quantity

Real = Fraction | Decimal | float | int


def number(value: Real) -> str | float:
    """What is exact as text, what was computed as the float it is: the page reckons with both as the core does."""
    return value if isinstance(value, float) else str(Fraction(value))


def amount(quantity: Quantity) -> list[str | float]:
    """A quantity with the unit it is shown in."""
    return [number(quantity.value), quantity.unit.name]


def value(thing: object) -> Any:
    """A value of a note: [number, unit], [low, high, unit], or a word."""
    if isinstance(thing, Quantity):
        return amount(thing)
    if isinstance(thing, Figure):
        if thing.low is not None and thing.high is not None:
            return [number(thing.low), number(thing.high), thing.unit.name]
        return [number(thing.value), thing.unit.name] if thing.value is not None else thing.written
    if isinstance(thing, Amount):
        raise TypeError("no money stands in what the sheet says")
    return str(thing)


def said(note: Note) -> list[Any]:
    """A note: code, grade, values by name."""
    return [note.code, note.grade, {name: value(thing) for name, thing in note.values}]


@dataclass
class Pool:
    """Things that stand once, by their number."""

    things: list[Any] = field(default_factory=list)
    _at: dict[str, int] = field(default_factory=dict)

    def put(self, thing: Any) -> int:
        """The number of ``thing``."""
        key = repr(thing)
        if key not in self._at:
            self._at[key] = len(self.things)
            self.things.append(thing)
        return self._at[key]


def steps(counts: Iterable[int]) -> list[int]:
    """Each count as its step from the one before: tables that mostly go on packed small."""
    found, before = [], 0
    for count in counts:
        found.append(count - before)
        before = count
    return found


@dataclass
class Table:
    """Rows of the same named fields, each row once; in a column each value once."""

    fields: tuple[str, ...]
    columns: dict[str, Pool] = field(default_factory=dict)
    rows: Pool = field(default_factory=Pool)

    def put(self, **row: Any) -> int:
        """The number of the row."""
        return self.rows.put([self.columns.setdefault(name, Pool()).put(row[name]) for name in self.fields])

    def packed(self) -> dict[str, Any]:
        """As the page reads it: of each column its values, and row by row which of them, in steps."""
        rows = self.rows.things
        return {
            name: {"values": self.columns[name].things, "rows": steps(row[n] for row in rows)}
            for n, name in enumerate(self.fields)
        }
