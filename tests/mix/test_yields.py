from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby import mix
from darby.measure.faults import Unreadable
from darby.measure.units import LB
from darby.mix import BagSizes, Measured, MixParts
from darby.working import Working
from tests.mix.asking import LB_CU_FT, cu_ft, lb

PLASTER = MixParts(1, Fraction(3, 4), 5)
some = st.fractions(min_value=Fraction(1, 4), max_value=8, max_denominator=8)
mixtures = st.builds(MixParts, some, st.fractions(min_value=0, max_value=2, max_denominator=8), some)


def test_a_bag_by_hand() -> None:
    # 94 lb + 30 lb + 400 lb = 524 lb dry; 14 % = 73.36 lb of water.
    # (94/3.15 + 30/2.3 + 400/2.65 + 73.36) / 62.4 / 0.95 = (29.84 + 13.04 + 150.94 + 73.36) / 59.28 = 4.507 cu ft
    made = mix.yield_of(PLASTER)
    assert cu_ft(made.volume) == pytest.approx(4.507, abs=0.001)
    assert lb(made.mass("lime")) == pytest.approx(30)
    assert lb(made.mass("sand")) == pytest.approx(400)
    assert lb(made.water) == pytest.approx(73.36)
    assert cu_ft(made.sand_loose) == pytest.approx(5)


def test_a_cubic_metre_of_mortar_adds_up_to_its_weight() -> None:
    made = mix.yield_of(PLASTER)
    m = made.materials
    assert m.portland and m.lime and m.sand_dry and m.sand_loose and m.water
    dry = float(m.portland) + float(m.lime) + float(m.sand_dry)
    # water by the gallon: 8.33 lb, against 62.4 lb/cu ft in the sum of volumes (0.1 % apart)
    assert dry + float(m.water) * 998.15 == pytest.approx(float(made.density), rel=1e-4)
    assert float(m.sand_loose) == pytest.approx(5 / 4.507, abs=0.001)
    assert mix.needs(m, 2)["portland"] == pytest.approx(2 * float(m.portland))


def test_the_fresh_weight_gives_the_yield_and_finds_the_air() -> None:
    assumed = mix.yield_of(PLASTER)
    weighed = mix.yield_of(PLASTER, density=assumed.density.value)
    assert weighed.volume.value == pytest.approx(assumed.volume.value)
    assert weighed.air is not None and weighed.air.value == pytest.approx(0.05)
    assert not [n for n in weighed.notes if n.code == "mix.yield-assumed"]
    heavy = mix.yield_of(PLASTER, density=2600)
    assert [n.code for n in heavy.notes] == ["mix.heavier-than-solid"]
    light = mix.yield_of(PLASTER, density=1700)
    assert [n.code for n in light.notes] == ["mix.air-over"]


def test_what_he_measured_is_used_and_noted_against_the_book() -> None:
    own = Measured(sand=90 * LB_CU_FT)
    made = mix.yield_of(PLASTER, measured=own)
    assert lb(made.mass("sand")) == pytest.approx(450)
    (note,) = [n for n in made.notes if n.code == "mix.own-weight-sand"]
    assert note.rules == ("mix.unit-weight.sand.c270",)
    assert {n.code for n in mix.yield_of(PLASTER, air=0.04, water=0.15).notes} == {"mix.own-air", "mix.own-water"}


def test_another_bag_makes_as_much_mortar_by_weight() -> None:
    us, metric = mix.yield_of(PLASTER), mix.yield_of(PLASTER, bags=BagSizes(portland=50))
    assert metric.volume.value / 50 == pytest.approx(us.volume.value / float(94 * LB))
    assert metric.materials.portland is not None and us.materials.portland is not None
    assert metric.materials.portland.value == pytest.approx(us.materials.portland.value)


def test_masonry_cement_holds_more_air_and_its_bag_weight_is_asked_for() -> None:
    made = mix.yield_of({"masonry cement": 1, "sand": 3})
    assert made.air is not None and made.air.value == pytest.approx(0.12)
    assert lb(made.bag) == pytest.approx(70)
    assert "mix.bag-weight-rules" in {n.code for n in made.notes}
    # (70/2.95 + 240/2.65 + 43.4) / 62.4 / 0.88 = 157.7 / 54.91 = 2.871 cu ft
    assert cu_ft(made.volume) == pytest.approx(2.871, abs=0.001)


def test_plastic_cement_by_hand() -> None:
    # 94 + 320 = 414 lb; water 57.96; (94/3.05 + 320/2.65 + 57.96) / 62.4 / 0.88 = 209.53 / 54.912 = 3.816 cu ft
    assert cu_ft(mix.yield_of({"plastic cement": 1, "sand": 4}).volume) == pytest.approx(3.816, abs=0.001)


def test_every_number_of_a_yield_is_a_step() -> None:
    working = Working()
    made = mix.yield_of(PLASTER, working=working)
    for quantity in (made.volume, made.water, made.density, made.materials.portland, made.materials.water):
        assert quantity is not None and working.steps[quantity.key].value == quantity.value
    used = {rule for step in working.steps.values() for rule in step.rules}
    assert {"mix.unit-weight.sand.c270", "mix.sg.portland.page", "mix.water.share.house", "mix.air.house"} <= used


@given(mixtures, st.floats(0, 0.4), st.floats(0.001, 0.4))
def test_more_air_makes_more_mortar(parts: MixParts, air: float, more: float) -> None:
    low, high = mix.yield_of(parts, air=air).volume.value, mix.yield_of(parts, air=air + more).volume.value
    assert high > low


@given(mixtures, st.floats(0, 0.4), st.floats(0.001, 0.4))
def test_more_water_makes_more_mortar(parts: MixParts, water: float, more: float) -> None:
    low, high = mix.yield_of(parts, water=water).volume.value, mix.yield_of(parts, water=water + more).volume.value
    assert high > low


@given(mixtures, st.fractions(min_value=Fraction(1, 4), max_value=4, max_denominator=8))
def test_parts_are_proportions_only(parts: MixParts, times: Fraction) -> None:
    grown = MixParts(parts.portland * times, parts.lime * times, parts.sand * times)
    assert mix.yield_of(grown).volume.value == pytest.approx(mix.yield_of(parts).volume.value)


@given(mixtures)
def test_mortar_is_never_less_than_its_solids_and_water(parts: MixParts) -> None:
    made = mix.yield_of(parts)
    solid = sum(float(m) / g for (_, m), g in zip(made.masses, _gravities(made.masses), strict=True)) / 999.6
    assert made.volume.value > solid + float(made.water) / 1001


def _gravities(masses: tuple[tuple[str, object], ...]) -> list[float]:
    return [{"portland": 3.15, "lime": 2.3, "sand": 2.65}[name] for name, _ in masses]


@pytest.mark.parametrize(
    "wrong",
    [{"air": 1}, {"air": -0.1}, {"water": 2}, {"density": 0}, {"factor": -1}, {"measured": Measured(sand=0)},
     {"density": float("nan")}],
)  # fmt: skip
def test_what_cannot_be_is_refused(wrong: dict[str, object]) -> None:
    with pytest.raises(Unreadable) as refused:
        mix.yield_of(PLASTER, **wrong)  # type: ignore[arg-type]
    assert refused.value.fault.code in ("mix.no-share", "mix.no-weight")


def test_by_weight_and_split() -> None:
    assert mix.by_weight({"portland": 94, "sand": 240}, {"portland": 94, "sand": 80}) == MixParts(1, 0, 3)
    assert mix.split({"portland": 1, "sand": 3}, 8) == {"portland": 2, "sand": 6}
