"""A question asked of a job, or of none: the entry that fits, filled from the job's own rule book and its own numbers.

Every number of a wall is one that a stage answered; nothing is worked out here but a date counted from a date. The sum
of bags is the room's own, for the area that was typed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from fnmatch import fnmatchcase
from typing import Any

from quicktions import Fraction

from darby.answers.quick import quick
from darby.answers.stage import Answers
from darby.days.model import CoatDays, Visits
from darby.measure.units import System, unit
from darby.mix import CoatMix, Mixes
from darby.quantities import Order, OrderLine
from darby.rulebook import Book, default
from darby.words import Language, Verbatim, written
from darby.words import say as sentence
from darby.words.asking import Entry, Filled, Found, Question, Typed, entry, fill, find, typed_in
from darby.words.asking.filling import tidy
from darby.working import Note, Quantity

COATS = ("dash-bond", "scratch", "brown", "base", "skim", "finish")
MORTAR = tuple(
    f"quantities.item.{item}" for item in ("portland", "masonry-cement", "plastic-cement", "lime", "bagged", "sand")
)
DAY = unit("day")
Values = tuple[tuple[str, object], ...]


@dataclass(frozen=True, slots=True)
class Here:
    """What a job says of one place ("bay-south/rest", "job"), as a sentence."""

    at: str
    says: str


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked and what is said to it.

    ``filled`` None: nothing was found, ``found.nearest`` holds what came close. ``here``: the job's own numbers, place
    by place; ``lacking``: the job has none yet. ``notes``: what the job says on it anyway. ``reckoned``: a sum.
    ``on_day``: how old the plaster is on the day that was named.
    """

    typed: str
    language: Language
    found: Found
    filled: Filled | None
    here: tuple[Here, ...] = ()
    lacking: bool = False
    notes: tuple[Note, ...] = ()
    reckoned: str = ""
    on_day: tuple[Here, ...] = ()


def ask(
    typed: str,
    *,
    answers: Answers | None = None,
    book: Book | None = None,
    language: Language | None = None,
    prefer: Language = "en",
    system: System = "us",
    at: str = "",
) -> Asked:
    """The answer to what a person typed.

    Parameters
    ----------
    answers
        the open job's; its rule book (the firm's voices, its local rules) then rules, and its walls are put in.
    book
        the rule book where no job is open; None = the one that ships with darby.
    language
        what to answer in; None = the language in which the question was understood, ``prefer`` where both fit alike.
    at
        a surface's id: only its numbers; "" = all of them.

    Raises
    ------
    KeyError
        if the job has no such surface.
    """
    if answers is not None and at:
        answers.job.surface(at)
    found = find(typed, prefer=prefer)
    spoken = language or found.language
    if not found.hits:
        return Asked(typed, spoken, found, None)
    return _told(found.hits[0].entry, found, typed_in(typed), answers, book, spoken, system, at)


def say(
    name: str,
    *,
    answers: Answers | None = None,
    book: Book | None = None,
    language: Language = "en",
    system: System = "us",
    at: str = "",
) -> Asked:
    """The entry called ``name``, as ``ask`` would tell it.

    Raises
    ------
    KeyError
        if there is no such entry or surface.
    """
    if answers is not None and at:
        answers.job.surface(at)
    return _told(entry(name), Found(name, language, ()), Typed(), answers, book, language, system, at)


def _told(
    what: Entry,
    found: Found,
    typed: Typed,
    answers: Answers | None,
    book: Book | None,
    language: Language,
    system: System,
    at: str,
) -> Asked:
    rules = answers.book if answers is not None else book or default()
    filled = fill(what, rules, language, system)
    rows = _here(what, answers, at) if answers is not None else None
    template = what.said[language].here if isinstance(what, Question) else ""
    return Asked(
        typed=found.typed,
        language=language,
        found=found,
        filled=filled,
        here=tuple(Here(place, _put(template, values, language, system)) for place, values in rows or ()),
        lacking=rows is not None and not rows,
        notes=tuple(_notes(what, answers, at)) if answers is not None else (),
        reckoned=_reckoned(what, typed, rules, language, system),
        on_day=tuple(_on_day(what, answers, typed, at, language)) if answers is not None else (),
    )


