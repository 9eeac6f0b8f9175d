"""What is asked of the grounds room and what it answers: where the finished face goes, and what that costs.

Inside SI: metres, square metres, cubic metres. Out of plane is towards the plasterer: a high spot has a larger reading.
Sentences are codes; ``darby.words`` says them.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal, get_args

from quicktions import Fraction

from darby.measure.surface import BaseKind, Corner, Opening
from darby.rulebook.book import Book
from darby.rulebook.model import Figure
from darby.working.model import Amount, Note, Quantity

Length = Fraction | float
"""Metres: exact where it was measured, a float where it was computed."""

Point = tuple[Length, Length, Length]
"""u, v and how far out of the string's or the laser's plane, towards the plasterer [m]."""

FaceName = Literal["plumb", "leaning", "wandering"]
Held = Literal["lath", "follow", "dub out"]
Bend = Literal["hollow", "crown"]

FACES: tuple[FaceName, ...] = get_args(FaceName)
HELD: tuple[Held, ...] = get_args(Held)


# --- what is asked ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Straightedge:
    """A rule of flatness: under a straightedge so long, no more than ``gap`` may show [m]."""

    length: Length
    gap: Length


@dataclass(frozen=True, slots=True)
class GroundsAsk:
    """One wall to be trued.

    Parameters
    ----------
    at
        id of the surface; every step and note is kept under it.
    readings
        of the bare wall, at least three, not in one line; taken from a plumb line or plane.
    outline, openings
        the wall and its holes, as ``measure`` has them.
    least
        the whole plaster at every reading, from the bare wall to the finished face [m].
    fixed
        points the face has to be flush with: frames, old work, grounds that are set already.
    base
        what the wall is made of: it decides how much may hang without lath.
    lathed
        outlines of the parts that are on lath anyway.
    finish
        thickness of the finish coat [m]: grounds stand back by it.
    spacing
        of the grounds [m]; None = the book's.
    face
        which of the three faces is worked out down to its grounds.
    held
        how plaster past the limit is held, on his word; None = he has not said.
    price
        of plaster in place [$/m3]; None = no money is answered.
    straightedges
        his own rules of flatness; None = the book's two.
    """

    book: Book
    at: str
    readings: tuple[Point, ...]
    outline: tuple[Corner, ...]
    least: Length
    openings: tuple[Opening, ...] = ()
    fixed: tuple[Point, ...] = ()
    base: BaseKind = "block"
    lathed: tuple[tuple[Corner, ...], ...] = ()
    finish: Length = Fraction(0)
    spacing: Length | None = None
    face: FaceName = "plumb"
    held: Held | None = None
    price: Decimal | None = None
    straightedges: tuple[Straightedge, ...] | None = None


# --- the straightedge -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Gap:
    """What shows under a straightedge: ``gap`` at ``at``, the straightedge reaching from ``start`` to ``end`` [m].

    "hollow": light under its middle. "crown": it rocks on ``at``, and held even so much shows at its ends.
    ``bend`` is None where nothing shows.
    """

    length: Quantity
    gap: Quantity
    bend: Bend | None
    at: tuple[float, float]
    start: tuple[float, float]
    end: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Rolled:
    """A straightedge rolled over readings: the worst gap, the worst of every line, and whether all keep ``allowed``.

    ``lines`` holds only lines with three readings within one length of the straightedge; ``worst`` is None, and
    ``keeps`` too, where there is no such line. ``keeps`` is None also where no allowance was given.
    """

    worst: Gap | None
    lines: tuple[Gap, ...]
    allowed: Quantity | None
    keeps: bool | None


@dataclass(frozen=True, slots=True)
class FinishedAsk:
    """Readings of one finished face, after the work; ``straightedges`` None = the book's two rules."""

    book: Book
    at: str
    readings: tuple[Point, ...]
    straightedges: tuple[Straightedge, ...] | None = None


@dataclass(frozen=True, slots=True)
class Finished:
    """How true a face came out: each straightedge rolled over the readings, the short one first."""

    at: str
    rolled: tuple[Rolled, ...]
    notes: tuple[Note, ...] = ()


# --- what is answered -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Face:
    """One way to put the finished face.

    ``us`` x ``vs`` is a grid over the wall, ``out[row][column]`` how far the face stands out there [m]; between, it is
    straight along every level and every plumb line (a plane has one field). ``volume`` of plaster on the net wall and
    its ``cost``; ``mean``, ``least`` and ``most`` thickness, the last two at readings; ``lean`` the most that a plumb
    line of it is out from foot to head, per ``thickness.base-plane-length``; ``gaps`` the worst under each
    straightedge; ``past`` the area thicker than what may hang without lath. ``holds``: numbers (from 1) of the readings
    at which it has just the least. ``misses``: by how much it cannot be flush with what is fixed; None = it is flush.
    ``look`` is the code of a sentence.
    """

    name: FaceName
    us: tuple[float, ...]
    vs: tuple[float, ...]
    out: tuple[tuple[float, ...], ...]
    volume: Quantity
    cost: Amount | None
    mean: Quantity
    least: Quantity
    most: Quantity
    lean: Quantity
    gaps: tuple[Gap, ...]
    past: Quantity
    holds: tuple[int, ...]
    misses: Quantity | None
    look: str


