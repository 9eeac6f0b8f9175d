"""Estimating in Building Construction (Pearson): gypsum plaster on metal lath."""

from __future__ import annotations

import pytest

from darby.measure.units import FT, unit
from tests.published import checked
from tests.published.plaster_sums import exact, laid, shown

SOURCE = "Estimating in Building Construction, example 16-5 and figure 16.7"


@checked("worked elsewhere", SOURCE)
@pytest.mark.parametrize(("what", "printed", "within"), [("net", 20.8, 0.001), ("keys", 8, 0.001), ("order", 29, 0.21)])
def test_a_quarter_inch_on_100_square_yards_of_lath(what: str, printed: float, within: float) -> None:
    """The book's 5.2 cu ft to a sixteenth already carries waste: 100 sq yd of it lie 5.2 / 900 ft thick."""
    sixteenth = exact("5.2") / 900 * FT
    (coat,) = laid(100 * unit("sq yd").scale, 4 * sixteenth, lathed=True).coats
    keys = next(a for a in coat.allowances if a.name == "keys")
    found = {"net": coat.net, "keys": keys.volume, "order": coat.total}
    assert shown(found[what]) == pytest.approx(printed, abs=within)
