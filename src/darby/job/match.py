"""What was read of an old face that new work has to match."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from quicktions import Fraction

from darby.measure.units import Unit

Looks = Literal["float", "smooth", "dash", "lace", "scraped", "wet dash", "skip trowel", "pebble"]
PaintKind = Literal["paint", "textured", "elastomeric"]
ReadBy = Literal["micrometer", "putty"]
SandBy = Literal["retained", "passing", "grains"]


@dataclass(frozen=True, slots=True)
class SieveRead:
    """A sieve by name and ``opening`` [m]; None = the pan. ``amount`` on it or through it, SI of ``unit``."""

    name: str
    opening: Fraction | None
    amount: Fraction
    unit: Unit


Stick = tuple[tuple[str, Fraction], tuple[str, Fraction]]
"""Grains glued on a stick: the sieve they lie on and the one they went through, by name and opening [m]."""


@dataclass(frozen=True, slots=True)
class BoardWanted:
    """A sample board of his own."""

    sand: Stick
    method: Looks | None = None
    thickness: Fraction | None = None
    how: str = ""


@dataclass(frozen=True, slots=True)
class OldSide:
    """The old side that is painted as well: ``area`` [m2], and ``to`` which break in the wall."""

    area: Fraction
    to: str


@dataclass(frozen=True, slots=True)
class SignedFor:
    """The board that was signed for: number, by whom, when, in what light, seen from how far [m]."""

    board: int
    by: str
    on: date | None = None
    light: str = ""
    off: Fraction | None = None


@dataclass(frozen=True, slots=True)
class MatchWanted:
    """One old face beside one surface: ``says`` where it was read. Everything else as it was written down.

    ``film`` [m] of a chip measured; ``depths`` [m] below the tops of the face.
    """

    surface: str
    by: SandBy
    sand: tuple[SieveRead, ...] = ()
    grains: tuple[Stick, ...] = ()
    says: str = ""
    looks: Looks | None = None
    depths: tuple[Fraction, ...] = ()
    read_by: ReadBy = "micrometer"
    paint_coats: int = 0
    paint: PaintKind = "paint"
    film: Fraction | None = None
    boards: tuple[BoardWanted, ...] = ()
    also_paint: OldSide | None = None
    signed: SignedFor | None = None
