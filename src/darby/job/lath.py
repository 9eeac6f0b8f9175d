"""What is said about how lath and paper are laid: framing, sheets, laps, corners."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from quicktions import Fraction

CornerHow = Literal["bead", "strip", "round"]
"""A bead makes the corner, corner lath lies over it, or the sheets are carried round it."""

Sides = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class LathWanted:
    """One surface, or every wall of a house; ``surface`` "" = every surface. None = not said.

    ``first_stud`` its middle from the left end [m]; ``sheet`` width and length [m]; laps [m]; ``paper`` layers;
    ``roll`` width and length [m]; ``plies`` that it lays at once; ``outside`` and ``inside``: how corners are made.
    """

    surface: str
    first_stud: Fraction | None = None
    sheet: Sides | None = None
    side_lap: Fraction | None = None
    end_lap: Fraction | None = None
    paper: int | None = None
    roll: Sides | None = None
    plies: int | None = None
    outside: CornerHow | None = None
    inside: CornerHow | None = None
