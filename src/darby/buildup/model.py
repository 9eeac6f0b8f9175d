"""What is asked of the build-up room and what it answers: what goes on this base, in what coats, how thick, why.

Inside SI: lengths in metres, times in seconds. Sentences are codes; ``darby.words`` says them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from quicktions import Fraction

from darby.measure.surface import BaseKind
from darby.rulebook.book import Book
from darby.rulebook.model import Figure
from darby.working.model import Note, Quantity

Length = Fraction | float
"""Metres: exact where it was measured, a float where it was computed."""

Weight = Literal["dense", "lightweight"]
Joints = Literal["flush", "struck"]
Suction = Literal["high", "usual", "low", "none"]
Position = Literal["vertical", "horizontal"]
Sheathing = Literal["wood", "gypsum", "foam", "open studs"]
Finish = Literal["float", "smooth", "dash", "lace", "scraped", "wet dash", "skip trowel", "pebble", "none"]
FinishSand = Literal["16/20", "20/30", "30"]
Behind = Literal["frame", "block", "brick", "concrete"]
Place = Literal[
    "parapet", "foundation", "garden wall", "chimney", "column", "planter", "soffit", "band", "patch", "top",
]  # fmt: skip
Verdict = Literal["clean and bond", "roughen and bond", "lath over", "do not", "test first"]
CoatName = Literal["dash-bond", "scratch", "brown", "base", "finish"]
Lath = Literal["self-furring", "paper-backed", "rib"]
OptionId = Literal[
    "two-coat", "single-base", "three-coat", "heavy-skim", "dub-out", "lath-three-coat", "double-back", "one-coat",
]  # fmt: skip
How = Literal[
    "casing bead, rod and sealant",
    "two casing beads, rod and sealant",
    "casing bead kept off the roof",
]

FINISHES: tuple[str, ...] = get_args(Finish)
OPTIONS: tuple[str, ...] = get_args(OptionId)

LATHED: tuple[str, ...] = ("frame", "lath over block")
"""Bases that plaster cannot be put straight on."""

OLD: tuple[str, ...] = ("old plaster", "painted plaster")
DOUBTFUL: tuple[str, ...] = ("painted block", *OLD)
"""Bases on which tests decide whether plaster holds."""

BLOCK: tuple[str, ...] = ("block", "painted block")


# --- what is asked ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class MeetsOld:
    """An edge of ours and what it meets: old work ``thickness`` thick, its face ``proud`` of our bare base [m].

    ``proud`` None = nobody measured it: the old plaster's own thickness is taken, and noted.
    """

    edge: str
    what: Literal["old plaster", "trim", "roof", "other base"] = "old plaster"
    thickness: Length | None = None
    proud: Length | None = None


@dataclass(frozen=True, slots=True)
class OwnCoat:
    """What he knows better about one coat: thickness [m], time kept moist and time before the next coat [s]."""

    name: str
    thickness: Length | None = None
    moist: Length | None = None
    wait: Length | None = None


@dataclass(frozen=True, slots=True)
class Tried:
    """What was tried on a doubtful base, and how it came out. None = not tried."""

    scrape: Literal["holds", "comes off"] | None = None
    water: Literal["soaks in", "beads"] | None = None
    tap: Literal["sound", "hollow"] | None = None
    pull: Literal["held", "let go"] | None = None


@dataclass(frozen=True, slots=True)
class Override:
    """What he knows better: the whole thickness past the base [m], single coats, and his reason in his own words."""

    total: Length | None = None
    coats: tuple[OwnCoat, ...] = ()
    why: str = ""


@dataclass(frozen=True, slots=True)
class BuildUpAsk:
    """One zone of one surface.

    Parameters
    ----------
    at
        id of the zone ("bay-south/rest"); every step and note is kept under it.
    suction
        by the splash test; None = not tested, then taken from the base and noted.
    stud_spacing, out_of_plane
        [m]; None = not measured. ``out_of_plane`` is from the highest spot to the deepest hollow.
    next_to
        (zone id, base) of the other bases on the same surface.
    choose
        an option's id; None = the first.
    cure
        a profile's name (a voice of the curing figures); None = the one the book follows.
    above_earth, above_paving
        clearance of the weep screed of a framed wall [m]; None = not measured.
    brick, behind, tests
        kind of brick; what old plaster hangs on; what was tried on old plaster or paint.
    place, retains, sprinklers
        what part of a building it is; how high earth stands behind it [m]; whether sprinklers wet it.
    sand, colored
        the finish sand by the sieves it lies between; whether the finish coat carries the color.
    """

    book: Book
    at: str
    base: BaseKind
    weight: Weight | None = None
    joints: Joints | None = None
    suction: Suction | None = None
    position: Position = "vertical"
    finish: Finish = "float"
    sheathing: Sheathing | None = None
    stud_spacing: Length | None = None
    out_of_plane: Length | None = None
    meets: tuple[MeetsOld, ...] = ()
    next_to: tuple[tuple[str, str], ...] = ()
    paint: bool = False
    choose: str | None = None
    override: Override | None = None
    cure: str | None = None
    above_earth: Length | None = None
    above_paving: Length | None = None
    brick: Literal["soft", "sound"] | None = None
    behind: Behind | None = None
    tests: Tried | None = None
    place: Place | None = None
    retains: Length | None = None
    sprinklers: bool = False
    sand: FinishSand | None = None
    colored: bool = False

    @property
    def solid(self) -> bool:
        """Whether plaster may go straight on."""
        return self.base not in LATHED

    @property
    def taken(self) -> str:
        """The base as the tables know it: "block" for all masonry and for old plaster, "concrete", "lath"."""
        if not self.solid:
            return "lath"
        return "concrete" if self.base == "concrete" else "block"

    @property
    def framed(self) -> bool:
        """Whether lath is fastened to framing: on a frame, and over old plaster that hangs on one."""
        return self.base == "frame" or (self.base in OLD and self.behind == "frame")


# --- what is answered -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Coat:
    """One coat. Thickness [m]: ``least`` on the high spot, ``nominal`` on the grounds, ``most`` in the deepest hollow.

    ``levels``: this coat takes up what the base is out of true. ``moist`` how long it is kept wet; ``wait_least``
    before the next coat; ``wait_most`` where the next coat must not come later either (doubling back) [s]; all three
    None where there is nothing to say. ``mix`` and ``sand`` are codes, so are ``notes``.
    """

    name: CoatName
    least: Quantity
    nominal: Quantity
    most: Quantity
    mix: str
    sand: str
    levels: bool = False
    moist: Quantity | None = None
    wait_least: Quantity | None = None
    wait_most: Quantity | None = None
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Parting:
    """How the plaster is parted from what it meets at ``edge``; ``beads`` on our side, ``width`` of the gap [m].

    ``set_back`` [m]: how much farther back the bare base must sit than it does now, so that faces come flush;
    below nought: it must come forward. None where there is nothing to line up with, or nobody measured.
    """

    edge: str
    how: How
    beads: int
    width: Quantity | None = None
    set_back: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Option:
    """One way to build it up. ``least``, ``nominal``, ``most`` of the whole [m], from the face of the base.

    On lath they are measured from its back plane.

    ``grounds`` is how far the base coats stand out: what ground strips, screeds and the rod are set to. ``bead`` is the
    whole thickness: what corner and casing beads are bought for. ``wander``: what the finished face keeps of the base's
    being out of true (or, on lath, what the lath must be furred out by). ``weight`` [kg/m2]. ``voices``: who speaks on
    the thickness, the ruling one first.
    """

    id: OptionId
    preparation: tuple[str, ...]
    coats: tuple[Coat, ...]
    lath: Lath | None
    paper_layers: int
    least: Quantity
    nominal: Quantity
    most: Quantity
    grounds: Quantity
    bead: Quantity
    weight: Quantity
    parting: tuple[Parting, ...] = ()
    set_back: Quantity | None = None
    wander: Quantity | None = None
    voices: tuple[Figure, ...] = ()
    reasons: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()

    def coat(self, name: str) -> Coat | None:
        """The coat called ``name``, if this option has it."""
        return next((c for c in self.coats if c.name == name), None)


@dataclass(frozen=True, slots=True)
class BuildUp:
    """The answer: every option, best first, the one chosen, and what holds for all of them.

    ``suction`` is what was found or taken ("high", "usual", "low", "none"; None on lath). ``verdict`` is what tests say
    of a doubtful base (None elsewhere); where it is "test first", ``test_time`` is what the tests take [s].
    """

    at: str
    options: tuple[Option, ...]
    chosen: Option
    suction: Suction | None
    notes: tuple[Note, ...] = ()
    verdict: Verdict | None = None
    test_time: Quantity | None = None

    def option(self, name: str) -> Option | None:
        """The option with this id, if it is among them."""
        return next((o for o in self.options if o.id == name), None)
