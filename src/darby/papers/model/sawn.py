"""Papers on request, one copy with money and one without: cut lists and truing."""

from __future__ import annotations

from dataclasses import dataclass

from darby.papers.model.common import EMPTY, Both, BothCaution, Firm, Picture, Stamp
from darby.words import Language


@dataclass(frozen=True, slots=True)
class SawCut:
    """Pieces of a bar: the letter in the drawing ("c–l": pieces alike, side by side), their length, where they go."""

    letter: str
    length: str
    where: Both


@dataclass(frozen=True, slots=True)
class SawRow:
    """Bars that are sawn alike: their numbers, what they are, drawn to scale, the pieces from the left, the rest."""

    bars: str
    stock: Both
    picture: Picture
    cuts: tuple[SawCut, ...]
    left: str


@dataclass(frozen=True, slots=True)
class StockRow:
    """So many bars of one length to load or to buy; the money only for the firm."""

    count: str
    length: Both
    each: str = ""
    sum: str = ""


@dataclass(frozen=True, slots=True)
class SawPart:
    """One profile: what to load, how to saw it; ``sums`` of money and ``proof`` only for the firm."""

    name: Both
    stock: tuple[StockRow, ...]
    rows: tuple[SawRow, ...]
    sums: tuple[tuple[str, str], ...] = ()
    proved: str = ""
    proof: tuple[str, ...] = ()
    notes: tuple[Both, ...] = ()


@dataclass(frozen=True, slots=True)
class SawingPaper:
    """What to saw from which bar. ``money``: the firm's copy; the crew's has none."""

    firm: Firm
    stamp: Stamp
    title: str
    opening: Both
    parts: tuple[SawPart, ...]
    sums: tuple[tuple[str, str], ...] = ()
    notes: tuple[Both, ...] = ()
    cautions: tuple[BothCaution, ...] = ()
    money: bool = False
    languages: tuple[Language, ...] = ("en", "es")


@dataclass(frozen=True, slots=True)
class FaceRow:
    """One way to put the face: plaster, money, thickest, out of plumb, what shows under a straightedge, its look."""

    name: str
    volume: str
    cost: str
    most: str
    lean: str
    look: str
    chosen: bool = False


@dataclass(frozen=True, slots=True)
class HoldRow:
    """One way to hold what is past the limit; ``chosen`` on his word."""

    name: str
    says: str
    volume: str
    cost: str
    chosen: bool = False


@dataclass(frozen=True, slots=True)
class SpotRow:
    """A high spot: which and where, plaster and money that it costs, what knocking it down saves."""

    where: Both
    by: str
    saves: str = ""
    saves_money: str = ""
    knocked: str = ""
    knocked_money: str = ""


@dataclass(frozen=True, slots=True)
class HollowRow:
    """A hollow past the limit: where it is deepest, how deep the plaster is there, area, lifts, plaster to fill it."""

    where: Both
    deepest: str
    area: str
    lifts: str
    excess: str


@dataclass(frozen=True, slots=True)
class GroundRow:
    """One ground or corner: where, whole plaster, ground from the bare wall, ground from the string; "?" = not read."""

    name: Both
    across: str
    up: str
    depth: str
    ground: str
    line: str
    past: bool = False
    known: bool = True


@dataclass(frozen=True, slots=True)
class TruingPaper:
    """How a wall is trued. ``money``: the letter, with the faces side by side; the crew's sheet has the grounds."""

    firm: Firm
    stamp: Stamp
    title: str
    wall: Both
    opening: Both
    picture: Picture
    map: Picture
    hollows: tuple[HollowRow, ...] = ()
    hollows_note: Both = EMPTY
    spots: tuple[SpotRow, ...] = ()
    faces: tuple[FaceRow, ...] = ()
    holdings: tuple[HoldRow, ...] = ()
    held: Both = EMPTY
    grounds: tuple[GroundRow, ...] = ()
    notes: tuple[Both, ...] = ()
    cautions: tuple[BothCaution, ...] = ()
    money: bool = False
    languages: tuple[Language, ...] = ("en", "es")
