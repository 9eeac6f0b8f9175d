"""How things are sold and counted: ``94 lb bag``, ``27 x 97 in sheet``, ``box of 1000``, ``cu yd``, ``20 bags``."""

from __future__ import annotations

import re
from dataclasses import dataclass

from quicktions import Fraction

from darby.measure.amounts import ALIASES, length, lengths_by, unit_of
from darby.measure.faults import Unreadable
from darby.measure.numerals import Written, bare, exactly, nearest, refuse, split_number, tidy
from darby.measure.units import COUNTS, IN, UNITS, L, Unit
from darby.measure.writing import ONE

PACKAGES: tuple[str, ...] = (
    "bag", "sack", "sheet", "roll", "piece", "stick", "box", "pail", "bucket", "tube", "cartridge", "can", "jug",
    "drum", "bundle", "pallet", "load",
)  # fmt: skip
"""Words for a package, one of it."""

ALLOWED = "94 lb bag, 27 x 97 in sheet, 10 ft piece, box of 1000, 162 sq ft roll, 5 gal pail, cu yd"

_ONE_OF: dict[str, str] = {
    **{many: ONE[many] for many in COUNTS},
    **{ONE[many]: ONE[many] for many in COUNTS},
    "ea": "piece",
    "each": "piece",
}


@dataclass(frozen=True, slots=True)
class Package:
    """One package: ``amount`` in it [SI of ``unit``], its ``word`` ("bag"; "" for loose stuff: a cubic yard of sand).

    ``sheet`` holds width and length [m] where they were written; ``amount`` is then the area.
    """

    amount: Fraction
    unit: Unit
    word: str
    sheet: tuple[Fraction, Fraction] | None = None


@dataclass(frozen=True, slots=True)
class Counted:
    """So many things: ``20 bags`` (unit "bags", word "bag"), ``2 cu yd`` (word "", amount [SI])."""

    amount: Fraction
    unit: Unit
    word: str


def one_of(word: str) -> str:
    """The word for one: "bags" -> "bag"; "" for a word that is nothing one counts."""
    return _ONE_OF.get(word.lower().strip().rstrip("."), "")


def package(text: Written) -> Package:
    """What stands on the price list as one package.

    Raises
    ------
    Unreadable
        ``measure.package`` for a package that is not known, ``measure.not-positive`` for an empty one, or what
        the amount's own reading refuses; codes in ``darby.measure.reading``.
    """
    clean = tidy(text, ALLOWED)
    if match := re.fullmatch(r"([a-z]+) of ([0-9][0-9,.]*)(?: [a-z]+)?", clean, re.IGNORECASE):
        word = _package_word(match[1], clean)
        amount = exactly(match[2], clean, whole=True)
        if amount.denominator != 1:
            refuse("count", clean, "box of 1000")
        return _full(Package(amount, UNITS[""], word), clean)
    if unit_of(clean) is not None:
        unit = _unit(clean, clean)
        return Package(unit.scale, unit, "")
    head, _, last = clean.rpartition(" ")
    word = one_of(last)
    if not word or word not in PACKAGES:
        return _loose(clean, last)
    if not head:
        return Package(Fraction(1), UNITS[""], word)
    if re.search(r"[0-9'\"a-z. ]\s*x\s*[0-9.]", head, re.IGNORECASE) and word != "box":
        return _full(_sheet(head, word), clean)
    amount, unit = _amount(head, clean)
    return _full(Package(amount, unit, word), clean)


def _loose(clean: str, last: str) -> Package:
    parts = split_number(clean)
    if parts is not None and unit_of(parts[2]) is not None:
        amount, unit = _amount(clean, clean)
        return _full(Package(amount, unit, ""), clean)
    return refuse("package", clean, ALLOWED, nearest(last, PACKAGES))


def _package_word(word: str, clean: str) -> str:
    one = one_of(word)
    if one not in PACKAGES:
        refuse("package", clean, ALLOWED, nearest(word, PACKAGES))
    return one


def _sheet(head: str, word: str) -> Package:
    sides = lengths_by(head)
    if len(sides) != 2:
        refuse("unreadable", head, "27 x 97 in sheet")
    metric = re.search(r"[0-9]\s*(?:mm|cm|m)\b", head, re.IGNORECASE)
    return Package(sides[0] * sides[1], UNITS["m2" if metric else "sq ft"], word, (sides[0], sides[1]))


def _amount(text: str, clean: str) -> tuple[Fraction, Unit]:
    """A number with any unit of length, area, volume or mass."""
    parts = split_number(text)
    if parts is None:
        refuse("unreadable", clean, ALLOWED)
    sign, digits, word = parts
    unit = unit_of(word)
    if unit is None:
        try:
            value = length(text)
        except Unreadable as unreadable:
            if word and not set("'\"") & set(text):
                refuse("unknown-unit", clean, ALLOWED, nearest(word, ALIASES))
            raise unreadable
        return value, UNITS["ft" if value >= 12 * IN else "in"]
    unit = _unit(word, clean)
    return sign * exactly(digits, clean, word, point=unit.us == unit.name) * unit.scale, unit


def _unit(word: str, clean: str) -> Unit:
    unit = unit_of(word)
    if unit is None or not (unit.dim[0] or unit.dim[1]) or (unit.dim == L and word == clean):
        refuse("package", clean, ALLOWED)
    return unit


def _full(package: Package, clean: str) -> Package:
    if package.amount <= 0 or (package.sheet and min(package.sheet) <= 0):
        refuse("not-positive", clean, ALLOWED)
    return package


def counted(text: Written) -> Counted:
    """``20 bags``, ``1 box``, ``36 sheets``, ``2 cu yd``, ``1.5 tons``.

    Raises
    ------
    Unreadable
        ``measure.no-unit`` for a bare number, ``measure.unknown-unit`` for a word nobody counts in; codes in
        ``darby.measure.reading``. Zero and negative counts are read: the caller judges.
    """
    allowed = "20 bags, 36 sheets, 2 cu yd, 1.5 tons"
    number = bare(text)
    clean = tidy(text if number is None else number, allowed)
    parts = split_number(clean)
    if parts is None:
        refuse("unreadable", clean, allowed)
    sign, digits, word = parts
    if not word:
        refuse("no-unit", clean, allowed)
    one = one_of(word)
    if one:
        many = next(m for m in COUNTS if ONE[m] == one)
        return Counted(sign * exactly(digits, clean, word, whole=True), UNITS[many], one)
    unit = unit_of(word)
    if unit is None:
        refuse("unknown-unit", clean, allowed, nearest(word, [*_ONE_OF, *ALIASES]))
    return Counted(sign * exactly(digits, clean, word, point=unit.us == unit.name) * unit.scale, unit, "")
