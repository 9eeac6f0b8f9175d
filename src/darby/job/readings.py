"""Readings of one bare wall, and how it is to be trued."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from quicktions import Fraction

Reading = tuple[Fraction, Fraction, Fraction]
"""From the wall's left end, up from its base, and how far it stands out toward the plasterer [m]."""

HeldBy = Literal["lath", "follow", "dub out"]
FaceName = Literal["plumb", "leaning", "wandering"]


@dataclass(frozen=True, slots=True)
class WallReadings:
    """One surface: ``points`` of the bare wall, from a plumb line or plane, larger where the wall stands out.

    ``fixed`` is what the finished face has to be flush with; ``least`` the whole plaster at every reading [m]; ``held``
    how plaster past what may hang without lath is held; ``face`` which of the three faces; ``spacing`` of the grounds
    [m]. None = not said.
    """

    surface: str
    points: tuple[Reading, ...]
    fixed: tuple[Reading, ...] = ()
    least: Fraction | None = None
    held: HeldBy | None = None
    face: FaceName | None = None
    spacing: Fraction | None = None


@dataclass(frozen=True, slots=True)
class FinishedReadings:
    """Readings of the finished face of one surface, to roll a straightedge over; off any straight line or plane."""

    surface: str
    points: tuple[Reading, ...]
