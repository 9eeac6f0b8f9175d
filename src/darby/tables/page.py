"""A table of answers: title, heads, rows, lines beneath."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Page:
    """What one stage says: title, plain ``text``, heads and rows, a last row ruled off, ``lines`` with a dash each.

    A row of one cell is a heading over the rows that follow it. ``right``: columns of numbers; ``whole``: columns that
    are not broken.
    """

    stage: str
    title: str
    heads: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    last: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()
    text: tuple[str, ...] = ()
    right: frozenset[int] = frozenset()
    whole: frozenset[int] = frozenset()
