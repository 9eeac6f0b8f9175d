"""Cutting exercises of courses and textbooks: data printed there, least counts worked out from them."""

from __future__ import annotations

from fractions import Fraction

from darby.measure.units import FT, IN
from darby.quantities import cut_list
from tests.published import checked


@checked("our arithmetic", "IE 316 problem set 6 (2001), problem 4: widths from 110 in. rolls; 46.25 in parts, so 47")
def test_paper_mill() -> None:
    found = cut_list([(20 * IN, 48), (45 * IN, 35), (50 * IN, 24), (55 * IN, 10), (75 * IN, 8)], [(110 * IN, 1)])
    assert (found.cost, found.proved_best) == (47, True)


@checked("our arithmetic", "Winston, Operations Research: 17 ft boards into 3, 5 and 9 ft, from memory; 18 1/3, so 19")
def test_seventeen_foot_boards() -> None:
    found = cut_list([(3 * FT, 25), (5 * FT, 20), (9 * FT, 15)], [(17 * FT, 1)])
    assert (found.cost, found.proved_best) == (19, True)


@checked("our arithmetic", "Ferguson Paper Company exercise: rolls of 10 in. into 1 1/2, 2 1/2 and 3 1/2 in.")
def test_half_inches_stay_exact() -> None:
    lengths = [Fraction(3, 2) * IN, Fraction(5, 2) * IN, Fraction(7, 2) * IN]
    found = cut_list(list(zip(lengths, [1000, 2000, 4000], strict=True)), [(10 * IN, 1)])
    assert (found.cost, found.proved_best) == (2125, True)


@checked("our arithmetic", "Guéret, Prins, Sevaux: desk legs from bars of 150 and 200 cm, 75,280 cm are wanted")
def test_desk_legs() -> None:
    cm = Fraction(1, 100)
    pieces = [(40 * cm, 432), (60 * cm, 500), (70 * cm, 400)]
    found = cut_list(pieces, [(150 * cm, None), (200 * cm, None)])
    assert found.length == 75_280 * cm  # printed
    assert found.cost == 75_300 * cm  # the least that 150 and 200 make at or above it and that can be sawn
    assert found.proved_best


@checked("our arithmetic", "MiniZinc benchmark cutstock.mzn (2007): 7, 5 and 3 from 10; 36 in all, so 4")
def test_the_smallest_of_a_benchmark() -> None:
    found = cut_list([(7, 2), (5, 2), (3, 4)], [(10, 1)])
    assert (found.cost, found.proved_best) == (4, True)
