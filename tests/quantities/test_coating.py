"""Primer, paint, textured coating, bonding agent, film and tape."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.measure.units import FT, IN
from darby.quantities import Cover, Film, OrderAsk, OrderLine, order
from darby.quantities.coating import film_spread
from darby.rulebook import Book, default
from darby.working import Working
from tests.quantities.asks import BAGGED, BUYS, FIRM, NOTHING, SITE, SQ_FT, block, frame, laid, shown


def found(*zones: object, film: Film | None = None, book: Book | None = None) -> dict[str, OrderLine]:
    surfaces = tuple(laid(f"s{n}", z) for n, z in enumerate(zones))  # type: ignore[arg-type]
    ask = OrderAsk(surfaces, (SITE, BAGGED), buys=BUYS, allow=NOTHING, film=film, book=book or default())
    return {x.item: x for x in order(ask)[0].lines}


def test_paint_is_ordered_at_the_low_end_and_the_least_stands_beside() -> None:
    """600 sq ft primed at 150 to 300, then two coats at 300 to 400 and 350 to 450 sq ft a gallon."""
    lines = found(block(600, primer=1, paint=2))
    assert shown(lines["primer"].needed) == pytest.approx(4)
    assert shown(lines["primer"].also[0].amount) == pytest.approx(2)
    assert shown(lines["paint"].needed) == pytest.approx(2 + 600 / 350)
    assert shown(lines["paint"].also[0].amount) == pytest.approx(600 / 400 + 600 / 450)
    assert shown(lines["primer"].packages) == 1


def test_paint_straight_on_the_plaster_goes_at_the_first_coats_rate() -> None:
    assert shown(found(block(600, paint=1))["paint"].needed) == pytest.approx(4)


def test_a_fourth_coat_goes_as_the_third() -> None:
    three, four = (shown(found(block(700, paint=n))["paint"].needed) for n in (3, 4))
    assert four - three == pytest.approx(2)


def test_smooth_walls_have_a_voice_of_their_own() -> None:
    book = default()
    smooth = Book(book.figures.values(), book.sources, follows={"coating": "tm-smooth"})
    lines = found(block(1000, primer=1, paint=2), book=smooth)
    assert shown(lines["primer"].needed) == pytest.approx(4)
    assert shown(lines["primer"].also[0].amount) == pytest.approx(1000 / 350)
    assert shown(lines["paint"].needed) == pytest.approx(1000 / 300 + 1000 / 400)
    assert shown(lines["paint"].also[0].amount) == pytest.approx(1000 / 400 + 1000 / 500)


def test_pails_are_rounded_once_over_surfaces() -> None:
    """Four walls of 300 sq ft take two gallons of primer each: eight gallons are two pails, not four."""
    lines = found(*(block(300, primer=1) for _ in range(4)))
    assert shown(lines["primer"].packages) == 2


def test_a_textured_coating_goes_by_its_film() -> None:
    """A gallon is 231 cu in.: half solids at 20 mil dry cover 231 x 0.5 / 0.020 / 144 sq ft."""
    rate = film_spread(Working(), default(), "k", Film(Fraction(1, 2), dry=Fraction(20, 1000) * IN))
    assert shown(rate) == pytest.approx(231 * 0.5 / 0.020 / 144)
    rough = film_spread(
        Working(), default(), "k", Film(Fraction(1, 2), Fraction(20, 1000) * IN, Fraction(1, 10), Fraction(3, 2))
    )
    assert shown(rough) == pytest.approx(shown(rate) * 0.9 / 1.5)
    lines = found(block(400, primer=1, paint=1), film=Film(Fraction(1, 2)))
    assert "paint" not in lines
    assert shown(lines["primer"].needed) == pytest.approx(400 / 150)
    # the book's film, its upper end: 30 mil
    assert shown(lines["coating"].needed) == pytest.approx(400 / (231 * 0.5 / 0.030 / 144))


def test_bonding_agent_on_solid_bases_only() -> None:
    ask = OrderAsk(
        (laid("a", block(300, bonding=True)), laid("b", frame(300, bonding=True))), (SITE, BAGGED), buys=BUYS
    )
    answer, working = order(ask)
    line = answer.line("bonding agent")
    assert line is not None
    assert shown(line.needed) == pytest.approx(1.5)
    assert shown(line.packages) == 2
    assert {n.code for n in working.notes} >= {"quantities.no-bonding-on-lath", "quantities.assumed.bonding"}


def test_film_and_tape() -> None:
    covers = (Cover("a", 200 * SQ_FT, 60 * FT), Cover("b", 190 * SQ_FT), Cover("c", tape=Fraction(120) * FT))
    answer = order(OrderAsk((), (), covers=covers, buys=BUYS, allow=FIRM))[0]
    film, tape = answer.line("cover film"), answer.line("masking tape")
    assert film is not None
    assert tape is not None
    assert [shown(p.amount) for p in film.made_of] == pytest.approx([390, 27.3])
    assert shown(film.packages) == 2
    assert [shown(p.amount) for p in tape.made_of] == pytest.approx([180, 12.6])
    assert shown(tape.packages) == 2


def test_nothing_painted_nothing_ordered() -> None:
    assert {"primer", "paint", "coating", "bonding agent"}.isdisjoint(found(block(100)))
