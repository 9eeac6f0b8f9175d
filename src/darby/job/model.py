"""The job as it was written down, loaded: trade terms, exact SI lengths, Decimal money. Immutable, comparable.

A job is made by ``darby.job.load``; nothing here reads a file. ``Job.hash`` stands for its meaning: another way
of writing the same thing has the same hash.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from typing import Literal, TypeVar, get_args

from quicktions import Fraction

from darby.job.condition import Patch, Survey
from darby.job.cutting import Cutting
from darby.job.done import Done
from darby.job.firm import CoatName, Firm, Length, Mix
from darby.job.joints import JointsWanted
from darby.job.lath import LathWanted
from darby.job.match import MatchWanted
from darby.job.readings import FinishedReadings, WallReadings
from darby.job.recoat import Recoat
from darby.measure.faults import Fault
from darby.measure.surface import BaseKind, Surface
from darby.measure.units import System, Unit
from darby.rulebook.model import Figure
from darby.working.model import Note

Block = Literal["dense", "lightweight"]
Joints = Literal["flush", "struck"]
Sheathing = Literal["wood", "gypsum", "foam", "open studs"]
Suction = Literal["low", "usual", "high", "none"]
Finish = Literal["float", "smooth", "dash", "lace", "scraped", "wet dash", "skip trowel", "pebble", "none"]
FinishSand = Literal["16/20", "20/30", "30"]
BuildUp = Literal[
    "two-coat", "single-base", "three-coat", "heavy-skim", "dub-out", "lath-three-coat", "double-back", "one-coat",
]  # fmt: skip
AlsoKind = Literal[
    "protect", "mask", "take off and put back", "wash", "roughen", "dispose", "test", "cut back", "sound", "other",
]  # fmt: skip
Brick = Literal["soft", "sound"]
Behind = Literal["frame", "block", "brick", "concrete"]
Place = Literal[
    "parapet", "foundation", "garden wall", "chimney", "column", "planter", "soffit", "band", "patch", "top",
]  # fmt: skip

REST = "rest"
"""Id of the zone that is all of a wall that no other zone is."""

BLOCKS: tuple[str, ...] = get_args(Block)
JOINTS: tuple[str, ...] = get_args(Joints)
SHEATHINGS: tuple[str, ...] = get_args(Sheathing)
SUCTIONS: tuple[str, ...] = get_args(Suction)
FINISHES: tuple[str, ...] = get_args(Finish)
BUILD_UPS: tuple[str, ...] = get_args(BuildUp)
ALSO: tuple[str, ...] = get_args(AlsoKind)


@dataclass(frozen=True, slots=True)
class Tried:
    """What he tried on a base that plaster may not hold on, and how it came out. None = not tried.

    ``scrape`` of the paint, ``water`` thrown on it, ``tap`` all over, ``pull`` of a test patch.
    """

    scrape: Literal["holds", "comes off"] | None = None
    water: Literal["soaks in", "beads"] | None = None
    tap: Literal["sound", "hollow"] | None = None
    pull: Literal["held", "let go"] | None = None


@dataclass(frozen=True, slots=True)
class Base:
    """What one zone of one surface is made of. ``zone`` is the id of a ``Zone`` of that surface.

    ``studs`` spacing [m]; ``out_of_plane`` the most the base departs from a true face [m]; ``above_earth`` and
    ``above_paving`` how far its foot clears them [m]. None = not measured. ``behind`` is what old plaster hangs on,
    ``place`` what part of a building it is; ``retains`` height of the earth that stands behind it [m];
    ``sprinklers`` wet it; ``replaced``: the window in it is taken out.
    """

    surface: str
    zone: str
    kind: BaseKind
    name: str = ""
    block: Block | None = None
    joints: Joints | None = None
    sheathing: Sheathing | None = None
    studs: Length | None = None
    out_of_plane: Length | None = None
    built: int | None = None
    above_earth: Length | None = None
    above_paving: Length | None = None
    brick: Brick | None = None
    behind: Behind | None = None
    tests: Tried | None = None
    place: Place | None = None
    retains: Length | None = None
    sprinklers: bool = False
    replaced: bool = False


@dataclass(frozen=True, slots=True)
class OwnCoat:
    """What he knows better of one coat: thickness [m], how long it is kept moist and the wait after it [s]."""

    coat: CoatName
    thickness: Length | None = None
    moist: Fraction | None = None
    wait: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted on one surface (or one zone of it), and what he knows better than the rule book.

    None = not said. ``total`` [m] is the whole thickness past the base; ``cure`` the curing profile (a voice).
    ``sand`` is the finish sand by the sieves it lies between; ``colored``: the finish coat carries the color.
    """

    surface: str = ""
    zone: str | None = None
    finish: Finish | None = None
    sand: FinishSand | None = None
    colored: bool | None = None
    paint: bool | None = None
    choose: BuildUp | None = None
    suction: Suction | None = None
    total: Length | None = None
    coats: tuple[OwnCoat, ...] = ()
    cure: str | None = None
    mixes: tuple[Mix, ...] = ()
    why: str = ""


_ByCoat = TypeVar("_ByCoat", OwnCoat, Mix)


def _first_of_each(said: Iterable[_ByCoat]) -> tuple[_ByCoat, ...]:
    """What was said first of each coat."""
    first: dict[str, _ByCoat] = {}
    for entry in said:
        first.setdefault(entry.coat, entry)
    return tuple(first.values())


