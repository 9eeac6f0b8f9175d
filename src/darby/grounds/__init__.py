"""Truing a wall: where the face goes with the least plaster, what every ground is set to, how true it came out.

``Point`` and ``Straightedge`` are what is asked in; ``Grounds`` is what is answered.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from numbers import Rational
from typing import Any

from quicktions import Fraction

from darby.grounds.finished import check_finished
from darby.grounds.model import (
    Coverage,
    Face,
    Finished,
    FinishedAsk,
    Gap,
    Ground,
    Grounds,
    GroundsAsk,
    Holding,
    Length,
    Map,
    Patch,
    Point,
    Rolled,
    Spot,
    Straightedge,
    Wild,
)
from darby.grounds.straightedge import lines_of, rolled
from darby.grounds.truing import true_up
from darby.measure.surface import Corner, Opening
from darby.rulebook.book import Book
from darby.rulebook.load import default

__all__ = [
    "Coverage", "Face", "Finished", "FinishedAsk", "Gap", "Ground", "Grounds", "GroundsAsk", "Holding", "Map", "Patch",
    "Point", "Rolled", "Spot", "Straightedge", "Wild", "check_finished", "rolling_straightedge", "set_grounds",
    "true_up",
]  # fmt: skip

Outline = Sequence[Corner] | Sequence[Sequence[Length]]


def set_grounds(readings: Iterable[Sequence[Length]], outline: Outline, *, least: Length,
                openings: Iterable[Opening | Outline] = (), fixed: Iterable[Sequence[Length]] = (),
                book: Book | None = None, at: str = "wall", **more: Any) -> Grounds:  # fmt: skip
    """Three finished faces with the least plaster, and the chosen one down to its grounds.

    Parameters
    ----------
    readings
        (n, 3): u, v, out of plane towards the plasterer [m]; n at least 3, not in one line.
    outline
        corners of the wall, or (n, 2) their places [m].
    least
        of the whole plaster at every reading [m].
    openings
        as ``measure`` has them, or outlines like that of the wall.
    fixed
        (n, 3): what the face is to be flush with [m].
    book
        None = the rule book that ships with darby.
    more
        any other field of ``GroundsAsk``: ``finish`` [m], ``spacing`` [m], ``face``, ``held``, ``price`` [$/m3] ...

    Raises
    ------
    Unreadable
        as ``true_up``.
    TypeError
        for a keyword that ``GroundsAsk`` has not.

    Source: linear programming over the family of each face; docs/methods/grounds.md.
    """
    holes = tuple(
        o if isinstance(o, Opening) else Opening(f"opening-{n}", "", _corners(o)) for n, o in enumerate(openings, 1)
    )
    ask = GroundsAsk(
        book if book is not None else default(), at, _points(readings), _corners(outline), least, holes,
        _points(fixed), **more,
    )  # fmt: skip
    return true_up(ask)[0]


def rolling_straightedge(readings: Iterable[Sequence[Length]], length: Length, allowed: Length | None = None) -> Rolled:
    """A straightedge of ``length`` [m] rolled over readings of the finished face: the worst gap and where it is.

    Parameters
    ----------
    readings
        (n, 2): along a line, and how far out [m]; or (n, 3): u, v, out: then it is rolled along every level and every
        plumb line that holds three readings.
    allowed
        what may show [m]; None = only the gap is answered.

    Raises
    ------
    Unreadable
        "grounds.few", "grounds.no-number".

    Between readings nothing is known: the straightedge is held to touch at readings, and gaps are read at readings.
    """
    return rolled(lines_of([tuple(r) for r in readings]), length, allowed)


def _points(rows: Iterable[Sequence[Length]]) -> tuple[Point, ...]:
    return tuple(tuple(x if isinstance(x, Rational) else float(x) for x in row) for row in rows)  # type: ignore[misc]


def _corners(outline: Any) -> tuple[Corner, ...]:
    return tuple(
        c if isinstance(c, Corner) else Corner(str(n), Fraction(c[0]), Fraction(c[1])) for n, c in enumerate(outline, 1)
    )
