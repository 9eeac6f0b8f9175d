"""What a person typed beside his words: a day of the week, an area. Both are read strictly or not at all."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta

from quicktions import Fraction

from darby.measure import Unreadable, area, length
from darby.words.asking.folding import fold
from darby.words.catalogue import LANGUAGES, catalogue

_UNITS = {
    "sq ft": r"sq\.? ?ft\.?|sqft|sf|square f(?:ee|oo)t|sq\.? feet|pies? cuadrados?|pies?2|ft2",
    "m2": r"m2|sq\.? ?m|square met(?:er|re)s?|metros? cuadrados?",
    "sq yd": r"sq\.? ?yd|square yards?|yardas? cuadradas?",
}
_NUMBER = r"(?<![\w./,-])(\d[\d,]*(?:\.\d+)?)"
_BY = re.compile(r"(\d[^x×*,;]*?)\s*(?:x|×|\*|\bby\b|\bpor\b)\s*(\d[\d' \"./-]*(?:ft|feet|in|m|pies)?)")


@dataclass(frozen=True, slots=True)
class Typed:
    """A day named ("friday": 4, from Monday) and an area [m2], if they are there.

    ``unread``: an area as it was typed, where it can be read in two ways.
    """

    weekday: int | None = None
    area: Fraction | None = None
    unread: str = ""

    def day_from(self, start: date) -> date | None:
        """The first such day on or after ``start``."""
        if self.weekday is None:
            return None
        return start + timedelta(days=(self.weekday - start.weekday()) % 7)


def typed_in(text: str) -> Typed:
    """What ``text`` says beside its words. "400 sqft", "20' x 8'"; a bare "20 x 8" says no unit and is not read."""
    found = _area(text)
    return Typed(_weekday(text), None, found) if isinstance(found, str) else Typed(_weekday(text), found)


def _weekday(text: str) -> int | None:
    words = set(fold(text).split())
    for language in LANGUAGES:
        for number in range(7):
            if fold(catalogue(language)[f"date.weekday.{number}"]) in words:
                return number
    return None


def _area(text: str) -> Fraction | str | None:
    """The area; as it was typed where its number can be read in two ways; None where none is named."""
    plain = text.casefold().replace("²", "2")
    for unit, ways in _UNITS.items():
        found = re.search(rf"{_NUMBER}\s*(?:{ways})(?!\w)", plain)
        if found is not None:
            return _read(f"{found[1]} {unit}", found[0].strip())
    sides = _BY.search(plain)
    if sides is None:
        return None
    try:
        made = length(sides[1].strip()) * length(sides[2].strip())
    except Unreadable:
        return None
    return Fraction(made) if made > 0 else None


def _read(text: str, typed: str) -> Fraction | str | None:
    try:
        found = area(text)
    except Unreadable:
        return typed
    return Fraction(found) if found > 0 else None
