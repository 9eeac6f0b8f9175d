"""Answers as a plain document (JSON): stable keys, SI numbers beside their unit, money as text."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from functools import cache
from numbers import Rational
from typing import TYPE_CHECKING, Any

from quicktions import Fraction

from darby.measure.units import Unit
from darby.rulebook.book import Book
from darby.rulebook.model import Figure
from darby.working.model import Found, Step, Working

if TYPE_CHECKING:
    from darby.answers.stage import Answers


def document(answers: Answers) -> dict[str, Any]:
    """``answers`` as dicts, lists, numbers and text."""
    return {
        "made_with": answers.made_with,
        "job_hash": answers.job_hash,
        "book_version": answers.book_version,
        "as_of": answers.job.as_of.isoformat(),
        "answers": _by_stage(answers),
        "notes": [plain(n) for n in answers.notes],
        "working": {step.key: _step(step) for step in answers.steps()},
    }


def _by_stage(answers: Answers) -> dict[str, dict[str, Any]]:
    stages: dict[str, dict[str, Any]] = {}
    for (stage, at), kept in answers.kept.items():
        stages.setdefault(stage, {})[at] = plain(kept.answer)
    return stages


def _step(step: Step | Found) -> dict[str, Any]:
    row: dict[str, Any] = {"says": step.says, "value": plain(step.value), "unit": step.unit.name}
    if isinstance(step, Found):
        row |= {"method": step.method, "proof": list(step.proof)}
    else:
        given = {name: {"value": plain(value), "unit": unit.name} for name, value, unit in step.given}
        row |= {"formula": step.formula, "given": given}
    return row | {"rules": list(step.rules), "after": list(step.after)}


@cache
def _names(kind: type) -> tuple[str, ...]:
    return tuple(f.name for f in fields(kind))


_LEAVES: Mapping[type, Callable[[Any], Any]] = {
    Fraction: float,
    Decimal: str,
    date: date.isoformat,
    Unit: lambda unit: unit.name,
    Figure: lambda figure: figure.id,
    Book: lambda book: book.version,
    Working: lambda _: None,
}
"""What is one value in JSON, and how it is written there."""


def plain(thing: Any) -> Any:
    """Any answer as JSON: a dataclass is an object of its fields; exact numbers become floats, money text."""
    leaf = _LEAVES.get(type(thing))
    if leaf is not None:
        return leaf(thing)
    match thing:
        case None | bool() | int() | float() | str():
            return thing
        case Mapping():
            return {str(k): plain(v) for k, v in thing.items()}
        case tuple() | list():
            return [plain(v) for v in thing]
        case frozenset() | set():
            return sorted(plain(v) for v in thing)
        case Rational():  # of somebody who called us with numbers of his own
            return float(thing)
    if is_dataclass(thing) and not isinstance(thing, type):
        kind = type(thing).__name__
        row = {name: plain(getattr(thing, name)) for name in _names(type(thing))}
        return {"is": kind, **row} if kind in ("Waiting", "Fault") else row
    raise TypeError(f"{type(thing).__name__} has no plain form")
