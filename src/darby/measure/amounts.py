"""Lengths, areas, volumes, masses, temperatures, money, times, shares and speeds, read exactly or refused.

Fault codes: see ``darby.measure.reading``.
"""

from __future__ import annotations

import re
from decimal import Decimal

from quicktions import Fraction

from darby.measure.exact import fraction_of
from darby.measure.numerals import NUMBER, Written, bare, exactly, nearest, refuse, split_number, tidy
from darby.measure.units import FT, IN, UNITS, A, L, M, T, Unit, V

LENGTH = "7' 10 1/2\", 94 1/2 in, 6.5 ft, 12 mm, 2.4 m"
"""Examples that a refusal offers: so may a length be written."""

_WORDS: dict[str, str] = {
    "in": "in inch inches", "ft": "ft foot feet lf", "yd": "yd yds yard yards", "mil": "mil mils",
    "um": "µm um micron microns", "mm": "mm millimeter millimeters millimetre millimetres",
    "cm": "cm centimeter centimeters centimetre centimetres", "m": "m meter meters metre metres",
    "sq in": "in2 sqin", "sq ft": "ft2 sqft sf", "sq yd": "yd2 sqyd sy", "m2": "m2 sqm",
    "cu in": "in3 cuin", "cu ft": "ft3 cuft cf", "cu yd": "yd3 cuyd cy", "m3": "m3 cum",
    "gal": "gal gals gallon gallons", "qt": "qt qts quart quarts", "fl oz": "floz",
    "L": "l liter liters litre litres", "mL": "ml milliliter milliliters millilitre millilitres",
    "lb": "lb lbs pound pounds", "oz": "oz ounce ounces", "ton": "ton tons",
    "g": "g gram grams", "kg": "kg kgs kilogram kilograms kilo kilos", "t": "t tonne tonnes",
    "s": "s sec secs second seconds", "min": "min mins minute minutes", "h": "h hr hrs hour hours",
    "day": "day days d",
}  # fmt: skip
_SQUARE = {"sq": "square sq", "cu": "cubic cu"}


def _aliases() -> dict[str, Unit]:
    words = {alias: UNITS[name] for name, aliases in _WORDS.items() for alias in aliases.split()}
    for name in ("in", "ft", "yd", "m"):
        for alias in _WORDS[name].split():
            for power, (prefix, spelled) in enumerate(_SQUARE.items(), 2):
                target = UNITS[f"{prefix} {name}" if name != "m" else f"m{power}"]
                words.update({f"{word} {alias}": target for word in spelled.split()})
    words.update({"fl oz": UNITS["fl oz"], "fluid ounce": UNITS["fl oz"], "fluid ounces": UNITS["fl oz"]})
    words.update({f"{word} {ft}": UNITS["ft"] for word in ("lin", "linear") for ft in ("ft", "foot", "feet")})
    return words


ALIASES: dict[str, Unit] = _aliases()
"""Every spelling of a unit, in small letters and without points."""

_US_POINT = {u.name for u in UNITS.values() if u.us == u.name and u.name not in ("s", "min", "h", "day", "", "%")}


def unit_of(word: str) -> Unit | None:
    """The unit that ``word`` spells, whatever its capitals and points; None if none."""
    return ALIASES.get(" ".join(word.lower().replace(".", " ").split()))


def measured(text: Written, units: str | None, dims: tuple[object, ...], allowed: str) -> tuple[Fraction, Unit]:
    """A number and the unit it stands in, of one of the dimensions ``dims``; ``units`` is the bare number's.

    Raises
    ------
    Unreadable
        as listed in ``darby.measure.reading``.
    """
    number = bare(text)
    clean = tidy(text if number is None else number, allowed)
    parts = split_number(clean)
    if parts is None:
        refuse("unreadable", clean, allowed)
    sign, digits, word = parts
    if not word:
        if units is None:
            exactly(digits, clean)  # "1,200": both readings are the better answer
            refuse("no-unit", clean, allowed)
        word = units
    unit = unit_of(word)
    if unit is None or unit.dim not in dims:
        names = sorted(name for name, u in ALIASES.items() if u.dim in dims)
        refuse("unknown-unit", clean, allowed, nearest(word.replace(".", ""), names))
    return sign * exactly(digits, clean, word, point=unit.name in _US_POINT), unit


