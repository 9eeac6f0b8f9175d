"""Every sentence a person reads, in English and Spanish; values are put in with their units."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from datetime import date
from functools import cache
from importlib import resources
from numbers import Rational
from typing import Literal

from quicktions import Fraction

from darby.measure.units import System
from darby.measure.writing import between, mixed, shown
from darby.rulebook.model import Figure
from darby.working.model import Amount, Quantity

Language = Literal["en", "es"]
LANGUAGES: tuple[Language, ...] = ("en", "es")
FIGURES = "figures.toml"
"""What the rule book says, in a language other than its own: tables by figure, not sentences by code."""


_TWICE = re.compile(r"(?<!\.)\.\.(?!\.)")


class Verbatim(str):
    """Text as a person wrote it: shown as it is, never looked up as a word."""

    __slots__ = ()


@cache
def catalogue(language: Language) -> Mapping[str, str]:
    """Code to sentence, all files of a language together.

    Raises
    ------
    ValueError
        if a code stands in two files.
    """
    sentences: dict[str, str] = {}
    for path in sorted(resources.files("darby.words").joinpath(language).iterdir(), key=lambda p: p.name):
        if path.name == FIGURES:
            continue
        for code, sentence in tomllib.loads(path.read_text(encoding="utf-8")).items():
            if code in sentences:
                raise ValueError(f"{language}: {code!r} stands twice, the second time in {path.name}")
            sentences[code] = sentence
    return sentences


def say(
    code: str,
    values: Mapping[str, object] | Iterable[tuple[str, object]] = (),
    language: Language = "en",
    system: System = "us",
) -> str:
    """The sentence of ``code`` with its values written in ``language`` and ``system``.

    A unit that ends in a point needs no second one at the end of a sentence.

    Raises
    ------
    KeyError
        if the catalogue lacks the code, or the sentence asks for a value that was not given.
    """
    shown = {name: written(value, language, system) for name, value in dict(values).items()}
    text = catalogue(language)[code].format_map(shown)
    return _TWICE.sub(".", text) if ".." in text else text


@cache
def unit_names(language: Language) -> Mapping[str, str]:
    """English printed word to this language's, for ``measure.writing`` and ``working.line``; {} for English."""
    if language == "en":
        return {}
    words = catalogue(language)
    return {code.removeprefix("unit."): word for code, word in words.items() if code.startswith("unit.")}


def measured(text: str, language: Language = "en") -> str:
    """``text`` with the units behind its numbers in ``language``: "1 ft 4 in." is "1 pie 4 pulg."."""
    names = unit_names(language)
    if not names:
        return text

    def named(found: re.Match[str]) -> str:
        number, word = found.groups()
        return f"{number} {(names.get(f'1 {word}') if number == '1' else None) or names[word]}"

    return _behind_numbers(language).sub(named, text)


@cache
def _behind_numbers(language: Language) -> re.Pattern[str]:
    words = sorted((name for name in unit_names(language) if name[0].isalpha()), key=len, reverse=True)
    return re.compile(rf"(?<![\d.,/])([\d.,/]*\d) ({'|'.join(map(re.escape, words))})(?![\w/])")


def written(value: object, language: Language = "en", system: System = "us") -> str:
    """One value as people read it: a quantity with its unit, money, a figure of the book, a word, a list of those."""
    names = unit_names(language)
    if isinstance(value, (Quantity, Amount)):
        return shown(value.value, value.unit, system, names=names)
    if isinstance(value, Figure):
        if value.low is not None and value.high is not None:
            return between(value.low, value.high, value.unit, system, names=names)
        return shown(value.value, value.unit, system, names=names) if value.value is not None else value.written
    if isinstance(value, date):
        return day(value, language)
    if isinstance(value, Verbatim):
        return str(value)
    if isinstance(value, str):
        return catalogue(language).get(f"word.{value}", value)
    if isinstance(value, (tuple, list)):
        return ", ".join(written(v, language, system) for v in value)
    if isinstance(value, Rational) and not isinstance(value, int):
        return mixed(Fraction(value))
    return mixed(value) if isinstance(value, float) else str(value)


def day(when: date, language: Language = "en", *, weekday: bool = True) -> str:
    """A date in words: "Tuesday, October 6", "martes, 6 de octubre"."""
    words = catalogue(language)
    code = "date.long" if weekday else "date.short"
    return words[code].format(
        weekday=words[f"date.weekday.{when.weekday()}"],
        month=words[f"date.month.{when.month}"],
        day=when.day,
        year=when.year,
    )
