"""What is asked of a patch round an opening and what is answered: how far it is cut back, how deep, how it is tied in.

Lengths in metres, areas in square metres, times in seconds. Sentences are codes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from darby.measure.surface import Length, Side
from darby.rulebook.book import Book
from darby.working.model import Note, Quantity

OldWork = Literal["soft", "hard"]
By = Literal["hollow", "paper", "lath", "line", "edge"]
"""What decides how far a side is cut back: the hollow, laps of paper, the lath's tie, a line, the wall's own edge."""


@dataclass(frozen=True, slots=True)
class CoatOn:
    """A coat of the patch [m], and the wait after it [s]; None = none."""

    name: str
    thickness: Quantity
    wait: Quantity | None = None


@dataclass(frozen=True, slots=True)
class MixOn:
    """What a coat of the patch is mixed of: parts of each by volume. () = bagged, by its label."""

    coat: str
    parts: tuple[tuple[str, Quantity], ...] = ()


@dataclass(frozen=True, slots=True)
class PatchAsk:
    """One patch.

    ``width`` as it was drawn; ``wide`` and ``high`` of the opening; ``hollow``, ``lines`` and ``room`` by side, from
    the frame. ``papers`` layers behind the lath; 0 = none, and ``lathed`` false: a patch on masonry. ``old_depth``:
    how thick the old plaster is; ``total`` what the new coats come to. ``hauled``: he wrote
    down himself what taking the rubble away costs.
    """

    book: Book
    surface: str
    width: Length
    wide: Length
    high: Length
    sides: tuple[Side, ...]
    hollow: tuple[tuple[Side, Length], ...] = ()
    lines: tuple[tuple[Side, Length], ...] = ()
    room: tuple[tuple[Side, Length], ...] = ()
    flange: Length | None = None
    lathed: bool = False
    papers: int = 0
    old: OldWork | None = None
    old_depth: Length | None = None
    total: Quantity | None = None
    coats: tuple[CoatOn, ...] = ()
    mixes: tuple[MixOn, ...] = ()
    cut: Quantity | None = None
    count: int = 1
    hauled: bool = False


@dataclass(frozen=True, slots=True)
class SideCut:
    """How far one side is cut back from the frame [m]: each reason, the least that they ask for, and what decides.

    ``hollow`` the hollow and its margin; ``paper`` the flange and the lap; ``lath`` the flange and the tie; ``line``
    the line that hides the seam. None = it does not ask for anything there. ``back`` is where the saw goes.
    """

    side: Side
    hollow: Quantity
    paper: Quantity | None
    lath: Quantity | None
    least: Quantity
    line: Quantity | None
    back: Quantity
    by: By


@dataclass(frozen=True, slots=True)
class Patch:
    """A patch. ``area`` by its cut-back, ``drawn`` as its width was written; ``short`` by how much that is too narrow.

    ``depth`` the coats come to; ``rubble`` and ``weight`` of what comes out; ``hours`` of one person who cuts.
    ``trips`` and ``days`` are the least that its waits allow. ``order``: what is done, in order, as notes.
    """

    surface: str
    sides: tuple[SideCut, ...]
    area: Quantity
    drawn: Quantity
    short: Quantity | None
    depth: Quantity | None
    coats: tuple[CoatOn, ...]
    rubble: Quantity | None
    weight: Quantity | None
    hours: Quantity | None
    trips: Quantity | None
    days: Quantity | None
    order: tuple[Note, ...]

    def side(self, name: str) -> SideCut | None:
        """The cut of one side; None where the patch does not run."""
        return next((cut for cut in self.sides if cut.side == name), None)
