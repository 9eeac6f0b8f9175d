"""eNotes: an answered question on a room to be painted."""

from __future__ import annotations

import pytest

from darby.measure.units import unit
from tests.published import checked
from tests.published.plaster_sums import bought, laid, page_says, shown


@checked("worked elsewhere", "eNotes 368150: a gallon of paint can cover 800 square feet, first answer")
def test_walls_and_ceiling_in_two_coats() -> None:
    """The question asks for the walls only, the answer adds the ceiling."""
    book = page_says(coating__spread__prime="800 sq ft/gal", coating__spread__second="800 sq ft/gal")
    room = laid((2 * (18 + 16) * 8 + 18 * 16) * unit("sq ft").scale, paint=2, book=book)
    assert shown(bought(room, book=book)["paint"].needed) == pytest.approx(2.08, abs=0.001)


@checked("our arithmetic", "eNotes 368150: the same question as it was asked, walls only")
def test_walls_only() -> None:
    book = page_says(coating__spread__prime="800 sq ft/gal", coating__spread__second="800 sq ft/gal")
    room = laid(2 * (18 + 16) * 8 * unit("sq ft").scale, paint=2, book=book)
    assert shown(bought(room, book=book)["paint"].needed) == pytest.approx(1.36, abs=0.001)
