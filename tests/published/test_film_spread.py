"""Spreading rate from film: the coating trade's 1604 x solids / mil."""

from __future__ import annotations

import pytest

from darby.measure.units import unit
from darby.quantities import Film
from darby.quantities.coating import film_spread
from darby.rulebook import default
from darby.working import Working
from tests.published import checked
from tests.published.plaster_sums import exact, shown


@checked("our arithmetic", "coverage formula of the coating trade, from memory: 1604 x solids / mil")
@pytest.mark.parametrize(("solids", "mil", "printed"), [("0.5", 20, 40.1), ("1", 1, 1604), ("0.5", 30, 26.7)])
def test_a_gallon_at_a_film(solids: str, mil: int, printed: float) -> None:
    film = Film(exact(solids), dry=mil * unit("mil").scale)
    assert shown(film_spread(Working(), default(), "k", film)) == pytest.approx(printed, rel=0.003)
