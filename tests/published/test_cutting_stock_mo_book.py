"""MO-book, extra notebook on cutting stock (2026): Gilmore and Gomory's bars of 1961, and boards for a bench."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from darby.measure.units import IN
from darby.quantities import CutList, cut_list
from tests.published import checked

BOARDS = {
    36: "1.68", 48: "1.86", 72: "2.57", 84: "2.65", 96: "2.92", 120: "3.67", 144: "4.40", 168: "5.14", 192: "6.92",
    216: "8.62", 240: "10.40",
}  # fmt: skip
PIECES = [("70.5", 3), ("25.5", 10), ("12.5", 1), ("72", 6), ("70.75", 1), ("28.5", 1)]


def bench() -> CutList:
    """The notebook adds a kerf to every piece and none to the board: a board that is a kerf shorter says the same.

    Its table of settings shows a kerf of 1/8 in.; the figures belong to the 1/4 in. of its run.
    """
    kerf = IN / 4
    boards = [(length * IN - kerf, price) for length, price in BOARDS.items()]
    return cut_list([(Fraction(length) * IN, n) for length, n in PIECES], boards, kerf=kerf)


@checked("worked elsewhere", "MO-book, 06-cutting-stock: bars of 5, 6, 9 at 6, 7, 10 into 20 x 2, 10 x 3, 20 x 4: 170")
def test_gilmore_and_gomory() -> None:
    found = cut_list([(2, 20), (3, 10), (4, 20)], [(5, 6), (6, 7), (9, 10)])
    assert (found.cost, found.proved_best) == (170, True)


@checked("worked elsewhere", "MO-book, 06-cutting-stock: boards of a bench, a plan of $32.44 is printed")
def test_nothing_dearer_than_the_printed_plan() -> None:
    assert Decimal(bench().cost) <= Decimal("32.44")


@checked(
    "our arithmetic", "MO-book, 06-cutting-stock: the printed $32.44 is a rule of thumb's; over all patterns $32.28"
)
def test_the_best_is_cheaper_than_printed() -> None:
    found = bench()
    assert found.cost == Decimal("32.28")
    assert found.proved_best
