"""Jar tests of damp sand, and the water a damp pile brings to the mixer."""

from __future__ import annotations

import pytest

from darby import mix
from darby.measure.units import GAL, LB, unit
from darby.mix.gauging import damp_volume, water_to_add
from darby.rulebook import default
from darby.working import Given, Quantity, Working
from tests.published import checked

POUNDS, SHARE = unit("lb"), unit("%")


@checked(
    "worked elsewhere",
    "The Construction Civil; SlidePlayer site laboratory slides; a student report on Scribd: jar tests",
)
@pytest.mark.parametrize(
    ("damp", "dry", "percent", "within"),
    [
        (200, 160, 25.0, 0.01),
        (540, 430, 25.0, 0.6),  # 25.58; the slide cuts it to 25
        (320, 280, 14.25, 0.05),
        (331, 309, 7.11, 0.02),
        (368, 309, 19.1, 0.02),
        (400, 309, 29.44, 0.02),
        (380, 309, 22.97, 0.02),
        (381, 309, 23.3, 0.02),
    ],
)
def test_jars(damp: float, dry: float, percent: float, within: float) -> None:
    assert mix.bulking(damp, dry).value * 100 == pytest.approx(percent, abs=within)


@checked("our arithmetic", "FM 5-428, from memory: 10.5 cu ft of dry sand at 28 % takes 13.44 cu ft damp")
def test_damp_volume() -> None:
    found = damp_volume(Working(), "x", Quantity(10.5), Quantity(0.28, SHARE))
    assert found.value == pytest.approx(13.44)


def _added(wanted: float, gallon: Given, *wet: tuple[str, float, float]) -> float:
    """Water to add in m3 when all is in kg."""
    rows = [(name, Quantity(dry, POUNDS), Quantity(share, SHARE)) for name, dry, share in wet]
    return float(water_to_add(Working(), "x", "mix.water-usual", Quantity(wanted, POUNDS), rows, gallon, ()).value)


@checked("worked elsewhere", "Army EN5466, page 2-22: 38.6 gal less 35.36 and 64.98 lb in the aggregates is 26.6 gal")
def test_the_army_takes_off_what_the_aggregates_bring() -> None:
    gallon = default().number("mix.water.gallon")
    a_gallon, lb = 8.33 * float(LB), float(LB)
    added = _added(38.6 * a_gallon, gallon, ("coarse", 1768 * lb, 0.02), ("fine", 1083 * lb, 0.06))
    assert added / float(GAL) == pytest.approx(26.6, abs=0.1)


@checked(
    "worked elsewhere",
    "PCA comparison in Indian Concrete Journal, September 2010: 270 lb less 25.11 and 65.51 is 179.38 lb",
)
def test_the_association_counts_moisture_on_dry_mass() -> None:
    gallon = Quantity(1000, unit("lb/gal"))  # a kilogram to the litre, so that mass comes out as volume
    lb = float(LB)
    added = _added(270 * lb, gallon, ("coarse", 1674 * lb, 0.02 - 0.005), ("fine", 1236 * lb, 0.06 - 0.007))
    assert added * 1000 / lb == pytest.approx(179.38, abs=0.02)


@checked(
    "worked elsewhere", "CivilBlog, 2014, volume batching: 30 l less 4.2 and 2.1 is 23.7 l; 70 l of sand bulks to 84 l"
)
def test_a_volume_batch() -> None:
    gallon = Quantity(1000, unit("lb/gal"))
    added = _added(30, gallon, ("sand", 70, 0.06), ("stone", 140, 0.015))
    assert added * 1000 == pytest.approx(23.7, abs=0.001)
    assert damp_volume(Working(), "x", Quantity(70), Quantity(0.2, SHARE)).value == pytest.approx(84)


def test_wetter_than_wanted_adds_nothing() -> None:
    assert _added(1, Quantity(1000, unit("lb/gal")), ("sand", 100, 0.06)) == 0
