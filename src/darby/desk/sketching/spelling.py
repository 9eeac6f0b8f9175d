"""The words of a line in both languages, and lengths as a person types them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from quicktions import Fraction

from darby.measure import length
from darby.measure.faults import Fault, Unreadable
from darby.measure.surface import Surface
from darby.measure.units import IN, System
from darby.measure.writing import write
from darby.words import LANGUAGES, Language, catalogue, surface_called

START = "desk.line."
FINEST = 64


@cache
def spellings(kind: str, only: Language | None = None) -> Mapping[str, str]:
    """Every spelling of a kind of word ("shape", "key", "opening"), longest first, to what the job file calls it."""
    found: dict[str, str] = {}
    for language in (only,) if only is not None else LANGUAGES:
        for code, text in catalogue(language).items():
            if code.startswith(f"{START}{kind}."):
                means = code.removeprefix(f"{START}{kind}.")
                found |= {spelled.strip().casefold(): means for spelled in text.split("|")}
    return dict(sorted(found.items(), key=lambda pair: -len(pair[0])))


@cache
def choices(words: tuple[str, ...]) -> Mapping[str, str]:
    """Spellings of the words that the job file allows: its own, and what they are called in each language."""
    found = {word.casefold(): word for word in words}
    for language in LANGUAGES:
        names = catalogue(language)
        for start in ("desk.choice.", "word."):
            found |= {names[f"{start}{word}"].casefold(): word for word in words if f"{start}{word}" in names}
    return found


def begins(text: str, words: Mapping[str, str]) -> tuple[str, str]:
    """(what the first word of ``text`` means, the rest); ("", text) where it is none of ``words``."""
    low = text.casefold()
    for spelled, means in words.items():
        if low.startswith(spelled) and not low[len(spelled) : len(spelled) + 1].isalpha():
            return means, text[len(spelled) :].strip()
    return "", text


def typed_length(text: str, units: str | None, place: str) -> Fraction:
    """What a person typed as a length [m], 0 or more.

    Raises
    ------
    Unreadable
        with the Fault at ``place``.
    """
    try:
        value = length(text, units)
    except Unreadable as error:
        raise Unreadable(error.fault.at(place)) from None
    if value < 0:
        raise Unreadable(Fault("measure.not-positive", place, text, '0", 1\'-8"'))
    return value


def exactly(value: Fraction, system: System) -> str:
    """A length [m] in the reader's measures that reads back as the same: a fraction, where nothing shorter does."""
    styles = [write(value, "mm"), write(value, "m")] if system == "metric" else []
    for text in (*styles, write(value, "ft-in", FINEST), write(value, "mm")):
        if length(text) == value:
            return text
    inches = value / IN
    whole, part = divmod(abs(inches.numerator), inches.denominator)
    sign = "-" if value < 0 else ""
    return f"{sign}{f'{whole} ' if whole else ''}{part}/{inches.denominator} in"


def shown(value: Fraction, system: System) -> str:
    """A length [m] as it stands in a field: to the 64th of an inch, or the millimetre."""
    return write(value, "mm") if system == "metric" else write(value, "ft-in", FINEST)


def free_name(stem: str, taken: Iterable[str]) -> str:
    """``stem``, or with a number, that neither is taken nor begins the name of a surface."""
    ascii = unicodedata.normalize("NFKD", stem.casefold()).encode("ascii", "ignore").decode()
    plain = re.sub(r"[^a-z0-9]+", "-", ascii).strip("-")[:30] or "wall"
    names = list(taken)
    number, free = 1, plain
    while any(name == free or name.startswith(f"{free}-") for name in names):
        number += 1
        free = f"{plain}-{number}"
    return free


@dataclass(frozen=True, slots=True)
class Named:
    """A surface in a line of walls: its id, and what it is called."""

    id: str
    name: str


def named(surfaces: Iterable[Surface], language: Language) -> list[Named]:
    """Walls as the reader calls them."""
    return [Named(surface.id, surface_called(surface, language)) for surface in surfaces]
