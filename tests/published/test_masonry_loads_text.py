"""A structural design text (pi.gr): loads of brick masonry."""

from __future__ import annotations

import pytest

from darby.quantities import Coat, VolumesAsk, Zone, volumes
from tests.published import checked
from tests.published.plaster_sums import exact, page_says


@checked("worked elsewhere", "pi.gr, Loads of brick masonry, figure 2.2.2.3-1, with g taken as 10")
def test_plaster_of_20_and_5_mm() -> None:
    """0.45 kN/m2 at 1.8 t/m3 and g = 10; 0.441 with 9.81."""
    book = page_says(thickness__weight="1800 kg/m3")
    coats = (Coat("base", exact("0.020"), "mix"), Coat("finish", exact("0.005"), "mix"))
    (area,) = volumes(VolumesAsk("w", (Zone("z", "block", exact(1), coats),), book=book))[0].areas
    assert area.weight is not None
    assert float(area.weight) * 10 / 1000 == pytest.approx(0.45, abs=0.005)
