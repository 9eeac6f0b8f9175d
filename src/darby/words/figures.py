"""What a figure of the rule book says, in the reader's language. English is the rule book itself."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib import resources

from darby.measure.units import System
from darby.rulebook.model import Figure, Source
from darby.words.catalogue import FIGURES, Language, catalogue, written


@cache
def figure_texts(language: Language) -> Mapping[str, Mapping[str, str]]:
    """The tables of a language's ``figures.toml``: ``says`` and ``value`` by figure, ``where`` by the English place,
    ``kind`` and ``place`` by the words of ``Figure.applies``, ``source`` by what the book says of a source and
    ``remark`` by what it says beside a title."""
    text = resources.files("darby.words").joinpath(language, FIGURES).read_text(encoding="utf-8")
    tables: dict[str, dict[str, str]] = tomllib.loads(text)
    return tables


def figure_says(figure: Figure, language: Language = "en") -> str:
    """What ``figure`` says; a local rule speaks in its own words in both languages.

    Raises
    ------
    KeyError
        if a published figure has no text in ``language``.
    """
    return figure.says if language == "en" or figure.why else figure_texts(language)["says"][figure.id]


def figure_where(figure: Figure, language: Language = "en") -> str:
    """The place in the publication. A bare citation ("Table 3") is found by its own words, and keeps them."""
    if figure.why:
        return catalogue(language).get(f"common.rule-in.{figure.where}", figure.where)
    return figure.where if language == "en" else figure_texts(language)["where"].get(figure.where, figure.where)


def figure_applies(figure: Figure, language: Language = "en") -> str:
    """Where ``figure`` speaks: "base: block, brick; coat: brown". "" = everywhere."""
    texts: Mapping[str, Mapping[str, str]] = {} if language == "en" else figure_texts(language)
    kinds, places = texts.get("kind", {}), texts.get("place", {})
    return "; ".join(
        f"{kinds.get(kind, kind)}: {', '.join(places.get(place, place) for place in sorted(allowed))}"
        for kind, allowed in figure.applies.items()
    )


def figure_value(figure: Figure, language: Language = "en", system: System = "us") -> str:
    """The figure as it is printed: a rule in words, a measure with its unit, a plain number (1978) as the book has it.

    Raises
    ------
    KeyError
        if a published rule in words has none in ``language``.
    """
    if figure.kind == "rule":
        own = language == "en" or figure.why
        return figure.written if own else figure_texts(language)["value"].get(figure.id, figure.written)
    if figure.kind == "number" and not figure.unit.name:
        return figure.written
    return written(figure, language, system)


def source_words(source: Source, language: Language = "en") -> tuple[str, str, str]:
    """Title, publisher and year. What was published stays as it is; "common practice" and "undated" are our words."""
    parts = (source.title, source.publisher, source.year)
    title, publisher, year = parts if language == "en" else (_of_source(part, language) for part in parts)
    return title, publisher, year


@cache
def _of_source(part: str, language: Language) -> str:
    texts = figure_texts(language)
    if part in texts["source"]:
        return texts["source"][part]
    for english, said in texts["remark"].items():  # the longest first, as the file has them
        part = part.replace(english, said)
    return part
