"""What is asked of a re-coat and what is answered: whether new plaster fits under what stays, and what goes before it.

Lengths in metres, times in seconds. Sentences are codes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from quicktions import Fraction

from darby.rulebook.book import Book
from darby.working.model import Quantity

Real = Fraction | float

SpotKind = Literal["frame", "return", "weep", "vent", "eave"]


@dataclass(frozen=True, slots=True)
class Spot:
    """A place that new plaster comes up to.

    Parameters
    ----------
    at
        id of the place: "house-1/window-2", "house-1/vent-at-1", "house-1/base".
    room
        how far the frame, the screed's nose, the hood or the roof edge stands out past the old face, or how much of a
        frame shows in its reveal [m]; None = nobody measured.
    name
        what he calls it; "" = it has no name but its place.
    count
        equal ones.
    renewed
        the work brings a new one: lath over old plaster hangs its own screed.
    """

    kind: SpotKind
    at: str
    room: Real | None
    name: str = ""
    count: int = 1
    renewed: bool = False


@dataclass(frozen=True, slots=True)
class RecoatWall:
    """One old wall: what is added to its face, what stays on it, what is masked, washed and roughened [m, m2].

    ``added`` None: the old plaster comes off first, and how deep it is decides.
    """

    surface: str
    added: Quantity | None
    spots: tuple[Spot, ...] = ()
    edges: tuple[Real, ...] = ()
    covered: tuple[Real, ...] = ()
    area: Real = 0
    rough: Real = 0


@dataclass(frozen=True, slots=True)
class Off:
    """What comes off and goes back: time of one person for one of them, off and on [s]; None = not said."""

    what: str
    count: int
    each: Real | None


@dataclass(frozen=True, slots=True)
class RecoatAsk:
    """All walls of a re-coat. ``mask`` [m/s], ``wash`` and ``roughen`` [m2/s] of one person; None = not said.

    ``own``: what is added is his own word, not the coats'.
    """

    book: Book
    walls: tuple[RecoatWall, ...] = ()
    off: tuple[Off, ...] = ()
    mask: Quantity | None = None
    wash: Quantity | None = None
    roughen: Quantity | None = None
    own: bool = False


@dataclass(frozen=True, slots=True)
class Check:
    """One place: its ``room`` and what is ``added`` [m]; ``left`` of it, and by how much that is ``short`` [m].

    ``left`` below nought: the plaster stands past it. None = nobody measured it, or (``short``) enough is left.
    ``keep`` is what has to be left [m]. ``renewed``: it would be short, and the work brings a new one.
    """

    kind: SpotKind
    at: str
    name: str
    count: int
    added: Quantity
    keep: Quantity
    room: Quantity | None = None
    left: Quantity | None = None
    short: Quantity | None = None
    renewed: bool = False


@dataclass(frozen=True, slots=True)
class Recoat:
    """A re-coat, checked place by place; empty where nothing is re-coated.

    ``added``: (surface, what its face comes out by [m]). ``mask`` length of tape [m] and ``cover`` area of film [m2];
    ``wash`` and ``rough`` area that is washed and roughened [m2]; hours of one person for each and for what comes off;
    None = no such work, or nobody said how long it takes.
    """

    added: tuple[tuple[str, Quantity], ...] = ()
    checks: tuple[Check, ...] = ()
    mask: Quantity | None = None
    cover: Quantity | None = None
    mask_hours: Quantity | None = None
    wash: Quantity | None = None
    wash_hours: Quantity | None = None
    rough: Quantity | None = None
    rough_hours: Quantity | None = None
    off_hours: Quantity | None = None

    @property
    def short(self) -> tuple[Check, ...]:
        """The places that are left short."""
        return tuple(c for c in self.checks if c.short is not None)
