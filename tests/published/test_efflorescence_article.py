"""Efflorescence in stucco, a plaster maker's article citing T. Ritchie, NRC Canada: stop the water first."""

import pytest

from tests.buildup.asking import BOOK, inch, up
from tests.published import checked


@checked("copied figure", "Efflorescence in stucco: salts, water, a path; stop the water, do not coat over it")
@pytest.mark.parametrize(
    ("code", "fields"),
    [("earth-behind", {"retains": inch("36")}), ("sprinklers", {"sprinklers": True}),
     ("place.planter", {"place": "planter"})],
)  # fmt: skip
def test_water_is_stopped_first(code, fields):
    figure = BOOK.rule("prep.water-behind").figure
    assert "stop the water" in figure.written
    (note,) = (n for n in up(**fields).notes if n.code == f"buildup.{code}")
    assert (note.grade, note.rules) == ("caution", (figure.id,))