# --- lengths -----------------------------------------------------------------------------------------

_FEET_WORD = re.compile(r"(?<=[0-9])\s*(?:ft|feet|foot)\b\.?", re.IGNORECASE)
_INCH_WORD = re.compile(r"(?<=[0-9])\s*(?:in|inches|inch)\b\.?", re.IGNORECASE)
_FEET = re.compile(rf"({NUMBER})\s*'")
_INCHES = re.compile(rf'({NUMBER})\s*"')
_BOTH = re.compile(rf"({NUMBER})\s*'\s*-?\s*({NUMBER})(?:\s*\")?")
_DASHED = re.compile(r"([0-9]+)\s*-\s*([0-9]+(?:\s+[0-9]+\s*/\s*[0-9]+)?|[0-9]*\.[0-9]+)(?:\s*\")?")
_DASHED_PART = re.compile(r"([0-9]+)\s*-\s*([0-9]+\s*/\s*[0-9]+)")


def length(text: Written, units: str | None = None) -> Fraction:
    """A length in exact metres: ``7' 10 1/2"``, ``7-10 1/2``, ``5/8 in``, ``6.5 ft``, ``12 mm``, ``1,25 m``.

    Parameters
    ----------
    text
        what the person wrote; a bare number only where ``units`` says what it is in.
    units
        ``in``, ``ft``, ``mm``, ``cm``, ``m``: what the document says bare numbers are.

    Raises
    ------
    Unreadable
        with the Fault; codes in ``darby.measure.reading``. Negative and zero lengths are read: the caller judges.
    """
    number = bare(text)
    clean = tidy(text if number is None else number, LENGTH)
    sign, body = (-1, clean[1:].lstrip()) if clean.startswith("-") else (1, clean)
    marked = _INCH_WORD.sub('"', _FEET_WORD.sub("'", body))
    if match := _FEET.fullmatch(marked):
        return sign * exactly(match[1], clean, "'", point=True) * FT
    if match := _INCHES.fullmatch(marked):
        return sign * exactly(match[1], clean, '"', point=True) * IN
    if match := _BOTH.fullmatch(marked) or _DASHED.fullmatch(marked):
        return sign * _feet_and_inches(match[1], match[2], clean)
    if units is None and (match := _DASHED_PART.fullmatch(marked)):
        refuse("ambiguous", clean, f'{match[1]} {match[2]}", {match[1]}\' {match[2]}"')
    if body.startswith("-"):
        refuse("unreadable", clean, LENGTH)
    value, unit = measured(body, units, (L,), LENGTH)
    return sign * value * unit.scale


def _feet_and_inches(feet: str, inches: str, clean: str) -> Fraction:
    whole = exactly(feet, clean, "'", point=True)
    rest = exactly(inches, clean, '"', point=True)
    if whole.denominator != 1 or "/" in feet:
        refuse("feet-not-whole", clean, "7' 6\", 7.5 ft")
    if rest >= 12:
        refuse("inches", clean, "7' 11 15/16\"")
    return whole * FT + rest * IN


_BY = re.compile(r"\s*(?:x|\bby\b)\s*", re.IGNORECASE)


def lengths_by(text: Written, units: str | None = None) -> tuple[Fraction, ...]:
    """Two or more lengths with an x between: ``3' x 4'``, ``27 x 97 in`` (the last one's unit stands for all).

    Raises
    ------
    Unreadable
        from the first length that cannot be read.
    """
    allowed = "3' x 4', 27 x 97 in, 900 x 2100 mm"
    parts = _BY.split(tidy(text, allowed))
    if len(parts) < 2:
        refuse("unreadable", str(text), allowed)
    last = split_number(_INCH_WORD.sub(" in", _FEET_WORD.sub(" ft", parts[-1])))
    word = {"'": "ft", '"': "in"}.get(last[2], last[2]) if last else ""
    if units is None and unit_of(word) is not None:
        units = word
    return tuple(length(part, units) for part in parts)


