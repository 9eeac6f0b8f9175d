"""Mixes printed per part of cement, set against limits that count per sum: Merritt, the Navy, a working plasterer."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby import mix
from darby.mix import Gauge
from tests.mix.asking import CU_FT, codes, printed
from tests.published import checked

MERRITT = "Building Design and Construction Handbook (Merritt and Ricketts), stucco"
NAVY = "NAVEDTRA 14044, Builder 3 and 2, vol. 2, ch. 7"
FIELD = "Stucco News, September 2016, a working plasterer's comment"


@checked("copied figure", f"{MERRITT}; {NAVY}; {FIELD}")
@pytest.mark.parametrize(
    ("figure", "numbers"),
    [
        ("mix.printed.merritt.sand", (3, 5)),
        ("mix.printed.merritt.lime", (0.25,)),
        ("mix.printed.field.lime", (0.25,)),
        ("mix.printed.field.sand", (4,)),
        ("mix.printed.navy.finish.sand", (300,)),
        ("mix.printed.navy.finish.lime", (10,)),
        ("mix.printed.navy.trowel.lime", (200,)),
        ("mix.sand.part.navy", (100,)),
        ("mix.bag.portland.navy", (94,)),
        ("mix.unit-weight.portland.navy", (94,)),
        ("mix.shovel.stucconews", (0.2,)),
        ("mix.bucket.heaped.stucconews", (1,)),
    ],
)
def test_as_printed(figure: str, numbers: tuple[float, ...]) -> None:
    assert printed(figure) == numbers


@checked("our arithmetic", f"{MERRITT}: 3 of sand to 1 + 1/4 is 2.4, just under 2.5; 5 is 4.0, the most")
@pytest.mark.parametrize(("end", "ratio", "code"), [(0, 2.4, "short"), (1, 4.0, "inside")])
def test_merritt_at_its_low_end_falls_out(end: int, ratio: float, code: str) -> None:
    sand, (lime,) = printed("mix.printed.merritt.sand")[end], printed("mix.printed.merritt.lime")
    verdict = mix.check({"portland": 1, "lime": lime, "sand": sand}, "scratch", "low")
    assert verdict.ratio.value == pytest.approx(ratio)
    assert f"mix.sand-{code}" in codes(verdict)


@checked(
    "our arithmetic", f"{FIELD}: 1 : 1/4 : 4 is 3.2 per cementitious: good for scratch and brown, lean for a finish"
)
@pytest.mark.parametrize(("coat", "code"), [("scratch", "inside"), ("brown", "inside"), ("finish", "over")])
def test_one_mix_for_all_coats(coat: str, code: str) -> None:
    (lime,), (sand,) = printed("mix.printed.field.lime"), printed("mix.printed.field.sand")
    verdict = mix.check({"portland": 1, "lime": lime, "sand": sand}, coat, "low")  # type: ignore[arg-type]
    assert verdict.ratio.value == pytest.approx(3.2)
    assert f"mix.sand-{code}" in codes(verdict)


@checked(
    "our arithmetic", f"{FIELD}: four five-gallon buckets struck level are 2.67 cu ft, 2.14 per cementitious: too rich"
)
def test_four_struck_buckets_are_not_four_cubic_feet() -> None:
    (gallons,) = printed("mix.bucket.struck")
    bucket = gallons * 231 / 1728
    assert bucket == pytest.approx(0.668, abs=0.0005)
    verdict = mix.check({"portland": 1, "lime": 0.25, "sand": 4 * bucket}, "scratch", "low")
    assert 4 * bucket == pytest.approx(2.67, abs=0.005)
    assert verdict.ratio.value == pytest.approx(2.14, abs=0.005)
    assert "mix.sand-short" in codes(verdict)
    assert mix.batch({"portland": 1, "lime": 0.25, "sand": 4}).sand.count.value == 6  # type: ignore[union-attr]


@checked("worked elsewhere", f"{FIELD}: a bag, a quarter lime and four cubic feet of sand are twenty shovels")
def test_twenty_shovels() -> None:
    batch = mix.batch({"portland": 1, "lime": Fraction(1, 4), "sand": 4}, gauge=Gauge("shovel"))
    assert batch.sand is not None and batch.sand.count.value == 20


@checked(
    "worked elsewhere", f"{FIELD}: counted in buckets of five shovels, near a cubic foot each, that is four buckets"
)
def test_four_of_his_buckets() -> None:
    batch = mix.batch({"portland": 1, "lime": Fraction(1, 4), "sand": 4}, gauge=Gauge("bucket", CU_FT))
    assert batch.sand is not None and batch.sand.count.value == 4


@checked(
    "our arithmetic",
    f"{NAVY}: 94 lb, 300 lb of sand, at most a tenth of lime: inside by its own 100 lb part, out by 80 lb",
)
@pytest.mark.parametrize(("part", "ratio", "code"), [(100, 2.43, "inside"), (80, 3.04, "over")])
def test_the_navy_finish_hangs_on_what_a_part_of_sand_weighs(part: float, ratio: float, code: str) -> None:
    (bag,), (sand,) = printed("mix.bag.portland.navy"), printed("mix.printed.navy.finish.sand")
    (share,) = printed("mix.printed.navy.finish.lime")
    if part == 100:
        (part,) = printed("mix.sand.part.navy")
    parts = mix.by_weight(
        {"portland": bag, "lime": bag * share / 100, "sand": sand}, {"portland": 94, "lime": 40, "sand": part}
    )
    verdict = mix.check(parts, "finish")
    assert verdict.ratio.value == pytest.approx(ratio, abs=0.005)
    assert f"mix.sand-{code}" in codes(verdict)


@checked("our arithmetic", f"{NAVY}: 200 lb of hydrate to a sack is 5 parts of lime, far past the code's finish rows")
def test_the_navy_lime_and_portland_trowel_finish() -> None:
    (bag,), (lime,) = printed("mix.bag.portland.navy"), printed("mix.printed.navy.trowel.lime")
    parts = mix.by_weight({"portland": bag, "lime": lime}, {"portland": 94, "lime": 40})
    assert parts.lime == pytest.approx(5.0)
    assert {"mix.lime-over", "mix.sand-short"} <= codes(mix.check(parts, "finish"))
