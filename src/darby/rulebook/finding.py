"""Looking things up: figures by words, and all that is said on one subject. Data only; sentences are made elsewhere."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from itertools import islice, product

from darby.rulebook.book import Book
from darby.rulebook.model import BookError, Figure, Ruled, Source


@dataclass(frozen=True, slots=True)
class Entry:
    """One voice on a subject: the figure, where it stands, the code of its standing's phrase.

    ``rules`` says whether it rules anywhere, ``why`` by what (a ``Ruled.why``; "" where it does not rule);
    ``displaces`` is the figure of the book that a local rule or the firm's voice puts aside.
    """

    figure: Figure
    source: Source
    standing: str
    rules: bool
    why: str = ""
    displaces: Figure | None = None


@dataclass(frozen=True, slots=True)
class Shown:
    """A subject with every voice on it, the one that was asked for first, then those that rule."""

    subject: str
    entries: tuple[Entry, ...]


def standing_code(figure: Figure) -> str:
    """The code of the phrase that prints a figure's standing ("standing.memory")."""
    return f"standing.{figure.standing}"


def search(book: Book, words: str | Iterable[str], read: Callable[[Figure], str] = lambda _: "") -> tuple[Figure, ...]:
    """The figures that hold every one of ``words`` somewhere: those that hold them in their subject first.

    Capitals do not matter, and a word may be the beginning or a part of one ("cur" finds curing). ``read`` says what
    else a person reads of a figure: its text in another language.
    """
    wanted = [w.casefold() for w in (words.split() if isinstance(words, str) else words) if w.strip()]
    ranked: list[tuple[int, int, Figure]] = []
    for at, figure in enumerate((*book.local, *book)):
        name = f"{figure.subject} {figure.id}".casefold()
        if all(w in name for w in wanted):
            ranked.append((0, at, figure))
            continue
        said = f"{_said(book, figure, name)} {read(figure).casefold()}"
        if all(w in said for w in wanted):
            ranked.append((1, at, figure))
    return tuple(figure for _, _, figure in sorted(ranked, key=lambda row: row[:2]))


def _said(book: Book, figure: Figure, name: str) -> str:
    source = book.source_of(figure)
    places = " ".join(place for allowed in figure.applies.values() for place in sorted(allowed))
    rest = (figure.written, figure.says, figure.where, figure.edition, figure.standing, figure.voice, figure.why)
    return " ".join((name, *rest, source.title, source.publisher, places)).casefold()


def show(book: Book, name: str) -> Shown:
    """All that is said on a subject; ``name`` is the subject or the id of one of its figures.

    Raises
    ------
    KeyError
        if the book has neither; the message names the closest.
    """
    try:
        asked: Figure | None = book[name]
    except KeyError:
        asked = None
    subject = asked.subject if asked is not None else name
    figures = book.on(subject)
    if not figures:
        names = [*book.subjects(), *(f.id for f in book)]
        near = get_close_matches(name, names, 3, 0.3)
        raise KeyError(f"nothing on {name!r}; the closest is {', '.join(near) or 'far off'}")
    entries = [_entry(book, figure, figures) for figure in figures]
    entries.sort(key=lambda entry: (entry.figure is not asked, not entry.rules))
    return Shown(subject, tuple(entries))


def _entry(book: Book, figure: Figure, figures: tuple[Figure, ...]) -> Entry:
    ruled = next((r for r in _rulings(book, figure, figures) if r.figure is figure), None)
    source, code = book.source_of(figure), standing_code(figure)
    if ruled is None:
        return Entry(figure, source, code, rules=False)
    return Entry(figure, source, code, rules=True, why=ruled.why, displaces=ruled.displaced)


_MOST_PLACES = 500
"""Kinds of place tried for one figure; four kinds with five words each do not reach it."""


def _rulings(book: Book, figure: Figure, figures: tuple[Figure, ...]) -> Iterator[Ruled]:
    """The rulings at every kind of place where ``figure`` speaks."""
    kinds: dict[str, set[str]] = {}
    for other in figures:
        for kind, allowed in other.applies.items():
            kinds.setdefault(kind, set()).update(allowed)
    choices = [sorted(figure.applies.get(kind, allowed)) for kind, allowed in kinds.items()]
    for place in islice(product(*choices), _MOST_PLACES):
        try:
            yield book.rule(figure.subject, **dict(zip(kinds, place, strict=True)))
        except (KeyError, BookError):
            continue
