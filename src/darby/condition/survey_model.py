"""What is asked of a survey and what is answered: what was found on an old wall, and what each finding asks for.

Lengths in metres, areas in square metres, times in seconds, temperatures in degrees Celsius. Sentences are codes.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from quicktions import Fraction

from darby.measure.surface import Surface
from darby.rulebook.book import Book
from darby.working.model import Quantity

Point = tuple[Fraction, Fraction]
Kind = Literal["hollow", "crack", "loose"]
Does = Literal["leave", "fill", "cut out", "refasten", "take off", "test first"]
Movement = Literal["moving", "not moving so far", "too few readings"]
Follows = Literal["cold", "warm", "growing", ""]
"""What a moving crack does: opens as it cools, opens as it warms, opens more and more, or none of these."""
Heard = Literal["sound", "hollow", "not tapped"]


@dataclass(frozen=True, slots=True)
class Hollow:
    """A hollow area as he drew it; ``push`` "firm" or "gives", ``lath`` "tight" or "loose", None = not tried."""

    id: str
    outline: tuple[Point, ...]
    name: str = ""
    push: str | None = None
    lath: str | None = None


@dataclass(frozen=True, slots=True)
class Loose:
    """Paint that comes off."""

    id: str
    outline: tuple[Point, ...]
    name: str = ""


@dataclass(frozen=True, slots=True)
class GaugeReading:
    """Width of a crack on a day [m]; ``air`` None = not said."""

    on: date
    width: Fraction
    air: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Crack:
    """A crack as he drew it. ``gauge`` is the least that his gauge tells apart; readings oldest first."""

    id: str
    line: tuple[Point, ...]
    name: str = ""
    width: Fraction | None = None
    leaks: bool = False
    returned: bool = False
    gauge: Fraction | None = None
    readings: tuple[GaugeReading, ...] = ()


@dataclass(frozen=True, slots=True)
class SurveyAsk:
    """One surface and what he found on it.

    ``grid`` None = the rule book's. ``taps``: rows of letters, the top row first (s, h or a point). ``built``: year of
    the wall. ``pace`` of one person who taps [m2/s].
    """

    book: Book
    surface: Surface
    grid: Fraction | None = None
    taps: tuple[str, ...] = ()
    hollow: tuple[Hollow, ...] = ()
    cracks: tuple[Crack, ...] = ()
    loose: tuple[Loose, ...] = ()
    built: int | None = None
    pace: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Tap:
    """Where it is tapped [m], in which column from the left and row from the base, and what was heard."""

    u: Fraction
    v: Fraction
    column: int
    row: int
    heard: Heard | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding and what it asks for.

    ``size`` is its area, or a crack's length. ``width``, ``movement`` and ``follows`` are a crack's. ``cut`` is the
    area that is cut out, hollow and margin. ``outline`` of an area, ``line`` of a crack. ``why``: code of the reason.
    """

    id: str
    kind: Kind
    does: Does
    why: str
    size: Quantity
    name: str = ""
    outline: tuple[Point, ...] = ()
    line: tuple[Point, ...] = ()
    width: Quantity | None = None
    movement: Movement | None = None
    follows: Follows = ""
    change: Quantity | None = None
    cut: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Survey:
    """What a wall asks for. ``wall`` is its bare area, ``hollow`` of it and ``share``; ``cut`` all that is cut out.

    ``hours`` of one person who taps it; None = nobody said how fast.
    """

    surface: str
    wall: Quantity
    grid: Quantity
    taps: tuple[Tap, ...]
    findings: tuple[Finding, ...]
    hollow: Quantity | None = None
    share: Quantity | None = None
    cut: Quantity | None = None
    hours: Quantity | None = None

    def of(self, kind: Kind) -> tuple[Finding, ...]:
        """The findings of one kind, in the order they were written."""
        return tuple(f for f in self.findings if f.kind == kind)
