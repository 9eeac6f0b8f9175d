"""What the tests of the grounds room ask with: feet across and up, inches out, a rectangle unless said otherwise."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Any

import numpy as np

from darby.grounds import Grounds, GroundsAsk, true_up
from darby.grounds.checks import checked
from darby.grounds.model import Face
from darby.grounds.wall import Wall
from darby.measure.surface import Corner, Opening
from darby.rulebook import default
from darby.working import Working

BOOK = default()
INCH = Fraction(254, 10_000)
FOOT = 12 * INCH
LEAST = Fraction(3, 8) * INCH

Triple = tuple[float, float, float]


def feet(rows: Iterable[Sequence[Any]]) -> tuple[tuple[Fraction, Fraction, Fraction], ...]:
    """(feet, feet, inches) as metres."""
    return tuple((Fraction(u) * FOOT, Fraction(v) * FOOT, Fraction(out) * INCH) for u, v, out in rows)


def outline(*places: tuple[Any, Any]) -> tuple[Corner, ...]:
    """Corners at feet."""
    return tuple(Corner(f"c{n}", Fraction(u) * FOOT, Fraction(v) * FOOT) for n, (u, v) in enumerate(places, 1))


def rectangle(width: Any, height: Any, left: Any = 0, foot: Any = 0) -> tuple[Corner, ...]:
    w, h, u, v = (Fraction(x) for x in (width, height, left, foot))
    return outline((u, v), (u + w, v), (u + w, v + h), (u, v + h))


def opening(name: str, width: Any, height: Any, left: Any, foot: Any) -> Opening:
    return Opening(name, name, rectangle(width, height, left, foot))


def grid(width: int, height: int, out: Any = lambda u, v: 0, step: Any = 2) -> tuple[Any, ...]:
    """Readings every ``step`` feet, edges and corners among them; ``out`` in inches by feet."""
    us, vs = ([Fraction(n) * step for n in range(int(size / step) + 1)] for size in (width, height))
    return feet((u, v, out(u, v)) for v in vs for u in us)


def ask(readings: Any, walls: Any = None, **fields: Any) -> GroundsAsk:
    fields.setdefault("book", BOOK)
    fields.setdefault("at", "bay-south")
    fields.setdefault("least", LEAST)
    return GroundsAsk(readings=tuple(readings), outline=walls or rectangle(20, 10), **fields)


def run(readings: Any, walls: Any = None, **fields: Any) -> tuple[Grounds, Working]:
    return true_up(ask(readings, walls, **fields))


def up(readings: Any, walls: Any = None, **fields: Any) -> Grounds:
    return run(readings, walls, **fields)[0]


def wall_of(readings: Any, walls: Any = None, **fields: Any) -> Wall:
    return Wall(checked(ask(readings, walls, **fields)), BOOK.number("grounds.wild").number)


def at(face: Face, u: Any, v: Any) -> float:
    """How far a face stands out at feet, in inches: read off its grid by hand."""
    x, y = float(Fraction(u) * FOOT), float(Fraction(v) * FOOT)
    i = min(max(int(np.searchsorted(face.us, x, side="right")) - 1, 0), len(face.us) - 2)
    j = min(max(int(np.searchsorted(face.vs, y, side="right")) - 1, 0), len(face.vs) - 2)
    s = (x - face.us[i]) / (face.us[i + 1] - face.us[i])
    t = (y - face.vs[j]) / (face.vs[j + 1] - face.vs[j])
    low = face.out[j][i] * (1 - s) + face.out[j][i + 1] * s
    high = face.out[j + 1][i] * (1 - s) + face.out[j + 1][i + 1] * s
    return (low * (1 - t) + high * t) / float(INCH)


def inches(metres: Any) -> float:
    return float(metres) / float(INCH)


def square_feet(metres: Any) -> float:
    return float(metres) / float(FOOT) ** 2


def cubic_feet(metres: Any) -> float:
    return float(metres) / float(FOOT) ** 3
