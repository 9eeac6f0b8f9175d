"""Baggot Painters, Dublin: how much paint do I need."""

from __future__ import annotations

import pytest

from darby.measure.units import unit
from darby.quantities import Buy
from tests.published import checked
from tests.published.plaster_sums import LITRE, bought, exact, hole, laid, page_says, shown

SOURCE = "Baggot Painters: How much paint do I need (walls), steps 1 to 7"


@checked("worked elsewhere", SOURCE)
@pytest.mark.parametrize(("what", "printed"), [("net", 35), ("two coats", 70), ("tins", 1)])
def test_lounge(what: str, printed: float) -> None:
    book = page_says(coating__spread__prime="16 m2/L", coating__spread__second="16 m2/L")
    room = laid(2 * (5 + 4) * exact("2.5"), openings=hole(10, 1), paint=2, book=book)
    (area,) = room.areas
    paint = bought(room, buys=(Buy("paint", 5 * LITRE, unit("L"), "tin"),), book=book)["paint"]
    found = {
        "net": float(area.area),
        "two coats": float(paint.needed) / float(LITRE) * 16,
        "tins": shown(paint.packages),
    }
    assert found[what] == pytest.approx(printed)


@checked("our arithmetic", f"{SOURCE}: 70 m2 at 16 m2 a litre")
def test_litres() -> None:
    book = page_says(coating__spread__prime="16 m2/L", coating__spread__second="16 m2/L")
    room = laid(exact(35), paint=2, book=book)
    assert float(bought(room, book=book)["paint"].needed) / float(LITRE) == pytest.approx(4.375)
