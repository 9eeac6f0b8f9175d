"""ASTM C1063 laps on a C847 sheet, as an article reports them."""

from __future__ import annotations

import pytest

from darby.quantities.lath import net_sheet
from darby.rulebook import default
from darby.working import Working
from tests.published import checked
from tests.published.plaster_sums import shown


@checked("our arithmetic", "C1063 laps of 1/2 and 1 in. on a 27 x 96 in. sheet: 26.5 x 95 / 144")
def test_net_sheet() -> None:
    assert shown(net_sheet(Working(), default(), "k")) == pytest.approx(17.48, abs=0.005)
