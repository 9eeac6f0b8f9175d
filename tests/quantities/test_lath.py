"""Sheets after laps, paper in layers, fasteners by base and edition."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from darby.measure.units import IN, YD, unit
from darby.quantities import Buy, Order, OrderAsk, Zone, order
from darby.quantities.lath import fasteners_on_masonry, fasteners_on_studs, net_sheet
from darby.rulebook import Book, default
from darby.working import Quantity, Working
from tests.quantities.asks import BAGGED, BUYS, FIRM, NOTHING, SITE, SQ_FT, THREE, block, door, frame, laid, shown


def following(**voices: str) -> Book:
    book = default()
    return Book(book.figures.values(), book.sources, follows={k.replace("_", "."): v for k, v in voices.items()})


def ordered(*zones: Zone, allow: object = NOTHING, book: Book | None = None) -> Order:
    surfaces = tuple(laid(f"s{n}", z) for n, z in enumerate(zones))
    ask = OrderAsk(surfaces, (SITE, BAGGED), buys=BUYS, allow=allow, book=book or default())  # type: ignore[arg-type]
    return order(ask)[0]


def line(found: Order, item: str) -> object:
    got = found.line(item)
    assert got is not None
    return got


def test_a_sheet_covers_what_its_laps_leave() -> None:
    """26.5 x 96 in. of a 27 x 97 in. sheet as C1063 laps it, 26 x 95 as the handbook does."""
    sides = (27 * IN, 97 * IN)
    assert shown(net_sheet(Working(), default(), "k", sides)) == pytest.approx(26.5 * 96 / 144)
    assert shown(net_sheet(Working(), following(lath="merritt"), "k", sides)) == pytest.approx(26 * 95 / 144)
    assert shown(net_sheet(Working(), following(lath="c847-10"), "k")) == pytest.approx(26.5 * 96 / 144)


def test_sheets_are_rounded_once_over_the_job() -> None:
    """Three walls of 12 sq ft: 36 sq ft are 2.04 sheets, three sheets; one a wall would do for none of them."""
    found = line(ordered(frame(12), frame(12), frame(12)), "lath")
    assert shown(found.exact) == pytest.approx(36 / (26.5 * 96 / 144))  # type: ignore[attr-defined]
    assert shown(found.packages) == 3  # type: ignore[attr-defined]


def test_the_square_yard_rule_stands_beside() -> None:
    """Ten sheets to twenty square yards: 180 sq ft are ten by the yard, eleven after laps."""
    found = line(ordered(frame(180)), "lath")
    assert shown(found.by_rule) == 10  # type: ignore[attr-defined]
    assert shown(found.packages) == 11  # type: ignore[attr-defined]


def test_lath_goes_by_the_net_area_whatever_custom_is_followed() -> None:
    zone = frame(112, door(Fraction(0)))
    net = laid("a", zone)
    half = laid("a", zone, opening_rule="half")
    for v in (net, half):
        found = order(OrderAsk((v,), (SITE, BAGGED), buys=BUYS, allow=NOTHING))[0].line("lath")
        assert found is not None
        assert shown(found.made_of[0].amount) == pytest.approx(92)


def test_cutting_is_a_line_of_its_own() -> None:
    found = line(ordered(frame(100), allow=FIRM), "lath")
    assert [shown(p.amount) for p in found.made_of] == pytest.approx([100, 5])  # type: ignore[attr-defined]


def test_paper_by_layers_laps_and_rolls() -> None:
    """100 sq ft, two layers; courses of 40 in. lap 2; a two-layer roll of 162 sq ft lays 324 less its end laps."""
    found = line(ordered(frame(100)), "paper")
    assert shown(found.needed) == pytest.approx(200 * 40 / 38)  # type: ignore[attr-defined]
    assert shown(found.also[0].amount) == pytest.approx(2 * (162 - 40 * 6 / 144))  # type: ignore[attr-defined]
    assert shown(found.exact) == pytest.approx(200 * 40 / 38 / (2 * (162 - 40 * 6 / 144)))  # type: ignore[attr-defined]


def test_layers_as_said_come_before_the_book() -> None:
    one = line(ordered(frame(100, paper=1)), "paper")
    two = line(ordered(frame(100, paper=2)), "paper")
    assert shown(two.needed) == pytest.approx(2 * shown(one.needed))  # type: ignore[attr-defined]


def test_no_paper_behind_lath_over_block() -> None:
    zone = Zone("main", "lath over block", 100 * SQ_FT, THREE, lathed=True)
    v = laid("s", zone)
    found, working = order(OrderAsk((v,), (SITE, BAGGED), buys=BUYS))
    assert found.line("paper") is None
    assert found.line("lath") is not None
    assert any(n.code == "quantities.no-paper-on-masonry" for n in working.notes)


@pytest.mark.parametrize(
    ("voice", "count"), [("c1063", 14400 / (16 * 7)), ("irc-2018", 14400 / (16 * 6)), ("irc", 14400 / (16 * 7))]
)
def test_fasteners_on_studs_by_edition(voice: str, count: float) -> None:
    found = fasteners_on_studs(Working(), following(lath=voice), "k", Quantity(100 * SQ_FT, unit("sq ft")), 16 * IN)
    assert shown(found) == pytest.approx(count)


def test_studs_nobody_measured_are_taken_and_noted() -> None:
    v = laid("s", frame(100, studs=None))
    found, working = order(OrderAsk((v,), (SITE, BAGGED), buys=BUYS))
    assert shown(found.line("lath fasteners").needed) == pytest.approx(14400 / (16 * 7))  # type: ignore[union-attr]
    assert any(n.code == "quantities.assumed.studs" for n in working.notes)


@pytest.mark.parametrize(("voice", "count"), [("ufgs", 112.5), ("sma", 100)])
def test_fasteners_on_masonry_by_voice(voice: str, count: float) -> None:
    found = fasteners_on_masonry(Working(), following(lath=voice), "k", Quantity(100 * SQ_FT, unit("sq ft")))
    assert shown(found) == pytest.approx(count)


def test_fasteners_are_boxed_once_and_by_base() -> None:
    over_block = replace(frame(100), base="lath over block", id="hollow")
    found = ordered(frame(500), over_block, over_block)
    assert shown(found.line("lath fasteners").packages) == 1  # type: ignore[union-attr]
    assert shown(found.line("masonry lath fasteners").exact) == pytest.approx(2.25)  # type: ignore[union-attr]
    assert shown(found.line("masonry lath fasteners").packages) == 3  # type: ignore[union-attr]


def test_no_lath_no_line() -> None:
    found = ordered(block(100))
    assert {x.item for x in found.lines}.isdisjoint({"lath", "paper", "lath fasteners"})


def test_a_sheet_without_a_known_package_is_the_books() -> None:
    v = laid("s", frame(100))
    found, working = order(OrderAsk((v,), (SITE, BAGGED), allow=NOTHING))
    lath = found.line("lath")
    assert lath is not None
    assert shown(lath.packages) == 6  # 100 / 17.48 = 5.7
    assert any(n.code == "quantities.no-package" for n in working.notes)


def test_lath_bought_by_area_alone_says_that_laps_are_left_out() -> None:
    buys = (Buy("lath", 50 * YD**2, unit("sq yd"), "roll", "50 sq yd roll"),)
    found, working = order(OrderAsk((laid("s", frame(900)),), (SITE, BAGGED), buys=buys, allow=NOTHING))
    assert shown(found.line("lath").packages) == 2  # type: ignore[union-attr]
    assert any(n.code == "quantities.lath-laps-unknown" for n in working.notes)
