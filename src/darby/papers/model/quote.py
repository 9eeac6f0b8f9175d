"""The customer's papers: the quote, the letter that sets ways side by side, the ways to part a wall."""

from __future__ import annotations

from dataclasses import dataclass

from darby.papers.model.common import Caution, Cut, Firm, KeyItem, Picture, Stamp
from darby.words import Language


@dataclass(frozen=True, slots=True)
class Place:
    """A part of the job and its area, the number alone."""

    where: str
    area: str


@dataclass(frozen=True, slots=True)
class WorkRow:
    """One line of "What goes on, and why": the places where the same goes on for the same reason.

    ``standing`` is printed where a figure decides and is not published.
    """

    places: tuple[Place, ...]
    what: str
    why: str
    standing: str = ""


@dataclass(frozen=True, slots=True)
class PriceRow:
    """One line of the price: what, how much of it, and its money. The lines add up to the total as printed."""

    what: str
    amount: str
    price: str


@dataclass(frozen=True, slots=True)
class Alternative:
    """Something the customer may tick instead: "add $380.00", "less $1,390.00"."""

    what: str
    price: str


@dataclass(frozen=True, slots=True)
class QuotePaper:
    """The customer's letter with a price. ``key`` is that of all its elevations, ``abreast`` so many to a row."""

    firm: Firm
    stamp: Stamp
    title: str
    customer: str
    place: str
    until: str
    opening: str
    work: tuple[WorkRow, ...]
    prices: tuple[PriceRow, ...]
    total: str
    payment: str = ""
    elevations: tuple[Picture, ...] = ()
    key: tuple[KeyItem, ...] = ()
    abreast: int = 2
    cuts: tuple[Cut, ...] = ()
    alternatives: tuple[Alternative, ...] = ()
    not_included: tuple[str, ...] = ()
    expect: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    area_head: str = "sq ft"
    language: Language = "en"


@dataclass(frozen=True, slots=True)
class LetterRow:
    """What is compared, and what each way says to it; ``barred``: this way is not open. ``strong``: set large."""

    label: str
    cells: tuple[str, ...]
    barred: tuple[bool, ...]
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Tight:
    """A place that some way leaves short: what and where it is, its room, what it should keep; ``cells`` "" = fits."""

    name: str
    at: str
    room: str
    keep: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WayRow:
    """One way over bare masonry: trips, crew hours, price of the whole job, what stands against it."""

    what: str
    trips: str
    hours: str
    price: str
    against: str = ""


@dataclass(frozen=True, slots=True)
class LetterPaper:
    """Ways of doing it, side by side: ``rungs`` over old walls, ``ways`` over bare masonry; either may be empty."""

    firm: Firm
    stamp: Stamp
    title: str
    customer: str
    place: str
    opening: str
    rungs: tuple[str, ...] = ()
    rows: tuple[LetterRow, ...] = ()
    cuts: tuple[Cut, ...] = ()
    tight_heads: tuple[str, ...] = ()
    tight: tuple[Tight, ...] = ()
    tight_note: str = ""
    lasts: str = ""
    ways: tuple[WayRow, ...] = ()
    ways_at: str = ""
    before: tuple[str, ...] = ()
    questions: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    language: Language = "en"


@dataclass(frozen=True, slots=True)
class WayToPart:
    """One layout of joints, drawn. ``rows``: panel, size, area, and what is left of area, side and ratio."""

    heading: str
    says: str
    picture: Picture
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class PartedWall:
    """A wall, the limits of its panels, its layouts with the one that is taken first, and what is claimed of them."""

    wall: str
    rules: tuple[str, ...]
    ways: tuple[WayToPart, ...]
    claims: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class JointsPaper:
    """Every wall that can be parted in more ways than one, or in none that holds the limits."""

    firm: Firm
    stamp: Stamp
    title: str
    walls: tuple[PartedWall, ...]
    language: Language = "en"
