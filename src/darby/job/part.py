"""The meaning pass: one table of the document at a time, every text in it read strictly, every fault kept.

The shape pass has already said what is missing, unknown or of the wrong kind, and taken it out; here a key that
is not there is simply not there, and everything else is read. So faults at different depths all show at once.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping
from datetime import date
from decimal import Decimal
from typing import Any, TypeVar

from quicktions import Fraction

from darby import measure
from darby.job import allowed as ok
from darby.job.firm import Package, Share, Span
from darby.job.places import Loc, nearest, order, place, shown
from darby.measure.exact import fraction_of
from darby.measure.faults import Fault, Unreadable
from darby.measure.rates import Rate
from darby.measure.units import UNITS, Unit
from darby.working.model import Note

LARGEST = Fraction(10**9)
"""No measure of a job is larger, in SI or dollars; past it a slip of the pen is surer than a job."""

SMALLEST = 1 / LARGEST

LONGEST_LENGTH = Fraction(10_000)
"""[m]"""

LONGEST_TEXT = 2000

HOUR = re.compile(r"(?:/|\bper|\ban?)\s*(?:h|hrs?|hours?)\.?\s*$", re.IGNORECASE)
DAY = re.compile(r"(?:/|\bper|\ba)\s*(?:d|days?)\.?\s*$", re.IGNORECASE)
"""A working day is no 24 hours: what is paid or done in an hour is not turned into days, nor the other way round."""

_T = TypeVar("_T")
_N = TypeVar("_N", Fraction, Decimal)
_ID = re.compile(r"\w(?:[\w-]{0,38}\w)?")
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f\ud800-\udfff]")


class Reading:
    """One document being read: its faults, each with where it stands, and what had to be assumed."""

    def __init__(self, document: Mapping[str, Any]) -> None:
        self.document = document
        self.faults: list[tuple[Loc, Fault]] = []
        self.assumed: list[Note] = []
        self.read: set[Loc] = set()
        self.taken_out: set[Loc] = set()
        """What the shape pass took out: it was written, but cannot be read."""
        self.ways: dict[tuple[str, str], Loc] = {}
        """(surface, ``opening "door-1"``) -> where it was written, for faults of geometry."""

    def fault(self, loc: Loc, code: str, found: str, allowed: str, close: str = "") -> None:
        """Keep a fault of the document."""
        self.faults.append((loc, Fault(code, place(self.document, loc), found, allowed or ok.NONE, close)))

    def sorted_faults(self) -> tuple[Fault, ...]:
        """All faults as the document stands, each once."""
        ranked = sorted(self.faults, key=lambda pair: order(self.document, pair[0]))
        return tuple(dict.fromkeys(fault for _, fault in ranked))


class Part:
    """A table of the document, and the way to it."""

    __slots__ = ("loc", "raw", "reading", "units")

    def __init__(self, reading: Reading, raw: Mapping[str, Any], loc: Loc = (), units: str | None = None) -> None:
        self.reading, self.raw, self.loc, self.units = reading, raw, loc, units

    # --- ways in -----------------------------------------------------------------------------

    def has(self, key: str) -> bool:
        """Whether the key is there (and of the right kind)."""
        self.reading.read.add((*self._kind(), key))
        return key in self.raw

    def said(self, key: str) -> bool:
        """Whether the key was written at all, right or wrong."""
        return self.has(key) or (*self.loc, key) in self.reading.taken_out

    def names(self) -> Iterator[str]:
        """The keys of a table whose keys are free."""
        self.reading.read.add((*self._kind(), "*"))
        yield from self.raw

    def part(self, key: str) -> Part | None:
        """The table under ``key``, if there is one."""
        inner = self._get(key)
        return Part(self.reading, inner, (*self.loc, key), self.units) if isinstance(inner, Mapping) else None

    def parts(self, key: str) -> list[Part]:
        """The tables of a list; one whose shape was wrong is left out, the others keep their number."""
        rows = self._get(key) or ()
        return [
            Part(self.reading, row, (*self.loc, key, n), self.units)
            for n, row in enumerate(rows)
            if isinstance(row, Mapping)
        ]

    def rows(self, key: str) -> list[tuple[int, Any]]:
        """The entries of a list of texts or tables with their index, without those whose shape was wrong."""
        return [(n, row) for n, row in enumerate(self._get(key) or ()) if row is not None]

    def _get(self, key: str) -> Any:
        return self.raw.get(key) if self.has(key) else None

    def _kind(self) -> Loc:
        return tuple(step for step in self.loc if not isinstance(step, int))

    def use_units(self, key: str) -> None:
        """From here on a bare length is in what the document says."""
        self.units = self.raw.get(key) if self.has(key) else None

    # --- faults ------------------------------------------------------------------------------

    def fault(self, key: str | None, code: str, found: object, allowed: str, close: str = "") -> None:
        """Keep a fault at ``key`` (None = the whole table)."""
        self.fault_at((key,) if key is not None else (), code, found, allowed, close)

    def fault_at(self, way: Loc, code: str, found: object, allowed: str, close: str = "") -> None:
        """Keep a fault some steps further in."""
        self.reading.fault((*self.loc, *way), code, shown(found), allowed, close)

    def unknown(self, key: str, code: str, found: str, allowed: Collection[str]) -> None:
        """Keep the fault of a name that stands for nothing, with the nearest that does."""
        self.fault(key, code, found, ", ".join(allowed), nearest(found, allowed))

    def assume(self, code: str, at: str, **values: object) -> None:
        """Keep what had to be assumed."""
        self.reading.assumed.append(Note(code, "assumed", at, tuple(values.items())))

    def attempt(self, way: Loc, do: Callable[[], _T], written: object = None, allowed: str = "") -> _T | None:
        """Do it; what cannot be read becomes a fault ``way`` further in, and None.

        ``written`` is what stands in the document, ``allowed`` what is better offered there than what do offers.
        """
        try:
            return do()
        except Unreadable as unreadable:
            fault = unreadable.fault
            inner = tuple(fault.place.split(", ")) if fault.place else ()
            found = fault.found if written is None or isinstance(written, str) else shown(written)
            self.reading.fault((*self.loc, *way, *inner), fault.code, found, allowed or fault.allowed, fault.nearest)
            return None

    # --- words -------------------------------------------------------------------------------

    def text(self, key: str, *, must: bool = False) -> str:
        """Text without the blanks around it; "" if there is none."""
        value = self._get(key)
        if not isinstance(value, str):
            return ""
        if len(value) > LONGEST_TEXT or _CONTROL.search(value):
            self.fault(key, "job.bad-text", _CONTROL.sub("?", value), ok.PLAIN_TEXT)
            return ""
        if must and not value.strip():
            self.fault(key, "job.empty", "", ok.FEW_WORDS)
        return value.strip()

    def id(self, key: str, seen: set[str]) -> str:
        """A short name that stands once; "" if it cannot be used."""
        name = self.text(key)
        if not self.has(key):
            return ""
        if not _ID.fullmatch(name) or name == "job":
            self.fault(key, "job.bad-id", name, ok.ID)
            return ""
        if name in seen:
            self.fault(key, "job.twice", name, ok.ONCE)
            return ""
        seen.add(name)
        return name

    def word(self, key: str) -> Any:
        """One of the words the shape pass has let through; None if it is not said."""
        return self._get(key)

    def words(self, key: str) -> tuple[str, ...]:
        """A list of words the shape pass has let through."""
        return tuple(row for _, row in self.rows(key) if isinstance(row, str))

    def flag(self, key: str) -> bool:
        """Yes or no; no if it is not said."""
        return bool(self._get(key))

    def written(self, key: str) -> str:
        """A measured text as it stands, for a reader elsewhere; a bare number is refused."""
        value = self._get(key)
        if value is None or isinstance(value, str):
            return self.text(key, must=True)
        self.fault(key, "measure.no-unit", value, "5/8 in, 10 %, 48 h")
        return ""

    # --- counts and days ---------------------------------------------------------------------

    def count(self, key: str, default: _T, *, least: int = 1, most: int = 10_000) -> int | _T:
        """A whole number from ``least`` to ``most``."""
        value = self._get(key)
        if value is None:
            return default
        if not least <= value <= most:
            self.fault(key, "job.out-of-span", value, f"{least} to {most}")
            return default
        return int(value)

    def year(self, key: str) -> int | None:
        """A year in which a building may have been built."""
        return self.count(key, None, least=1000, most=9999)

    def day(self, key: str) -> date | None:
        """A date; in a text it stands as 2026-09-30."""
        return self._day((key,), self._get(key))

    def days(self, key: str) -> tuple[date, ...]:
        """A list of dates."""
        found = [self._day((key, n), row) for n, row in self.rows(key)]
        return tuple(day for day in found if day is not None)

    def _day(self, way: Loc, value: object) -> date | None:
        if not isinstance(value, str):
            return value if isinstance(value, date) else None
        try:
            if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
                raise ValueError
            return date.fromisoformat(value)
        except ValueError:
            self.fault_at(way, "job.not-a-date", value, ok.DATE)
            return None

    # --- measures ----------------------------------------------------------------------------

    def _measured(
        self, key: str, read: Callable[..., _N], *, positive: bool, most: Fraction = LARGEST, units: str | None = None
    ) -> _N | None:
        value = self._get(key)
        if value is None:
            return None
        got = self.attempt((key,), lambda: read(value, units) if units else read(value), value)
        return self._within(key, value, got, positive=positive, most=most)

    def _within(self, key: str, value: object, got: _N | None, *, positive: bool, most: Fraction) -> _N | None:
        if got is None:
            return None
        if got < 0 or (positive and got == 0):
            self.fault(key, "measure.not-positive", value, ok.MORE_THAN_NOUGHT if positive else ok.NOT_LESS_THAN_NOUGHT)
            return None
        if got > most or 0 < got < SMALLEST:
            large = got > most
            self.fault(key, f"job.too-{'large' if large else 'small'}", value, ok.SMALLER if large else ok.LARGER)
            return None
        return got

    def length(self, key: str, *, positive: bool = False) -> Fraction | None:
        """A length [m], 0 or more."""
        return self._measured(key, measure.length, positive=positive, most=LONGEST_LENGTH, units=self.units)

    def lengths(self, key: str) -> list[Fraction | None]:
        """A list of lengths [m], each more than 0; None where one cannot be read."""
        found: list[Fraction | None] = []
        for n, row in enumerate(self._get(key) or ()):
            entry = Part(self.reading, {} if row is None else {str(n): row}, (*self.loc, key), self.units)
            found.append(entry.length_at(n, positive=True))
        return found

    def length_at(self, n: int, *, positive: bool) -> Fraction | None:
        """The ``n``-th of a list of lengths."""
        value = self.raw.get(str(n))
        if value is None:
            return None
        units = self.units
        got = self.attempt((n,), lambda: measure.length(value, units) if units else measure.length(value), value)
        if got is not None and (got < 0 or (positive and got == 0)):
            self.fault_at((n,), "measure.not-positive", value, ok.MORE_THAN_NOUGHT)
            return None
        if got is not None and got > LONGEST_LENGTH:
            self.fault_at((n,), "job.too-large", value, ok.SMALLER)
            return None
        return got

    def area(self, key: str) -> Fraction | None:
        """An area [m2], more than 0."""
        return self._measured(key, measure.area, positive=True)

    def volume(self, key: str) -> Fraction | None:
        """A volume [m3], more than 0."""
        return self._measured(key, measure.volume, positive=True)

    def mass(self, key: str) -> Fraction | None:
        """A mass [kg], more than 0."""
        return self._measured(key, measure.mass, positive=True)

    def time(self, key: str, *, nought: bool = False) -> Fraction | None:
        """A time [s], more than 0 unless nought will do."""
        return self._measured(key, measure.duration, positive=not nought)

    def money(self, key: str, *, positive: bool = False) -> Decimal | None:
        """Money [$]."""
        return self._measured(key, measure.money, positive=positive)

    def parts_of(self, key: str) -> Fraction | None:
        """Parts of a mix: 1, 3/4, 2.5; more than 0."""
        value = self._get(key)
        if value is None:
            return None
        if not isinstance(value, str):
            value = repr(value)
        if not re.fullmatch(r"-?[0-9]{1,6}(\.[0-9]{1,6}|/[0-9]{1,6}|[ -][0-9]{1,6}/[0-9]{1,6})?", value.strip()):
            self.fault(key, "job.not-parts", value, ok.NUMBER)
            return None
        head, _, tail = value.strip().replace("-", " ").strip().rpartition(" ")
        try:
            got = (fraction_of(head) if head else Fraction(0)) + fraction_of(tail)
        except ZeroDivisionError:
            self.fault(key, "job.not-parts", value, ok.NUMBER)
            return None
        return self._within(key, value, -got if value.strip()[0] == "-" else got, positive=True, most=Fraction(1000))

    def percent(self, key: str) -> Fraction | None:
        """A plain percentage: "10 %" is 1/10. Of what it is, the key says."""
        share = self._share(key)
        if share is None:
            return None
        if share[1]:
            self.fault(key, "job.percent-of", self.raw[key], ok.PLAIN_PERCENT)
            return None
        return share[0]

    def share(self, key: str, of: tuple[str, ...], *, below_one: bool = False) -> Share | None:
        """A percentage that says of what: "42 % of wage"."""
        share = self._share(key, below_one=below_one)
        if share is None:
            return None
        if share[1] not in of:
            allowed = ", ".join(f"% of {base}" for base in of)
            self.fault(key, "job.percent-of", self.raw[key], allowed, f"% of {of[0]}")
            return None
        return Share(share[0], share[1])  # type: ignore[arg-type]

    def _share(self, key: str, *, below_one: bool = False) -> tuple[Fraction, str] | None:
        value = self._get(key)
        if value is None:
            return None
        got = self.attempt((key,), lambda: measure.share(value), value)
        if got is None:
            return None
        if not 0 <= got[0] <= 10 or (below_one and got[0] >= 1):
            self.fault(key, "job.out-of-span", value, "0 % to 99 %" if below_one else "0 % to 1000 %")
            return None
        return got

    def amount(self, key: str) -> tuple[Fraction, Unit] | None:
        """So much of something: "20 bags", "3 cu yd" (SI of the unit)."""
        value = self._get(key)
        if value is None:
            return None
        got = self.attempt((key,), lambda: measure.counted(value), value)
        if got is None or self._within(key, value, got.amount, positive=True, most=LARGEST) is None:
            return None
        return got.amount, got.unit

    def package(self, key: str) -> Package | None:
        """How a thing is sold."""
        value = self._get(key)
        if value is None:
            return None
        got = self.attempt((key,), lambda: measure.package(value), value)
        if got is None or self._within(key, value, got.amount, positive=True, most=LARGEST) is None:
            return None
        return Package(str(value).strip(), got.amount, got.unit, got.word, got.sheet)

    def wage(self, key: str) -> Decimal | None:
        """Money an hour [$/h]."""
        value = self._get(key)
        rate = self._rate(key, "$34.00/h", ("$/h",), per=HOUR)
        if rate is None:
            return None
        cents = rate.low * UNITS["h"].scale * 100
        if cents.denominator != 1:
            self.fault(key, "measure.cents", value, "$34.00/h")
            return None
        return Decimal(cents.numerator).scaleb(-2)

    def rate(self, key: str, *, length: bool) -> tuple[Fraction, Unit] | None:
        """What is done in an hour: area (or length) over time, SI, and the unit it was written in."""
        rate = self._rate(key, "60 ft/h" if length else "75 sq ft/h", ("ft/h",) if length else ("sq ft/h",), per=HOUR)
        return None if rate is None else (rate.low, rate.unit)

    def _rate(
        self, key: str, allowed: str, like: tuple[str, ...], *, span: bool = False, per: re.Pattern[str] | None = None
    ) -> Rate | None:
        value = self._get(key)
        if value is None:
            return None
        got = self.attempt((key,), lambda: measure.rate(value), value, allowed)
        if got is None:
            return None
        if got.unit.dim not in {UNITS[name].dim for name in like} or (per and not per.search(str(value))):
            self.fault(key, "measure.unknown-unit", value, allowed)
            return None
        if got.low <= 0:
            self.fault(key, "measure.not-positive", value, allowed)
            return None
        if got.high > LARGEST or (got.low != got.high and not span):
            self.fault(key, "job.too-large" if got.high > LARGEST else "job.one-value", value, allowed)
            return None
        return got

    def span(self, key: str, allowed: str, like: str, *, per: re.Pattern[str] | None = None) -> Span | None:
        """From so much to so much, of the kind of ``like``; one value alone is a span of nothing and refused."""
        value = self._get(key)
        got = self._rate(key, allowed, (like,), span=True, per=per)
        if got is None:
            return None
        if got.low == got.high:
            self.fault(key, "job.no-span", value, allowed)
            return None
        return Span(got.low, got.high, got.unit)
