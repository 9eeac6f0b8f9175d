"""What the job file says of coating old walls anew: what the new plaster must fit, and what comes off and goes back."""

from __future__ import annotations

from dataclasses import dataclass

from quicktions import Fraction

from darby.measure.surface import Length
from darby.measure.units import Unit

Pace = tuple[Fraction, Unit]
"""What one person does in a second, SI, and the unit it was written in."""


@dataclass(frozen=True, slots=True)
class Vent:
    """A vent, box or pipe that stays in the wall: its middle [m] and how far it stands out past the old face [m]."""

    id: str
    surface: str
    at: Length
    up: Length
    name: str = ""
    clear: Length | None = None
    count: int = 1


@dataclass(frozen=True, slots=True)
class Eave:
    """A roof edge, frieze or soffit vent over a wall, and how far it stands out past the old face [m]."""

    id: str
    surface: str
    name: str = ""
    clear: Length | None = None


@dataclass(frozen=True, slots=True)
class Fixture:
    """What comes off the wall and goes back: how many, and the time of one person for one, off and on [s]."""

    what: str
    count: int = 1
    each: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Recoat:
    """A re-coat. ``surfaces`` () = every wall of old or painted plaster or painted block.

    ``adds`` [m] is what he says the new work adds; None = what the coats say. ``frames`` [m] how far frames stand out
    past the old face, ``returns`` [m] how much of a frame shows within its reveal, ``weep`` [m] how far the nose of
    the screed at the foot stands out past the old face: each where an opening or a wall says nothing of its own.
    """

    surfaces: tuple[str, ...] = ()
    adds: Length | None = None
    frames: Length | None = None
    returns: Length | None = None
    weep: Length | None = None
    vents: tuple[Vent, ...] = ()
    eaves: tuple[Eave, ...] = ()
    fixtures: tuple[Fixture, ...] = ()
    mask: Pace | None = None
    wash: Pace | None = None
    roughen: Pace | None = None