# --- the other kinds ---------------------------------------------------------------------------------


def area(text: Written, units: str | None = None) -> Fraction:
    """An area in exact m²: ``189 sq ft``, ``20 sq yd``, ``12.5 m2``.

    Raises
    ------
    Unreadable
        with the Fault; codes in ``darby.measure.reading``.
    """
    value, unit = measured(text, units, (A,), "189 sq ft, 20 sq yd, 17.5 m2")
    return value * unit.scale


def volume(text: Written, units: str | None = None) -> Fraction:
    """A volume in exact m³: ``9 cu ft``, ``2 cu yd``, ``1.5 gal``, ``10.1 fl oz``, ``20 L``.

    Raises
    ------
    Unreadable
        with the Fault; codes in ``darby.measure.reading``.
    """
    value, unit = measured(text, units, (V,), "9 cu ft, 2 cu yd, 1.5 gal, 20 L, 0.5 m3")
    return value * unit.scale


def mass(text: Written, units: str | None = None) -> Fraction:
    """A mass in exact kg: ``94 lb``, ``2 tons`` (of 2,000 lb), ``25 kg``, ``1 t``.

    Raises
    ------
    Unreadable
        with the Fault; codes in ``darby.measure.reading``.
    """
    value, unit = measured(text, units, (M,), "94 lb, 2 tons, 25 kg, 1 t")
    return value * unit.scale


_DEGREES = re.compile(r"(?:°|degrees?|deg\.?)?\s*(f|c|fahrenheit|celsius)\.?", re.IGNORECASE)


def temperature(text: Written, units: str | None = None) -> Fraction:
    """A temperature in exact degrees Celsius: ``40 F``, ``40 °F``, ``-5 deg C``. ``units``: ``F`` or ``C``.

    Raises
    ------
    Unreadable
        with the Fault; codes in ``darby.measure.reading``.
    """
    allowed = "40 °F, 4.5 °C"
    number = bare(text)
    clean = tidy(text if number is None else number, allowed)
    parts = split_number(clean)
    if parts is None:
        refuse("unreadable", clean, allowed)
    sign, digits, word = parts
    if not word:
        if units is None:
            refuse("no-unit", clean, allowed)
        word = units
    match = _DEGREES.fullmatch(word)
    if not match:
        refuse("unknown-unit", clean, allowed, nearest(word, ("°f", "°c")).upper())
    unit = UNITS[f"deg {match[1][0].upper()}"]
    return Fraction(unit.to_si(sign * exactly(digits, clean, word, point=match[1][0] in "fF")))


_MONEY = re.compile(rf"(-?)\s*(?:\$\s*({NUMBER})|({NUMBER})\s*(?:\$|dollars?))", re.IGNORECASE)


def dollars(text: str, found: str, *, plain: bool = True) -> Fraction:
    """``$1,450.00`` as an exact number of dollars; ``plain`` money knows cents and nothing below.

    Raises
    ------
    Unreadable
        with the Fault; codes in ``darby.measure.reading``.
    """
    allowed = "$16.80, $1,450.00"
    match = _MONEY.fullmatch(text)
    if not match:
        digits = split_number(text)
        refuse("no-unit" if digits and not digits[2] else "unreadable", found, allowed)
    value = exactly(match[2] or match[3], found, point=not plain, whole=plain)
    if plain and (value * 100).denominator != 1:
        refuse("cents", found, allowed)
    return -value if match[1] else value


