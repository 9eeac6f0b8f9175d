"""Asks for the quantities room's tests. Every wall, price and firm in them is invented."""

from __future__ import annotations

from fractions import Fraction

from darby.measure.units import FT, GAL, IN, LB, YD, unit
from darby.quantities import (
    Allowances,
    BagLabel,
    Buy,
    Coat,
    Material,
    Mortar,
    Opening,
    Reveal,
    Sand,
    Volumes,
    VolumesAsk,
    Zone,
    volumes,
)
from darby.working import Quantity

SQ_FT = FT**2
CU_FT = FT**3

FIRM = Allowances(
    spread=Fraction(10, 100),
    waste=Fraction(8, 100),
    bulking=Fraction(25, 100),
    accessories=Fraction(7, 100),
    lath=Fraction(5, 100),
    moisture=Fraction(5, 100),
)
NOTHING = Allowances(
    spread=Fraction(0), waste=Fraction(0), bulking=Fraction(0), accessories=Fraction(0), lath=Fraction(0),
    moisture=Fraction(0),
)  # fmt: skip

SITE = Mortar(
    "base",
    (
        Material("portland", Quantity(300, unit("kg/m3"))),
        Material("lime", Quantity(96, unit("kg/m3"))),
    ),
    Sand(Quantity(Fraction(1)), "damp loose", Quantity(1281, unit("kg/m3"))),
    Quantity(Fraction(1, 4)),
)
BAGGED = BagLabel(
    "finish",
    "float-finish",
    Quantity(CU_FT * Fraction(3, 4), unit("cu ft")),
    Quantity(GAL * Fraction(3, 2), unit("gal")),
)

BUYS = (
    Buy("portland", 94 * LB, unit("lb"), "bag", "94 lb bag", name="Portland cement", supplier="Yard"),
    Buy("lime", 50 * LB, unit("lb"), "bag", "50 lb bag", supplier="Yard"),
    Buy("sand", YD**3, unit("cu yd"), "", "cu yd", supplier="Pit"),
    Buy("float-finish", 80 * LB, unit("lb"), "bag", "80 lb bag", name="Float finish", supplier="Yard"),
    Buy("lath", 27 * 97 * IN**2, unit("sq in"), "sheet", "27 x 97 in sheet", sides=(27 * IN, 97 * IN)),
    Buy("paper", 162 * SQ_FT, unit("sq ft"), "roll", "162 sq ft roll", layers=2),
    Buy("corner bead", 10 * FT, unit("ft"), "piece", "10 ft piece"),
    Buy("casing bead", 10 * FT, unit("ft"), "piece", "10 ft piece"),
    Buy("weep screed", 10 * FT, unit("ft"), "piece", "10 ft piece"),
    Buy("lath fasteners", Fraction(1000), unit("pieces"), "box", "box of 1000"),
    Buy("masonry lath fasteners", Fraction(100), unit("pieces"), "box", "box of 100"),
    Buy("sealant", Fraction(101, 10) * unit("fl oz").scale, unit("fl oz"), "tube", "10.1 fl oz tube"),
    Buy("backer rod", 100 * FT, unit("ft"), "roll", "100 ft roll"),
    Buy("primer", 5 * GAL, unit("gal"), "pail", "5 gal pail"),
    Buy("paint", 5 * GAL, unit("gal"), "pail", "5 gal pail"),
    Buy("bonding agent", GAL, unit("gal"), "pail", "1 gal pail"),
    Buy("cover film", 400 * SQ_FT, unit("sq ft"), "roll", "400 sq ft roll"),
    Buy("masking tape", 180 * FT, unit("ft"), "roll", "180 ft roll"),
)

BASE = Coat("base", Fraction(3, 8) * IN, "base")
FINISH = Coat("finish", Fraction(1, 8) * IN, "finish")
THREE = (
    Coat("scratch", Fraction(3, 8) * IN, "base"),
    Coat("brown", Fraction(3, 8) * IN, "base", levels=True),
    Coat("finish", Fraction(1, 8) * IN, "finish"),
)


def door(reveal: Fraction = 4 * IN) -> Opening:
    """3068, plastered on head and both jambs where it has a reveal."""
    high, wide = Fraction(20, 3) * FT, 3 * FT
    sides = (
        (Reveal("left", high, reveal), Reveal("right", high, reveal), Reveal("head", wide, reveal)) if reveal else ()
    )
    return Opening("door", high * wide, sides)


def block(feet: Fraction | int = 288, *openings: Opening, **more: object) -> Zone:
    """A zone of block, two coats."""
    return Zone("main", "block", feet * SQ_FT, (BASE, FINISH), openings, **more)  # type: ignore[arg-type]


def frame(feet: Fraction | int = 112, *openings: Opening, **more: object) -> Zone:
    """A zone of frame on lath, three coats."""
    given = {"lathed": True, "studs": 16 * IN, "sheathing": "wood", **more}
    return Zone("main", "frame", feet * SQ_FT, THREE, openings, **given)  # type: ignore[arg-type]


def laid(surface: str, *zones: Zone, allow: Allowances = FIRM, **more: object) -> Volumes:
    """The surface's answer."""
    return volumes(VolumesAsk(surface, zones, allow=allow, **more))[0]  # type: ignore[arg-type]


def shown(q: Quantity | None) -> float:
    """A quantity in its own unit."""
    assert q is not None
    return float(q.unit.from_si(float(q)))
