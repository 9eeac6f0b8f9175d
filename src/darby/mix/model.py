"""What is asked of the mix room and what it answers. SI: kg, m3, s; parts are by loose volume."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from quicktions import Fraction

from darby.measure.faults import Fault, Unreadable
from darby.rulebook import Book
from darby.working import Note, Quantity

Real = float | int | Fraction

Coat = Literal["dash-bond", "scratch", "brown", "base", "finish", "skim"]
Suction = Literal["low", "usual", "high", "none"]
"""How the base drinks; "none" is lath and paper."""

CEMENTS = ("portland", "masonry cement", "plastic cement")
MATERIALS = (*CEMENTS, "lime", "sand")


@dataclass(frozen=True, slots=True)
class MixParts:
    """Parts by loose volume, sand damp."""

    portland: Real = 0
    lime: Real = 0
    sand: Real = 0
    masonry: Real = 0
    plastic: Real = 0

    def of(self, material: str) -> Real:
        """Parts of a material by its name in ``MATERIALS``."""
        return {
            "portland": self.portland,
            "masonry cement": self.masonry,
            "plastic cement": self.plastic,
            "lime": self.lime,
            "sand": self.sand,
        }[material]

    @property
    def used(self) -> tuple[str, ...]:
        """The materials that are in it, in the order of ``MATERIALS``."""
        return tuple(name for name in MATERIALS if self.of(name) > 0)

    @property
    def binders(self) -> tuple[str, ...]:
        """Cements and lime that are in it."""
        return tuple(name for name in self.used if name != "sand")

    @property
    def cement(self) -> str:
        """The kind of cement in the rule book's words: "portland", "portland and masonry cement" ... "lime"."""
        cements = [name for name in CEMENTS if self.of(name) > 0]
        return " and ".join(cements) or "lime"


def parts_from(parts: MixParts | Mapping[str, Real]) -> MixParts:
    """``parts`` as MixParts; a mapping names materials (``{"portland": 1, "lime": 0.75, "sand": 5}``).

    Raises
    ------
    Unreadable
        for a material that is not known, a part below nothing, or a mix without cement and lime.
    """
    if not isinstance(parts, MixParts):
        unknown = [name for name in parts if name not in MATERIALS]
        if unknown:
            raise Unreadable(Fault("mix.no-such-material", "", ", ".join(unknown), ", ".join(MATERIALS)))
        given = {name.split()[0]: value for name, value in parts.items()}
        parts = MixParts(**given)
    low = [name for name in MATERIALS if not 0 <= parts.of(name) < float("inf")]
    if low:
        raise Unreadable(Fault("mix.part-below-nothing", low[0], str(parts.of(low[0])), "0 or more"))
    if not parts.binders:
        raise Unreadable(Fault("mix.no-binder", "", ", ".join(parts.used) or "-", ", ".join((*CEMENTS, "lime"))))
    return parts


@dataclass(frozen=True, slots=True)
class BagLabel:
    """A material by its bag label: mass [kg], water a bag [m3], what a bag makes [m3], use within [s]."""

    id: str
    name: str
    mass: Real
    yields: Real
    water: Real | None = None
    use_within: Real | None = None


@dataclass(frozen=True, slots=True)
class Gauge:
    """What sand is counted in, and what it holds [m3] once calibrated; None: nobody measured it."""

    kind: Literal["bucket", "shovel"] = "bucket"
    volume: Real | None = None


@dataclass(frozen=True, slots=True)
class BagSizes:
    """Mass of his bags [kg]; None: the rule book's."""

    portland: Real | None = None
    masonry: Real | None = None
    plastic: Real | None = None
    lime: Real | None = None

    def of(self, material: str) -> Real | None:
        """The bag of a material by its name in ``MATERIALS``."""
        return {
            "portland": self.portland,
            "masonry cement": self.masonry,
            "plastic cement": self.plastic,
            "lime": self.lime,
        }.get(material)


@dataclass(frozen=True, slots=True)
class Measured:
    """What he measured himself and knows better than the rule book; None: the rule book's.

    ``air`` and ``water`` are shares (0.05; 0.14 of the dry mass, all water counted). ``density`` [kg/m3] is a struck
    bucket of the fresh mix, weighed: the yield then follows from it and the air is found. The rest are loose weights
    [kg/m3]; ``sand`` is the dry sand in a measure of damp loose sand.
    """

    air: Real | None = None
    water: Real | None = None
    density: Real | None = None
    portland: Real | None = None
    masonry: Real | None = None
    plastic: Real | None = None
    lime: Real | None = None
    sand: Real | None = None

    def weight_of(self, material: str) -> Real | None:
        """Loose weight of a material by its name in ``MATERIALS``."""
        return {
            "portland": self.portland,
            "masonry cement": self.masonry,
            "plastic cement": self.plastic,
            "lime": self.lime,
            "sand": self.sand,
        }[material]


NOTHING_MEASURED = Measured()
RULE_BOOK_BAGS = BagSizes()


