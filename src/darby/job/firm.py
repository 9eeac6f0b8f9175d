"""The firm as its file says it: its measures, crew, pace, mixes, prices and habits.

Lengths, areas, volumes, masses and times are exact SI (``Fraction``); money is ``Decimal`` dollars.
``None`` or an empty tuple means that the firm has not said: whoever needs it waits, or asks the rule book.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, get_args

from quicktions import Fraction

from darby.measure.units import System, Unit
from darby.rulebook.model import Figure

Length = Fraction
"""Exact metres."""

CoatName = Literal["dash-bond", "scratch", "brown", "base", "finish"]
COAT_NAMES: tuple[str, ...] = get_args(CoatName)

MIXED: tuple[str, ...] = ("portland", "masonry cement", "plastic cement", "lime", "sand")
"""What a mix may have parts of."""

ITEMS: tuple[str, ...] = (
    "portland", "masonry cement", "plastic cement", "lime", "sand", "lath", "paper", "corner bead", "casing bead",
    "weep screed", "drip screed", "control joint", "expansion joint", "corner lath", "lath fasteners",
    "masonry lath fasteners", "bonding agent", "sealant", "backer rod", "primer", "paint", "coating", "cover film",
    "masking tape",
)  # fmt: skip
"""What darby orders, by its own words; bagged materials are called by their id."""

FINISH_PACES: tuple[str, ...] = (
    "float", "smooth", "dash", "lace", "scraped", "wet-dash", "skip-trowel", "pebble", "one-coat",
)  # fmt: skip
"""Finishes a crew may have a pace of its own for; for the others its pace for a finish coat is taken."""

PACES: tuple[str, ...] = (
    "paper-and-lath", "dash-bond", "scratch", "brown", "base", "finish", "beads", "paint", *FINISH_PACES,
)  # fmt: skip
"""Work a crew has a pace for."""

ALLOWANCES: tuple[str, ...] = ("spread", "waste", "bulking", "accessories", "lath", "moisture")
"""Allowances a firm may name."""

Of = Literal["wage", "cost", "cost and overhead", "price"]
"""What a percentage is of. Cost = labor, material, access and the rest, before overhead."""


@dataclass(frozen=True, slots=True)
class Share:
    """A percentage that says of what: 42 % of wage is ``Share(Fraction(42, 100), "wage")``."""

    part: Fraction
    of: Of


@dataclass(frozen=True, slots=True)
class Span:
    """From ``low`` to ``high``, SI of ``unit``."""

    low: Fraction
    high: Fraction
    unit: Unit


@dataclass(frozen=True, slots=True)
class Package:
    """How a thing is bought.

    ``holds`` is what one package holds, SI of ``unit`` (1000 pieces, 94 lb, 162 sq ft, 10 ft); ``each`` is the
    word for one ("bag", "sheet", "roll", "piece", "box", "pail", "tube"), "" for loose goods sold by the yard,
    ton or gallon; ``sides`` are the two sides of a sheet [m].
    """

    written: str
    holds: Fraction
    unit: Unit
    each: str = ""
    sides: tuple[Length, Length] | None = None

    @property
    def loose(self) -> bool:
        """Sold by the yard, ton or gallon, not by the package."""
        return not self.each


@dataclass(frozen=True, slots=True)
class Buys:
    """One thing the firm buys: what, in which package, at what price [$ a package], from whom.

    ``layers`` that one roll lays at once (two-layer paper: 2). ``lengths``: other lengths [m] that the same bar comes
    in, each with its price; cut lists choose among them.
    """

    item: str
    package: Package
    price: Decimal
    name: str = ""
    supplier: str = ""
    layers: int = 1
    lengths: tuple[tuple[Length, Decimal], ...] = ()


@dataclass(frozen=True, slots=True)
class Bagged:
    """A material by its bag label: weight of a bag [kg], water a bag [m3], yield a bag [m3], use within [s]."""

    id: str
    name: str
    weight: Fraction
    water: Fraction | None
    yields: Fraction
    use_within: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """So many parts by volume of a material ("portland", "lime", "sand")."""

    material: str
    parts: Fraction


@dataclass(frozen=True, slots=True)
class Mix:
    """What one coat is mixed of: parts by volume, or a bagged material by id."""

    coat: CoatName
    parts: tuple[Part, ...] = ()
    bagged: str | None = None

    def part(self, material: str) -> Fraction:
        """Parts of ``material`` (0 if there is none)."""
        return sum((p.parts for p in self.parts if p.material == material), Fraction(0))


@dataclass(frozen=True, slots=True)
class Measures:
    """Measured once, with his own tools [m3]; ``gauge`` is what sand is counted in."""

    mixer: Fraction | None = None
    bucket: Fraction | None = None
    shovel: Fraction | None = None
    gauge: Literal["bucket", "shovel"] | None = None


@dataclass(frozen=True, slots=True)
class Crew:
    """So many people of a role at a wage [$ an hour each]."""

    role: str
    people: int
    wage: Decimal


@dataclass(frozen=True, slots=True)
class Labor:
    """What labor costs on top of the wage, and how long a working day is [s]."""

    burden: Share | None = None
    day: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Pace:
    """What the whole crew does of ``work`` in an hour: ``rate`` is SI (m2/s or m/s), ``unit`` as it is written."""

    work: str
    rate: Fraction
    unit: Unit


@dataclass(frozen=True, slots=True)
class Allowance:
    """One allowance, on a line of its own: ``part`` 0.10 is ten percent."""

    name: str
    part: Fraction


@dataclass(frozen=True, slots=True)
class Trip:
    """What a day costs before the first trowel: travel [$]; set-up and least paid time of the whole crew [s]."""

    travel: Decimal = Decimal(0)
    set_up: Fraction = Fraction(0)
    least: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Access:
    """A way to stand at the wall: good up to a height [m], hire [$ a day], setting up [s] of the whole crew."""

    kind: str
    up_to: Length
    per_day: Decimal = Decimal(0)
    set_up: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Profit:
    """Markup (on cost and overhead) or margin (of the price): not the same thing."""

    kind: Literal["markup", "margin"]
    share: Share


@dataclass(frozen=True, slots=True)
class Money:
    """Overhead, profit and the least the firm comes out for [$]."""

    overhead: Share | None = None
    profit: Profit | None = None
    least_charge: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Usual:
    """Spans outside which darby asks; it does not refuse. Price [$/m2], bags [1/m2], pace [m2/s].

    The pace is of a working day: read it with its own unit (``unit.from_si``), which is a day.
    """

    price: Span | None = None
    bags: Span | None = None
    pace: Span | None = None


@dataclass(frozen=True, slots=True)
class Follows:
    """Whose figures the firm follows on ``subject`` ("" = everywhere), with a why where it leaves its usual voice."""

    subject: str
    voice: str
    why: str = ""


@dataclass(frozen=True, slots=True)
class Firm:
    """The firm. ``Firm()`` is nobody: no prices, no crew, no measures; what needs them waits."""

    name: str = ""
    line: str = ""
    address: str = ""
    phone: str = ""
    email: str = ""
    license: str = ""
    invented: bool = False
    system: System = "us"
    languages: tuple[str, ...] = ("en",)
    follow: tuple[Follows, ...] = ()
    measures: Measures = Measures()
    crew: tuple[Crew, ...] = ()
    labor: Labor = Labor()
    pace: tuple[Pace, ...] = ()
    allow: tuple[Allowance, ...] = ()
    mixes: tuple[Mix, ...] = ()
    bagged: tuple[Bagged, ...] = ()
    buys: tuple[Buys, ...] = ()
    trip: Trip | None = None
    access: tuple[Access, ...] = ()
    money: Money = Money()
    usual: Usual = Usual()
    rules: tuple[Figure, ...] = ()

    @property
    def follows(self) -> Mapping[str, str]:
        """Subject to voice, as ``Book`` takes it."""
        return {f.subject: f.voice for f in self.follow}

    @property
    def people(self) -> int:
        """How many stand at the wall."""
        return sum(c.people for c in self.crew)

    def mix(self, coat: str) -> Mix | None:
        """The firm's mix for a coat, if it has one."""
        return next((m for m in self.mixes if m.coat == coat), None)

    def bag(self, name: str) -> Bagged | None:
        """The bagged material called ``name``."""
        return next((b for b in self.bagged if b.id == name), None)

    def buy(self, item: str) -> Buys | None:
        """How the firm buys ``item``, if it does."""
        return next((b for b in self.buys if b.item == item), None)

    def allowance(self, name: str) -> Fraction | None:
        """The firm's allowance called ``name``, if it has one."""
        return next((a.part for a in self.allow if a.name == name), None)

    def pace_of(self, work: str) -> Pace | None:
        """How fast the crew does ``work``, if the firm says."""
        return next((p for p in self.pace if p.work == work), None)
