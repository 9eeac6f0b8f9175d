"""What is asked of the quantities room and what it answers: areas, volumes, materials, edges, the order.

Everything inside is SI: m, m2, m3, kg, counts. Lengths of edges stay exact to the last line.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from quicktions import Fraction

from darby.measure.surface import Length, Side
from darby.measure.units import Unit
from darby.rulebook import Book, default
from darby.working import Quantity

Area = Fraction | float
"""Square metres: exact where every side is straight, a float where an arc was flattened."""


# --- what is asked: a surface ---------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Reveal:
    """One plastered reveal of an opening: ``length`` along the opening, ``depth`` into the wall [m]."""

    side: Side
    length: Length
    depth: Length


@dataclass(frozen=True, slots=True)
class Opening:
    """The part of an opening that lies in one zone [m2], and those of its reveals that are plastered.

    ``whole`` is the whole opening [m2] where it crosses zones: a custom looks at the whole hole.
    """

    id: str
    area: Area
    reveals: tuple[Reveal, ...] = ()
    whole: Area | None = None


@dataclass(frozen=True, slots=True)
class Coat:
    """A coat of a zone: its id ("scratch", "brown", "base", "finish", "dash-bond" ...), nominal thickness [m], mix.

    ``least`` on the highest spot and ``most`` in the deepest hollow [m], where the build-up knows them. ``levels``:
    this coat takes up what the base is out of plane; where no coat of the zone says so, the thickest does.
    """

    id: str
    thickness: Fraction | float
    mix: str
    levels: bool = False
    least: Fraction | float | None = None
    most: Fraction | float | None = None


@dataclass(frozen=True, slots=True)
class Zone:
    """A part of a surface with one base: ``gross`` [m2] before openings, and what goes on it, first coat first.

    ``joint_depth`` the mean depth of struck joints [m], None = the book's; ``out_of_plane`` [m], None = not measured,
    and not looked at where the coats say their least and most; ``studs`` spacing [m]; ``paper`` layers behind the
    lath, None = the book's by sheathing; ``primer``, ``paint``: numbers of coats; ``bonding``: a bonding agent goes on.
    """

    id: str
    base: str
    gross: Area
    coats: tuple[Coat, ...]
    openings: tuple[Opening, ...] = ()
    lathed: bool = False
    struck: bool = False
    joint_depth: Length | None = None
    out_of_plane: Length | None = None
    studs: Length | None = None
    sheathing: str | None = None
    paper: int | None = None
    bonding: bool = False
    primer: int = 0
    paint: int = 0


@dataclass(frozen=True, slots=True)
class Allowances:
    """The firm's own allowances as shares (1/10 is ten percent). None = the firm has not said: the book's is taken.

    ``spread`` and ``waste`` of the net mortar, ``bulking`` of the sand measured dry, ``accessories`` of the length of
    beads, ``lath`` of the area of lath and paper, ``moisture`` of the dry mass of the sand.
    """

    spread: Fraction | float | None = None
    waste: Fraction | float | None = None
    bulking: Fraction | float | None = None
    accessories: Fraction | float | None = None
    lath: Fraction | float | None = None
    moisture: Fraction | float | None = None


@dataclass(frozen=True, slots=True)
class VolumesAsk:
    """One surface. ``count`` equal ones; ``faces`` 2 where ``gross`` holds both faces of one wall with one finish.

    ``opening_rule`` names a voice on "openings.rule" ("net", "half" ...); None = the voice the book follows.
    """

    surface: str
    zones: tuple[Zone, ...]
    count: int = 1
    faces: int = 1
    opening_rule: str | None = None
    allow: Allowances = Allowances()
    book: Book = field(default_factory=default)


# --- what is answered: a surface ------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ZoneArea:
    """The measured area of a zone (all ``count`` of it), how it came about, and what the net rule would give.

    ``gross`` - ``off`` + ``reveals`` = ``area``; ``area`` - ``by_net`` = ``against_net``; ``weight`` of the plaster
    [kg/m2]. The rest is carried on for the order.
    """

    zone: str
    base: str
    gross: Quantity
    off: Quantity
    reveals: Quantity
    area: Quantity
    by_net: Quantity
    against_net: Quantity
    weight: Quantity | None
    lathed: bool = False
    studs: Length | None = None
    sheathing: str | None = None
    paper: int | None = None
    bonding: bool = False
    primer: int = 0
    paint: int = 0
    before: int = 0
    """Coats of paint that are on it already: the next one is spread as the next, not as the first."""


AllowanceName = Literal["keys", "joints", "spread", "waste"]


@dataclass(frozen=True, slots=True)
class AllowanceLine:
    """One allowance on a line of its own: so much ``volume``, which is ``share`` of the net volume."""

    name: AllowanceName
    volume: Quantity
    share: Quantity


@dataclass(frozen=True, slots=True)
class CoatVolume:
    """Mortar of one coat on one zone: ``net`` = area x nominal thickness; ``total`` = net + every allowance, added."""

    zone: str
    coat: str
    mix: str
    area: Quantity
    thickness: Quantity
    net: Quantity
    allowances: tuple[AllowanceLine, ...]
    total: Quantity


@dataclass(frozen=True, slots=True)
class MixVolume:
    """Mortar of one mix [m3]."""

    mix: str
    volume: Quantity


@dataclass(frozen=True, slots=True)
class Volumes:
    """What one surface takes. ``rule`` is the voice the openings were taken off by; ``rule_id`` its figure."""

    surface: str
    rule: str
    rule_id: str
    area: Quantity
    areas: tuple[ZoneArea, ...]
    coats: tuple[CoatVolume, ...]
    by_mix: tuple[MixVolume, ...]


# --- what is asked: the job -----------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Material:
    """So much of an item in one cubic metre of mortar: ``per`` in kg/m3, or m3 in a m3 (no unit)."""

    item: str
    per: Quantity


@dataclass(frozen=True, slots=True)
class Sand:
    """Sand in one cubic metre of mortar: loose ``volume`` [m3/m3] as it is ``measured``, and its dry mass [kg/m3].

    Sand gauged damp and loose, as it lies in the pile, already holds its bulking; sand gauged dry does not.
    """

    volume: Quantity
    measured: Literal["damp loose", "dry loose"] = "damp loose"
    dry_mass: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Mortar:
    """What one cubic metre of a site mix takes: cementitious materials and the like, sand, water [m3/m3]."""

    mix: str
    materials: tuple[Material, ...] = ()
    sand: Sand | None = None
    water: Quantity | None = None


@dataclass(frozen=True, slots=True)
class BagLabel:
    """A mix that comes in bags: item to order, mortar a bag yields [m3], water a bag takes [m3]."""

    mix: str
    item: str
    yields: Quantity
    water: Quantity | None = None


@dataclass(frozen=True, slots=True)
class EdgeRun:
    """One run of edge. Every run lands in exactly one accessory line or in one "none, because" line.

    ``where`` it lies on its surface or opening ("left", "right", "top", "bottom", "head", "jamb", "sill", "field");
    ``kind`` an EdgeKind or "control joint"; ``shared`` the id of a line that two surfaces have in common;
    ``elsewhere`` the surface that counts it, where that is known already; ``bare`` no plaster stands at it;
    ``other_base`` the base beyond it, where known; ``covered_by`` what lies over it ("threshold", "trim" ...);
    ``accessory`` what someone chose instead ("none" = nothing), with his ``why``; ``beads`` side by side along it,
    None = two where base meets base, else one.
    """

    id: str
    surface: str
    where: str
    kind: str
    length: Length
    base: str
    lathed: bool = False
    shared: str | None = None
    elsewhere: str = ""
    bare: bool = False
    other_base: str | None = None
    plastered_reveal: bool = False
    covered_by: str | None = None
    joint_width: Length | None = None
    accessory: str | None = None
    why: str = ""
    beads: int | None = None
    count: int = 1


@dataclass(frozen=True, slots=True)
class SealedJoint:
    """A joint to be sealed besides those that casing beads leave: length and width [m]; depth None = by the rule."""

    id: str
    length: Length
    width: Length | None = None
    depth: Length | None = None


@dataclass(frozen=True, slots=True)
class Cover:
    """What is covered and masked on one surface: film [m2], tape [m]."""

    surface: str
    film: Area = Fraction(0)
    tape: Length = Fraction(0)


@dataclass(frozen=True, slots=True)
class Film:
    """A textured coating by its film: share of solids by volume, dry film [m] (None = the book's), loss, roughness.

    ``roughness`` is true surface over plan area, 1 for a smooth wall.
    """

    solids: Fraction | float
    dry: Fraction | float | None = None
    loss: Fraction | float = 0
    roughness: Fraction | float = 1


@dataclass(frozen=True, slots=True)
class Buy:
    """How an item is bought: a package ``holds`` so much, SI of ``unit``; ``each`` "" = loose, by the yard or ton.

    ``written`` is the package in words ("94 lb bag"); ``sides`` of a sheet [m]; ``layers`` that one roll lays at once.
    """

    item: str
    holds: Fraction
    unit: Unit
    each: str = ""
    written: str = ""
    sides: tuple[Length, Length] | None = None
    layers: int = 1
    name: str = ""
    supplier: str = ""


@dataclass(frozen=True, slots=True)
class Ordered:
    """What is already on order: SI of ``unit``; a bare count is packages."""

    item: str
    amount: Fraction
    unit: Unit


@dataclass(frozen=True, slots=True)
class OrderAsk:
    """The whole job: the surfaces' answers, what mortars are made of, edges, and how things are bought."""

    volumes: tuple[Volumes, ...]
    mortars: tuple[Mortar | BagLabel, ...]
    runs: tuple[EdgeRun, ...] = ()
    joints: tuple[SealedJoint, ...] = ()
    covers: tuple[Cover, ...] = ()
    buys: tuple[Buy, ...] = ()
    ordered: tuple[Ordered, ...] = ()
    film: Film | None = None
    allow: Allowances = Allowances()
    book: Book = field(default_factory=default)


# --- what is answered: the job --------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class EdgeLine:
    """Runs that take the same accessory for the same reason. ``item`` None = none, ``because`` says why.

    ``length`` is the exact sum of the runs (each times its count); ``beads`` the exact length of accessory that they
    take: more than ``length`` where two beads stand back to back, nought where ``item`` is None.
    """

    item: str | None
    because: str
    length: Length
    beads: Length
    runs: tuple[str, ...]
    rules: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Part:
    """One line of what an item is made up of: a sentence's code and the amount."""

    says: str
    amount: Quantity


Standing = Literal["not ordered", "short", "enough", "over"]


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One item of the order.

    ``needed`` exact, in its own unit; ``made_of`` the lines it is the sum of; ``package`` what one package holds;
    ``exact`` packages before rounding; ``packages`` rounded once, on the job's total (lime by part bag, loose goods
    by half yards or tons); ``whole`` packages as the yard hands them out; ``ordered`` packages on order; ``more`` to
    order still (nought if there is enough); ``over`` too many; ``also`` the same in other measures (tons beside
    yards); ``by_rule`` a rule of thumb beside the exact count.
    Without a known package everything from ``package`` on is None.
    """

    item: str
    says: str
    name: str
    supplier: str
    needed: Quantity
    made_of: tuple[Part, ...]
    written: str = ""
    each: str = ""
    package: Quantity | None = None
    exact: Quantity | None = None
    packages: Quantity | None = None
    whole: Quantity | None = None
    ordered: Quantity | None = None
    more: Quantity | None = None
    over: Quantity | None = None
    standing: Standing = "not ordered"
    also: tuple[Part, ...] = ()
    by_rule: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Order:
    """Everything the job takes: mortar by mix, the order line by line, every edge in its line."""

    mortar: tuple[MixVolume, ...]
    lines: tuple[OrderLine, ...]
    edges: tuple[EdgeLine, ...]

    def line(self, item: str) -> OrderLine | None:
        """The line of ``item``, if the job takes any."""
        return next((x for x in self.lines if x.item == item), None)


# --- sums without a job ---------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class DryVolume:
    """A wet volume turned into loose dry materials by a custom factor: a rule of thumb, named so.

    ``running`` is the volume after each allowance, in order; ``shares`` the loose dry volume of each part [m3],
    cement first, sand last.
    """

    wet: Quantity
    running: tuple[Quantity, ...]
    dry: Quantity
    shares: tuple[Quantity, ...]
    cement_kg: Quantity
    bags: Quantity
    whole_bags: Quantity

    @property
    def cement(self) -> Quantity:
        """Loose volume of the cement [m3]."""
        return self.shares[0]

    @property
    def sand(self) -> Quantity:
        """Loose dry volume of the sand [m3]."""
        return self.shares[-1]


@dataclass(frozen=True, slots=True)
class QuickSum:
    """One wall in one line. ``cover`` m2 a m3 at the nominal thickness; ``rule`` is a rule of thumb beside the exact.

    ``bags`` and ``sand`` are None where no mortar was given; ``rule`` where no parts were.
    """

    area: Quantity
    thickness: Quantity
    cover: Quantity
    net: Quantity
    allowances: tuple[AllowanceLine, ...]
    volume: Quantity
    bags: Quantity | None
    whole_bags: Quantity | None
    sand: Quantity | None
    sand_mass: Quantity | None
    sand_by_rule: Quantity
    rule: DryVolume | None
