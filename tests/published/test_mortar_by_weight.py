"""Mortar reckoned by weight: what goes in over what the fresh mix weighs; mixes by weight as parts by volume."""

from __future__ import annotations

import pytest

from darby import mix
from darby.measure.limits import whole
from darby.mix import BagSizes, Measured
from darby.mix.gauging import up_to
from darby.mix.proportions import three_times
from darby.rulebook import default
from darby.working import Quantity, Working
from tests.published import checked


@checked(
    "worked elsewhere", "unsigned site note on 1 : 4 plaster for 100 sq ft, steps 3 and 4: yield by the fresh weight"
)
def test_yield_of_a_bag_by_mass() -> None:
    own = Measured(portland=50 / 0.036, sand=1600, water=0.2, density=2200)
    made = mix.yield_of({"portland": 1, "sand": 4}, measured=own, bags=BagSizes(portland=50))
    sand = made.mass("sand")
    assert sand is not None
    assert float(sand) == pytest.approx(230, abs=0.5)
    assert float(made.water) == pytest.approx(56, abs=0.5)
    assert 50 + float(sand) + float(made.water) == pytest.approx(336, abs=0.6)
    assert float(made.volume) == pytest.approx(0.153, abs=0.0005)
    wall = mix.needs(made.materials, 0.12)
    assert wall["sand_dry"] == pytest.approx(180, abs=1)
    assert wall["water"] * 1000 == pytest.approx(44, abs=0.5)


@checked(
    "worked elsewhere",
    "zhclg.com, calculating materials by weight: 772 kg of 1 : 2 : 4 cement, lime, sand in 25 kg bags",
)
def test_a_block_wall_by_weight() -> None:
    kg = mix.split({"portland": 1, "lime": 2, "sand": 4}, 772)
    assert kg["portland"] == pytest.approx(110, abs=0.5)
    assert kg["portland"] / 25 == pytest.approx(4.4, abs=0.02)
    assert kg["lime"] == pytest.approx(221, abs=0.6)
    assert kg["sand"] == pytest.approx(441, abs=0.6)
    assert [whole(kg[m] / 25) for m in ("portland", "lime", "sand")] == [5, 9, 18]


@checked(
    "worked elsewhere",
    "Gillette and Hill, 1908: 1 : 2 by weight, sand at 90 lb, a barrel of 4 cu ft, is 1 : 2.11 by volume",
)
def test_parts_by_weight_as_parts_by_volume() -> None:
    parts = mix.by_weight({"portland": 380, "sand": 2 * 380}, {"portland": 380 / 4, "sand": 90})
    assert parts.sand == pytest.approx(2.11, abs=0.005)
    assert float(parts.sand) * 4 == pytest.approx(8.44, abs=0.005)


@checked("worked elsewhere", "Atlas Portland Cement, Home and Farm, Table III and its example: a silo")
def test_a_silo_rounded_up_to_the_half() -> None:
    per_cu_ft = {"1:2:4": (0.058, 0.0163), "1:2.5:5": (0.048, 0.0176), "1:1": (0.1856, 0.0263)}
    volume = {"1:2:4": 750, "1:2.5:5": 185, "1:1": 400 / 15}
    barrels = sand = 0.0
    for mixture, (cement, loose) in per_cu_ft.items():
        a_cubic_foot = mix.Materials(portland=Quantity(cement), sand_loose=Quantity(loose))
        needs = mix.needs(a_cubic_foot, volume[mixture])
        barrels, sand = barrels + needs["portland"], sand + needs["sand_loose"]
    assert barrels == pytest.approx(57.33, abs=0.02)
    assert (up_to(barrels, 0.5), up_to(sand, 0.5)) == (57.5, 16.5)


@checked("worked elsewhere", "Graymont, mixing cement-lime mortars: 1 : 2 of cement and lime takes 9 of sand")
def test_the_old_rule_of_three() -> None:
    parts = mix.MixParts(portland=1, lime=2)
    assert three_times(Working(), "x", parts, default()).value == pytest.approx(9)