@dataclass(frozen=True, slots=True)
class Coats:
    """What is wanted everywhere (``finish``, ``paint`` ...), and ``on`` single surfaces or zones."""

    finish: Finish = "float"
    paint: bool = False
    on: tuple[Wanted, ...] = ()
    sand: FinishSand | None = None
    colored: bool = False

    def wanted(self, surface: str, zone: str | None = None) -> Wanted:
        """Everything said about a zone: the zone's own word first, then its surface's, then the job's."""
        said = [w for w in self.on if w.surface == surface and w.zone == zone and zone is not None]
        said += [w for w in self.on if w.surface == surface and w.zone is None]
        return Wanted(
            surface=surface,
            zone=zone,
            finish=next((w.finish for w in said if w.finish is not None), self.finish),
            sand=next((w.sand for w in said if w.sand is not None), self.sand),
            colored=next((w.colored for w in said if w.colored is not None), self.colored),
            paint=next((w.paint for w in said if w.paint is not None), self.paint),
            choose=next((w.choose for w in said if w.choose is not None), None),
            suction=next((w.suction for w in said if w.suction is not None), None),
            total=next((w.total for w in said if w.total is not None), None),
            coats=_first_of_each(entry for w in said for entry in w.coats),
            cure=next((w.cure for w in said if w.cure is not None), None),
            mixes=_first_of_each(entry for w in said for entry in w.mixes),
            why="; ".join(w.why for w in said if w.why),
        )


@dataclass(frozen=True, slots=True)
class Ordered:
    """What is already on order: ``amount`` SI of ``unit`` ("bags" counts packages as the firm buys them)."""

    item: str
    amount: Fraction
    unit: Unit
    on: date | None = None


@dataclass(frozen=True, slots=True)
class Also:
    """What else has to be done: ``hours`` [s] of one person, ``cost`` [$].

    ``length`` [m] and ``area`` [m2] are of what is covered.
    """

    what: AlsoKind
    says: str = ""
    hours: Fraction | None = None
    length: Length | None = None
    area: Fraction | None = None
    cost: Decimal | None = None
    surface: str | None = None


@dataclass(frozen=True, slots=True)
class Days:
    """When the crew works (``week``: days a week from Monday), and who keeps the plaster damp. None = not said.

    ``promised``: the last day of the work, as told to the customer; ``hired_until``: the last day access stands.
    """

    damp_by: Literal["owner", "crew"] | None = None
    week: int | None = None
    holidays: tuple[date, ...] = ()
    promised: date | None = None
    hired_until: date | None = None


@dataclass(frozen=True, slots=True)
class Price:
    """How the price is given: for how many days it stands, and what the quote adds in words."""

    stands_days: int | None = None
    says: str = ""


@dataclass(frozen=True, slots=True)
class Job:
    """One job: walls, what goes on them, money, the firm that does it. ``as_of`` is its only clock."""

    name: str
    as_of: date
    surfaces: tuple[Surface, ...]
    bases: tuple[Base, ...]
    customer: str = ""
    address: str = ""
    number: str = ""
    revision: int = 1
    invented: bool = False
    built: int | None = None
    coats: Coats = Coats()
    joints: tuple[JointsWanted, ...] = ()
    lath: tuple[LathWanted, ...] = ()
    readings: tuple[WallReadings, ...] = ()
    finished: tuple[FinishedReadings, ...] = ()
    cuts: Cutting = field(default_factory=Cutting)
    matches: tuple[MatchWanted, ...] = ()
    ordered: tuple[Ordered, ...] = ()
    also: tuple[Also, ...] = ()
    done: tuple[Done, ...] = ()
    days: Days = Days()
    price: Price = Price()
    recoat: Recoat | None = None
    survey: tuple[Survey, ...] = ()
    patches: tuple[Patch, ...] = ()
    firm: Firm = field(default_factory=Firm)
    has_firm: bool = False
    rules: tuple[Figure, ...] = ()
    """Local rules: the job's own first, then the firm's on other subjects (``Book.with_local``)."""
    assumed: tuple[Note, ...] = ()
    hash: str = field(default="", compare=False)

    @property
    def system(self) -> System:
        """How sheets are written."""
        return self.firm.system

    @property
    def languages(self) -> tuple[str, ...]:
        """The crew sheet's languages, first one first."""
        return self.firm.languages

    def spoken(self, language: str) -> Job:
        """This job with its papers in ``language`` first, whatever its firm writes in; the others stay behind it."""
        others = tuple(other for other in self.firm.languages if other != language)
        return replace(self, firm=replace(self.firm, languages=(language, *others)))

    def surface(self, name: str) -> Surface:
        """The surface with this id.

        Raises
        ------
        KeyError
            if there is none.
        """
        for surface in self.surfaces:
            if surface.id == name:
                return surface
        raise KeyError(name)

    def base(self, surface: str, zone: str) -> Base:
        """What a zone of a surface is made of.

        Raises
        ------
        KeyError
            if there is no such zone.
        """
        for base in self.bases:
            if base.surface == surface and base.zone == zone:
                return base
        raise KeyError((surface, zone))


class JobError(Exception):
    """A job that cannot be read: ``faults`` is everything that is wrong with it, at every depth."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        super().__init__("; ".join(f"{f.place}: {f.code} (found {f.found}; allowed {f.allowed})" for f in faults))
        self.faults = faults
