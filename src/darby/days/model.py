"""What is asked of days, and what it answers. Times in seconds, heights in metres, pace of the whole crew."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from quicktions import Fraction

from darby.rulebook import Book
from darby.working import Quantity

Real = float | int | Fraction

DampBy = Literal["owner", "crew"]
Why = Literal["start", "wait", "hours", "done"]


@dataclass(frozen=True, slots=True)
class CoatTime:
    """One thing done on a surface, in its order: a coat, lath and paper, beads, paint.

    ``size`` [m2 or m] over ``pace`` [m2/s or m/s, whole crew] gives the time; or ``hours`` [s, whole crew] is given.
    ``wait_least``, ``wait_most`` [s] lie between this coat and the next; ``moist`` [s] is how long it is kept damp.
    ``rules`` are the ids of the figures behind them. ``may_stop``: it can be left off anywhere at the end of a day
    (lath, beads, masking); a coat of plaster cannot.
    """

    coat: str
    size: Quantity | None = None
    pace: Quantity | None = None
    hours: Quantity | None = None
    wait_least: Real = 0
    wait_most: Real | None = None
    moist: Real = 0
    rules: tuple[str, ...] = ()
    may_stop: bool = False


@dataclass(frozen=True, slots=True)
class SurfaceTime:
    """All that is done on one surface or zone ("bay-south/hollow"), in order; ``reach`` [m] is its highest point.

    ``done``: the dates of the first of these, so many as are on the wall already; None for one that nobody dated.
    The last of them has a date.
    """

    at: str
    coats: tuple[CoatTime, ...]
    reach: Real | None = None
    done: tuple[date | None, ...] = ()

    @property
    def done_on(self) -> tuple[date, ...]:
        """The dates of what is done; what nobody dated counts with what came next."""
        dates: list[date] = []
        for day in reversed(self.done):
            dates.append(day or dates[-1])
        return tuple(reversed(dates))


@dataclass(frozen=True, slots=True)
class Extra:
    """What else takes time before the first coat (protect, mask, wash): ``hours`` [s] of one person."""

    what: str
    hours: Quantity


@dataclass(frozen=True, slots=True)
class AccessRow:
    """A way to stand at the wall: good up to a height [m]; ``set_up`` [s] of the whole crew, once."""

    kind: str
    up_to: Real
    set_up: Real = 0


@dataclass(frozen=True, slots=True)
class VisitsAsk:
    """All surfaces of a job, side by side, and the one crew that does them.

    ``day`` [s] is the crew's working day, ``set_up`` [s] what the whole crew needs of each before it can work.
    ``week``: days worked a week, from Monday (None = the rule book's). ``as_of`` is the only clock. ``nowhere``:
    (surface, coat) that was written down as done where the chosen build-up has no such coat.
    """

    book: Book
    as_of: date
    people: int
    day: Real
    surfaces: tuple[SurfaceTime, ...]
    set_up: Real = 0
    extras: tuple[Extra, ...] = ()
    access: tuple[AccessRow, ...] = ()
    damp_by: DampBy = "owner"
    week: int | None = None
    holidays: tuple[date, ...] = ()
    nowhere: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class CoatDays:
    """When a coat goes on, and the first date on which the next may (``next_from``); None after the last.

    ``damp_until``: last date on which it is kept damp. ``rules``: figures behind both.
    """

    at: str
    coat: str
    hours: Quantity
    first: date
    last: date
    next_from: date | None
    damp_until: date | None
    rules: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Piece:
    """Crew time [s] spent on one coat in one trip."""

    at: str
    coat: str
    time: int


@dataclass(frozen=True, slots=True)
class Trip:
    """One day on site. ``hours`` is work, ``idle`` waiting for a coat that firms up the same day.

    ``why``: the first ("start"), the day before was full ("hours"), a coat had to wait ("wait": ``waited_at``,
    ``waited_coat`` and the ``rules`` behind the wait), or it is no plan but what was done ("done").
    """

    number: int
    day: date
    pieces: tuple[Piece, ...]
    hours: Quantity
    idle: Quantity
    why: Why
    waited_at: str = ""
    waited_coat: str = ""
    rules: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Hire:
    """A kind of access, the surfaces that need it, and for how long it stands: ``days`` from first to last use."""

    kind: str
    at: tuple[str, ...]
    first: date
    last: date
    days: Quantity
    set_up: Real


@dataclass(frozen=True, slots=True)
class Visits:
    """Trips in order, dates of every coat, access, and who keeps it damp.

    ``alone``: trips that the hours alone need; ``forced``: what the waits add; ``bound``: no plan has fewer trips
    than this; ``proved``: the plan has just as many.
    """

    trips: tuple[Trip, ...]
    coats: tuple[CoatDays, ...]
    hires: tuple[Hire, ...]
    hours: Quantity
    count: Quantity
    alone: Quantity
    forced: Quantity
    bound: Quantity
    proved: bool
    first: date
    last: date
    span: Quantity
    damp_by: DampBy
    damp_days: tuple[date, ...]
