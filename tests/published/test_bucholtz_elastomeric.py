"""Bucholtz, The Consumer's Stucco Handbook, as a trade page quotes it: film of an elastomeric coating on stucco."""

from tests.finish.asking import BOOK, matched, mils
from tests.published import checked

BUCHOLTZ = "Bucholtz, elastomeric section, quoted: two coats to about 20 mil"


@checked("copied figure", BUCHOLTZ)
def test_film_of_two_coats():
    film, coats = BOOK.number("match.film-elastomeric"), BOOK.number("match.film-elastomeric-coats")
    assert (film.written, coats.number, film.standing) == ("20 mil", 2, "second-hand")


@checked("our arithmetic", f"{BUCHOLTZ}: one of them is half of it")
def test_film_of_one_coat():
    assert round(mils(matched(paint_coats=1, paint_kind="elastomeric").paint.most), 6) == 10
