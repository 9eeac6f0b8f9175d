"""Dates of coats from published waits, through the plan. Not counted as published checks: the build-up room counts
the same waits (tests/published), this shows that the plan keeps them."""

from datetime import date
from fractions import Fraction

from darby.days import visits
from darby.days.model import CoatTime, SurfaceTime, VisitsAsk
from darby.measure.units import unit
from darby.rulebook import default
from darby.working import Quantity

H, DAY = 3600, 86_400


def coats(*waits):
    hour = Quantity(Fraction(H), unit("h"))
    rows = [CoatTime(name, hours=hour, wait_least=wait) for name, wait in zip(("scratch", "brown"), waits, strict=True)]
    surface = SurfaceTime("wall", (*rows, CoatTime("finish", hours=hour)))
    answer, _ = visits(VisitsAsk(default(), date(2026, 6, 1), 3, 8 * H, (surface,)))
    return answer.coats


def test_three_coats_by_the_code():
    """IRC R703.7.5, third-party transcription: 48 h to the brown coat, 7 days to the finish."""
    scratch, brown, finish = coats(48 * H, 7 * DAY)
    assert (scratch.first, scratch.next_from) == (date(2026, 6, 1), date(2026, 6, 3))
    assert brown.next_from == finish.first == date(2026, 6, 10)


def test_three_coats_by_the_bureau():
    """Northwest Wall and Ceiling Bureau, as reported by a plasterer: 10 days to the finish."""
    _, brown, finish = coats(48 * H, 10 * DAY)
    assert brown.next_from == date(2026, 6, 13)
    assert finish.first == date(2026, 6, 15)  # the 13th is a Saturday


def test_three_coats_by_the_federal_guide():
    """UFGS 09225, 3.7.2 to 3.7.5: 72 h of fog cure for scratch and for brown."""
    scratch, brown, _ = coats(72 * H, 72 * H)
    assert scratch.next_from == brown.first == date(2026, 6, 4)
    assert brown.next_from == date(2026, 6, 7)


def test_the_federal_guide_with_the_code_on_top():
    """UFGS 09225 with the code's 7 days, which govern the finish."""
    _, brown, finish = coats(72 * H, max(72 * H, 7 * DAY))
    assert brown.next_from == finish.first == date(2026, 6, 11)
