"""A quantity surveying assignment: one panel of plaster."""

from __future__ import annotations

import pytest

from tests.published import checked
from tests.published.plaster_sums import exact, laid


@checked("worked elsewhere", "Estimation and quantity surveying assignment (Scribd 315150285), plaster example")
def test_panel_of_2_by_1_5_m() -> None:
    (coat,) = laid(2 * exact("1.5"), exact("0.020")).coats
    assert float(coat.total) == pytest.approx(0.06, abs=1e-4)
