"""What the tests of the build-up room ask with: lengths in inches, asks with their defaults, answers in inches."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from darby.buildup import BuildUp, BuildUpAsk, Option, build_up
from darby.measure.units import unit
from darby.rulebook import Book, default
from darby.working import Note, Quantity, Working

BOOK = default()
INCH = Fraction(254, 10_000)
HOUR, DAY = 3600, 86_400


def inch(text: str) -> Fraction:
    """ "5/8" or "1-1/4" as exact metres."""
    whole, _, part = text.rpartition("-")
    return (Fraction(whole or 0) + Fraction(part)) * INCH


def ask(**fields: Any) -> BuildUpAsk:
    fields.setdefault("book", BOOK)
    fields.setdefault("at", "bay-south/rest")
    fields.setdefault("base", "block")
    return BuildUpAsk(**fields)


def run(**fields: Any) -> tuple[BuildUp, Working]:
    return build_up(ask(**fields))


def up(**fields: Any) -> BuildUp:
    return run(**fields)[0]


def option(name: str, **fields: Any) -> Option:
    found = up(**fields).option(name)
    assert found is not None, name
    return found


def chosen(**fields: Any) -> Option:
    return up(**fields).chosen


def sixteenths(*quantities: Quantity) -> tuple[str, ...]:
    """Thicknesses in inches as fractions of a sixteenth at the finest; anything else fails."""
    return tuple(_inches(q) for q in quantities)


def _inches(q: Quantity) -> str:
    found = Fraction(float(q) / float(INCH)).limit_denominator(32)
    assert abs(float(found) - float(q) / float(INCH)) < 1e-9
    return str(found)


def days(q: Quantity | None) -> float | None:
    return None if q is None else round(float(q) / DAY, 9)


def codes(notes: Iterable[Note]) -> set[str]:
    return {n.code.removeprefix("buildup.") for n in notes}


def said(notes: Iterable[Note], code: str) -> dict[str, object]:
    """Values of the one note with this code."""
    (found,) = (n for n in notes if n.code == f"buildup.{code}")
    return dict(found.values)


def following(**voices: str) -> Book:
    """The book of a firm that follows these voices; ``_`` stands for a point in the subject."""
    return Book(BOOK.figures.values(), BOOK.sources, follows={k.replace("_", "."): v for k, v in voices.items()})


def printed(figure: str) -> tuple[float, ...]:
    """A figure's numbers in the unit it was printed in: one, or low and high."""
    f = BOOK.figures[figure]
    values = [f.value] if f.value is not None else [f.low, f.high]
    return tuple(round(float(f.unit.from_si(v)), 9) for v in values if v is not None)


def weight_psf(q: Quantity) -> float:
    return float(unit("lb/sq ft").from_si(float(q)))
