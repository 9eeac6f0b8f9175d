from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from darby.measure.faults import Unreadable
from darby.measure.units import GAL, LB, unit
from darby.mix import BagLabel, BagSizes, CoatNeed, Gauge, Measured, MixAsk, MixParts, mixes
from darby.rulebook import default
from darby.working import Quantity
from tests.mix.asking import CU_FT, cu_ft

FLOAT = BagLabel(
    "float-finish", "Cement float finish, bagged", 80 * LB, Fraction(3, 4) * CU_FT, Fraction(3, 2) * GAL, 5400
)
ASK = MixAsk(
    book=default(),
    coats=(
        CoatNeed("job/mix/brown", "brown", "none", 3.0),
        CoatNeed("job/mix/scratch", "scratch", "none", 2.0),
        CoatNeed("job/mix/base", "base", "high", 2.0, MixParts(1, Fraction(3, 4), 5)),
        CoatNeed("job/mix/finish", "finish", "usual", 0.4, None, FLOAT),
        CoatNeed("job/mix/dash-bond", "dash-bond", "low"),
    ),
    mixer=9 * CU_FT,
    gauge=Gauge("bucket", Fraction(7, 10) * CU_FT),
)


def test_every_coat_is_answered_in_the_order_asked() -> None:
    answer, working = mixes(ASK)
    assert [c.id for c in answer.coats] == [need.id for need in ASK.coats]
    assert answer.of("job/mix/base").parts == MixParts(1, Fraction(3, 4), 5)
    assert not answer.of("job/mix/base").proposed and answer.of("job/mix/scratch").proposed
    assert all(key.startswith("job/mix/") for key in working.steps)
    assert {n.code for n in answer.notes} == {"mix.time", "mix.wet-cement", "mix.dust"}
    with pytest.raises(KeyError):
        answer.of("job/mix/lace")


def test_what_is_said_of_skin_and_dust_stands_on_the_safety_administrations_rules() -> None:
    answer, _ = mixes(ASK)
    rules = {n.code: n.rules for n in answer.notes}
    assert rules["mix.wet-cement"] == ("mix.safety.skin",) and rules["mix.dust"] == ("mix.safety.dust",)
    book = default()
    assert "wash off" in book.rule("mix.safety.skin").figure.written
    assert "silica" in book.rule("mix.safety.dust").figure.written


def test_equal_asks_are_equal_and_give_equal_answers() -> None:
    again = replace(ASK, coats=tuple(ASK.coats))
    assert again == ASK and hash(again) == hash(ASK)
    assert mixes(again)[0] == mixes(ASK)[0]


def test_a_brown_coat_looks_at_its_scratch_coat_wherever_it_stands() -> None:
    codes = {n.code for n in mixes(ASK)[0].of("job/mix/brown").notes}
    assert "mix.brown-leaner" in codes
    lean = MixParts(1, 1, 8)
    ask = replace(
        ASK,
        coats=(
            CoatNeed("a/1", "brown", "high", 0, MixParts(1, 1, 6), over="a/2"),
            CoatNeed("a/2", "scratch", "high", 0, lean),
        ),
    )
    assert "mix.brown-richer" in {n.code for n in mixes(ask)[0].of("a/1").notes}


def test_an_early_call_has_no_volume_and_no_number_of_batches() -> None:
    early = mixes(replace(ASK, coats=tuple(replace(c, volume=0) for c in ASK.coats)))[0]
    late = mixes(ASK)[0]
    for coat in ("job/mix/base", "job/mix/finish"):
        assert early.of(coat).batches is None and late.of(coat).batches is not None
        assert early.of(coat).materials == late.of(coat).materials
        assert early.of(coat).batch == late.of(coat).batch


def test_a_bagged_material_goes_by_its_label() -> None:
    finish = mixes(ASK)[0].of("job/mix/finish")
    assert finish.parts is None and finish.bagged == FLOAT and finish.made is None
    assert finish.batch is not None and finish.batch.bags.value == 12  # 9 / 0.75
    assert finish.batch.water_usual is not None and finish.batch.water_usual.value == pytest.approx(float(18 * GAL))
    assert finish.batches is not None and (finish.batches.whole, finish.batches.last.bags.value) == (1, 7)  # type: ignore[union-attr]
    assert finish.use_within.value == 5400
    assert finish.materials.bag is not None and cu_ft(finish.materials.bag) == pytest.approx(0.75)
    assert finish.materials.water is not None
    assert float(finish.materials.water) == pytest.approx(1.5 * 231 / 1728 / 0.75)


def test_a_label_without_water_or_time() -> None:
    bare = replace(FLOAT, water=None, use_within=None)
    finish = mixes(replace(ASK, coats=(CoatNeed("f", "finish", bagged=bare),)))[0].of("f")
    assert "mix.label-no-water" in {n.code for n in finish.notes}
    assert finish.batch is not None and finish.batch.water_usual is None
    assert finish.use_within.value == pytest.approx(2.5 * 3600)


