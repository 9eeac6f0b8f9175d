"""Reads ``rulebook/*.toml`` into a Book. Every entry must have unit, source, where and standing."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from importlib import resources
from typing import Any

from quicktions import Fraction

from darby.measure.exact import fraction_of
from darby.measure.units import UNITS, Unit
from darby.rulebook.book import Book
from darby.rulebook.model import NOTHING, STANDINGS, BookError, Figure, Kind, Source

_MUST = ("id", "subject", "value", "says", "source", "where", "standing")
_MAY = ("kind", "applies", "voice", "edition", "why")
_KNOWN = frozenset((*_MUST, *_MAY))
_SOURCE = ("title", "publisher", "year", "address")


def figure_of(row: Mapping[str, Any], sources: Mapping[str, Source]) -> Figure:
    """One [[figure]] row as a Figure.

    A value is text: ``"1/2 in"``, ``"3/8 to 1/2 in"``, ``"7 day"``; or words with ``kind = "rule"``.

    Raises
    ------
    BookError
        naming the figure and what it lacks.
    """
    name = row.get("id") or "a figure without id"
    for key in _MUST:
        if not isinstance(row.get(key), str) or not row[key].strip():
            raise BookError(f"{name}: lacks {key!r}")
    if strange := row.keys() - _KNOWN:
        raise BookError(f"{name}: {', '.join(sorted(strange))} is no part of a figure")
    if row["standing"] not in STANDINGS:
        raise BookError(f"{name}: standing {row['standing']!r} is not one of {', '.join(STANDINGS)}")
    if row["source"] not in sources:
        raise BookError(f"{name}: no source {row['source']!r}")
    kind, low, value, high, unit = _value(name, row)
    return Figure(
        id=row["id"],
        subject=row["subject"],
        kind=kind,
        low=low,
        value=value,
        high=high,
        unit=unit,
        written=row["value"],
        says=row["says"],
        source=row["source"],
        where=row["where"],
        edition=row.get("edition", ""),
        standing=row["standing"],
        applies=_applies(name, row["applies"]) if "applies" in row else NOTHING,
        voice=row.get("voice", ""),
        why=row.get("why", ""),
    )


def _applies(name: str, row: Mapping[str, Iterable[str]]) -> Mapping[str, frozenset[str]]:
    applies = {kind: frozenset(allowed) for kind, allowed in row.items()}
    if not all(applies.values()):
        raise BookError(f"{name}: applies to no {', '.join(kind for kind, allowed in applies.items() if not allowed)}")
    return applies


_Value = tuple[Kind, float | None, float | None, float | None, Unit]


def _value(name: str, row: Mapping[str, Any]) -> _Value:
    if "kind" in row:
        if row["kind"] != "rule":
            raise BookError(f"{name}: kind {row['kind']!r}; only a rule in words says its kind")
        return "rule", None, None, None, UNITS[""]
    low, to, rest = row["value"].partition(" to ")
    number, _, word = (rest if to else row["value"]).partition(" ")
    unit = UNITS.get(word)
    if unit is None:
        raise BookError(f"{name}: unit {word!r} of {row['value']!r} is not known")
    try:
        ends = [unit.to_si(_exact(text)) for text in ((low, number) if to else (number,))]
    except (ValueError, ZeroDivisionError):
        raise BookError(f"{name}: {row['value']!r} is no number with its unit") from None
    if not to:
        return "number", None, float(ends[0]), None, unit
    if ends[0] >= ends[1]:
        raise BookError(f"{name}: {row['value']!r} ends before it begins")
    return "range", float(ends[0]), None, float(ends[1]), unit


def _exact(text: str) -> Fraction:
    """``"1-1/2"``, ``"7/8"``, ``"0.668"``, ``"144"``, ``"-10"`` as an exact number."""
    sign, text = (-1, text[1:]) if text.startswith("-") else (1, text)
    wholes, _, rest = text.rpartition("-")
    return sign * ((fraction_of(wholes) if wholes else Fraction(0)) + fraction_of(rest))


def book_of(documents: Iterable[Mapping[str, Any]]) -> Book:
    """A book from its parsed documents, each with [sources.*] and [[figure]] entries.

    Raises
    ------
    BookError
        naming the first entry that is not whole or stands twice.
    """
    documents = tuple(documents)
    sources: dict[str, Source] = {}
    for document in documents:
        for name, row in document.get("sources", {}).items():
            if name in sources:
                raise BookError(f"source {name!r} stands twice")
            sources[name] = _source(name, row)
    figures: dict[str, Figure] = {}
    for document in documents:
        for row in document.get("figure", ()):
            figure = figure_of(row, sources)
            if figure.id in figures:
                raise BookError(f"{figure.id} stands twice")
            if figure.why:
                raise BookError(f"{figure.id}: only a local rule says why")
            figures[figure.id] = figure
    return Book(figures.values(), sources)


def _source(name: str, row: Mapping[str, Any]) -> Source:
    if set(row) != set(_SOURCE) or not all(isinstance(row[key], str) for key in _SOURCE):
        raise BookError(f"source {name!r} has {', '.join(sorted(row))}; it needs {', '.join(_SOURCE)}")
    if not (row["title"].strip() and row["publisher"].strip() and row["year"].strip()):
        raise BookError(f"source {name!r}: title, publisher and year are said, if only to say that nobody knows")
    return Source(name, row["title"], row["publisher"], row["year"], row["address"])


@cache
def default() -> Book:
    """The rule book that ships with darby.

    Raises
    ------
    BookError
        naming the first entry that is not whole.
    """
    folder = resources.files("darby.rulebook")
    paths = sorted((p for p in folder.iterdir() if p.name.endswith(".toml")), key=lambda p: p.name)
    return book_of(tomllib.loads(path.read_text(encoding="utf-8")) for path in paths)
