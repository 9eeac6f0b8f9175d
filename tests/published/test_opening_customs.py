"""Customs of openings as their sources state them: IS 1200, Greek, Chinese and old American practice."""

from __future__ import annotations

import pytest

from darby.measure.units import unit
from darby.quantities import Opening, Reveal
from tests.published import checked
from tests.published.plaster_sums import exact, hole, laid, shown


@checked("copied figure", "IS 1200, parts 12 and 13, deductions: up to 0.5, 0.5 to 3, over 3 m2; both faces alike")
@pytest.mark.parametrize(
    ("size", "off", "reveals"),
    [("0.5", 0, 0), ("0.51", 0.51, 0), ("3", 3, 0), ("3.01", 6.02, 0.3)],
)
def test_is_1200(size: str, off: float, reveals: float) -> None:
    sill = (Reveal("sill", exact(1), exact("0.3")),)
    (area,) = laid(exact(60), openings=hole(size, 1, 1, sill), faces=2, rule="is-1200-full").areas
    assert (float(area.off), float(area.reveals)) == pytest.approx((off, reveals))


@checked("copied figure", "Oikodomisis, Greek practice: up to 2.5 m2 not taken off, the void pays for the reveals")
@pytest.mark.parametrize(("size", "off", "reveals"), [("2.5", 0, 0), ("2.6", 2.6, 0.3)])
def test_greece(size: str, off: float, reveals: float) -> None:
    head = (Reveal("head", exact(1), exact("0.3")),)
    (area,) = laid(exact(60), openings=hole(size, 1, 1, head), rule="greece").areas
    assert (float(area.off), float(area.reveals)) == pytest.approx((off, reveals))


@checked("copied figure", "symoe.com: openings and single holes above 0.3 m2 are deducted")
@pytest.mark.parametrize(("size", "off"), [("0.3", 0), ("0.31", 0.31)])
def test_china(size: str, off: float) -> None:
    assert float(laid(exact(60), openings=hole(size, 1), rule="china").areas[0].off) == pytest.approx(off)


@checked(
    "copied figure", "Construction Superintendence, article 360: half; nothing under 60 sq ft; nothing under 7 sq yd"
)
@pytest.mark.parametrize(
    ("rule", "feet", "off"),
    [("half", 20, 10), ("us-60", 59, 0), ("us-60", 61, 61), ("us-7yd", 62, 0), ("us-7yd", 64, 64)],
)
def test_old_american_customs(rule: str, feet: int, off: float) -> None:
    door = Opening("door", feet * unit("sq ft").scale)
    assert shown(laid(exact(60), openings=[door], rule=rule).areas[0].off) == pytest.approx(off)
