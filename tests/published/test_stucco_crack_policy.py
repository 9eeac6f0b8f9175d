"""Stucco Crack Policy of the makers' association, as reprinted: which cracks are filled, what a returning one is."""

import pytest

from tests.published import checked
from tests.published.asking import first_cause, number, written

SOURCE = "Stucco Manufacturers Association, Stucco Crack Policy, undated, as reprinted by a contractor"


@checked("copied figure", SOURCE)
@pytest.mark.parametrize(
    ("figure", "value"), [("fill-over", 1 / 16), ("within", 30), ("seen-from", 10)], ids=["width", "days", "distance"]
)
def test_the_figures_stand_in_the_book(figure, value):
    assert float(number(f"ask.crack.{figure}.sma")[0]) == value
    assert written(f"ask.crack.{figure}.sma")[1] == "second-hand"  # a reprint, not the association's own page


@checked("copied figure", f"{SOURCE}: cracks that are wide or come back")
def test_a_crack_that_comes_back_is_movement():
    rule, english, spanish = first_cause("fault.wide-crack")
    assert rule.id == "fault.wide-crack.sma"
    assert "moves" in rule.written
    assert "moving" in english
    assert "mueve" in spanish
