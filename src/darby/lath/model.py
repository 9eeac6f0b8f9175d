"""What is asked of the lath room and what it answers: sheets in their places, strips, fasteners, paper.

Seen from outside, u right and v up, exact metres. Areas in m2.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from quicktions import Fraction

from darby.measure.surface import Length, Side
from darby.rulebook import Book, default
from darby.working import Quantity

Point = tuple[Length, Length]
Outline = tuple[Point, ...]
Ends = Literal["left", "right"]


# --- what is asked ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Reveal:
    """A side of an opening whose reveal is lathed, ``depth`` into the wall [m]."""

    side: Side
    depth: Length


@dataclass(frozen=True, slots=True)
class Opening:
    """A hole in the lath: its outline as points [m], and the reveals that are lathed."""

    id: str
    outline: Outline
    reveals: tuple[Reveal, ...] = ()


@dataclass(frozen=True, slots=True)
class Joint:
    """A joint where the lath is cut: level or plumb, from one point to the other [m]."""

    id: str
    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Corner:
    """An upright corner at the left or right end of the zone.

    ``how``: the sheets are carried "round" it, a "strip" of corner lath lies over it, or a "bead" makes it and the
    lath ends there. A corner that two surfaces share is asked of one of them.
    """

    id: str
    side: Ends
    kind: Literal["inside", "outside"]
    how: Literal["round", "strip", "bead"] = "bead"


@dataclass(frozen=True, slots=True)
class Roll:
    """Paper as it is bought: width and length [m]; ``plies`` that it lays at once."""

    width: Length
    length: Length
    plies: int = 1


@dataclass(frozen=True, slots=True)
class LathAsk:
    """One zone of one surface that takes lath.

    ``at`` its place ("crew-1/main"); ``outline`` and openings as points [m], arcs made flat; ``base`` "frame" or the
    masonry behind; ``studs`` apart and the middle of the ``first_stud`` [m], None = the book's and the left end.
    ``sheet`` (width, length) as bought [m], ``side_lap`` and ``end_lap`` [m]: None = the book's, by the voice that is
    followed. ``paper`` layers behind the lath, None = by the sheathing; ``count`` of equal zones.
    """

    at: str
    outline: Outline
    openings: tuple[Opening, ...] = ()
    base: str = "frame"
    joints: tuple[Joint, ...] = ()
    corners: tuple[Corner, ...] = ()
    studs: Length | None = None
    first_stud: Length | None = None
    sheet: tuple[Length, Length] | None = None
    side_lap: Length | None = None
    end_lap: Length | None = None
    sheathing: str | None = None
    paper: int | None = None
    roll: Roll | None = None
    count: int = 1
    book: Book = field(default_factory=default)


# --- what is answered ------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a sheet in its place: ``left``, ``right``, ``low``, ``high`` [m], laps and all.

    ``panel`` between the joints and ``course`` from its foot, both counted from 1; cut from sheet number ``sheet``,
    ``reused`` where from what was left of it. ``turn_left`` and ``turn_right`` are carried round a corner [m], within
    left and right. ``net`` the wall it covers [m2]: less than its own area where it is cut round an opening or a slope.
    """

    id: str
    panel: int
    course: int
    left: Length
    right: Length
    low: Length
    high: Length
    sheet: int
    reused: bool
    net: Fraction
    turn_left: Length = Fraction(0)
    turn_right: Length = Fraction(0)

    @property
    def area(self) -> Fraction:
        """Length by width, as it is cut [m2]."""
        return (self.right - self.left) * (self.high - self.low)


@dataclass(frozen=True, slots=True)
class EndJoint:
    """Where two pieces of a course lap end to end: the middle of the lap [m], and whether framing is behind it."""

    panel: int
    course: int
    u: Length
    low: Length
    high: Length
    over_framing: bool


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip round a corner or into a reveal: ``length`` and ``width`` [m]; ``sheet`` None = corner lath, not sheets.

    ``of`` the corner or opening, ``side`` of it; ``leg`` how much of the width lies on this face [m].
    """

    id: str
    of: str
    side: str
    length: Length
    width: Length
    leg: Length
    sheet: int | None = None
    reused: bool = False


@dataclass(frozen=True, slots=True)
class Offcut:
    """What is left of a sheet and large enough to use [m]."""

    sheet: int
    length: Length
    width: Length


@dataclass(frozen=True, slots=True)
class PaperStrip:
    """A run of paper in its place [m]: ``layer`` from the wall out, ``course`` from the foot up, ``roll`` it is from.

    Hung in the order given: each course laps over the one below it.
    """

    layer: int
    course: int
    left: Length
    right: Length
    low: Length
    high: Length
    roll: int


@dataclass(frozen=True, slots=True)
class Paper:
    """The paper behind the lath. ``rolls`` None where nobody said how long a roll is."""

    layers: int
    strips: tuple[PaperStrip, ...]
    length: Quantity
    area: Quantity
    rolls: Quantity | None


@dataclass(frozen=True, slots=True)
class Lath:
    """One zone's lath, sheet by sheet.

    ``sheets`` for the zone, ``all_sheets`` for the ``count`` of it; ``by_yard`` what the square-yard rule says and
    ``more`` how many more are laid; ``fasteners`` counted support by support, ``fasteners_by_area`` the rule beside.
    """

    at: str
    area: Quantity
    pieces: tuple[Piece, ...]
    joints: tuple[EndJoint, ...]
    strips: tuple[Strip, ...]
    offcuts: tuple[Offcut, ...]
    scrap: Quantity
    sheets: Quantity
    all_sheets: Quantity
    by_yard: Quantity
    more: Quantity
    fasteners: Quantity
    fasteners_by_area: Quantity
    supports: tuple[Length, ...]
    paper: Paper | None
    corner_lath: Quantity | None = None
