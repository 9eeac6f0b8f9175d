"""ASTM C926 letters of mixes. The letters are from memory; their ranges stand in the code and in specifications."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby import mix
from darby.rulebook import default
from tests.mix.asking import printed
from tests.published import checked

RANGES = {"scratch": (2.5, 4), "brown": (3, 5)}
BASE = {
    "C": [{"portland": 1, "lime": 0}, {"portland": 1, "lime": Fraction(1, 2)}],
    "CL": [{"portland": 1, "lime": Fraction(3, 4)}, {"portland": 1, "lime": Fraction(3, 2)}],
    "M": [{"masonry cement": 1}],
    "CM": [{"portland": 1, "masonry cement": 1}],
    "P": [{"plastic cement": 1}],
}
FINISH = {
    "F": [{"portland": 1, "lime": Fraction(3, 4)}, {"portland": 1, "lime": Fraction(3, 2)}],
    "FL": [{"portland": 1, "lime": Fraction(7, 4)}, {"portland": 1, "lime": 2}],
    "FM": [{"masonry cement": 1}],
    "FCM": [{"portland": 1, "masonry cement": 1}],
    "FP": [{"plastic cement": 1}],
}


@checked("our arithmetic", "C926 base mixes C, CL, M, CM, P: scratch 2-1/2 to 4, brown 3 to 5 per cementitious")
@pytest.mark.parametrize("letter", BASE)
@pytest.mark.parametrize("coat", RANGES)
def test_base_mixes(letter: str, coat: str) -> None:
    for parts in BASE[letter]:
        suction = "low" if letter == "C" else "high"
        total = sum(parts.values(), Fraction(0))
        for ratio, inside in ((RANGES[coat][0], True), (RANGES[coat][1], True), (RANGES[coat][1] + 0.1, False)):
            verdict = mix.check({**parts, "sand": float(total) * ratio}, coat, suction)  # type: ignore[arg-type, dict-item]
            assert (verdict.letter, verdict.inside) == (letter, inside)


@checked("our arithmetic", "C926 finish mixes F, FL, FM, FCM, FP: sand 1-1/2 to 3 per cementitious")
@pytest.mark.parametrize("letter", FINISH)
def test_finish_mixes(letter: str) -> None:
    for parts in FINISH[letter]:
        total = sum(parts.values(), Fraction(0))
        for ratio, inside in ((1.5, True), (3, True), (1.4, False), (3.1, False)):
            verdict = mix.check({**parts, "sand": float(total) * ratio}, "finish")  # type: ignore[dict-item]
            assert (verdict.letter, verdict.inside) == (letter, inside)


@checked("copied figure", "C926, from memory: letters, finish of portland and masonry cement, use within 2-1/2 h")
@pytest.mark.parametrize(
    ("figure", "numbers"),
    [
        ("mix.letter.cl", (0.75,)),
        ("mix.letter.fl", (1.5,)),
        ("mix.sand.fcm.memory", (1.5, 3)),
        ("mix.use-within.c926", (2.5,)),
    ],
)
def test_as_remembered(figure: str, numbers: tuple[float, ...]) -> None:
    assert printed(figure) == numbers
    assert default().figures[figure].standing == "memory"


@checked("copied figure", "Stuccoing over masonry, Masonry Construction: mix three to five minutes")
def test_mixing_time() -> None:
    assert printed("mix.time") == (3, 5)
