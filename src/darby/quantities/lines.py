"""Sums that stay readable, and shares that say whose they are: what every file of this room needs of the working."""

from __future__ import annotations

from collections.abc import Sequence

from quicktions import Fraction

from darby.measure.units import Unit, unit
from darby.rulebook import Book, Figure
from darby.working import Quantity, Working

_ROW = 2**2 * 2**2
"""Terms that one printed line of a sum can hold."""


def total(working: Working, key: str, says: str, shown: Unit | str, terms: Sequence[Quantity]) -> Quantity:
    """The sum of ``terms`` as one step, or as a step over sub-totals where there are more than a line can hold."""
    if not terms:
        nothing = Quantity(0, unit(shown) if isinstance(shown, str) else shown)
        return working.step(key, "nothing", shown, says, nothing=nothing)
    row, level = list(terms), 0
    while len(row) > _ROW:
        groups = [row[i : i + _ROW] for i in range(0, len(row), _ROW)]
        row = [_sum(working, f"{key}/sub-{level}-{n}", "quantities.subtotal", shown, g) for n, g in enumerate(groups)]
        level += 1
    return _sum(working, key, says, shown, row)


def _sum(working: Working, key: str, says: str, shown: Unit | str, terms: Sequence[Quantity]) -> Quantity:
    names = [f"part_{n}" for n, _ in enumerate(terms, start=1)]
    return working.step(key, " + ".join(names), shown, says, rules=(), **dict(zip(names, terms, strict=True)))


def share(working: Working, book: Book, subject: str, own: Fraction | float | None, at: str) -> Quantity | Figure:
    """The firm's own share, or the book's where the firm has not said; the latter is noted as assumed, once a place."""
    if own is not None:
        return Quantity(own, unit("%"))
    figure = book.number(subject)
    working.note(f"quantities.assumed.{subject.rpartition('.')[2]}", "assumed", at, rules=(figure.id,), share=figure)
    return figure


def low_end(figure: Figure) -> Quantity:
    """The lower end of a range, to be given to a step together with ``rules=(figure.id,)``."""
    return Quantity(figure.number if figure.low is None else figure.low, figure.unit)


def high_end(figure: Figure) -> Quantity:
    """The upper end of a range, to be given to a step together with ``rules=(figure.id,)``."""
    return Quantity(figure.number if figure.high is None else figure.high, figure.unit)
