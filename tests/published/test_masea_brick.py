"""MASEA material database: water uptake of solid brick against a mineral base coat."""

import pytest

from tests.buildup.asking import BOOK, up
from tests.published import checked


@checked("our arithmetic", "MASEA, Brick 0.18 and ReinforcementPlaster 0.015 kg/m2 s^0.5: twelve times")
def test_brick_drinks_twelve_times_as_fast():
    assert pytest.approx(12) == 0.18 / 0.015
    figure = BOOK.rule("prep.brick-drinks").figure
    assert "twelve times" in figure.written
    answer = up(base="brick")
    assert answer.suction == "high"
    assert any(figure.id in n.rules for n in answer.notes)
