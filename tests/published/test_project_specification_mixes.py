"""Mixes of four project specifications in public record: a bid, a university, Rosemary Beach, the City of Orono."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby import mix
from darby.rulebook import Book, default
from tests.mix.asking import codes, grades, printed
from tests.published import checked

BID = "public bid specification, portland cement plaster, 2.02"
UNIVERSITY = "university project specification quoted in Stucco News, September 2016"
ROSEMARY = "Rosemary Beach project manual, 2013, p. 294"
ORONO = "City of Orono, Minnesota, project specification, stucco section"
QUARTERS, HALF = Fraction(3, 4), Fraction(1, 2)


@checked("copied figure", BID)
@pytest.mark.parametrize(
    ("figure", "numbers"),
    [
        ("mix.sand.bid.first", (2.5, 4)),
        ("mix.sand.bid.second", (3, 5)),
        ("mix.printed.bid.finish.sand", (3,)),
        ("mix.lime.bid.first", (0, 0.75)),
        ("mix.lime.finish.bid", (0.75, 1.5)),
        ("mix.masonry.bid", (1, 2)),
    ],
)
def test_the_bid_as_printed(figure: str, numbers: tuple[float, ...]) -> None:
    assert printed(figure) == numbers


@checked("copied figure", UNIVERSITY)
@pytest.mark.parametrize(
    ("figure", "numbers"),
    [
        ("mix.sand.university.scratch", (2.5, 4)),
        ("mix.sand.university.brown", (3, 5)),
        ("mix.lime.university", (0, 0.75)),
    ],
)
def test_the_university_as_printed(figure: str, numbers: tuple[float, ...]) -> None:
    assert printed(figure) == numbers


@checked("copied figure", ROSEMARY)
@pytest.mark.parametrize(
    ("figure", "numbers"),
    [
        ("mix.sand.rosemary.single-base", (2.5, 4)),
        ("mix.sand.rosemary.brown", (3, 5)),
        ("mix.lime.rosemary.low", (0, 0.75)),
        ("mix.lime.rosemary.high", (0.75, 1.5)),
    ],
)
def test_rosemary_beach_as_printed(figure: str, numbers: tuple[float, ...]) -> None:
    assert printed(figure) == numbers


@checked("copied figure", ORONO)
@pytest.mark.parametrize(
    ("figure", "numbers"),
    [
        ("mix.printed.orono.scratch", (4,)),
        ("mix.printed.orono.brown", (5, 6)),
        ("mix.printed.orono.finish.sand", (3,)),
        ("mix.printed.orono.finish.lime", (0.75,)),
        ("mix.use-within.orono", (1,)),
    ],
)
def test_orono_as_printed(figure: str, numbers: tuple[float, ...]) -> None:
    assert printed(figure) == numbers


def _following(voice: str) -> Book:
    book = default()
    return Book(book, book.sources, follows={"mix": voice})


@checked("our arithmetic", f"{BID}: its own mixes under its own voice")
@pytest.mark.parametrize(
    ("parts", "coat", "inside"),
    [
        ({"portland": 1, "lime": QUARTERS, "sand": 2.5 * 1.75}, "scratch", True),
        ({"portland": 1, "lime": QUARTERS, "sand": 4.1 * 1.75}, "scratch", False),
        ({"portland": 1, "masonry cement": 2, "sand": 12}, "scratch", True),
        ({"portland": 1, "masonry cement": HALF, "sand": 5}, "scratch", False),
        ({"portland": 1, "lime": 0, "sand": 5}, "brown", True),
        ({"portland": 1, "lime": 0, "sand": 5.1}, "brown", False),
        ({"portland": 1, "lime": 1, "sand": 6}, "finish", True),  # 3 parts per cementitious
        ({"portland": 1, "lime": 1.6, "sand": 6}, "finish", False),
    ],
)
def test_the_bid_judges(parts: dict[str, float], coat: str, inside: bool) -> None:
    assert mix.check(parts, coat, "low", book=_following("bid")).inside == inside  # type: ignore[arg-type]


@checked("our arithmetic", f"{UNIVERSITY}: scratch and brown under its voice")
@pytest.mark.parametrize(
    ("lime", "sand", "coat", "inside"),
    [(0, 2.5, "scratch", True), (0.75, 7, "scratch", True), (0.8, 6, "scratch", False), (0.5, 7.5, "brown", True),
     (0.5, 4.4, "brown", False)],
)  # fmt: skip
def test_the_university_judges(lime: float, sand: float, coat: str, inside: bool) -> None:
    parts = {"portland": 1, "lime": lime, "sand": sand}
    assert mix.check(parts, coat, "none", book=_following("university")).inside == inside  # type: ignore[arg-type]


@checked("our arithmetic", f"{ROSEMARY}: single base for low and high suction")
@pytest.mark.parametrize(
    ("suction", "lime", "code"),
    [("low", 0, "inside"), ("low", QUARTERS, "inside"), ("low", 1, "over"), ("high", QUARTERS, "inside"),
     ("high", Fraction(3, 2), "inside"), ("high", HALF, "short"), ("high", 2, "over")],
)  # fmt: skip
def test_rosemary_beach_judges_lime_by_suction(suction: str, lime: Fraction, code: str) -> None:
    parts = {"portland": 1, "lime": lime, "sand": 3 * (1 + lime)}
    verdict = mix.check(parts, "base", suction, book=_following("rosemary-beach"))  # type: ignore[arg-type]
    assert f"mix.lime-{code}" in codes(verdict)


@checked("our arithmetic", f"{ROSEMARY}: portland with masonry cement, base and brown")
@pytest.mark.parametrize(("coat", "sand", "inside"), [("base", 5, True), ("base", 8.1, False), ("brown", 10, True)])
def test_rosemary_beach_portland_and_masonry(coat: str, sand: float, inside: bool) -> None:
    verdict = mix.check({"portland": 1, "masonry cement": 1, "sand": sand}, coat)  # type: ignore[arg-type]
    assert verdict.inside == inside and verdict.letter == "CM"


@checked("our arithmetic", f"{ROSEMARY}: the brown coat carries at least as much sand as the scratch coat")
def test_rosemary_beach_brown_not_richer() -> None:
    scratch = {"portland": 1, "lime": 1, "sand": 7}
    verdict = mix.check({"portland": 1, "lime": 1, "sand": 6}, "brown", "high", scratch=scratch)
    (note,) = [n for n in verdict.notes if n.code == "mix.brown-richer"]
    assert note.rules == ("mix.sand.brown-not-richer.rosemary",)


@checked("our arithmetic", f"{ORONO}: 1 + 1 + 4 is 2 per cement, 5 to 6 is 2-1/2 to 3, the finish 3 / 1.75")
@pytest.mark.parametrize(
    ("parts", "coat", "ratio", "code"),
    [
        (
            {"portland": 1, "masonry cement": 1, "sand": printed("mix.printed.orono.scratch")[0]},
            "scratch",
            2.0,
            "short",
        ),
        ({"portland": 1, "masonry cement": 1, "sand": printed("mix.printed.orono.brown")[0]}, "brown", 2.5, "short"),
        ({"portland": 1, "masonry cement": 1, "sand": printed("mix.printed.orono.brown")[1]}, "brown", 3.0, "inside"),
        (
            {
                "portland": 1,
                "lime": printed("mix.printed.orono.finish.lime")[0],
                "sand": printed("mix.printed.orono.finish.sand")[0],
            },
            "finish",
            1.714,
            "inside",
        ),
    ],
)
def test_orono_mixes_against_the_limits(parts: dict[str, float], coat: str, ratio: float, code: str) -> None:
    verdict = mix.check(parts, coat)  # type: ignore[arg-type]
    assert verdict.ratio.value == pytest.approx(ratio, abs=0.0005)
    assert f"mix.sand-{code}" in codes(verdict)
    assert grades(verdict, "mix.sand-short") == (["caution"] if code == "short" else [])