def _put(template: str, values: Values, language: Language, system: System) -> str:
    return tidy(template.format_map({name: written(value, language, system) for name, value in values}))


def _under(place: str, at: str) -> bool:
    return not at or place in (at, "job") or place.startswith(f"{at}/")


def _notes(what: Entry, answers: Answers, at: str) -> Iterator[Note]:
    """The job's own notes that belong to the entry, each once."""
    seen: set[tuple[str, str, object]] = set()
    for note in answers.notes:
        if _under(note.at, at) and any(fnmatchcase(note.code, code) for code in what.notes):
            key = (note.code, note.at, note.values)
            if key not in seen:
                seen.add(key)
                yield note


# --- the numbers of a wall -----------------------------------------------------------------------------

Rows = Iterable[tuple[str, Values]]


def _here(what: Entry, answers: Answers, at: str) -> list[tuple[str, Values]] | None:
    """The rows of the entry's path in this job; None if it has no path, [] if the job does not answer it."""
    if not isinstance(what, Question) or not what.wall:
        return None
    return [(place, values) for place, values in PATHS[what.wall](answers) if _under(place, at)]


def _thickness(answers: Answers) -> Rows:
    for place, option in _options(answers):
        yield place, (("total", option.nominal), ("coats", tuple(c.nominal for c in option.coats)))


def _coats(answers: Answers) -> Rows:
    for place, option in _options(answers):
        yield place, (("option", f"buildup.option.{option.id}"), ("coats", tuple(c.nominal for c in option.coats)))


def _options(answers: Answers) -> Iterator[tuple[str, Any]]:
    for surface, coats in answers.good("coats").items():
        for zone, built in coats.zones:
            yield f"{surface}/{zone}", built.chosen


def _coat_days(answers: Answers) -> Iterator[CoatDays]:
    """The coats of the plan, in the order of their days."""
    days: Visits | None = answers.answered("days")
    if days is not None:
        yield from sorted((coat for coat in days.coats if coat.coat in COATS), key=lambda coat: coat.first)


def _damp(answers: Answers) -> Rows:
    for coat in _coat_days(answers):
        if coat.damp_until is not None:
            yield coat.at, (("coat", _name(coat)), ("first", coat.first), ("damp", coat.damp_until))


def _waits(answers: Answers) -> Rows:
    for coat in _coat_days(answers):
        if coat.next_from is not None:
            yield coat.at, (("coat", _name(coat)), ("first", coat.first), ("next", coat.next_from))


def _name(coat: CoatDays) -> str:
    return f"buildup.coat.{coat.coat}"


def _paint(answers: Answers) -> Rows:
    """The day each wall's last coat is done, and that day plus the days of the labels."""
    label = answers.book.number("cure.paint-days")
    done: dict[str, date] = {}
    for coat in _coat_days(answers):
        done[coat.at] = max(coat.last, done.get(coat.at, coat.last))
    for place, last in sorted(done.items(), key=lambda one: one[1]):
        after = last + timedelta(seconds=label.number)
        yield place, (("finish", last), ("days", label), ("label", after))


def _on_day(what: Entry, answers: Answers, typed: Typed, at: str, language: Language) -> Iterator[Here]:
    """Where painting is asked about and a day was named: how old each wall's last coat is on that day."""
    named = typed.day_from(answers.job.as_of)
    if named is None or not isinstance(what, Question) or what.wall != "paint":
        return
    for place, values in _paint(answers):
        last = dict(values)["finish"]
        if _under(place, at) and isinstance(last, date):
            old = Quantity((named - last).total_seconds(), DAY)
            if old.value < 0:
                yield Here(place, sentence("ask.day.before", {"day": named}, language))
            else:
                yield Here(place, sentence("ask.day.old", {"day": named, "old": old}, language))


