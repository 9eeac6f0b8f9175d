"""A public works composite schedule of 2012: mortar for 10 m2 of 13 mm plaster."""

from __future__ import annotations

from dataclasses import replace

import pytest

from darby.measure.units import unit
from tests.published import checked
from tests.published.plaster_sums import NOTHING, exact, laid, shown

SOURCE = "Rate analysis for cement plaster, composite schedule, details of cost for 10 m2 (Scribd 93775305)"


@checked("worked elsewhere", SOURCE)
@pytest.mark.parametrize(
    ("what", "printed"), [("net", 4.589), ("waste", 0.459), ("total", 5.048), ("cubic metres", 0.143)]
)
def test_10_square_metres(what: str, printed: float) -> None:
    """107.6 sq ft, 13 mm and ten percent of waste, of the net volume."""
    allow = replace(NOTHING, waste=exact("0.1"))
    (coat,) = laid(exact("107.6") * unit("sq ft").scale, exact("0.013"), allow=allow).coats
    waste = next(a for a in coat.allowances if a.name == "waste")
    found = {
        "net": shown(coat.net),
        "waste": shown(waste.volume),
        "total": shown(coat.total),
        "cubic metres": float(coat.total),
    }
    assert found[what] == pytest.approx(printed, abs=0.001)
