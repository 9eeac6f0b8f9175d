"""Chicago Tribune, 29 September 2000: how much paint do you need?"""

from __future__ import annotations

import pytest

from darby.measure.units import unit
from tests.published import checked
from tests.published.plaster_sums import bought, laid, page_says, shown

SOURCE = "Chicago Tribune 2000: How much paint do you need?, exterior guide, steps 1 to 4"


@checked("worked elsewhere", SOURCE)
def test_gallons() -> None:
    book = page_says(coating__spread__prime="400 sq ft/gal")
    paint = bought(laid(3020 * unit("sq ft").scale, paint=1, book=book), book=book)["paint"]
    assert shown(paint.needed) == pytest.approx(7.55, abs=0.001)
