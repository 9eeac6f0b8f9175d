"""Cement and sand of a volume of mortar by a dry-volume factor: three pages that work it out. A custom, not ours."""

from __future__ import annotations

import pytest

from darby import mix
from darby.measure.limits import whole
from darby.measure.units import FT
from darby.mix import BagLabel, CoatNeed, Measured, MixAsk, mixes
from darby.rulebook import default
from tests.published import checked

CU_FT_PER_M3 = 35.3147


@checked("worked elsewhere", "We Civil Engineers, rate analysis of cement mortar: one cubic metre of 1 : 6, dry 1.33")
def test_a_cubic_metre_of_one_to_six() -> None:
    own = Measured(portland=1440, sand=1920)
    made = mix.yield_of({"portland": 1, "sand": 6}, factor=1.33, measured=own)
    needs = mix.needs(made.materials, 1)
    assert needs["portland"] / 1440 == pytest.approx(0.19, abs=0.001)
    assert needs["portland"] == pytest.approx(273.6, abs=0.1)
    assert needs["portland"] / 50 == pytest.approx(5.472, abs=0.001)
    assert needs["sand_loose"] == pytest.approx(1.14, abs=0.001)
    assert needs["sand_loose"] * CU_FT_PER_M3 == pytest.approx(40.258, abs=0.01)
    # the page prints 2380.8 kg of sand; its own 1.14 m3 x 1920 kg/m3 is 2188.8 kg
    assert needs["sand_dry"] == pytest.approx(2188.8, abs=0.1)
    assert "mix.by-factor" in {n.code for n in made.notes}


@checked("worked elsewhere", "Estimation quiz 2018 (W. A. N. Al-Halfi), item 1: V = 0.75 (C + S), 9.67173 m3 of 1 : 3")
def test_voids_of_one_quarter() -> None:
    own = Measured(portland=1400)
    needs = mix.needs(mix.yield_of({"portland": 1, "sand": 3}, factor=1 / 0.75, measured=own).materials, 9.67173)
    assert needs["portland"] / 1400 == pytest.approx(3.22391, abs=0.0001)
    assert whole(needs["portland"] / 50) == 91
    assert needs["sand_loose"] == pytest.approx(9.672, abs=0.001)


@checked("worked elsewhere", "Engineering Basic, bags of cement per unit area: 7.67 bags to 100 m2 of 12 mm")
def test_area_to_a_bag_and_back() -> None:
    bag = mix.Materials(bag=mix.model.Quantity(100 * 0.012 / 7.67))  # type: ignore[attr-defined]
    assert float(bag.bag.value) / 0.012 == pytest.approx(13.04, abs=0.01)  # type: ignore[union-attr]
    assert mix.needs(bag, 50 * 0.012)["bags"] == pytest.approx(3.83, abs=0.01)


@checked("worked elsewhere", "Fine Homebuilding forum, 2002: 400 yd2 at 5 and at 10 yd2 a sack are 80 and 40 sacks")
@pytest.mark.parametrize(("cover", "sacks"), [(5, 80), (10, 40)])
def test_sacks_for_a_house(cover: int, sacks: int) -> None:
    # cover is printed per sack, whatever the thickness: any thickness gives the same sacks
    thickness, square_yard = FT / 24, 9 * FT**2
    label = BagLabel("sack", "a sack", 43, cover * square_yard * thickness)
    need = CoatNeed("house", "base", volume=400 * square_yard * thickness, bagged=label)
    found = mixes(MixAsk(default(), (need,), mixer=9 * FT**3))[0].of("house")
    assert found.batch is not None and found.batches is not None
    last = found.batches.last.bags.value if found.batches.last is not None else 0
    assert found.batches.whole * found.batch.bags.value + last == sacks
