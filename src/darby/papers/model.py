"""What stands on each paper: trees of sentences and numbers that are already written. No paper computes anything.

Every text is plain; a fraction such as 3/8 in it is set as a built fraction. Texts in two languages are a ``Both``.
"""

from __future__ import annotations

from dataclasses import dataclass

from darby.words import Language


@dataclass(frozen=True, slots=True)
class Both:
    """The same words in the sheet's first language and in its second ("" = the sheet has one language)."""

    first: str
    second: str = ""


@dataclass(frozen=True, slots=True)
class Firm:
    """Who the paper is from: name, what the firm does, address, further lines (telephone, licence)."""

    name: str
    line: str = ""
    address: str = ""
    more: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Stamp:
    """What every page says at its foot, and when the paper was made.

    Parameters
    ----------
    job, number
        the job's name and number.
    revision, job_hash, book, made_with
        revision of the document, its hash, version of the rule book, version of darby.
    date
        the job's day as it is printed.
    seconds
        the same day in seconds since 1970, for the PDF's date: the same job is the same file.
    invented
        whether every page says that the job is invented.
    """

    job: str
    number: str
    revision: str
    job_hash: str
    book: str
    made_with: str
    date: str
    seconds: int
    invented: bool = False


@dataclass(frozen=True, slots=True)
class KeyItem:
    """One entry of a drawing's key: a swatch (SVG) and what it means."""

    svg: str
    text: str


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing as SVG in points, placed at its own size. ``alt`` says in words what it shows."""

    svg: str
    alt: str
    caption: str = ""
    key: tuple[KeyItem, ...] = ()


@dataclass(frozen=True, slots=True)
class Cut:
    """A cut through the wall with the words beside it."""

    picture: Picture
    opening: str
    text: str


@dataclass(frozen=True, slots=True)
class Caution:
    """A bold opening of two to five words, then one or two sentences."""

    opening: str
    text: str


# --- the customer's quote ----------------------------------------------------------------------------------


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


# --- the letter that sets ways side by side ----------------------------------------------------------------


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


# --- the supplier's order ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class OrderRow:
    """One line: how many packages to bring, of what, in what package, what was needed exactly, what is already ordered.

    ``count`` is the number and ``unit`` what is counted: "4", "bags"; "2 1/2", "cu yd". ``price`` and ``sum`` are
    package prices; leave them empty on an order without prices.
    """

    count: str
    unit: str
    item: str
    package: str
    needed: str
    ordered: str = ""
    price: str = ""
    sum: str = ""


@dataclass(frozen=True, slots=True)
class OrderPaper:
    """The order to one supplier: the difference against what is on order already. Without a ``supplier``: to buy."""

    firm: Firm
    stamp: Stamp
    title: str
    supplier: str
    deliver: str
    rows: tuple[OrderRow, ...]
    total: str = ""
    notes: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    language: Language = "en"


# --- the crew's sheets -------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class BothCaution:
    """A caution in both languages."""

    opening: Both
    text: Both


@dataclass(frozen=True, slots=True)
class CrewCoat:
    """One coat: its name, thickness (large), where its face comes to, its mix, how it is laid, curing and waiting.

    ``standing`` is printed where a figure decides and is not published.
    """

    name: Both
    thickness: str
    grounds: Both = Both("")
    mix: Both = Both("")
    notes: Both = Both("")
    wait: Both = Both("")
    standing: Both = Both("")


@dataclass(frozen=True, slots=True)
class CrewPart:
    """One zone of the surface: what to do to the base, then the coats from the base outward."""

    name: Both
    prepare: tuple[Both, ...]
    coats: tuple[CrewCoat, ...]


@dataclass(frozen=True, slots=True)
class BeadRow:
    """Which edge gets which bead, ``where`` on the wall that is, how long it is, and how deep its ground is."""

    edge: Both
    bead: Both
    length: str
    ground: str = ""
    where: Both = Both("")


@dataclass(frozen=True, slots=True)
class SetBack:
    """What the mason or the framer has to hear before anybody plasters. ``size`` is printed largest of all."""

    opening: Both
    size: Both
    text: Both


@dataclass(frozen=True, slots=True)
class CrewPaper:
    """The crew's sheet for one surface. No money stands on it. ``abreast``: cut and picture go side by side."""

    firm: Firm
    stamp: Stamp
    title: str
    surface: Both
    area: Both
    parts: tuple[CrewPart, ...]
    picture: Picture | None = None
    cut: Picture | None = None
    beads: tuple[BeadRow, ...] = ()
    abreast: bool = False
    set_back: tuple[SetBack, ...] = ()
    cautions: tuple[BothCaution, ...] = ()
    notes: tuple[Both, ...] = ()
    languages: tuple[Language, ...] = ("en", "es")
    lath: Picture | None = None
    lathing: tuple[Both, ...] = ()


@dataclass(frozen=True, slots=True)
class TicketPart:
    """What goes into one batch. ``strokes`` tally marks, one short stroke more if ``part``; ``count`` in figures."""

    what: Both
    measure: Both
    count: str
    strokes: int = 0
    part: bool = False
    note: Both = Both("")


@dataclass(frozen=True, slots=True)
class Ticket:
    """One mix. ``boxes`` squares are struck off, one a batch; ``last`` says what the last part batch takes."""

    mix: Both
    where: Both
    makes: Both
    batches: Both
    boxes: int
    parts: tuple[TicketPart, ...]
    last: Both = Both("")
    notes: tuple[Both, ...] = ()
    cautions: tuple[BothCaution, ...] = ()


