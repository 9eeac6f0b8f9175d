"""Openings by custom: each rule at its edges, and its effect against net."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure.faults import Unreadable
from darby.quantities import Opening, Reveal, measured_area, opening_rule
from darby.quantities.openings import Measured
from darby.rulebook import Book, default
from darby.working import Working
from tests.quantities.asks import SQ_FT, block, door, frame, laid, shown

VOICES = ("net", "half", "china", "is-1200", "is-1200-full", "greece", "us-60", "us-7yd")


def by(voice: str, gross: Fraction | float, *openings: Opening, faces: int = 1, count: int = 1) -> Measured:
    return measured_area(
        Working(), "wall/main", gross, openings, opening_rule(default(), voice), faces=faces, count=count
    )


def hole(square_metres: str, **more: object) -> Opening:
    return Opening("hole", Fraction(square_metres), (Reveal("head", Fraction(1), Fraction(1, 10)),), **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("voice", "size", "off", "reveals"),
    [
        ("net", "0.1", 0.1, 0.1),
        ("net", "4", 4, 0.1),
        ("half", "4", 2, 0),
        ("china", "0.3", 0, 0),
        ("china", "0.31", 0.31, 0.1),
        ("is-1200", "0.5", 0, 0),
        ("is-1200", "0.51", 0.51, 0.1),
        ("is-1200-full", "0.5", 0, 0),
        ("is-1200-full", "0.51", 0.51, 0),
        ("is-1200-full", "3", 3, 0),
        ("is-1200-full", "3.01", 3.01, 0.1),
        ("greece", "2.5", 0, 0),
        ("greece", "2.51", 2.51, 0.1),
        ("us-60", "5.5741824", 0, 0),
        ("us-60", "5.58", 5.58, 0.1),
        ("us-7yd", "5.85289152", 0, 0),
        ("us-7yd", "5.86", 5.86, 0.1),
    ],
)
def test_each_custom_at_its_edge(voice: str, size: str, off: float, reveals: float) -> None:
    found = by(voice, Fraction(30), hole(size))
    assert float(found.off) == pytest.approx(off)
    assert float(found.reveals) == pytest.approx(reveals)
    assert float(found.area) == pytest.approx(30 - off + reveals)
    assert float(found.by_net) == pytest.approx(30 - float(size) + 0.1)
    assert float(found.against_net) == pytest.approx(float(found.area) - float(found.by_net))


@pytest.mark.parametrize(("size", "off"), [("0.5", 0), ("2", 2), ("4", 8)])
def test_two_faces_of_one_wall(size: str, off: float) -> None:
    """Gross holds both faces: a middling opening comes off one of them, a large one off both."""
    found = by("is-1200-full", Fraction(60), hole(size), faces=2)
    assert float(found.off) == pytest.approx(off)
    assert float(found.by_net) == pytest.approx(60 - 2 * float(size) + 0.1)


def test_a_custom_looks_at_the_whole_hole_where_it_crosses_zones() -> None:
    part = hole("0.4", whole=Fraction(2))
    assert float(by("china", Fraction(10), part).off) == pytest.approx(0.4)
    assert float(by("is-1200", Fraction(10), part).off) == pytest.approx(0.4)


def test_reveals_are_lines_of_their_own() -> None:
    working = Working()
    measured_area(working, "s/z", 288 * SQ_FT, [door()], opening_rule(default()))
    sides = {k: s.value for k, s in working.steps.items() if k.endswith("/reveal")}
    assert set(sides) == {f"s/z/door/{side}/reveal" for side in ("left", "right", "head")}
    # 6'-8" + 6'-8" + 3' at 4 in.: 16 1/3 ft x 1/3 ft
    assert sum(sides.values()) == pytest.approx(float(SQ_FT) * 49 / 9)


def test_the_book_decides_and_a_firm_follows() -> None:
    book = default()
    assert opening_rule(book).voice == "net"
    halves = Book(book.figures.values(), book.sources, follows={"openings": "half"})
    assert opening_rule(halves).voice == "half"
    assert laid("w", block(100, door(Fraction(0))), book=halves).rule == "half"
    with pytest.raises(Unreadable) as error:
        opening_rule(book, "martian")
    assert error.value.fault.code == "quantities.opening-rule"
    assert "greece" in error.value.fault.allowed


def test_openings_larger_than_the_wall_are_refused() -> None:
    with pytest.raises(Unreadable) as error:
        laid("w", block(15, door(Fraction(0))))
    assert error.value.fault.code == "quantities.openings-larger-than-wall"
    assert (error.value.fault.found, error.value.fault.allowed) == ("20 sq ft", "15 sq ft")


def test_five_equal_pilasters_are_measured_once_and_counted_five_times() -> None:
    one = laid("pilaster", block(12, Opening("vent", SQ_FT)))
    five = laid("pilaster", block(12, Opening("vent", SQ_FT)), count=5)
    assert float(five.area) == pytest.approx(5 * float(one.area))
    assert shown(one.area) == pytest.approx(11)
    assert float(five.by_mix[0].volume) == pytest.approx(5 * float(one.by_mix[0].volume))


holes = st.lists(st.fractions(min_value=0, max_value=8, max_denominator=100), max_size=6)


@given(sizes=holes, deep=st.fractions(min_value=0, max_value=1, max_denominator=20))
def test_net_identities(sizes: list[Fraction], deep: Fraction) -> None:
    """gross - off + reveals = area in every custom; net has no effect against itself; half is half way to gross."""
    openings = [Opening(f"o{n}", s, (Reveal("head", Fraction(1), deep),)) for n, s in enumerate(sizes)]
    gross = Fraction(60)
    for voice in VOICES:
        m = by(voice, gross, *openings)
        assert float(m.gross) - float(m.off) + float(m.reveals) == pytest.approx(float(m.area))
        assert float(m.area) - float(m.by_net) == pytest.approx(float(m.against_net), abs=1e-12)
        assert 0 <= float(m.off) <= float(sum(sizes)) + 1e-9
        assert float(m.by_net) == pytest.approx(float(gross - sum(sizes) + deep * len(sizes)))
    net = by("net", gross, *openings)
    assert net.area.value == net.by_net.value
    assert float(by("half", gross, *openings).area) == pytest.approx(float(gross - sum(sizes) / 2))


@given(sizes=holes)
def test_a_larger_least_size_never_takes_more_off(sizes: list[Fraction]) -> None:
    openings = [Opening(f"o{n}", s) for n, s in enumerate(sizes)]
    offs = [float(by(voice, Fraction(60), *openings).off) for voice in ("net", "china", "is-1200", "greece", "us-60")]
    assert offs == sorted(offs, reverse=True)


def test_the_effect_of_a_custom_is_said() -> None:
    from darby.quantities import VolumesAsk, volumes

    zone = frame(112, door(Fraction(0)))
    _, working = volumes(VolumesAsk("crew", (zone,), opening_rule="half"))
    said = next(n for n in working.notes if n.code == "quantities.opening-rule-effect")
    assert shown(dict(said.values)["more"]) == pytest.approx(10)  # type: ignore[arg-type]
    assert said.rules == ("openings.rule.half",)
    _, plain = volumes(VolumesAsk("crew", (zone,)))
    assert not [n for n in plain.notes if n.code == "quantities.opening-rule-effect"]
