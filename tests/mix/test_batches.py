from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby import mix
from darby.measure.faults import Unreadable
from darby.measure.limits import at_most
from darby.measure.units import GAL, LB
from darby.mix import BagSizes, Gauge, Measured, MixParts, OverMixer
from darby.mix.gauging import gauged
from tests.mix.asking import CU_FT, cu_ft, lb

PLASTER = MixParts(1, Fraction(3, 4), 5)
MIXER = 9 * CU_FT
BUCKET = Gauge("bucket", Fraction(7, 10) * CU_FT)


def test_the_largest_batch_by_hand() -> None:
    # 5 cu ft a bag / 0.70 = 7.14 buckets, 3.57 to half a bag: 3-1/2, 2 % short, so it is counted by the half bag.
    # 2 bags: 188 + 60 + 14 x 0.70 x 80 = 1032 lb; water 144.48; (59.68 + 26.09 + 295.85 + 144.48) / 59.28 = 8.875 cu ft
    batch = mix.batch(PLASTER, MIXER, gauge=BUCKET)
    assert batch.bags.value == 2 and batch.module == Fraction(1, 2)
    assert batch.sand is not None and batch.sand.count.value == 14 and batch.sand.count.unit.name == "buckets"
    assert lb(batch.sand.dry) == pytest.approx(784)
    assert lb(batch.sand.damp) == pytest.approx(784 * 1.05)
    assert cu_ft(batch.mortar) == pytest.approx(8.875, abs=0.001)
    portland, lime = batch.ingredients
    assert (lb(portland.mass), portland.bags.value) == pytest.approx((188, 2))
    assert (lb(lime.mass), lime.bags.value) == pytest.approx((60, 1.2))
    assert batch.ratio is not None and batch.ratio.value == pytest.approx(9.8 / 3.5)


def test_the_water_to_hold_back_by_hand() -> None:
    # all the water 12 %, 14 %, 20 % of 1032 lb, less 6 %, 5 %, 4 % of 784 lb in the sand, by the 8.33 lb gallon
    batch = mix.batch(PLASTER, MIXER, gauge=BUCKET)
    gallons = [float(q) / float(GAL) for q in (batch.water_least, batch.water_usual, batch.water_most) if q is not None]
    assert gallons == pytest.approx(
        [(123.84 - 47.04) / 8.33, (144.48 - 39.2) / 8.33, (206.4 - 31.36) / 8.33], abs=0.001
    )
    own = mix.batch(PLASTER, MIXER, gauge=BUCKET, measured=Measured(water=0.1))
    assert own.water_least is not None and own.water_usual is not None
    assert own.water_least.value < own.water_usual.value  # his own figure widens the span, it is not overruled


def test_an_explicit_batch_over_the_mixer_is_refused_with_half_a_bag_as_weighed() -> None:
    with pytest.raises(OverMixer) as refused:
        mix.batch(PLASTER, 4 * CU_FT, gauge=BUCKET, bags=2)
    fault = refused.value.fault
    assert (fault.code, fault.found, fault.allowed) == ("mix.batch-over-mixer", "2 bags = 8.87 cu ft", "4 cu ft")
    assert fault.nearest == "0.5 bags: portland 47 lb, lime 15 lb, sand 210 lb = 2.25 cu ft"
    assert isinstance(refused.value, Unreadable)
    half = refused.value.half_bag
    assert half.bags.value == Fraction(1, 2) and lb(half.ingredients[0].mass) == pytest.approx(47)
    # weighed, not counted: exactly 2-1/2 cu ft of sand, 200 lb dry and 5 % of water in it
    assert half.sand is not None and cu_ft(half.sand.volume) == pytest.approx(2.5)
    assert half.ratio is not None and half.ratio.value == pytest.approx(5 / 1.75)
    assert mix.batch(PLASTER, 4 * CU_FT, gauge=BUCKET).bags.value == Fraction(1, 2)


