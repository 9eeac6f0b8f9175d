"""Weights, densities, bags and measures of materials: each figure as its source prints or as it is remembered."""

from __future__ import annotations

import pytest

from darby import mix
from darby.mix import Measured
from darby.rulebook import default
from tests.mix.asking import cu_ft, printed
from tests.published import checked


@checked("copied figure", "ASTM C270 and PCA EB001, from memory")
@pytest.mark.parametrize(
    ("figure", "numbers"),
    [
        ("mix.unit-weight.lime.c270", (40,)),
        ("mix.unit-weight.sand.c270", (80,)),
        ("mix.unit-weight.masonry.c270", (70,)),
        ("mix.unit-weight.plastic.c270", (94,)),
        ("mix.air.most.c270", (12,)),
        ("mix.air.most.c270.masonry", (18,)),
        ("mix.sg.masonry.memory", (2.95,)),
        ("mix.sg.plastic.memory", (3.05,)),
        ("mix.water.density.eb001", (62.4,)),
    ],
)
def test_as_remembered(figure: str, numbers: tuple[float, ...]) -> None:
    assert printed(figure) == pytest.approx(numbers)
    assert default().figures[figure].standing == "memory"


@checked("copied figure", "Boral, Gillette and Hill, NAVEDTRA 14070, UFGS 09200A, Virtual Labs, 98905.com, SP 811")
@pytest.mark.parametrize(
    ("figure", "numbers"),
    [
        ("mix.sg.portland.page", (3.15,)),
        ("mix.sg.lime.boral", (2.3,)),
        ("mix.sg.sand.gillette", (2.65,)),
        ("mix.lime.loose-box.boral", (28, 31)),
        ("mix.water.gallon.navy", (8.33,)),
        ("mix.bag.lime.ufgs", (50,)),
        ("mix.sand.dampness.lab", (4, 6)),
        ("mix.bucket.98905", (0.75,)),
        ("mix.bucket.struck", (5,)),
    ],
)
def test_as_printed(figure: str, numbers: tuple[float, ...]) -> None:
    assert printed(figure) == pytest.approx(numbers)


# Working choices of the house: nobody published them; the test only keeps them from drifting unseen.
@pytest.mark.parametrize(
    ("figure", "numbers"),
    [
        ("mix.water.share.house", (14,)),
        ("mix.water.range.house", (12, 20)),
        ("mix.air.house", (5,)),
        ("mix.air.house.masonry", (12,)),
        ("mix.bucket.grain", (0.5,)),
        ("mix.shovel.grain", (1,)),
        ("mix.count.tolerance.house", (3,)),
        ("mix.propose.sand.place", (0.333333333,)),
        ("mix.propose.sand.step", (0.5,)),
        ("mix.propose.lime.place", (0.5,)),
        ("mix.propose.lime.step", (0.25,)),
        ("mix.propose.dash-bond", (1.5,)),
    ],
)
def test_choices_of_the_house(figure: str, numbers: tuple[float, ...]) -> None:
    assert printed(figure) == pytest.approx(numbers)
    assert default().figures[figure].standing == "common practice"


@checked("our arithmetic", "maker's 450 to 500 kg/m3 of loose hydrate is 28 to 31 lb/cu ft")
def test_the_loose_box_of_lime() -> None:
    assert [round(x * 0.062428, 1) for x in (450, 500)] == [28.1, 31.2]


# The yields below are the reference's own sums on the proportioning weights; their water is assumed there.
@checked("our arithmetic", "absolute volumes on C270's weights, 62.5 lb and 58.3 lb of water to the bag, 5 and 4 % air")
@pytest.mark.parametrize(
    ("parts", "water", "dry", "air", "expected"),
    [
        ({"portland": 1, "lime": 0.75, "sand": 5.25}, 62.5, 94 + 30 + 420, 0.05, 4.451),
        ({"portland": 1, "sand": 4}, 58.3, 94 + 320, 0.04, 3.487),
    ],
)
def test_a_bag_by_absolute_volumes(
    parts: dict[str, float], water: float, dry: float, air: float, expected: float
) -> None:
    assert cu_ft(mix.yield_of(parts, water=water / dry, air=air).volume) == pytest.approx(expected, abs=0.005)


@checked("our arithmetic", "Param Visions, 2020: water at 0.55 of the cement at 1 : 4 is 12 % of the dry weight")
def test_where_the_least_water_comes_from() -> None:
    # 15 m2 of 12 mm with a fifth extra, dry-volume factor 1.33, cement 1440 kg/m3: printed 82.7424 kg and 0.22984 m3
    made = mix.yield_of({"portland": 1, "sand": 4}, factor=1.33, measured=Measured(portland=1440))
    needs = mix.needs(made.materials, 0.216)
    assert needs["portland"] == pytest.approx(82.7424, abs=0.01)
    assert needs["sand_loose"] == pytest.approx(0.22984, abs=0.0001)
    share = 0.55 * needs["portland"] / (needs["portland"] + needs["sand_dry"])
    assert 100 * share == pytest.approx(printed("mix.water.range.house")[0], abs=0.1)
