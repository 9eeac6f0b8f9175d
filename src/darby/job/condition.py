"""What the job file says of old plaster: what he found on a wall, and how a patch in it is made."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from quicktions import Fraction

from darby.measure.surface import Length, Side, Surface
from darby.measure.units import Unit

Pace = tuple[Fraction, Unit]
"""What one person does in a second, SI, and the unit it was written in."""

Point = tuple[Length, Length]
Push = Literal["firm", "gives"]
Lath = Literal["tight", "loose"]
OldWork = Literal["soft", "hard"]


@dataclass(frozen=True, slots=True)
class Hollow:
    """A hollow-sounding area: its corners [m], whether it gives when pushed, whether the lath behind it is loose."""

    id: str
    outline: tuple[Point, ...]
    name: str = ""
    push: Push | None = None
    lath: Lath | None = None


@dataclass(frozen=True, slots=True)
class Loose:
    """Paint that comes off: its corners [m]."""

    id: str
    outline: tuple[Point, ...]
    name: str = ""


@dataclass(frozen=True, slots=True)
class GaugeReading:
    """The width of a crack [m] on a day; ``air`` in degrees Celsius, None = not said."""

    on: date
    width: Length
    air: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Crack:
    """A crack: where it runs [m], how wide [m], whether water comes through, whether it came back after it was filled.

    ``readings`` of it, oldest first, off a gauge that tells ``gauge`` [m] apart.
    """

    id: str
    line: tuple[Point, ...]
    name: str = ""
    width: Length | None = None
    leaks: bool = False
    returned: bool = False
    gauge: Length | None = None
    readings: tuple[GaugeReading, ...] = ()


@dataclass(frozen=True, slots=True)
class Survey:
    """What he found on one wall: a surface of the job, or ``wall``, which is looked at only and not coated.

    ``grid`` [m] is how far apart he taps; ``taps`` rows of it, the top row first.

    Each letter of a row: s sound, h hollow, a point where it could not be tapped, or in an opening. ``pace`` is the
    wall one person taps in a second.
    """

    surface: str
    wall: Surface | None = None
    grid: Length | None = None
    taps: tuple[str, ...] = ()
    pace: Pace | None = None
    hollow: tuple[Hollow, ...] = ()
    cracks: tuple[Crack, ...] = ()
    loose: tuple[Loose, ...] = ()


@dataclass(frozen=True, slots=True)
class Patch:
    """How a patch round an opening is made.

    ``hollow``: how far from the frame the plaster is hollow on each side [m]; ``lines``: how far from the frame lines
    run on each side that hide a seam [m]; ``room``: how far the wall goes on [m]; ``flange`` of the new window or
    door [m]. ``width`` and ``sides`` are what the patch was drawn with [m]. ``old``: whether a nail scratches the old
    plaster easily. ``cut`` is what one person cuts back in a second; None = not said.
    """

    surface: str
    width: Length
    sides: tuple[Side, ...]
    hollow: tuple[tuple[Side, Length], ...] = ()
    lines: tuple[tuple[Side, Length], ...] = ()
    room: tuple[tuple[Side, Length], ...] = ()
    flange: Length | None = None
    old: OldWork | None = None
    cut: Pace | None = None
