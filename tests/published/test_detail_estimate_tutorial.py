"""A college tutorial on detail estimates: six rooms plastered inside."""

from __future__ import annotations

import pytest

from darby.quantities import Opening
from tests.published import checked
from tests.published.plaster_sums import exact, hole, laid

SOURCE = "Detail estimate tutorial (Scribd 790612013), question 1, item 4"
RUNS = ("16.4", "12.8", "14.2", "7.4", "5.8", "11.0")


@checked("worked elsewhere", SOURCE)
@pytest.mark.parametrize(("what", "printed"), [("off", 27.0), ("net", 209.6)])
def test_six_rooms(what: str, printed: float) -> None:
    """Inner doors show on two faces, and come off one: the rule for openings of 0.5 to 3 m2, a window of just 3 too."""
    openings = [
        *hole(2, "1.5", 4), *hole("1.5", "1.5"), *hole(1, "0.6", 2), *hole("1.2", "2.1", 2), *hole(1, "2.1"),
        *hole("0.9", "2.1"), Opening("last", exact("1.2") * exact("2.1")),
    ]  # fmt: skip
    gross = sum(exact(r) for r in RUNS) * exact("3.5")
    (area,) = laid(gross, openings=openings, faces=2, rule="is-1200-full").areas
    found = {"off": area.off, "net": area.area}
    assert float(found[what]) == pytest.approx(printed, abs=0.01)
