"""What is asked of the joints room and what it answers: where the plaster is allowed to part, by what, and how wide.

Inside SI: metres, square metres, degrees Celsius. Sentences are codes; ``darby.words`` says them.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, get_args

from quicktions import Fraction

from darby.measure.surface import BaseKind, Length, Surface
from darby.rulebook.book import Book
from darby.working.model import Note, Quantity

Point = tuple[Length, Length]
Axis = Literal["vertical", "horizontal"]
Position = Literal["vertical", "horizontal", "curved"]
Sealant = Literal["12.5", "25", "50"]
SEALANTS: tuple[str, ...] = get_args(Sealant)

Kind = Literal["control", "expansion", "casing"]
"""A one-piece control joint; a two-piece expansion joint; two casing beads back to back with rod and sealant."""

Origin = Literal[
    "corner", "outline", "even", "stretch", "floor line", "change of base", "block joint",
    "pinned", "framing", "through-wall",
]  # fmt: skip
"""Where a line comes from: corners of openings, of the outline; even parts of the whole, of a blank stretch ..."""

PinWhy = Literal["pinned", "framing", "through-wall"]
LayoutName = Literal["best", "fewest", "through", "smaller", "base"]
"""Best for the aim; fewest joints; all lined through; every panel smaller; only what the base asks (no lath)."""


# --- what is asked ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Ground:
    """What a zone of the surface is ("" = what no zone covers), and whether its plaster hangs on lath."""

    zone: str
    base: BaseKind
    lathed: bool


@dataclass(frozen=True, slots=True)
class Pin:
    """A joint that has to be: right across the surface at ``at`` [m] from its left end, or up from its base.

    ``why``: he wants it there; the framing (or the furring of a ceiling) changes there; a joint goes through the wall.
    """

    axis: Axis
    at: Length
    why: PinWhy = "pinned"


@dataclass(frozen=True, slots=True)
class Forbidden:
    """Where no joint may be laid: at ``at`` [m], or anywhere from ``at`` to ``to``."""

    axis: Axis
    at: Length
    to: Length | None = None


@dataclass(frozen=True, slots=True)
class Limits:
    """What a panel on lath may be: area [m2], longest side [m], so many times as long as wide. None = the book's."""

    area: Fraction | None = None
    side: Length | None = None
    ratio: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Sealing:
    """What decides how wide a joint must be; all temperatures of the plaster's face [deg C], None = not known.

    ``swing`` from coldest to hottest, where one of the two or both are not known [deg C, a difference].
    ``moisture``: strain beside that of temperature (1/5000 = 0.0002); ``shrinkage``: the book's for the base on top;
    ``tolerance`` [m] by which the gap may come out wrong; ``installed`` the temperature at which it is set.
    """

    hot: float | None = None
    cold: float | None = None
    installed: float | None = None
    swing: float | None = None
    sealant: Sealant = "25"
    tolerance: Length = Fraction(0)
    moisture: Fraction | float = Fraction(0)
    shrinkage: bool = False


@dataclass(frozen=True, slots=True)
class JointsAsk:
    """One surface.

    Parameters
    ----------
    grounds
        one for each zone of the surface; for "" where no zone covers it, or a part of it.
    position
        "horizontal" for a soffit or ceiling, "curved" for curved or angled work: the smaller panel holds.
    block_joints
        the block's own control joints, from the left end [m]; () = it has none; None = nobody looked.
    floor_lines
        heights of the floors above the surface's base [m].
    choose
        name of a layout; None = the first.
    """

    book: Book
    surface: Surface
    grounds: tuple[Ground, ...]
    position: Position = "vertical"
    block_joints: tuple[Length, ...] | None = None
    floor_lines: tuple[Length, ...] = ()
    pinned: tuple[Pin, ...] = ()
    forbidden: tuple[Forbidden, ...] = ()
    limits: Limits = Limits()
    sealing: Sealing = Sealing()
    choose: LayoutName | None = None


# --- what is answered -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Joint:
    """A straight joint, ``pieces`` long where openings interrupt it; lengths exact.

    ``axis`` "along" where it follows the outline of a zone. ``corners``: the openings whose corners it meets.
    ``through``: it runs from edge to edge of its plaster. ``on_edge``: its length is an edge run of kind "change of
    base" as well, and is counted there.
    """

    id: str
    axis: Axis | Literal["along"]
    start: Point
    end: Point
    pieces: tuple[tuple[Point, Point], ...]
    length: Length
    kind: Kind
    origin: Origin
    corners: tuple[str, ...] = ()
    through: bool = True
    on_edge: bool = False


@dataclass(frozen=True, slots=True)
class Panel:
    """One panel. ``rings``: its outline, then its holes [m]; ``area`` of its plaster [m2]; ``left`` ... its extent.

    ``slack``: what is left to each limit; None on a base where no limit holds. ``breaks``: the limits it is past.
    """

    id: str
    zones: tuple[str, ...]
    lathed: bool
    rings: tuple[tuple[Point, ...], ...]
    left: Length
    bottom: Length
    width: Length
    height: Length
    area: Fraction
    ratio: Fraction
    area_slack: Quantity | None = None
    side_slack: Quantity | None = None
    ratio_slack: Quantity | None = None
    breaks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Layout:
    """One way to lay the joints out.

    ``off_corner``: joints on lath that meet no corner; ``into``: ends that run into an opening away from a corner;
    ``stops``: ends that stop on another joint; ``through``: every joint on lath runs from edge to edge; ``bare``:
    openings on lath with no joint at any corner; ``holds``: no panel is past a limit. Joints that had to be are in no
    count but ``length`` [m].
    """

    name: LayoutName
    joints: tuple[Joint, ...]
    panels: tuple[Panel, ...]
    laid: int
    off_corner: int
    into: int
    stops: int
    length: Length
    through: bool
    bare: tuple[str, ...]
    holds: bool


@dataclass(frozen=True, slots=True)
class Run:
    """A joint to order: ``length`` [m] of one surface, which stands there ``count`` times; ``beads`` side by side."""

    id: str
    joint: str
    kind: Kind
    origin: Origin
    length: Length
    beads: int
    count: int
    on_edge: bool


@dataclass(frozen=True, slots=True)
class EdgeJoint:
    """An edge of the surface that is a joint by what it meets: no length, the edge run has it."""

    edge: str
    kind: Kind
    because: str


@dataclass(frozen=True, slots=True)
class Width:
    """How wide the gap of some joints is, for ``span`` of plaster that moves [m].

    ``least``: by movement; ``width``: what to set out; ``installed``: what to set it to at the temperature of that
    day; ``depth`` of the seal; ``rod`` its diameter.
    """

    joints: tuple[str, ...]
    span: Quantity
    movement: Quantity
    least: Quantity
    width: Quantity
    depth: Quantity
    rod: Quantity
    installed: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Joints:
    """The answer: layouts that differ, best first, the chosen one, what to order of it, how wide, what to say."""

    surface: str
    layouts: tuple[Layout, ...]
    chosen: Layout
    runs: tuple[Run, ...]
    edges: tuple[EdgeJoint, ...] = ()
    widths: tuple[Width, ...] = ()
    notes: tuple[Note, ...] = field(default=())

    def layout(self, name: str) -> Layout | None:
        """The layout of this name, if it is among them."""
        return next((x for x in self.layouts if x.name == name), None)
