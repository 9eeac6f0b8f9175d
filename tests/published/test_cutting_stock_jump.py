"""JuMP's tutorial on column generation (2026): twenty lengths, 299 rolls."""

from __future__ import annotations

from fractions import Fraction

from darby.quantities import cut_list
from tests.published import checked

LENGTHS = [
    "75", "70", "68.4", "65.5", "59.6", "53.8", "53", "51", "50.2", "32.2", "30.8", "29.8", "20.1", "16.2", "14.5",
    "11", "8.6", "8.2", "6.6", "5.1",
]  # fmt: skip
WANTED = [38, 41, 34, 23, 18, 33, 36, 41, 35, 37, 44, 49, 37, 36, 42, 33, 47, 35, 49, 42]


@checked("worked elsewhere", "JuMP documentation, cutting_stock_column_generation: 299 rolls of 100")
def test_two_hundred_and_ninety_nine_rolls() -> None:
    found = cut_list([(Fraction(x), n) for x, n in zip(LENGTHS, WANTED, strict=True)], [(100, 1)])
    assert found.cost == 299
    assert found.proved_best  # the tutorial says only that 299 is the best of the patterns it found
