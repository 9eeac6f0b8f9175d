"""The crew's papers at the wall: sheet, tickets, sample boards, old work. No money on any."""

from __future__ import annotations

from dataclasses import dataclass

from darby.papers.model.common import EMPTY, Both, BothCaution, Firm, Picture, Stamp
from darby.words import Language


@dataclass(frozen=True, slots=True)
class CrewCoat:
    """One coat: its name, thickness (large), where its face comes to, its mix, how it is laid, curing and waiting.

    ``standing`` is printed where a figure decides and is not published.
    """

    name: Both
    thickness: str
    grounds: Both = EMPTY
    mix: Both = EMPTY
    notes: Both = EMPTY
    wait: Both = EMPTY
    standing: Both = EMPTY


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
    where: Both = EMPTY


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
    note: Both = EMPTY


@dataclass(frozen=True, slots=True)
class Ticket:
    """One mix. ``boxes`` squares are struck off, one a batch; ``last`` says what the last part batch takes."""

    mix: Both
    where: Both
    makes: Both
    batches: Both
    boxes: int
    parts: tuple[TicketPart, ...]
    last: Both = EMPTY
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
    signed: Both = EMPTY


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