@dataclass(frozen=True, slots=True)
class Verdict:
    """Sand and lime of a mix against the limits of its coat; from ``..._least`` to ``..._most`` parts are inside."""

    ratio: Quantity
    sand_least: Quantity | None
    sand_most: Quantity | None
    lime_least: Quantity | None
    lime_most: Quantity | None
    inside: bool
    letter: str
    notes: tuple[Note, ...]


@dataclass(frozen=True, slots=True)
class Materials:
    """What goes into a cubic metre of mortar [kg/m3; m3/m3]. Sand is damp and loose, water is all of it.

    Of a bagged material only ``bag`` (what one makes [m3]) and ``water_each`` (water a bag [m3]) are given.
    """

    portland: Quantity | None = None
    masonry: Quantity | None = None
    plastic: Quantity | None = None
    lime: Quantity | None = None
    sand_dry: Quantity | None = None
    sand_loose: Quantity | None = None
    water: Quantity | None = None
    bag: Quantity | None = None
    water_each: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Yield:
    """What one bag of the main cement makes, and of what. ``air`` was given, or found from the fresh density."""

    main: str
    bag: Quantity
    volume: Quantity
    masses: tuple[tuple[str, Quantity], ...]
    sand_loose: Quantity | None
    water: Quantity
    air: Quantity | None
    density: Quantity
    materials: Materials
    notes: tuple[Note, ...]

    def mass(self, material: str) -> Quantity | None:
        """Mass of a material to one bag of the main cement [kg]."""
        return dict(self.masses).get(material)


@dataclass(frozen=True, slots=True)
class Ingredient:
    """A bagged ingredient of a batch: mass [kg] and how many bags that is (a share, where it is less than one)."""

    material: str
    mass: Quantity
    bags: Quantity


@dataclass(frozen=True, slots=True)
class SandCount:
    """Sand of a batch: counted (struck buckets or shovels), its loose volume [m3], dry and damp mass [kg]."""

    count: Quantity
    volume: Quantity
    dry: Quantity
    damp: Quantity


@dataclass(frozen=True, slots=True)
class Batch:
    """One mixer load. Water [m3] is what is added at the mixer; the rest is in the sand.

    Start with ``water_least``; ``water_usual`` is what is looked for; never more than ``water_most``.
    ``ratio``: sand per cementitious as counted. ``module``: the share of a bag that sand is counted by.
    """

    bags: Quantity
    ingredients: tuple[Ingredient, ...]
    sand: SandCount | None
    water_least: Quantity | None
    water_usual: Quantity | None
    water_most: Quantity | None
    mortar: Quantity
    ratio: Quantity | None
    module: Fraction


@dataclass(frozen=True, slots=True)
class Batches:
    """``whole`` full batches and at the end, if something is left, ``last``."""

    volume: Quantity
    whole: int
    last: Batch | None
    mortar: Quantity


class OverMixer(Unreadable):
    """A batch larger than the mixer. ``half_bag`` is what half a bag takes, as weighed."""

    def __init__(self, fault: Fault, half_bag: Batch) -> None:
        super().__init__(fault)
        self.half_bag = half_bag


@dataclass(frozen=True, slots=True)
class CoatNeed:
    """A coat that wants a mix.

    ``id`` is the beginning of the keys of its steps ("job/mix/base"); ``volume`` [m3] what is to be mixed after all
    allowances (0: not known yet); ``mix`` or ``bagged`` what the firm mixes (neither: one is proposed, of
    ``cement``); ``over`` the id of the scratch coat under a brown coat; ``hours`` [s] how long the whole crew lays
    ``volume`` (None: nobody gave a pace).
    """

    id: str
    coat: Coat
    suction: Suction = "usual"
    volume: Real = 0
    mix: MixParts | None = None
    bagged: BagLabel | None = None
    cement: Literal["portland", "masonry cement", "plastic cement"] = "portland"
    over: str = ""
    hours: Real | None = None


@dataclass(frozen=True, slots=True)
class MixAsk:
    """The coats of a job, the mixer [m3, rated by wet batch], what sand is counted in, his bags, what he measured."""

    book: Book
    coats: tuple[CoatNeed, ...]
    mixer: Real | None = None
    gauge: Gauge = Gauge()
    bags: BagSizes = RULE_BOOK_BAGS
    measured: Measured = NOTHING_MEASURED


@dataclass(frozen=True, slots=True)
class CoatMix:
    """What one coat is mixed of and how. Of a bagged material there are no parts, verdict or yield."""

    id: str
    coat: Coat
    parts: MixParts | None
    bagged: BagLabel | None
    proposed: bool
    verdict: Verdict | None
    made: Yield | None
    materials: Materials
    batch: Batch | None
    half_bag: Batch | None
    batches: Batches | None
    use_within: Quantity
    notes: tuple[Note, ...]


@dataclass(frozen=True, slots=True)
class Mixes:
    """One CoatMix for each coat asked about, in the order asked; ``notes`` hold for all of them."""

    coats: tuple[CoatMix, ...]
    notes: tuple[Note, ...]

    def of(self, id: str) -> CoatMix:
        """The mix of the coat asked about as ``id``.

        Raises
        ------
        KeyError
            if no such coat was asked about.
        """
        for mix in self.coats:
            if mix.id == id:
                return mix
        raise KeyError(id)
