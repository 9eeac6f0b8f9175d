"""Cut lists: which bars to buy and how to saw them, as cheaply as can be, with the proof that it cannot be cheaper."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from quicktions import Fraction

from darby.quantities.cutting.lists import cut_lists, sheet, solved
from darby.quantities.cutting.model import CutList, Offcut, Piece, Splice, Stock
from darby.quantities.cutting.whole import checked, exact

__all__ = ["cut_list", "cut_lists"]

Given = Fraction | float
"""Metres; a float is taken as the shortest decimal that it prints as."""


def cut_list(
    pieces: Iterable[Piece | tuple[Given, int]],
    stock: Iterable[Stock | tuple[Given, Decimal | int | str | None]],
    kerf: Given = 0,
    offcuts: Iterable[Offcut | tuple[Given, int] | Given] = (),
    splice: Splice | Given | None = None,
    seconds: float = 2.0,
) -> CutList:
    """The cheapest bars for these pieces, and how to saw them.

    Parameters
    ----------
    pieces
        (length [m], count), or ``Piece`` with what is to stand on it; a bare pair is called by its place in the list.
    stock
        (length [m], price of a bar), or ``Stock``. Without any price the length bought is made least.
    kerf
        what the blade takes with every cut [m].
    offcuts
        bars on the truck [m], which cost nothing: length, (length, count) or ``Offcut``.
    splice
        the least length [m] of the parts that a piece longer than any bar is made up of; None = such a piece is a
        fault.
    seconds
        the box of time. ``proved_best`` says whether the bound was met inside it; else ``gap`` is what it might be
        cheaper by.

    Raises
    ------
    Unreadable
        for an empty list, no stock, lengths or prices of nought or less, a piece that no bar holds (``cutting.*``).

    Source of the method: P. C. Gilmore and R. E. Gomory, "A linear programming approach to the cutting-stock
    problem", Operations Research 9 (1961); docs/methods/cut-lists.md says how it is used.
    """
    asked = checked(
        [_piece(p, n) for n, p in enumerate(pieces, start=1)],
        [_stock(s) for s in stock],
        exact(kerf),
        [_offcut(o) for o in offcuts],
        splice if splice is None or isinstance(splice, Splice) else Splice(exact(splice)),
        "",
    )
    return sheet(asked, solved(asked, seconds))


def _piece(given: Piece | tuple[Given, int], n: int) -> Piece:
    if isinstance(given, Piece):
        return Piece(given.id, exact(given.length), given.count)
    length, count = given
    return Piece(str(n), exact(length), count)


def _stock(given: Stock | tuple[Given, Decimal | int | str | None]) -> Stock:
    if isinstance(given, Stock):
        return Stock(exact(given.length), given.price)
    length, price = given
    return Stock(exact(length), None if price is None else Decimal(str(price)))


def _offcut(given: Offcut | tuple[Given, int] | Given) -> Offcut:
    if isinstance(given, Offcut):
        return Offcut(exact(given.length), given.count, given.id)
    length, count = given if isinstance(given, tuple) else (given, 1)
    return Offcut(exact(length), count)
