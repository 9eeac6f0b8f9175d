"""Walls for the tests of the lath room, in inches."""

from __future__ import annotations

from fractions import Fraction

from darby.lath import Joint, LathAsk, Opening, Reveal
from darby.lath.model import Outline
from darby.measure.units import IN
from darby.rulebook import Book, default

Inches = int | float | Fraction


def inch(value: Inches) -> Fraction:
    return Fraction(value) * IN


def box(left: Inches, right: Inches, low: Inches, high: Inches) -> Outline:
    a, b, c, d = (inch(x) for x in (left, right, low, high))
    return (a, c), (b, c), (b, d), (a, d)


def points(*pairs: tuple[Inches, Inches]) -> Outline:
    return tuple((inch(u), inch(v)) for u, v in pairs)


def hole(name: str, left: Inches, right: Inches, low: Inches, high: Inches, *reveals: Reveal) -> Opening:
    return Opening(name, box(left, right, low, high), reveals)


def joint(name: str, start: tuple[Inches, Inches], end: tuple[Inches, Inches]) -> Joint:
    (a, b), (c, d) = start, end
    return Joint(name, (inch(a), inch(b)), (inch(c), inch(d)))


def framed(length: Inches, height: Inches, *openings: Opening, **more: object) -> LathAsk:
    """A framed wall with studs 16 in. apart from its left end and 97 in. sheets."""
    given: dict[str, object] = {"studs": inch(16), "first_stud": inch(0), "sheet": (inch(27), inch(97)), "paper": 2}
    return LathAsk("crew/main", box(0, length, 0, height), openings, **{**given, **more})  # type: ignore[arg-type]


def over_block(length: Inches, height: Inches, *openings: Opening, **more: object) -> LathAsk:
    """Lath over block with 97 in. sheets."""
    given: dict[str, object] = {"base": "lath over block", "sheet": (inch(27), inch(97))}
    return LathAsk("bay/main", box(0, length, 0, height), openings, **{**given, **more})  # type: ignore[arg-type]


def following(**voices: str) -> Book:
    book = default()
    return Book(book.figures.values(), book.sources, follows={k.replace("_", "."): v for k, v in voices.items()})