def _order(answers: Answers) -> Rows:
    order: Order | None = answers.answered("order")
    for line in order.lines if order is not None else ():
        if line.says in MORTAR:
            item = Verbatim(line.name) if line.name else line.says
            yield "job", (("item", item), ("needed", line.needed), ("packages", _packages(line)))


def _packages(line: OrderLine) -> object:
    """ "14 bags, 94 lb bag"; loose goods "3 cu yd"; "-" where nobody said how it is bought."""
    if line.packages is None:
        return "-"
    if not line.packages.unit.name:
        return Verbatim(f"{written(line.packages)} {line.written}".strip())
    return (line.packages, Verbatim(line.written)) if line.written else line.packages


def _mixes(answers: Answers) -> Rows:
    mixes: Mixes | None = answers.answered("mixes")
    for mix in mixes.coats if mixes is not None else ():
        if mix.batches is not None and mix.batch is not None:
            yield "job", (("mix", f"buildup.coat.{mix.coat}"), ("parts", _parts(mix)), ("batch", _batch(mix)),
                          ("makes", mix.batch.mortar))  # fmt: skip


def _batch(mix: CoatMix) -> tuple[object, ...]:
    assert mix.batch is not None
    return (mix.batch.bags, *((mix.batch.sand.count,) if mix.batch.sand is not None else ()))


def _parts(mix: CoatMix) -> object:
    """ "1 : 3/4 : 5" in the order cement, lime, sand; a bagged material by its name."""
    if mix.bagged is not None:
        return Verbatim(mix.bagged.name)
    if mix.parts is None:
        return "-"
    return Verbatim(" : ".join(_part(mix.parts.of(m)) for m in mix.parts.used))


def _part(value: float | int | Fraction) -> str:
    whole, rest = divmod(Fraction(value).limit_denominator(16), 1)
    if not rest:
        return str(whole)
    return f"{whole}-{rest}" if whole else str(rest)


def _days(answers: Answers) -> Rows:
    days: Visits | None = answers.answered("days")
    if days is not None and days.trips:
        yield "job", (("trips", days.count), ("first", days.first), ("last", days.last), ("span", days.span),
                      ("forced", days.forced))  # fmt: skip


def _price(answers: Answers) -> Rows:
    price = answers.answered("price")
    if price is not None and price.complete and price.per_area is not None:
        yield "job", (("total", price.total), ("per_area", price.per_area), ("area", price.area))


PATHS: Mapping[str, Callable[[Answers], Rows]] = {
    "thickness": _thickness,
    "coats": _coats,
    "damp": _damp,
    "waits": _waits,
    "paint": _paint,
    "order": _order,
    "mixes": _mixes,
    "days": _days,
    "price": _price,
}
"""What an entry may put in of a job, by the name it asks for."""


# --- sums ----------------------------------------------------------------------------------------------


def _reckoned(what: Entry, typed: Typed, book: Book, language: Language, system: System) -> str:
    if not isinstance(what, Question) or not what.sum:
        return ""
    if typed.unread:
        return sentence("ask.sum.unread", {"found": Verbatim(typed.unread)}, language)
    return _put(what.said[language].reckoned, SUMS[what.sum](typed, book), language, system)


def _bags(typed: Typed, book: Book) -> Values:
    """Bags of the area that was typed, else of the book's patch of wall, at the book's thickness on block."""
    patch = Fraction(book.number("price.hundred").number).limit_denominator(10**9)
    thick = book.number("thickness.block.two-coat")
    depth = thick.number if thick.value is not None else thick.low or 0
    found = quick(typed.area or patch, Fraction(depth).limit_denominator(10**9), lathed=False, book=book).sum
    return (
        ("area", found.area),
        ("thick", Quantity(depth, thick.unit)),
        ("mortar", found.net),
        ("bags", found.bags or "-"),
        ("whole", found.whole_bags or "-"),
        ("sand", found.sand or "-"),
    )


SUMS: Mapping[str, Callable[[Typed, Book], Values]] = {"bags": _bags}
"""Sums that an entry may work for what was typed."""