@dataclass(frozen=True, slots=True)
class TicketPaper:
    """Batch tickets, two to a letter sheet, to be cut apart. No money stands on them."""

    firm: Firm
    stamp: Stamp
    title: str
    tickets: tuple[Ticket, ...]
    languages: tuple[Language, ...] = ("en", "es")


# --- sample boards -----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class BoardCard:
    """A card that goes on the back of one sample board: its sand, how it is put on, how thick; lines to write on.

    ``step``: what it is in the ladder. ``signed``: who signed for it, if somebody has. ``look``: light and distance.
    """

    number: str
    step: Both
    sand: Both
    method: Both
    how: Both
    thickness: str
    size: Both
    look: Both
    signed: Both = Both("")


@dataclass(frozen=True, slots=True)
class OldFace:
    """What was read of one old face, and its boards. ``read``: what it is called, and how much."""

    wall: Both
    says: str
    read: tuple[tuple[Both, Both], ...]
    tells: tuple[tuple[Both, Both], ...]
    notes: tuple[Both, ...]
    varies: Both
    order: Both
    standing: Both
    cards: tuple[BoardCard, ...]
    cautions: tuple[BothCaution, ...] = ()


@dataclass(frozen=True, slots=True)
class BoardPaper:
    """Sample boards: a sheet of what was read for each old face, then its cards, to be cut apart. No money on them."""

    firm: Firm
    stamp: Stamp
    title: str
    faces: tuple[OldFace, ...]
    languages: tuple[Language, ...] = ("en", "es")


# --- the working package -----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class LedgerRow:
    """One answer. ``soft``: it leans on memory, habit or an assumption, and is underlined with dots."""

    what: str
    value: str
    soft: bool = False


@dataclass(frozen=True, slots=True)
class Ledger:
    """Answers that belong together; ``notes`` are the sentences under them."""

    title: str
    rows: tuple[LedgerRow, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WorkingLine:
    """One step: its sentence, its printed line with the result, the ids of the rules in it."""

    says: str
    line: str
    rules: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WorkingPart:
    """Steps that belong together: one coat, one item of the order."""

    title: str
    lines: tuple[WorkingLine, ...]


@dataclass(frozen=True, slots=True)
class WorkingGroup:
    """Steps of one surface or of the job."""

    title: str
    parts: tuple[WorkingPart, ...]


@dataclass(frozen=True, slots=True)
class RuleRow:
    """A figure that was used: id, our words, value as the book has it, source and ``where`` in it, standing, why."""

    id: str
    says: str
    value: str
    source: str
    standing: str
    why: str = ""
    where: str = ""


@dataclass(frozen=True, slots=True)
class NoteRow:
    """A note: where it belongs, its sentence, the rules behind it."""

    at: str
    text: str
    rules: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WorkingPaper:
    """Every step, rule and note of the job, for the firm. Rules of one source stand together."""

    firm: Firm
    stamp: Stamp
    title: str
    groups: tuple[WorkingGroup, ...]
    rules: tuple[RuleRow, ...] = ()
    ledgers: tuple[Ledger, ...] = ()
    stops: tuple[NoteRow, ...] = ()
    cautions: tuple[NoteRow, ...] = ()
    assumed: tuple[NoteRow, ...] = ()
    facts: tuple[NoteRow, ...] = ()
    pictures: tuple[Picture, ...] = ()
    language: Language = "en"


# --- cut lists -----------------------------------------------------------------------------------------------


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


# --- truing --------------------------------------------------------------------------------------------------


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
    hollows_note: Both = Both("")
    spots: tuple[SpotRow, ...] = ()
    faces: tuple[FaceRow, ...] = ()
    holdings: tuple[HoldRow, ...] = ()
    held: Both = Both("")
    grounds: tuple[GroundRow, ...] = ()
    notes: tuple[Both, ...] = ()
    cautions: tuple[BothCaution, ...] = ()
    money: bool = False
    languages: tuple[Language, ...] = ("en", "es")


# --- ways to part a wall -----------------------------------------------------------------------------------


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


@dataclass(frozen=True, slots=True)
class FoundRow:
    """One finding: what, how large, how wide, whether it moves, what it asks for."""

    what: Both
    size: str
    width: str
    moves: Both
    does: Both


@dataclass(frozen=True, slots=True)
class FoundPart:
    """One wall that was looked at: its drawing, its findings, and what is said of them."""

    name: str
    picture: Picture
    rows: tuple[FoundRow, ...]
    notes: tuple[Both, ...] = ()


@dataclass(frozen=True, slots=True)
class CutRow:
    """One side of a patch: each reason's depth ("" = none), how far it is cut back, and what decides."""

    side: Both
    depths: tuple[str, ...]
    back: str
    by: Both


@dataclass(frozen=True, slots=True)
class PatchPart:
    """One patch: its drawing, how far each side is cut back, and what is done in order."""

    name: str
    picture: Picture
    rows: tuple[CutRow, ...]
    notes: tuple[Both, ...]
    steps: tuple[Both, ...]


@dataclass(frozen=True, slots=True)
class PatchPaper:
    """The crew's sheet of old work: what was found, how far it is cut back, how it is tied in. No money on it."""

    firm: Firm
    stamp: Stamp
    title: str
    lead: Both
    heads: tuple[Both, ...]
    cut_heads: tuple[Both, ...]
    found: tuple[FoundPart, ...] = ()
    patches: tuple[PatchPart, ...] = ()
    cautions: tuple[BothCaution, ...] = ()
    languages: tuple[Language, ...] = ("en", "es")


Paper = (
    QuotePaper | LetterPaper | OrderPaper | CrewPaper | TicketPaper | BoardPaper | WorkingPaper
    | SawingPaper | TruingPaper | JointsPaper | PatchPaper
)  # fmt: skip
