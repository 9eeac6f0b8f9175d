"""What is asked of the finish room and what it answers: the old face's sand and relief, and boards that lead to it.

Inside SI: metres. Sentences are codes; ``darby.words`` says them. A ``Sieve`` is named as its maker stamps it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from quicktions import Fraction

from darby.rulebook.book import Book
from darby.rulebook.model import Figure
from darby.working.model import Note, Quantity

Length = Fraction | float
"""Metres: exact where it was measured, a float where it was computed."""

Method = Literal["float", "smooth", "dash", "lace", "scraped", "wet dash", "skip trowel", "pebble"]
PaintKind = Literal["paint", "textured", "elastomeric"]
ReadBy = Literal["micrometer", "putty"]
SandBy = Literal["retained", "passing", "grains"]
Step = Literal["finer", "as read", "coarser"]
Varies = Literal["sand", "throw", "own"]

METHODS: tuple[Method, ...] = get_args(Method)
THROWN: tuple[Method, ...] = ("dash", "wet dash", "pebble")
"""Finishes that are thrown: how they are thrown makes the face, besides the sand."""


# --- what is asked ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Sieve:
    """A sieve: ``opening`` [m] and its name, "No. 16" or "1 mm"."""

    name: str
    opening: Length


@dataclass(frozen=True, slots=True)
class OnSieve:
    """So much on a sieve, or through it. ``sieve`` None = the pan."""

    sieve: Sieve | None
    amount: Quantity


@dataclass(frozen=True, slots=True)
class OwnBoard:
    """A board of his own instead of the ladder: sand between two sieves, how it is put on, how thick [m]."""

    fine: Sieve
    coarse: Sieve
    method: Method | None = None
    thickness: Length | None = None
    how: str = ""


@dataclass(frozen=True, slots=True)
class Signed:
    """Which board was signed for, by whom, when (as it is written), in what light, from how far [m]."""

    board: int
    by: str
    on: str = ""
    light: str = ""
    off: Length | None = None


@dataclass(frozen=True, slots=True)
class MatchAsk:
    """One old face to be matched.

    Parameters
    ----------
    at
        id of the surface of new work; every step and note is kept under it.
    sand, by
        the grains of the old face, coarse to fine: what each sieve kept ("retained"), the share that went through
        ("passing"), or one entry for each grain compared ("grains": ``grains`` below).
    grains
        (fine, coarse) of the stick each grain looked like.
    depths
        from the tops of the face down into its hollows [m].
    read_by
        a depth micrometer on the face, or on a putty replica of it.
    paint_coats, paint_kind, film
        coats on the old face; or the film of a chip of it, measured [m].
    looks
        what he takes the old face for.
    wanted
        the finish that the job puts on the new work; ``coat`` its thickness [m]; ``wanted_sand`` its openings [m].
    boards
        his own; () = the ladder.
    new_painted
        where the old side is painted too: whether the new side is; None = the old side is left alone.
    """

    book: Book
    at: str
    by: SandBy
    sand: tuple[OnSieve, ...] = ()
    grains: tuple[tuple[Sieve, Sieve], ...] = ()
    depths: tuple[Length, ...] = ()
    read_by: ReadBy = "micrometer"
    paint_coats: int = 0
    paint_kind: PaintKind = "paint"
    film: Length | None = None
    looks: Method | None = None
    wanted: str = "float"
    wanted_sand: str | None = None
    coat: Length = 0
    boards: tuple[OwnBoard, ...] = ()
    signed: Signed | None = None
    new_painted: bool | None = None

    @property
    def painted(self) -> bool:
        """Whether what was read is paint over sand."""
        return bool(self.paint_coats or self.film)


# --- what is answered -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Grade:
    """The grains between two sieves and their ``share``. ``coarse`` None = larger than every sieve that was used;
    ``fine`` None = what went through them all."""

    fine: Sieve | None
    coarse: Sieve | None
    share: Quantity


@dataclass(frozen=True, slots=True)
class Sand:
    """The grains coarse to fine; the largest that counts, the most common, and half of them are finer than ``median``.

    ``least`` is the share from which a grade counts. The texture follows ``largest``.
    """

    by: SandBy
    grades: tuple[Grade, ...]
    largest: Grade
    common: Grade
    median: Quantity | None
    least: Figure


@dataclass(frozen=True, slots=True)
class Relief:
    """Depth readings of the old face. ``low`` and ``high`` hold the mean as surely as ``sure``; None for one reading.

    ``valley``: the deepest against the shallowest reading.
    """

    count: int
    mean: Quantity
    spread: Quantity | None
    low: Quantity
    high: Quantity
    valley: Quantity
    sure: Figure


@dataclass(frozen=True, slots=True)
class Paint:
    """Film on the old face, from so much to so much, by coats or by a measured chip."""

    coats: int
    kind: PaintKind
    measured: bool
    least: Quantity
    most: Quantity


@dataclass(frozen=True, slots=True)
class Candidate:
    """A way the old face may have been made, why it is named, and what would tell it from the others."""

    method: Method
    because: str
    tell: str


@dataclass(frozen=True, slots=True)
class Board:
    """One sample board. ``how`` is the code of what to do, or ``own`` his own words; ``cause`` why it is in the row."""

    number: int
    step: Step | None
    fine: Sieve
    coarse: Sieve
    method: Method
    how: str
    own: str
    thickness: Quantity
    signed: bool = False


@dataclass(frozen=True, slots=True)
class Match:
    """The answer for one old face.

    ``before_least`` to ``before_most``: relief before it was painted, a span and no promise. ``order``: numbers of the
    boards as they are to be tried. ``varies``: what differs from board to board.
    """

    at: str
    sand: Sand
    relief: Relief | None
    paint: Paint | None
    before_least: Quantity | None
    before_most: Quantity | None
    methods: tuple[Candidate, ...]
    boards: tuple[Board, ...]
    order: tuple[int, ...]
    varies: Varies
    side: Figure
    seen_from: Figure
    light: Figure
    signed: Signed | None = None
    notes: tuple[Note, ...] = ()
