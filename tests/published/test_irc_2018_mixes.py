"""International Residential Code 2018, Table R702.1(3) and notes, as reprinted: limits of every row."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby import mix
from tests.mix.asking import codes, grades, printed
from tests.published import checked

ROWS = {
    "first": (("scratch", "base"), (2.5, 4)),
    "second": (("brown",), (3, 5)),
    "finish": (("finish",), (1.5, 3)),
}
CEMENTS = ("portland", "masonry", "plastic")
HAIR = Fraction(1, 100)


@checked("copied figure", "IRC 2018, Table R702.1(3), sand per cementitious")
@pytest.mark.parametrize("row", ROWS)
@pytest.mark.parametrize("cement", CEMENTS)
def test_the_sand_stands_as_printed(row: str, cement: str) -> None:
    assert printed(f"mix.sand.irc.{row}.{cement}") == ROWS[row][1]


@checked("our arithmetic", "IRC 2018, Table R702.1(3): a mix at, and a hair past, each end of each row")
@pytest.mark.parametrize("row", ROWS)
@pytest.mark.parametrize("cement", CEMENTS)
def test_a_mix_at_each_end_is_inside_and_past_it_is_not(row: str, cement: str) -> None:
    coats, (least, most) = ROWS[row]
    lime = 0 if cement != "portland" else Fraction(3, 2) if row == "finish" else 1
    name = cement if cement == "portland" else f"{cement} cement"
    for coat in coats:
        for sand, code in ((least, "inside"), (most, "inside"), (least - HAIR, "short"), (most + HAIR, "over")):
            parts = {name: 1, "lime": lime, "sand": Fraction(sand) * (1 + lime)}
            verdict = mix.check(parts, coat, "high")  # type: ignore[arg-type]
            assert f"mix.sand-{code}" in codes(verdict), (coat, sand)
            assert verdict.inside == (code == "inside")


@checked("copied figure", "IRC 2018, Table R702.1(3), lime to portland cement; note a for low absorption")
@pytest.mark.parametrize(
    ("figure", "limits"),
    [
        ("mix.lime.irc.first", (0.75, 1.5)),
        ("mix.lime.irc.second", (0.75, 1.5)),
        ("mix.lime.finish.irc", (1.5, 2)),
        ("mix.lime.irc.low", (0, 0.75)),
    ],
)
def test_the_lime_stands_as_printed(figure: str, limits: tuple[float, float]) -> None:
    assert printed(figure) == limits


@checked("our arithmetic", "IRC 2018, Table R702.1(3): lime at, and a hair past, each end, by suction")
@pytest.mark.parametrize("coat", ["scratch", "brown", "base"])
@pytest.mark.parametrize(
    ("suction", "least", "most"), [("high", Fraction(3, 4), Fraction(3, 2)), ("low", Fraction(0), Fraction(3, 4))]
)
def test_lime_at_each_end(coat: str, suction: str, least: Fraction, most: Fraction) -> None:
    for lime, code in ((least, "inside"), (most, "inside"), (least - HAIR, "short"), (most + HAIR, "over")):
        if lime < 0:
            continue
        verdict = mix.check({"portland": 1, "lime": lime, "sand": 3 * (1 + lime)}, coat, suction)  # type: ignore[arg-type]
        assert grades(verdict, f"mix.lime-{code}") == ["fact" if code == "inside" else "caution"], (lime, code)


@checked("our arithmetic", "IRC 2018, Table R702.1(3), 1 : 1 : 6 is 3.0 per cementitious, good for scratch and brown")
def test_one_one_six() -> None:
    for coat in ("scratch", "brown"):
        verdict = mix.check({"portland": 1, "lime": 1, "sand": 6}, coat, "high")  # type: ignore[arg-type]
        assert verdict.ratio.value == pytest.approx(3.0)
        assert verdict.inside and verdict.letter == "CL"


@checked(
    "our arithmetic", "IRC 2018, Table R702.1(3): with half a part of lime, scratch takes 3.75 to 6, brown 4.5 to 7.5"
)
@pytest.mark.parametrize(("coat", "least", "most"), [("scratch", 3.75, 6.0), ("brown", 4.5, 7.5)])
def test_half_a_part_of_lime(coat: str, least: float, most: float) -> None:
    verdict = mix.check({"portland": 1, "lime": Fraction(1, 2), "sand": 5}, coat, "low")  # type: ignore[arg-type]
    assert verdict.sand_least is not None and verdict.sand_least.value == pytest.approx(least)
    assert verdict.sand_most is not None and verdict.sand_most.value == pytest.approx(most)


@checked("our arithmetic", "IBC 2512.1 to 2512.2: no lime with masonry or plastic cement")
@pytest.mark.parametrize("cement", ["masonry cement", "plastic cement"])
@pytest.mark.parametrize("coat", ["scratch", "brown", "finish"])
def test_no_lime_with_these_cements(cement: str, coat: str) -> None:
    sand = {"scratch": 3, "brown": 4, "finish": 2}[coat]
    assert mix.check({cement: 1, "sand": sand}, coat).inside  # type: ignore[arg-type]
    limed = mix.check({cement: 1, "lime": Fraction(1, 4), "sand": sand}, coat)  # type: ignore[arg-type]
    (note,) = [n for n in limed.notes if n.code == "mix.lime-not-with"]
    assert (note.grade, note.rules) == ("stop", ("mix.lime.none-with.ibc",))