def test_a_bag_larger_than_the_mixer_and_no_mixer() -> None:
    big = replace(FLOAT, yields=6 * CU_FT)
    need = CoatNeed("f", "finish", volume=1.0, bagged=big)
    half = mixes(replace(ASK, coats=(need,), mixer=4 * CU_FT))[0].of("f")
    assert half.batch is not None and half.batch.bags.value == Fraction(1, 2)
    none = mixes(replace(ASK, coats=(need,), mixer=2 * CU_FT))[0].of("f")
    assert none.batch is None
    (over,) = (dict(n.values) for n in none.notes if n.code == "mix.half-bag-over")
    assert (cu_ft(over["mortar"]), cu_ft(over["mixer"])) == pytest.approx((3, 2))  # half of 6 cu ft
    one = mixes(replace(ASK, coats=(need,), mixer=None))[0].of("f")
    assert one.batch is not None and one.batch.bags.value == 1
    site = mixes(replace(ASK, mixer=1 * CU_FT))[0].of("job/mix/base")
    assert site.batch is None and site.batches is None and site.half_bag is not None
    assert [n.grade for n in site.notes if n.code == "mix.half-bag-over"] == ["stop"]


def test_use_within_says_that_it_is_from_memory() -> None:
    base = mixes(ASK)[0].of("job/mix/base")
    (note,) = [n for n in base.notes if n.code == "mix.use-within"]
    figures = [default().figures[rule] for rule in note.rules]
    assert [f.standing for f in figures] == ["memory", "read"]
    assert base.use_within.value == pytest.approx(9000)


def test_an_uncalibrated_or_unlikely_bucket_is_said() -> None:
    def said(gauge: Gauge) -> set[str]:
        return {n.code for n in mixes(replace(ASK, gauge=gauge))[0].of("job/mix/base").notes}

    assert "mix.bucket-not-gauged" in said(Gauge())
    assert "mix.bucket-not-five" in said(Gauge("bucket", CU_FT))
    assert not {c for c in said(ASK.gauge) if "bucket" in c}
    assert {"mix.shovel-not-gauged", "mix.by-shovel"} <= said(Gauge("shovel"))
    # one and a half bags want 7.5 cu ft of sand, and the nearest half count of 2.9 cu ft is 2-1/2, 3.3 % short
    assert "mix.count-off" in said(Gauge("bucket", Fraction(29, 10) * CU_FT))
    assert "mix.count-off" not in said(ASK.gauge)
    with pytest.raises(Unreadable):
        said(Gauge("bucket", 0))


def test_labels_that_cannot_be() -> None:
    for bad in (replace(FLOAT, mass=0), replace(FLOAT, yields=-1), replace(FLOAT, yields=float("inf"))):
        with pytest.raises(Unreadable):
            mixes(replace(ASK, coats=(CoatNeed("f", "finish", bagged=bad),)))


def test_nothing_asked() -> None:
    answer, working = mixes(replace(ASK, coats=()))
    assert answer.coats == () and not working.steps and not working.notes


def test_his_own_bags_and_measures_travel_through() -> None:
    own = mixes(replace(ASK, bags=BagSizes(portland=50, lime=25), measured=Measured(air=0.08)))[0].of("job/mix/base")
    assert own.made is not None and own.made.bag.value == 50
    assert own.made.air is not None and own.made.air.value == 0.08


def test_a_batch_that_outlasts_the_crew_is_told_in_bags() -> None:
    """9 cu ft of finish out of 18 that take 12 h last 6 h, the bag says 90 min: a quarter of 12 bags, 3."""
    hours = Quantity(12 * 3600, unit("h")).value
    need = CoatNeed("job/mix/finish", "finish", "usual", 18 * CU_FT, None, FLOAT, hours=hours)
    answer, working = mixes(replace(ASK, coats=(need,)))
    told = {n.code: dict(n.values) for n in answer.of(need.id).notes}["mix.batch-outlasts"]
    assert (told["batch"].value, told["bags"].value) == (12, 3)
    assert working.steps["job/mix/finish/batch/lasts"].value == pytest.approx(6 * 3600)


@pytest.mark.parametrize(("hours", "told"), [(None, False), (3 * 3600, False), (3.01 * 3600, True)])
def test_a_batch_that_is_laid_in_time_is_not_warned_of(hours: float | None, told: bool) -> None:
    """18 cu ft in 3 h: 9 cu ft in 90 min, just what the bag allows."""
    need = CoatNeed("job/mix/finish", "finish", "usual", 18 * CU_FT, None, FLOAT, hours=hours)
    codes = {n.code for n in mixes(replace(ASK, coats=(need,)))[0].of(need.id).notes}
    assert ("mix.batch-outlasts" in codes) is told