def test_a_mixer_too_small_for_half_a_bag() -> None:
    with pytest.raises(OverMixer):
        mix.batch(PLASTER, 1 * CU_FT)
    with pytest.raises(OverMixer):
        mix.batches(PLASTER, 1 * CU_FT, 1)


def test_bags_come_whole_or_half() -> None:
    with pytest.raises(Unreadable) as refused:
        mix.batch(PLASTER, MIXER, bags=Fraction(4, 3))
    assert (refused.value.fault.code, refused.value.fault.nearest) == ("mix.not-half-bags", "1 bag")
    with pytest.raises(Unreadable):
        mix.batch(PLASTER, MIXER, bags=0)


def test_without_a_mixer_one_bag_and_without_a_gauge_a_struck_bucket() -> None:
    batch = mix.batch(PLASTER)
    # 5 cu ft / 0.6684 = 7.48 buckets: 7-1/2 to the bag is 0.3 % off; 3-1/2 to half a bag would be 6 %
    assert batch.bags.value == 1 and batch.module == 1
    assert batch.sand is not None and batch.sand.count.value == Fraction(15, 2)


def test_shovels_are_counted_whole() -> None:
    batch = mix.batch(PLASTER, MIXER, gauge=Gauge("shovel", Fraction(19, 100) * CU_FT))
    # 2.5 cu ft to half a bag / 0.19 = 13.16: 13
    assert batch.sand is not None and batch.sand.count.value == 52 and batch.sand.count.unit.name == "shovels"


def test_another_lime_bag_and_no_sand() -> None:
    batch = mix.batch(PLASTER, MIXER, gauge=BUCKET, sizes=BagSizes(lime=25))
    assert batch.ingredients[1].bags.value == pytest.approx(60 * float(LB) / 25)
    paste = mix.batch({"portland": 1}, MIXER)
    assert paste.sand is None and paste.ratio is None and paste.mortar.value <= float(MIXER)


def test_part_batches_keep_the_proportions_to_the_digit() -> None:
    found = mix.batches(PLASTER, MIXER, 71 * CU_FT, gauge=BUCKET)
    full = mix.batch(PLASTER, MIXER, gauge=BUCKET)
    # 8 x 8.875 = 70.999: eight batches leave 0.004 cu ft, and half a bag more is 2.2 cu ft
    assert found.whole == 8 and found.last is not None
    assert found.last.bags.value == Fraction(1, 2)
    assert found.last.sand is not None and full.sand is not None
    assert found.last.sand.count.value * 4 == full.sand.count.value
    assert found.last.ratio is not None and found.last.ratio.value == pytest.approx(full.ratio.value)  # type: ignore[union-attr]


def test_no_man_mixes_five_bags_to_use_one() -> None:
    """1 cement, 1-1/2 sand, bucket 0.70 cu ft: half a bag takes 1.07 buckets, a bag 2.14, five 10.71."""
    dash = {"portland": 1, "sand": Fraction(3, 2)}
    full = mix.batch(dash, MIXER, gauge=BUCKET)
    # 10-1/2 for 10.71 is 2 % short; 1 for 1.07 and 2 for 2.14 are 7 %: only the whole batch keeps its count
    assert (full.bags.value, full.module) == (5, 5)
    found = mix.batches(dash, MIXER, Fraction(19, 10) * CU_FT, gauge=BUCKET)
    # 1-1/2 bags and 3 buckets: 141 + 3 x 0.70 x 80 = 309 lb; water 43.26;
    # (141/3.15 + 168/2.65 + 43.26) / 62.4 / 0.95 = 2.554 cu ft, and one bag less a half would make 1.7
    assert found.whole == 0 and found.last is not None and found.last.sand is not None
    assert (found.last.bags.value, found.last.sand.count.value) == (Fraction(3, 2), 3)
    assert cu_ft(found.last.mortar) == pytest.approx(2.554, abs=0.001)


