"""Which access a wall needs: the lowest kind from which its highest point is still in reach."""

from __future__ import annotations

from collections.abc import Iterable

from darby.days.model import AccessRow, Real
from darby.measure.limits import at_most
from darby.rulebook import Book


def choose(rows: Iterable[AccessRow], reach: Real) -> AccessRow | None:
    """The row with the least ``up_to`` [m] that is not below ``reach`` [m]; None if every row is too low."""
    for row in sorted(rows, key=lambda r: r.up_to):
        if at_most(reach, row.up_to):
            return row
    return None


def platform(rows: Iterable[AccessRow], reach: Real, book: Book) -> Real:
    """How high [m] a man stands to work at ``reach`` [m]: what is past his reach from the ground.

    The firm's lowest kind of access says how far he reaches from the ground, or the book does.
    """
    ground = min((row.up_to for row in rows), default=book.number("access.ground-reach").number)
    return max(reach - ground, 0)
