"""What is asked of a cut list and what it answers: pieces, bars as the yard sells them, offcuts, a sheet to saw from.

Lengths are exact metres, money is ``Decimal``. Where no bar has a price, the length bought stands for the money.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal

from quicktions import Fraction

from darby.measure.faults import Fault
from darby.measure.surface import Length
from darby.rulebook import Book, default
from darby.working import Amount, Quantity

Aim = Literal["money", "length"]
Cost = Decimal | Fraction
"""Dollars where bars have prices, else metres of bar that are bought."""

NOUGHT = Fraction(0)


# --- what is asked ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Piece:
    """``count`` pieces [m] of one place: ``id`` is what stands on the piece ("bay-south/door/left")."""

    id: str
    length: Length
    count: int = 1


@dataclass(frozen=True, slots=True)
class Stock:
    """A bar as the yard sells it: length [m] and price; None = nobody said what it costs."""

    length: Length
    price: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Offcut:
    """Bars that are on the truck already [m]; they cost nothing, and there are ``count`` of them."""

    length: Length
    count: int = 1
    id: str = ""


@dataclass(frozen=True, slots=True)
class Splice:
    """Pieces longer than any bar are made up of parts, none shorter than ``least`` [m]; None = the book's."""

    least: Length | None = None


@dataclass(frozen=True, slots=True)
class Profile:
    """All pieces of one bead, screed or joint. ``splice`` None = a piece longer than any bar is a fault."""

    item: str
    pieces: tuple[Piece, ...]
    stock: tuple[Stock, ...]
    offcuts: tuple[Offcut, ...] = ()
    splice: Splice | None = None


@dataclass(frozen=True, slots=True)
class CutAsk:
    """Every profile of the job. ``kerf`` what the blade takes [m]; snips take nothing. ``seconds`` for each profile."""

    profiles: tuple[Profile, ...]
    kerf: Length = NOUGHT
    seconds: float = 2.0
    book: Book = field(default_factory=default)


# --- what is answered ------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut: what stands on the piece, its length [m]; number ``n`` of ``of`` alike, ``part`` of ``parts``."""

    piece: str
    length: Length
    n: int = 1
    of: int = 1
    part: int = 1
    parts: int = 1


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar to saw: its length [m], cuts longest first, what the blade takes and what is left over [m].

    ``offcut`` is the id of the offcut it is ("" where it has none); None = a bar that is bought, at ``price``.
    """

    number: int
    stock: Length
    price: Decimal | None
    offcut: str | None
    cuts: tuple[Cut, ...]
    blade: Length
    left: Length

    @property
    def waste(self) -> Length:
        """What of the bar is in no piece [m]: the blade's, and what is left over."""
        return self.blade + self.left


@dataclass(frozen=True, slots=True)
class Bought:
    """So many bars of one length [m] at one price."""

    length: Length
    price: Decimal | None
    count: int


@dataclass(frozen=True, slots=True)
class Placed:
    """Where one piece is cut from: ``n`` of ``of`` alike, (number of the bar, length [m]) of each of its parts."""

    piece: str
    n: int
    of: int
    length: Length
    bars: tuple[tuple[int, Length], ...]


@dataclass(frozen=True, slots=True)
class Weighing:
    """Why it cannot be cheaper: every length has a weight, and no bar holds more than its limit.

    ``weights`` (length [m], pieces, weight of each); ``total`` of all pieces; ``limits`` (bar [m], the most it holds,
    how many there may be: None = any number). Bars that hold less than ``total`` between them cannot hold the pieces.
    ``unit`` where the weights are the lengths themselves, each with its kerf: what one of weight is long [m].
    """

    weights: tuple[tuple[Length, int, int], ...]
    total: int
    limits: tuple[tuple[Length, int, int | None], ...]
    unit: Length | None = None


@dataclass(frozen=True, slots=True)
class CutList:
    """The bars to buy and how to saw them.

    ``cost`` of what is bought and ``bound``, the least it can cost (dollars, or metres where ``aim`` is "length");
    ``first_fit`` what the longest-first rule of thumb would cost. ``by_piece`` in the order of the pieces' ids.
    ``weighings`` and ``tried`` are the proof of ``bound``: ``tried`` are the buys (count of each stock length) that
    the weighings let through and that no way of sawing fills.
    """

    aim: Aim
    kerf: Length
    bars: tuple[Bar, ...]
    bought: tuple[Bought, ...]
    cost: Cost
    bound: Cost
    proved_best: bool
    first_fit: Cost
    first_fit_bought: tuple[Bought, ...]
    by_piece: tuple[Placed, ...]
    weighings: tuple[Weighing, ...]
    tried: tuple[tuple[Bought, ...], ...] = ()

    @property
    def gap(self) -> Cost:
        """How much cheaper it might be at the most: nought where it is proved best."""
        return self.cost - self.bound  # type: ignore[operator]

    @property
    def saved(self) -> Cost:
        """What it saves against the rule of thumb."""
        return self.first_fit - self.cost  # type: ignore[operator]

    @property
    def pieces(self) -> int:
        """Number of cuts on the sheet, every part of a spliced piece counted."""
        return sum(len(bar.cuts) for bar in self.bars)

    @property
    def length(self) -> Length:
        """All pieces together [m]."""
        return sum((cut.length for bar in self.bars for cut in bar.cuts), NOUGHT)

    @property
    def offcuts_used(self) -> tuple[Bar, ...]:
        """The bars that come from the truck."""
        return tuple(bar for bar in self.bars if bar.offcut is not None)

    @property
    def patterns(self) -> tuple[tuple[Bar, ...], ...]:
        """Bars that are sawn alike, together, in the order of the sheet."""
        alike: dict[tuple[Length, bool, tuple[Length, ...]], list[Bar]] = {}
        for bar in self.bars:
            key = (bar.stock, bar.offcut is not None, tuple(cut.length for cut in bar.cuts))
            alike.setdefault(key, []).append(bar)
        return tuple(tuple(bars) for bars in alike.values())


@dataclass(frozen=True, slots=True)
class ProfileCuts:
    """The cut list of one profile, with its money (or length) as lines of working; ``fault`` where there is none."""

    item: str
    cuts: CutList | None
    cost: Amount | Quantity | None = None
    first_fit: Amount | Quantity | None = None
    saved: Amount | Quantity | None = None
    bound: Quantity | None = None
    fault: Fault | None = None


@dataclass(frozen=True, slots=True)
class CutLists:
    """Every profile of the job, by name. ``cost`` and ``saved`` are money, over the profiles that have prices."""

    lists: tuple[ProfileCuts, ...]
    cost: Amount | None = None
    saved: Amount | None = None

    def of(self, item: str) -> ProfileCuts | None:
        """The list of ``item``, if the job takes any."""
        return next((x for x in self.lists if x.item == item), None)
