"""Sieves of the rule book, and their openings."""

from __future__ import annotations

from darby.finish.model import Length, Sieve
from darby.measure.limits import at_most
from darby.rulebook.book import Book

SUBJECT = "sieve.opening"


def sieves(book: Book) -> tuple[Sieve, ...]:
    """The sieves that the book knows, coarse to fine."""
    names = {name for figure in book.on(SUBJECT) for name in figure.applies["sieve"]}
    known = [Sieve(name, book.number(SUBJECT, sieve=name).number) for name in names]
    return tuple(sorted(known, key=lambda s: -float(s.opening)))


def finer(book: Book, opening: Length) -> Sieve | None:
    """The next sieve of the book under ``opening`` [m]; None = there is none."""
    return next((s for s in sieves(book) if not at_most(opening, s.opening)), None)


def coarser(book: Book, opening: Length) -> Sieve | None:
    """The next sieve of the book over ``opening`` [m]; None = there is none."""
    return next((s for s in reversed(sieves(book)) if not at_most(s.opening, opening)), None)
