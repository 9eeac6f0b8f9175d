"""One wall, many answers: 100 m2 of 12 mm at 1:4 by the allowances of each published page."""

from __future__ import annotations

import pytest

from darby.measure.units import unit
from darby.quantities import BagLabel, by_dry_volume
from darby.working import Quantity
from tests.published import checked
from tests.published.plaster_sums import bought, exact, laid, shown

WET = exact("1.2")
SUMS = {
    # page: (dry-volume factor, shares before it, shares after it, added or compounded, bag), bags by hand
    "one 25 % and no factor, 30 bags a cubic metre (Civil at Work 2015)": (1, ("0.25",), (), "compounded", "1/30", 9.0),
    "1.33 alone (Civil at Work 2019)": ("1.33", (), (), "compounded", "5/144", 9.19),
    "10 % then 1.22 (lceted 2022)": ("1.22", ("0.1",), (), "compounded", "5/144", 9.28),
    "35 % and 20 % added (Engineering Basic)": ("1.35", ("0.2",), (), "added", "5/144", 10.71),
    "30 % then 20 % compounded (Civil Engineers Link)": ("1.3", (), ("0.2",), "compounded", "5/144", 10.78),
    "20 % then 1.33 (Param Visions)": ("1.33", ("0.2",), (), "compounded", "5/144", 11.03),
    "30 % then 1.25 (examination key)": ("1.25", ("0.3",), (), "compounded", "5/144", 11.23),
    "30 %, 1.25, 5 % (Civil Concept)": ("1.25", ("0.3",), ("0.05",), "compounded", "5/144", 11.79),
}


@checked("our arithmetic", "the allowances of eight published pages, each on the same wall of 1.2 m3")
@pytest.mark.parametrize("page", SUMS)
def test_the_same_wall_by_each_page(page: str) -> None:
    factor, before, after, how, bag, bags = SUMS[page]
    found = by_dry_volume(
        WET,
        exact(factor),
        (1, 4),
        before=[exact(x) for x in before],
        after=[exact(x) for x in after],
        how=how,  # type: ignore[arg-type]
        bag_m3=exact(bag),
    )
    assert float(found.bags) == pytest.approx(bags, abs=0.01)


@checked("our arithmetic", "unsigned site note, yield by mass: 0.153 m3 of mortar to a 50 kg bag at 1:4")
def test_the_same_wall_by_what_a_bag_yields() -> None:
    """No factor at all: 7.8 bags where the customs above run to 11.8."""
    label = BagLabel("mix", "bag", Quantity(exact("0.153"), unit("m3")))
    assert shown(bought(laid(exact(100), exact("0.012")), label)["bag"].exact) == pytest.approx(7.84, abs=0.01)


@checked("worked elsewhere", "unsigned site note (plaster of mix 1:4, 100 sq ft), mortar of the wall")
def test_mortar_of_the_site_notes_wall() -> None:
    assert float(laid(exact(10), exact("0.012")).coats[0].total) == pytest.approx(0.12, abs=0.001)