@dataclass(frozen=True, slots=True)
class Ground:
    """A ground, or a corner: ``depth`` from the bare wall to the finished face, ``ground`` to the back of the finish,
    ``line`` from the string's plane to the back of the finish [m].

    All three to the nearest of ``grounds.to``; their keys lead to the unrounded step. ``known``: there is a reading
    within reach; elsewhere the wall, and so the depth, was not measured.
    """

    id: str
    u: float
    v: float
    depth: Quantity
    ground: Quantity
    line: Quantity
    known: bool


@dataclass(frozen=True, slots=True)
class Spot:
    """A high spot that holds the face out: reading ``number`` (from 1).

    ``saves`` and ``saves_money``: what the face without it would take less. ``knocked`` and ``knocked_money``: what it
    takes less with ``by`` knocked off.
    """

    number: int
    u: float
    v: float
    out: float
    saves: Quantity
    saves_money: Amount | None
    by: Quantity
    knocked: Quantity
    knocked_money: Amount | None


@dataclass(frozen=True, slots=True)
class Wild:
    """A reading that its neighbours do not bear out: it stands ``off`` them, ``times`` the usual scatter (None where
    there is no scatter)."""

    number: int
    u: float
    v: float
    off: Quantity
    times: float | None


@dataclass(frozen=True, slots=True)
class Coverage:
    """How well the readings cover the wall: the middle and radius of the largest empty circle [m], and what of the net
    wall lies farther than ``reach`` from any reading: ``thin`` [m2], drawn in ``outlines``."""

    u: float
    v: float
    radius: Quantity
    reach: Quantity
    thin: Quantity
    outlines: tuple[tuple[tuple[float, float], ...], ...]


@dataclass(frozen=True, slots=True)
class Map:
    """The chosen face over the wall: points (readings first, then corners that were taken from the nearest reading),
    thickness at each [m], and triangles as places in ``points``."""

    points: tuple[tuple[float, float], ...]
    thickness: tuple[float, ...]
    triangles: tuple[tuple[int, int, int], ...]


@dataclass(frozen=True, slots=True)
class Patch:
    """A hollow in which the plaster is thicker than may hang without lath; deepest first, as it is dubbed out.

    ``outlines`` of it; ``u`` and ``v`` where it is deepest; ``excess`` the volume past the limit; ``lifts`` to bring it
    up to the limit. ``slight``: by less than a rule shows (``grounds.to``), or than
    a trowel holds (``grounds.least-fill``), is it past the limit.
    """

    outlines: tuple[tuple[tuple[float, float], ...], ...]
    u: float
    v: float
    area: Quantity
    deepest: Quantity
    excess: Quantity
    lifts: Quantity
    slight: bool = False


@dataclass(frozen=True, slots=True)
class Holding:
    """One way to hold what is past the limit: plaster in all, ``area`` it concerns, ``lifts`` at the deepest place.

    ``lath``: lath on the hollows, and the plaster in so many lifts. ``follow``: the face follows the wall there and
    stays ``off`` behind the straight one at most. ``dub out``: the hollows are filled first in so many lifts, and no
    lath holds it.
    """

    how: Held
    volume: Quantity
    cost: Amount | None
    area: Quantity
    lifts: Quantity
    most: Figure
    off: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Grounds:
    """The answer: three faces side by side, and the chosen one down to its grounds.

    ``net`` area of the wall; ``untrued`` the plaster if the face followed the wall at its least all over, ``truing``
    what the chosen face takes more. ``limit`` is what may hang without lath; None = that is no question on this base.
    ``volume`` is what the chosen face takes as it is held.
    """

    at: str
    net: Quantity
    faces: tuple[Face, ...]
    chosen: Face
    volume: Quantity
    cost: Amount | None
    untrued: Quantity
    truing: Quantity
    grounds: tuple[Ground, ...]
    corners: tuple[Ground, ...]
    map: Map
    wild: tuple[Wild, ...]
    coverage: Coverage
    spots: tuple[Spot, ...]
    limit: Figure | None
    patches: tuple[Patch, ...]
    holdings: tuple[Holding, ...]
    held: Held | None
    notes: tuple[Note, ...] = ()

    def from_line(self, ground: Ground) -> Quantity:
        """How far off the line a ground stands [m]: in front of it, or, where all stand behind it, behind."""
        behind = all(float(g.line) <= 0 for g in (*self.grounds, *self.corners))
        return replace(ground.line, value=-ground.line.value) if behind else ground.line

    def face(self, name: str) -> Face:
        """The face called ``name``.

        Raises
        ------
        KeyError
            if there is none.
        """
        for face in self.faces:
            if face.name == name:
                return face
        raise KeyError(name)
