"""Columns: money is rounded to the cent once a line, so the sum is exact and reads as it stands."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from decimal import Decimal
from string import ascii_lowercase
from typing import Any, TypeVar

from quicktions import Fraction

from darby.measure.units import Unit, unit
from darby.working import Amount, Quantity, Working

NOTHING = Amount(Decimal(0))

Part = TypeVar("Part", Amount, Quantity)


def column(key: str, parts: Sequence[Amount], says: str, working: Working, shown: Unit | None = None) -> Amount:
    """The sum of money, in lines of at most as many parts as the alphabet has letters.

    Nothing is nought and a single part is its own sum, both without a step.
    """

    def add(name: str, some: Sequence[Amount]) -> Amount:
        given: dict[str, Any] = dict(zip(ascii_lowercase, some, strict=False))
        return working.money(name, " + ".join(given), says, unit=shown or unit("$"), **given)

    return _in_lines(key, parts, add) if parts else NOTHING


def total(key: str, parts: Sequence[Quantity], shown: Unit, says: str, working: Working) -> Quantity:
    """The sum of quantities, likewise."""

    def add(name: str, some: Sequence[Quantity]) -> Quantity:
        given: dict[str, Any] = dict(zip(ascii_lowercase, some, strict=False))
        return working.step(name, " + ".join(given), shown, says, **given)

    return _in_lines(key, parts, add) if parts else Quantity(Fraction(0), shown)


def _in_lines(key: str, parts: Sequence[Part], add: Callable[[str, Sequence[Part]], Part]) -> Part:
    if len(parts) == 1:
        return parts[0]
    most, n = len(ascii_lowercase), 0
    while len(parts) > most:
        n += 1
        groups = [parts[i : i + most] for i in range(0, len(parts), most)]
        parts = [add(f"{key}-part-{n}-{i}", group) for i, group in enumerate(groups, 1)]
    return add(key, parts)