def money(text: Written, units: str | None = None) -> Decimal:
    """Money, exact to the cent: ``$16.80``, ``$1,450.00``, ``-$5``. ``units="$"`` allows a bare number.

    Raises
    ------
    Unreadable
        with the Fault; codes in ``darby.measure.reading``.
    """
    allowed = "$16.80, $1,450.00"
    number = bare(text)
    if number is not None:
        if units is None:
            refuse("no-unit", str(text), allowed)
        cents = fraction_of(number) * 100
        if cents.denominator != 1:
            refuse("cents", str(text), allowed)
    else:
        clean = tidy(text, allowed)
        if units is not None and re.fullmatch(rf"-?\s*{NUMBER}", clean):
            clean = clean.replace("-", "-$", 1) if clean.startswith("-") else f"${clean}"
        cents = dollars(clean, clean) * 100
    sign = "-" if cents < 0 else ""
    return Decimal(f"{sign}{abs(cents.numerator) // 100}.{abs(cents.numerator) % 100:02d}")


_SPAN = re.compile(rf"({NUMBER})\s*([a-z]+)\.?", re.IGNORECASE)


def duration(text: Written, units: str | None = None) -> Fraction:
    """A time in exact seconds: ``48 h``, ``7 days``, ``90 min``, ``1 h 30 min``.

    Raises
    ------
    Unreadable
        with the Fault; codes in ``darby.measure.reading``.
    """
    allowed = "48 h, 7 days, 90 min, 1 h 30 min"
    number = bare(text)
    clean = tidy(text if number is None else number, allowed)
    total, size, at = Fraction(0), Fraction(0), 0
    while (match := _SPAN.match(clean, at)) and (unit := unit_of(match[2])) and unit.dim == T:
        if size and unit.scale >= size:
            break
        total += exactly(match[1], clean, match[2]) * unit.scale
        size, at = unit.scale, match.end()
        while clean[at : at + 1] == " ":
            at += 1
    if size and at == len(clean):
        return total
    if size:
        refuse("unreadable", clean, allowed)
    value, unit = measured(clean, units, (T,), allowed)
    return value * unit.scale


_SHARE = re.compile(rf"(-?)\s*({NUMBER})\s*(?:%|percent|per cent)(?:\s+of\s+([a-z][a-z ,-]*))?", re.IGNORECASE)


def share(text: Written) -> tuple[Fraction, str]:
    """A share and of what: ``"12 % of cost"`` -> (3/25, "cost"); ``"10 %"`` -> (1/10, "").

    Raises
    ------
    Unreadable
        with the Fault; codes in ``darby.measure.reading``. A bare 0.12 is refused.
    """
    allowed = "10 %, 12 % of cost"
    number = bare(text)
    clean = tidy(text if number is None else number, allowed)
    match = _SHARE.fullmatch(clean)
    if not match:
        digits = split_number(clean)
        refuse("no-unit" if digits and not digits[2] else "unreadable", clean, allowed)
    value = exactly(match[2], clean, "%", point=True) / 100
    return (-value if match[1] else value), (match[3] or "").strip().lower()


_SPEED = {
    "mph": "mph", "mi/h": "mph", "miles per hour": "mph", "miles an hour": "mph", "m/s": "m/s",
    "km/h": "km/h", "kph": "km/h", "kmh": "km/h",
}  # fmt: skip


def speed(text: Written, units: str | None = None) -> Fraction:
    """A speed of wind in exact m/s: ``10 mph``, ``5 m/s``, ``20 km/h``.

    Raises
    ------
    Unreadable
        with the Fault; codes in ``darby.measure.reading``.
    """
    allowed = "10 mph, 5 m/s, 20 km/h"
    number = bare(text)
    clean = tidy(text if number is None else number, allowed)
    parts = split_number(clean)
    if parts is None:
        refuse("unreadable", clean, allowed)
    sign, digits, word = parts
    if not word:
        if units is None:
            refuse("no-unit", clean, allowed)
        word = units
    name = _SPEED.get(" ".join(word.lower().split()))
    if name is None:
        refuse("unknown-unit", clean, allowed, nearest(word, _SPEED))
    return sign * exactly(digits, clean, word, point=name == "mph") * UNITS[name].scale