def test_whole_batches_leave_no_crumb() -> None:
    full = mix.batch(PLASTER, MIXER, gauge=BUCKET)
    for n in range(1, 30):
        found = mix.batches(PLASTER, MIXER, full.mortar.value * n, gauge=BUCKET)
        assert (found.whole, found.last) == (n, None)


some = st.fractions(min_value=Fraction(1, 2), max_value=6, max_denominator=8)
mixtures = st.builds(MixParts, st.just(1), st.fractions(min_value=0, max_value=2, max_denominator=4), some)
mixers = st.fractions(min_value=3, max_value=20, max_denominator=4)
holds = st.fractions(min_value=Fraction(1, 10), max_value=1, max_denominator=20)


@settings(max_examples=60, deadline=None)
@given(mixtures, mixers, holds, st.sampled_from(("bucket", "shovel")), st.floats(0.01, 40))
def test_batches_make_the_volume_and_never_exceed_the_mixer(
    parts: MixParts, mixer: Fraction, hold: Fraction, kind: str, volume: float
) -> None:
    gauge = Gauge(kind, hold * CU_FT)  # type: ignore[arg-type]
    try:
        full = mix.batch(parts, mixer * CU_FT, gauge=gauge)
    except OverMixer:  # only where not even the least that can be counted goes in
        roomy = mix.batch(parts, 1000 * CU_FT, gauge=gauge)
        assert not at_most(roomy.mortar.value * float(roomy.module / roomy.bags.value), mixer * CU_FT)
        return
    assert at_most(full.mortar.value, mixer * CU_FT)
    found = mix.batches(parts, mixer * CU_FT, volume, gauge=gauge)
    last = found.last.mortar.value if found.last is not None else 0
    total = found.whole * full.mortar.value + last
    assert found.mortar.value == pytest.approx(total)
    a_module = full.mortar.value * float(full.module) / float(full.bags.value)
    assert at_most(volume, total) and total < volume + a_module * (1 + 1e-6)
    if found.last is not None:
        assert found.last.bags.value < full.bags.value
    if found.last is not None and full.module < full.bags.value:
        assert found.last.mortar.value == pytest.approx(a_module * float(found.last.bags.value / full.module))
        assert found.last.ratio.value == pytest.approx(full.ratio.value)  # type: ignore[union-attr]


@settings(max_examples=60, deadline=None)
@given(mixtures, mixers, st.integers(1, 60))
def test_an_explicit_batch_fits_or_is_refused(parts: MixParts, mixer: Fraction, halves: int) -> None:
    bags = Fraction(halves, 2)
    try:
        batch = mix.batch(parts, mixer * CU_FT, bags=bags)
    except OverMixer as refused:
        assert refused.fault.nearest
        best = None
        try:
            best = mix.batch(parts, mixer * CU_FT)
        except OverMixer:
            assert cu_ft(refused.half_bag.mortar) > 0
        assert best is None or best.bags.value < bags
        return
    assert batch.bags.value == bags and at_most(batch.mortar.value, mixer * CU_FT)


@given(st.floats(0.01, 10), st.floats(1, 3))
def test_bulking_turns_back_into_the_damp_height(flooded: float, times: float) -> None:
    assert mix.bulking(flooded * times, flooded).value == pytest.approx(times - 1, abs=1e-9)


def test_one_measure_is_the_box_by_the_count() -> None:
    """A box of 1 cu ft is filled by 8 shovels: each an eighth."""
    assert gauged(1 * CU_FT, Fraction(8)) == CU_FT / 8


@pytest.mark.parametrize(("box", "count"), [(0, 8), (-1, 8), (1, 0), (1, -8)])
def test_a_box_or_a_count_of_nothing_measures_nothing(box: int, count: int) -> None:
    with pytest.raises(Unreadable) as refused:
        gauged(box * CU_FT, Fraction(count))
    assert refused.value.fault.code == "mix.no-measure"


def test_a_jar_that_cannot_be() -> None:
    for damp, flooded in ((100, 0), (100, 120), (100, -1)):
        with pytest.raises(Unreadable):
            mix.bulking(damp, flooded)
