"""Reads ``rulebook/*.toml`` into a Book. Every entry must have unit, source, where and standing."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from importlib import resources
from typing import Any

from darby.measure.units import UNITS, Unit
from darby.rulebook.book import Book
from darby.rulebook.model import STANDINGS, BookError, Figure, Source


def figure_of(row: Mapping[str, Any], sources: Mapping[str, Source]) -> Figure:
    """One [[figure]] row as a Figure.

    A value is text: ``"1/2 in"``, ``"3/8 to 1/2 in"``, ``"7 day"``; or words with ``kind = "rule"``.

    Raises
    ------
    BookError
        naming the figure and what it lacks.
    """
    try:
        if row["standing"] not in STANDINGS:
            raise BookError(f"{row['id']}: standing {row['standing']!r} is not one of {STANDINGS}")
        if row["source"] not in sources:
            raise BookError(f"{row['id']}: no source {row['source']!r}")
        kind, low, value, high, unit = _value(row)
        return Figure(
            id=row["id"],
            subject=row["subject"],
            kind=kind,  # type: ignore[arg-type]
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
            applies={k: frozenset(v) for k, v in row.get("applies", {}).items()},
            voice=row.get("voice", ""),
            why=row.get("why", ""),
        )
    except KeyError as missing:
        raise BookError(f"{row.get('id', 'a figure without id')}: lacks {missing}") from None


def _value(row: Mapping[str, Any]) -> tuple[str, float | None, float | None, float | None, Unit]:
    if row.get("kind") == "rule":
        return "rule", None, None, None, UNITS[""]
    text = row["value"]
    number, _, name = text.partition(" ") if " to " not in text else _split_range(text)
    unit = UNITS.get(name)
    if unit is None:
        raise BookError(f"{row['id']}: unit {name!r} of {text!r} is not known")
    if " to " in number:
        low, high = (float(unit.to_si(_exact(part))) for part in number.split(" to "))
        return "range", low, None, high, unit
    return "number", None, float(unit.to_si(_exact(number))), None, unit


def _split_range(text: str) -> tuple[str, str, str]:
    low, _, rest = text.partition(" to ")
    high, _, name = rest.partition(" ")
    return f"{low} to {high}", " ", name


def _exact(text: str) -> Fraction:
    """``"1-1/2"``, ``"7/8"``, ``"0.668"``, ``"144"`` as an exact number."""
    whole_part, _, rest = text.rpartition("-")
    return (Fraction(whole_part) if whole_part else Fraction(0)) + Fraction(rest)


@cache
def default() -> Book:
    """The rule book that ships with darby.

    Raises
    ------
    BookError
        listing nothing else than the first entry that is not whole; a test walks them all.
    """
    folder = resources.files("darby.rulebook")
    documents = [
        tomllib.loads(path.read_text(encoding="utf-8"))
        for path in sorted(folder.iterdir(), key=lambda p: p.name)
        if path.name.endswith(".toml")
    ]
    sources: dict[str, Source] = {}
    for document in documents:
        for name, row in document.get("sources", {}).items():
            if name in sources:
                raise BookError(f"source {name!r} stands twice")
            sources[name] = Source(name, row["title"], row["publisher"], row["year"], row["address"])
    figures: dict[str, Figure] = {}
    for document in documents:
        for row in document.get("figure", ()):
            figure = figure_of(row, sources)
            if figure.id in figures:
                raise BookError(f"{figure.id} stands twice")
            figures[figure.id] = figure
    return Book(figures.values(), sources)
